import type { Interval } from "../core/judgement.js";
import type { Attributes } from "./attributes.js";
import { textOf } from "./attributes.js";

const DAY_MS = 86_400_000;

/** When a chart object is in force. */
export interface InForce {
  /** Whether it is in force during the stay: `yes` and `no` are sure, `perhaps` counts as yes. */
  during: "yes" | "no" | "perhaps";
  /** Its limits as charted, e.g. `--0401 to --1201`; null where it has none. */
  limits: string | null;
}

/** First and last instant of a charted date (YYYY, YYYYMM, YYYYMMDD), a day wider each way for the zone of its clock; null for other forms. */
function spanOf(text: string): [number, number] | null {
  const m = /^([12]\d{3})(0[1-9]|1[0-2])?(0[1-9]|[12]\d|3[01])?$/.exec(text);
  if (m === null) return null;
  const [year, month, day] = [Number(m[1]), m[2], m[3]];
  const from = Date.UTC(
    year,
    month === undefined ? 0 : Number(month) - 1,
    day === undefined ? 1 : Number(day),
  );
  const to =
    day !== undefined
      ? from + DAY_MS
      : month !== undefined
        ? Date.UTC(year, Number(month), 1)
        : Date.UTC(year + 1, 0, 1);
  return [from - DAY_MS, to + DAY_MS];
}

/** Whether a fixed date bars the stay: over before it begins, or not begun when it ends. */
function fixedBars(start: string, end: string, stay: Interval): boolean {
  const from = spanOf(start);
  const to = spanOf(end);
  return (from !== null && stay.toMs < from[0]) || (to !== null && stay.fromMs > to[1]);
}

/** Month and day of a yearly date (`--MMDD`, `--MM`) as MMDD numbers, first and last; null for other forms. */
function yearlyOf(text: string): [number, number] | null {
  const m = /^--(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])?$/.exec(text);
  if (m === null) return null;
  const month = Number(m[1]) * 100;
  return m[2] === undefined ? [month, month + 31] : [month + Number(m[2]), month + Number(m[2])];
}

const monthDay = (ms: number): number => {
  const d = new Date(ms);
  return (d.getUTCMonth() + 1) * 100 + d.getUTCDate();
};

/** Whether no day of the stay, a day wider each way, falls in the yearly season. */
function seasonBars(start: string, end: string, stay: Interval): boolean {
  const from = yearlyOf(start)?.[0];
  const to = yearlyOf(end)?.[1];
  if (from === undefined || to === undefined) return false;
  const lastMs = Math.min(stay.toMs + DAY_MS, stay.fromMs + 366 * DAY_MS);
  for (let ms = stay.fromMs - DAY_MS; ; ms += DAY_MS) {
    const day = monthDay(Math.min(ms, lastMs));
    if (from <= to ? day >= from && day <= to : day >= from || day <= to) return false;
    if (ms >= lastMs) return true;
  }
}

/**
 * When a chart object is in force, by its fixed dates (DATSTA, DATEND) and its yearly season
 * (PERSTA, PEREND, which may run over the year's end). Half a pair, or a form that is not known,
 * bars nothing.
 */
export function inForce(attributes: Attributes, stay: Interval | null): InForce {
  const [datsta, datend, persta, perend] = ["DATSTA", "DATEND", "PERSTA", "PEREND"].map((a) =>
    textOf(attributes[a]),
  ) as [string | null, string | null, string | null, string | null];
  const pairs = [
    [datsta, datend],
    [persta, perend],
  ].filter(([a, b]) => a !== null || b !== null);
  if (pairs.length === 0) return { during: "yes", limits: null };
  const limits = pairs.map(([a, b]) => `${a ?? "?"} to ${b ?? "?"}`).join(", ");
  if (stay === null) return { during: "perhaps", limits };
  const over =
    fixedBars(datsta ?? "", datend ?? "", stay) || seasonBars(persta ?? "", perend ?? "", stay);
  return { during: over ? "no" : "perhaps", limits };
}
