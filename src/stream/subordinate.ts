import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { turnDeg } from "../core/angles.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { direction, plain } from "../core/schema.js";
import { rising, streamTurn, type StreamTurnRow } from "./source.js";

/** Time difference in ms, later positive. */
const difference = plain({ min: -43_200_000, max: 43_200_000 });

/** Input of a subordinate stream. */
export const input = z.strictObject({
  /** Turns at the reference station, in order of time. */
  turns: z.array(streamTurn).check(
    z.minLength(2),
    rising((t) => t.timeMs),
  ),
  /** Set of the flood at the reference station. */
  floodTowardsDeg: direction(),
  /** Differences of the subordinate station from the reference station. */
  differences: z.strictObject({
    /** Time difference of the slack, or least rate, before the flood. */
    beforeFloodMs: difference,
    /** Time difference of the greatest flood. */
    floodMs: difference,
    /** Time difference of the slack, or least rate, before the ebb. */
    beforeEbbMs: difference,
    /** Time difference of the greatest ebb. */
    ebbMs: difference,
    /** Greatest flood in parts of the reference station's. */
    floodRatio: plain({ min: 0, max: 20 }),
    /** Greatest ebb in parts of the reference station's. */
    ebbRatio: plain({ min: 0, max: 20 }),
    /** Set of the flood. */
    floodTowardsDeg: direction(),
    /** Set of the ebb. */
    ebbTowardsDeg: direction(),
  }),
});
/** Input of {@link subordinateTurns}. */
export type SubordinateTurnsInput = Given<typeof input>;

/**
 * Turns of the stream at a subordinate station, from those of its reference station and four time
 * differences and two ratios.
 *
 * Slack before flood, flood, slack before ebb and ebb each carry their own difference; a least
 * rate without slack takes the ratio of the greatest rate that follows, or else precedes it.
 *
 * *Valid*: stations whose differences are published against this reference.
 * *Accuracy*: that of the published differences.
 * @throws InputError for turns out of order, before or after the differences are applied.
 * @source Training manual 14220, current calculations (US Navy), strip form
 * @example
 * ```ts
 * import { knots, minutes, toKnots, utc } from "hawse";
 * import { subordinateTurns } from "hawse/stream";
 *
 * const turns = subordinateTurns({
 *   turns: [
 *     { kind: "slack", timeMs: utc("2026-06-01T10:12Z") },
 *     { kind: "greatest", timeMs: utc("2026-06-01T12:46Z"), rateMps: knots(0.6), towardsDeg: 60 },
 *   ],
 *   floodTowardsDeg: 60,
 *   differences: {
 *     beforeFloodMs: minutes(-41),
 *     floodMs: minutes(-47),
 *     beforeEbbMs: minutes(-30),
 *     ebbMs: minutes(-35),
 *     floodRatio: 1.1,
 *     ebbRatio: 0.9,
 *     floodTowardsDeg: 45,
 *     ebbTowardsDeg: 225,
 *   },
 * });
 * const flood = turns[1]!;
 * console.log(flood.kind === "greatest" && toKnots(flood.rateMps).toFixed(2));
 * // 0.66
 * ```
 */
export function subordinateTurns(given: SubordinateTurnsInput): StreamTurnRow[] {
  const { turns, floodTowardsDeg, differences } = check(input, given);
  const out = turns.map((t, i) => {
    const flood = isFlood(turns, i, floodTowardsDeg);
    if (flood === undefined)
      refuse(`turns[${i}]`, "order", "expected a greatest rate before or after");
    return moved(t, flood, differences);
  });
  out.forEach((t, i) => {
    if (i > 0 && !(t.timeMs > out[i - 1]!.timeMs))
      refuse(`turns[${i}]`, "order", "the differences put this turn before the last");
  });
  return out;
}

/**
 * Whether a turn belongs to the flood: a slack or least rate to the stream that follows it, and
 * at the end of the table to the opposite of the last.
 */
function isFlood(
  turns: readonly StreamTurnRow[],
  i: number,
  floodTowardsDeg: number,
): boolean | undefined {
  const floods = (t: StreamTurnRow | undefined): boolean | undefined =>
    t?.kind === "greatest" ? Math.abs(turnDeg(t.towardsDeg, floodTowardsDeg)) < 90 : undefined;
  const before = floods(turns[i - 1]);
  const opposite = before === undefined ? undefined : !before;
  return floods(turns[i]) ?? floods(turns[i + 1]) ?? opposite;
}

/** One turn with the differences of its own kind. */
function moved(
  t: StreamTurnRow,
  flood: boolean,
  d: z.output<typeof input>["differences"],
): StreamTurnRow {
  const before = flood ? d.beforeFloodMs : d.beforeEbbMs;
  if (t.kind === "slack") return { ...t, timeMs: t.timeMs + before };
  const later = t.kind === "least" ? before : flood ? d.floodMs : d.ebbMs;
  return {
    kind: t.kind,
    timeMs: t.timeMs + later,
    rateMps: t.rateMps * (flood ? d.floodRatio : d.ebbRatio),
    towardsDeg: flood ? d.floodTowardsDeg : d.ebbTowardsDeg,
  };
}
