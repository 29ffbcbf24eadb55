import { refuse } from "./errors.js";
import type { Milliseconds } from "./units.js";

const ISO =
  /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,3})\d*)?)?(Z|[+-]\d{2}:?\d{2})$/;

/**
 * Epoch milliseconds of an ISO 8601 date and time that names its zone (`Z` or an offset).
 * A text without a zone is refused: tide tables in standard time read on a summer-time clock
 * are an hour wrong, and nothing in the figures shows it.
 *
 * @throws InputError when the text is not such a date, or names a day or hour that does not exist.
 * @example
 * ```ts
 * import { utc } from "hawse";
 *
 * console.log(utc("2026-06-01T21:30Z"));
 * // 1780349400000
 * ```
 */
export function utc(text: string): Milliseconds {
  const m = typeof text === "string" ? ISO.exec(text) : null;
  if (m === null)
    refuse("", "invalid_time", "expected a date and time with a zone, such as 2026-06-01T21:30Z");
  const [, y, mo, d, h, mi, s = "0", frac = "0", zone = "Z"] = m;
  const asDate = new Date(Date.UTC(+y!, +mo! - 1, +d!, +h!, +mi!, +s, +frac.padEnd(3, "0")));
  const asGiven = `${y!}-${mo!}-${d!}T${h!}:${mi!}`;
  const offset = zoneMinutes(zone);
  if (asDate.toISOString().slice(0, 16) !== asGiven || Number.isNaN(offset))
    refuse("", "invalid_time", "no such day, time of day or zone");
  return asDate.getTime() - offset * 60_000;
}

/** Minutes east of UTC of `Z`, which has no digits, `+02:00` or `-0330`; NaN where out of range. */
function zoneMinutes(zone: string): number {
  const digits = zone.replace(":", "");
  const h = +digits.slice(1, 3);
  const m = +digits.slice(3);
  if (h > 14 || m > 59) return NaN;
  return (zone.startsWith("-") ? -1 : 1) * (h * 60 + m);
}
