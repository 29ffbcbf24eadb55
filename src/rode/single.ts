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
  // As `verticalOf`, but the square alone tells whether any of it lies: the root need not be waited for.
  const square = gained * (gained + 2 * h);
  const whole = p[R.TOTAL_N]!;
  if (!(square < whole * whole)) return false;
  const v = Math.sqrt(square);
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
/** What a step may be of the mean tension for what it leaves to count no more: that is of its cube. */
const LAST_STEP = 4e-6;

/**
 * A single piece off a level bed down to the anchor: what `place` writes, at less cost. False, and
 * nothing written, where it hangs so steeply that this loses figures.
 *
 * The tensions at the ends of an even piece have the mean S, and its end loads are the distances of a
 * point from the foci of an ellipse, which leaves one equation without roots in it:
 * (S² - N²/4) (1 - q²) = H², where N is the weight and q the rise over the length that S stretches.
 * Halley's steps find S, from the length that H alone stretches.
 */
export function liftOne(p: PreparedRode, out: Float64Array): boolean {
  const h = out[LOAD]!;
  const i = R.PIECES;
  const l = p[i + R.LENGTH]!;
  const strain = p[i + R.STRAIN]!;
  const half = 0.5 * p[R.TOTAL_N]!;
  const sine = out[HEIGHT]! / l;
  const first = sine / (1 + strain * h);
  if (!(first > 0 && first < STEEPEST && h > LEAST_PULL * half)) return false;
  const h2 = h * h;
  const half2 = half * half;
  let mean = Math.sqrt(half2 + h2 / (1 - first * first));
  for (let k = 0; k < MOST_STEPS; k++) {
    const per = 1 / (1 + strain * mean);
    const q = sine * per;
    const cos2 = 1 - q * q;
    const bears = mean * mean - half2;
    const over = bears * cos2 - h2;
    const bent = 2 * q * q * strain * per;
    const by = 2 * mean * cos2 + bears * bent;
    const bend = cos2 + bent * (2 * mean - 1.5 * bears * strain * per);
    const step = (over * by) / (by * by - over * bend);
    mean -= step;
    if (!(Math.abs(step) <= LAST_STEP * mean)) continue;
    if (!(mean > half)) return false;
    const grown = strain * per * step;
    writeLifted(p, mean, q * (1 + grown * (1 + grown)), out);
    return true;
  }
  return false;
}

/** Write what the mean tension of a lifted piece and the rise over its stretched length make. */
function writeLifted(p: PreparedRode, mean: number, q: number, out: Float64Array): void {
  const h = out[LOAD]!;
  const strain = p[R.PIECES + R.STRAIN]!;
  const l = p[R.PIECES + R.LENGTH]!;
  const half = 0.5 * p[R.TOTAL_N]!;
  const middle = q * mean;
  const apart = q * half;
  const v = middle + half;
  const across =
    h * p[R.PIECES + R.M_PER_N]! * turnOf(h, middle - half, v, mean - apart, mean + apart);
  out[REACH] = across + l * h * strain;
  out[BOW_VERTICAL] = v;
  out[BOW_TENSION] = mean + apart;
  out[ANCHOR_HORIZONTAL] = h;
  out[ANCHOR_VERTICAL] = Math.max(0, middle - half);
  out[ON_BOTTOM] = 0;
  out[STRETCH] = 0.5 * strain * (l * (mean + middle * q) + h * across);
  out[LIFTED_SHARE] = NaN;
}
