import { bracketedRoot } from "../core/roots.js";
import { ERROR_CORRELATION_S, SPS_ACCURACY } from "./tables.js";

/** Radius, in sigmas of one axis, that holds a share of circular Gaussian errors (Rayleigh). */
export const rayleighQuantile = (probability: number): number =>
  Math.sqrt(-2 * Math.log1p(-probability));

/** Share of elliptic Gaussian errors within a radius; the rule over a full turn converges geometrically. */
export function shareWithin(radius: number, sigma1: number, sigma2: number): number {
  const long = Math.max(sigma1, sigma2);
  const short = Math.min(sigma1, sigma2);
  // The flatter the ellipse, the narrower the peak that the nodes must see.
  const nodes = 64 + 16 * Math.ceil((4 * long) / Math.max(short, long / 900));
  let sum = 0;
  for (let i = 0; i < nodes; i++) {
    const angle = (2 * Math.PI * (i + 0.5)) / nodes;
    const c = Math.cos(angle) / long;
    const s = Math.sin(angle) / short;
    const q = c * c + s * s;
    sum += -Math.expm1(-0.5 * radius * radius * q) / q;
  }
  return sum / (nodes * long * short);
}

/** Radius that holds a share of elliptic Gaussian errors. */
export function radialQuantile(probability: number, sigma1: number, sigma2: number): number {
  const far = 2 * Math.max(sigma1, sigma2) * rayleighQuantile(probability);
  return bracketedRoot((r) => shareWithin(r, sigma1, sigma2) - probability, 0, far, 1e-12);
}

/** Circular error probable from unequal sigmas, the usual approximation. */
export const cepOf = (sigmaNorth: number, sigmaEast: number): number =>
  0.589 * (sigmaNorth + sigmaEast);

/** Part of a unit error with exponential correlation that a mean over `window` leaves. */
export function meanSpread(windowS: number, correlationS: number = ERROR_CORRELATION_S): number {
  const a = windowS / correlationS;
  // The closed form loses its figures for a short window; its series does not.
  if (a < 1e-3) return Math.sqrt(1 - a / 3);
  return Math.sqrt((2 / a) * (1 + Math.expm1(-a) / a));
}

/** Spread, one axis, of the change of a unit error with exponential correlation over a time. */
export const changeSpread = (overS: number, correlationS: number = ERROR_CORRELATION_S): number =>
  Math.sqrt(-2 * Math.expm1(-overS / correlationS));

/** Share of a unit Gaussian below x. */
export function gaussianBelow(x: number): number {
  if (x < -8) return 0;
  if (x > 8) return 1;
  let term = x;
  let sum = x;
  for (let n = 3; Math.abs(term) > 1e-18 * Math.abs(sum); n += 2) {
    term *= (x * x) / n;
    sum += term;
  }
  return 0.5 + gaussianAt(x) * sum;
}

/** Density of a unit Gaussian. */
export const gaussianAt = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

/** Spread of one axis of a receiver that states none. */
export const UNSTATED_SIGMA_M = SPS_ACCURACY.globalAverageHorizontalM / rayleighQuantile(0.95);
