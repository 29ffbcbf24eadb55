import {
  ANCHOR_HORIZONTAL,
  ANCHOR_VERTICAL,
  BOW_TENSION,
  BOW_VERTICAL,
  HEIGHT,
  LIFTED_SHARE,
  LOAD,
  ON_BOTTOM,
  REACH,
  STRETCH,
} from "./columns.js";
import * as R from "./places.js";
import type { PreparedRode } from "./prepare.js";
import { NO_LOAD, turnOf } from "./span.js";

/**
 * A single piece rising from a level bed, in closed form, height and load standing in their columns:
 * what `place` writes, at less cost. False, and nothing written, where no part of it lies on the bottom.
 */
export function layOne(p: PreparedRode, out: Float64Array): boolean {
  const heightM = out[HEIGHT]!;
  const h = out[LOAD]!;
  const i = R.PIECES;
  const gained = tensionGained(p, heightM, h);
  const v = verticalOf(gained, h);
  if (!(v < p[R.TOTAL_N]!)) return false;
  const perN = p[i + R.M_PER_N]!;
  const strain = p[i + R.STRAIN]!;
  const hangs = v * perN;
  const lies = p[i + R.LENGTH]! - hangs;
  const across = h > NO_LOAD ? h * perN * turnOf(h, 0, v, h, h + gained) : 0;
  const level = h * strain;
  out[REACH] = lies + across + p[i + R.LENGTH]! * level;
  out[BOW_VERTICAL] = v;
  out[BOW_TENSION] = h + gained;
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = 0;
  out[ON_BOTTOM] = lies;
  out[STRETCH] = level * lies + 0.5 * strain * (hangs * (h + gained) + h * across);
  out[LIFTED_SHARE] = NaN;
  return true;
}

/** How much more the tension is at the bow than at the touchdown of one piece rising from a level bed. */
export function tensionGained(p: PreparedRode, heightM: number, h: number): number {
  const strain = p[R.PIECES + R.STRAIN]!;
  const w = 2 * p[R.PIECES + R.WEIGHT]! * heightM;
  const b = 1 + h * strain;
  return w / (b + Math.sqrt(b * b + w * strain));
}

/** Vertical load where the tension is by `gained` more than its horizontal part. */
export const verticalOf = (gained: number, h: number): number =>
  Math.sqrt(gained * (gained + 2 * h));

/** Steepest chord, as its sine, and least load over weight for which {@link liftOne} is asked. */
const STEEPEST = 0.9;
const LEAST_PULL = 1e-3;
const MOST_STEPS = 12;

/**
 * A single piece off a level bed down to the anchor: what `place` writes, at less cost. False, and
 * nothing written, where it hangs so steeply that this loses figures.
 *
 * The tensions at the ends of an even piece have the mean S, and its end loads are the distances of a
 * point from the foci of an ellipse, which leaves one equation without roots in it:
 * (S² - N²/4) (1 - q²) = H², where N is the weight and q the rise over the length that S stretches.
 */
export function liftOne(p: PreparedRode, out: Float64Array): boolean {
  const heightM = out[HEIGHT]!;
  const h = out[LOAD]!;
  const i = R.PIECES;
  const l = p[i + R.LENGTH]!;
  const strain = p[i + R.STRAIN]!;
  const half = 0.5 * p[R.TOTAL_N]!;
  const mean = meanTension(heightM / l, strain, half, h);
  if (!(mean > half)) return false;
  const middle = (heightM / l) * (mean / (1 + strain * mean));
  const apart = half * (middle / mean);
  const v = middle + half;
  const across = h * p[i + R.M_PER_N]! * turnOf(h, middle - half, v, mean - apart, mean + apart);
  out[REACH] = across + l * h * strain;
  out[BOW_VERTICAL] = v;
  out[BOW_TENSION] = mean + apart;
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = Math.max(0, middle - half);
  out[ON_BOTTOM] = 0;
  out[STRETCH] = 0.5 * strain * (l * (mean + middle * (middle / mean)) + h * across);
  out[LIFTED_SHARE] = NaN;
  return true;
}

/** Mean of the tensions at the ends of a piece of twice the weight `half`, by Newton's steps; NaN where it is not to be had so. */
function meanTension(sine: number, strain: number, half: number, h: number): number {
  const first = sine / (1 + strain * h);
  if (!(first > 0 && first < STEEPEST && h > LEAST_PULL * half)) return NaN;
  const h2 = h * h;
  const half2 = half * half;
  let mean = Math.sqrt(half2 + h2 / (1 - first * first));
  for (let k = 0; k < MOST_STEPS; k++) {
    const per = 1 / (1 + strain * mean);
    const q = sine * per;
    const cos2 = 1 - q * q;
    const over = (mean * mean - half2) * cos2 - h2;
    const step = over / (2 * mean * cos2 + 2 * (mean * mean - half2) * q * q * strain * per);
    mean -= step;
    // What is left is of the square of this step.
    if (Math.abs(step) <= 1e-8 * mean) return mean;
  }
  return NaN;
}
