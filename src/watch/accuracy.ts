import { refuse } from "../core/errors.js";
import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, plain } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { radialQuantile, rayleighQuantile } from "./statistics.js";

/** Schema of {@link sigmaFromAccuracy}. */
export const accuracyInput = z.strictObject({
  /** Radius the receiver states. */
  accuracyM: metres({ above: 0 }),
  /** Share of fixes said to lie within it: 0.95 for a web browser, 0.68 for most telephones. */
  share: plain({ above: 0, max: 0.9999 }),
});
/** Input of {@link sigmaFromAccuracy}. */
export type AccuracyInput = Given<typeof accuracyInput>;

/**
 * The spread of one axis behind a receiver's stated radius.
 *
 * Errors are taken as Gaussian and alike in both axes; the tails of a shadowed receiver are longer.
 * *Valid*: any share under 1. *Accuracy*: exact for the model.
 *
 * @throws InputError when the radius or share is not of a kind that can be.
 * @source Rayleigh distribution; the browser's 95 % after the W3C Geolocation specification
 * @example
 * ```ts
 * import { sigmaFromAccuracy } from "hawse/watch";
 * console.log(sigmaFromAccuracy({ accuracyM: 6, share: 0.95 }).toFixed(3));
 * // 2.451
 * ```
 */
export function sigmaFromAccuracy(input: AccuracyInput): Metres {
  const { accuracyM, share } = check(accuracyInput, input);
  return accuracyM / rayleighQuantile(share);
}

/** Flattest ellipse that the integration is good for. */
const FLATTEST = 900;

/** Schema of {@link errorRadius}. */
export const errorRadiusInput = z.strictObject({
  /** Spread along one axis of the ellipse. */
  sigma1M: metres({ above: 0 }),
  /** Spread along the other axis. */
  sigma2M: metres({ above: 0 }),
  /** Share of fixes the radius is to hold. */
  share: plain({ above: 0, max: 0.9999 }),
});
/** Input of {@link errorRadius}. */
export type ErrorRadiusInput = Given<typeof errorRadiusInput>;

/**
 * The radius that holds a share of position errors of an elliptic Gaussian.
 *
 * Integrates the density over the disc. *Valid*: axes down to 1 : 900. *Accuracy*: 1e-9 relative
 * against numerical integration over the disc.
 *
 * @throws InputError when a spread is not positive.
 * @source bivariate normal distribution over a centred disc
 * @example
 * ```ts
 * import { errorRadius } from "hawse/watch";
 * console.log(errorRadius({ sigma1M: 2, sigma2M: 1.5, share: 0.95 }).toFixed(4));
 * // 4.3716
 * ```
 */
export function errorRadius(input: ErrorRadiusInput): Metres {
  const { sigma1M, sigma2M, share } = check(errorRadiusInput, input);
  const ratio = sigma1M / sigma2M;
  if (!(ratio >= 1 / FLATTEST && ratio <= FLATTEST))
    refuse("sigma2M", "too_flat", `expected spreads within 1 : ${FLATTEST} of each other`);
  return radialQuantile(share, sigma1M, sigma2M);
}
