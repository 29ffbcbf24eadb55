import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { instant, plain } from "../core/schema.js";
import { tideCurve } from "./prepare.js";
import { tideSource, type CheckedTide, type TideSource } from "./source.js";

const MOST_STEPS = 20_000_000;

/** Even steps of a series. */
export const tideSteps = z
  .strictObject({
    /** First instant. */
    fromMs: instant(),
    /** Last instant at the latest. */
    toMs: instant(),
    /** Step. */
    stepMs: plain({ min: 1 }),
  })
  .check(
    z.refine((s) => s.toMs >= s.fromMs, "toMs is before fromMs"),
    z.refine((s) => (s.toMs - s.fromMs) / s.stepMs <= MOST_STEPS, "more than twenty million steps"),
  );
/** Even steps of a series. */
export type TideSteps = Given<typeof tideSteps>;

/**
 * Heights of tide at even steps, from the first instant to the last step not after the end.
 *
 * The same figures as {@link tideHeight} gives, by faster ways: recurrence in tables, fifth-order
 * interpolation between exact points for constants (within 1e-6 m of the sum).
 *
 * *Valid*: the whole span must be known; a span that is not is refused with the parts that are missing.
 *
 * *Accuracy*: as {@link tideHeight}.
 *
 * @throws InputError when the source or the steps are not well formed, or the height is not known throughout.
 * @source P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, SP 98 (1940), for constants
 * @example
 * ```ts
 * import { hours, utc } from "hawse";
 * import { tideSeries } from "hawse/tide";
 *
 * const fromMs = utc("2026-06-01T03:00Z");
 * const turns = [
 *   { timeMs: fromMs, heightM: 0.6 },
 *   { timeMs: fromMs + hours(6), heightM: 4.2 },
 * ];
 * const heights = tideSeries(
 *   { kind: "turns", turns, datum: "LAT" },
 *   { fromMs, toMs: fromMs + hours(6), stepMs: hours(2) },
 * );
 * console.log([...heights].map((h) => h.toFixed(1)).join(" "));
 * // 0.6 1.5 3.3 4.2
 * ```
 */
export function tideSeries(source: TideSource, steps: TideSteps): Float64Array {
  return seriesOf(check(tideSource, source), check(tideSteps, steps));
}

/** Heights of a checked source at even steps. */
export function seriesOf(
  source: CheckedTide,
  { fromMs, toMs, stepMs }: z.output<typeof tideSteps>,
): Float64Array {
  const curve = tideCurve(source, fromMs, toMs);
  const out = new Float64Array(Math.floor((toMs - fromMs) / stepMs) + 1);
  const lastMs = fromMs + (out.length - 1) * stepMs;
  const gaps = curve.gaps(fromMs, lastMs);
  if (gaps.length > 0)
    refuse(
      "",
      "coverage",
      `the height is not known throughout: ${gaps
        .map(
          (g) =>
            `${g.reason} ${new Date(g.fromMs).toISOString()} to ${new Date(g.toMs).toISOString()}`,
        )
        .join(", ")}`,
    );
  curve.fill(fromMs, stepMs, out);
  return out;
}
