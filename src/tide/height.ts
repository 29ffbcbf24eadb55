import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Range3 } from "../core/judgement.js";
import { instant, range3 } from "../core/schema.js";
import type { Metres, Milliseconds } from "../core/units.js";
import type { TideCurve, Unknown } from "./curve.js";
import { tideCurve } from "./prepare.js";
import { tideSource, type TideSource } from "./source.js";

const when = z.strictObject({ timeMs: instant() });

/** What else the height depends on. */
export const tideHeightOptions = z.strictObject({
  /** Surge to reckon with: added to the height (likely) and to the error (low and high). */
  surgeM: z.optional(range3),
});
/** What else the height depends on. */
export type TideHeightOptions = Given<typeof tideHeightOptions>;

/** A height of tide that is known. */
export interface KnownHeight {
  /** The height is known. */
  known: true;
  /** Height above the datum, surge included where one was given. */
  heightM: Metres;
  /**
   * 95 % error of the method, and the spread of the surge where one was given, to be added to the height.
   * `low` is the unsafe side for depth.
   */
  errorM: Range3;
  /** Datum of the height. */
  datum: string;
  /** Rule or method the height rests on. */
  basis: string;
  /** The height rests on differences or curves beyond the tabulated ranges. */
  extrapolated: boolean;
}

/** A height of tide that is not known. */
export interface UnknownHeight {
  /** The height is not known. */
  known: false;
  /** `outsideTable`: before the first or after the last turn. `suspectGap`: a turn seems to be missing there. */
  reason: Unknown;
}

/** Height of tide at an instant. */
export type HeightOfTide = KnownHeight | UnknownHeight;

/**
 * Height of tide at an instant, with its error.
 *
 * Between tabulated turns the height follows the half-cosine, the rule of twelfths in sixths of the true
 * interval, or the curve of the port; at a secondary port the standard port's shape is borrowed; constants
 * are summed. Weather is left out, unless a surge is given.
 *
 * *Valid*: inside the table, or within the years the constants hold for. A piece in which a turn seems to be
 * missing is not interpolated: the height there is not known.
 *
 * *Accuracy*: the error is the one found over a year of predictions for the kind of tide; see the table of calibration.
 *
 * @throws InputError when the source is not well formed, or mixes datums.
 * @source P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, SP 98 (1940), for constants
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { tideHeight } from "hawse/tide";
 *
 * const turns = [
 *   { timeMs: utc("2026-06-01T03:00Z"), heightM: 0.6 },
 *   { timeMs: utc("2026-06-01T09:00Z"), heightM: 4.2 },
 * ];
 * const height = tideHeight({ kind: "turns", turns, datum: "LAT" }, utc("2026-06-01T06:00Z"));
 * console.log(height.known && height.heightM.toFixed(2));
 * // 2.40
 * ```
 */
export function tideHeight(
  source: TideSource,
  timeMs: Milliseconds,
  options: TideHeightOptions = {},
): HeightOfTide {
  const t = check(when, { timeMs }).timeMs;
  const surge = check(tideHeightOptions, options).surgeM;
  return heightOn(tideCurve(check(tideSource, source), t, t), t, surge);
}

/** Height of tide on a curve made ready. */
export function heightOn(
  curve: TideCurve,
  timeMs: number,
  surgeM: Range3 = { low: 0, likely: 0, high: 0 },
): HeightOfTide {
  const reason = curve.unknownAt(timeMs);
  if (reason !== null) return { known: false, reason };
  const { low, likely, high } = surgeM;
  return {
    known: true,
    heightM: curve.heightAt(timeMs) + likely,
    errorM: {
      low: curve.errorLowAt(timeMs) + low - likely,
      likely: 0,
      high: curve.errorHighAt(timeMs) + high - likely,
    },
    datum: curve.datum,
    basis: curve.basis,
    extrapolated: curve.extrapolatedAt(timeMs),
  };
}
