import { check } from "../core/check.js";
import type { Interval } from "../core/judgement.js";
import { interval } from "../core/schema.js";
import type { Turn } from "./kinds.js";
import { tideCurve } from "./prepare.js";
import { tideSource, type CheckedTide, type TideSource } from "./source.js";

/**
 * High and low waters in a span of time.
 *
 * Constants are searched for every change from rise to fall, so that double high waters, stands and days with
 * one turn or ten come out as they are; tables give the turns they hold. Turns of a table beyond its ends are
 * not invented.
 *
 * *Valid*: two turns less than about a minute apart count as a stand.
 *
 * *Accuracy*: against published tables 1 to 2 minutes and 1 to 2 cm with current constants.
 *
 * @throws InputError when the source or the span is not well formed.
 * @source P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, SP 98 (1940), for constants
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { tideTurns } from "hawse/tide";
 *
 * const m2 = { name: "M2", amplitudeM: 1.5, phaseDeg: 120 };
 * const turns = tideTurns(
 *   { kind: "constituents", constituents: [m2], meanLevelM: 2, datum: "LAT" },
 *   { fromMs: utc("2026-06-01T00:00Z"), toMs: utc("2026-06-02T00:00Z") },
 * );
 * console.log(turns.map((turn) => turn.kind).join(" "));
 * // high low high low
 * ```
 */
export function tideTurns(source: TideSource, span: Interval): Turn[] {
  return turnsIn(check(tideSource, source), check(interval, span));
}

/** High and low waters of a checked source. */
export const turnsIn = (source: CheckedTide, span: Interval): Turn[] =>
  tideCurve(source, span.fromMs, span.toMs).turns(span.fromMs, span.toMs);
