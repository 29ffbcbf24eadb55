import {
  AGROUND,
  BOW_VERTICAL,
  HEIGHT,
  HEIGHT_BY_LOAD,
  HEIGHT_BY_VERTICAL,
  REACH,
  REACH_BY_LOAD,
  LOAD,
  REACH_BY_VERTICAL,
  SLACK,
  FLOATED,
  placeAndChange,
  stiffnessOf,
} from "./kernel.js";
import { guess } from "./guess.js";
import * as R from "./places.js";
import { hasFloats, lowestVertical, refused, solveForward, stateOf, verticalFor } from "./solve.js";
import { setBed, settle, type PreparedRode } from "./prepare.js";

/** Allowed miss of the bow, per metre of rode. */
const CLOSE = 2e-12;
const MOST_STEPS = 30;

/**
 * Lay a prepared rode so that the bow stands at a given reach from the anchor: fills `out`, the
 * columns of change too, and answers the state as {@link solveForward} does. Within the slack reach
 * the load is zero.
 */
export function solveReach(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  out: Float64Array,
): number {
  let slackM = p[R.TOTAL_M]! - heightM;
  if (!(reachM > slackM + p[R.SLACK_STRETCH_M]! && reachM > 0)) {
    const state = solveForward(p, heightM, 0, out);
    if (state === AGROUND) return state;
    // A float may bring a slack rode down twice that lies clear under load.
    slackM = state === FLOATED ? 0 : out[REACH]!;
    if (state === SLACK && reachM <= slackM) return slacken(p, heightM, reachM, out);
    if (reachM <= slackM) return state;
  }
  const state = approach(p, heightM, reachM, slackM, out);
  if (state !== undefined) return state;
  const found = search(p, heightM, reachM, slackM, false, out);
  // A float may also ask for less load: on a rising bed the rode then hangs above it more steeply.
  return found === FLOATED ? search(p, heightM, reachM, slackM, true, out) : found;
}

/** The bow part hangs straight down to the bed beneath it. */
function slacken(p: PreparedRode, heightM: number, reachM: number, out: Float64Array): number {
  if (p[R.TAN]! !== 0) {
    const level = p.slice();
    setBed(level, 0, 0);
    settle(level);
    solveForward(level, heightM - reachM * p[R.TAN]!, 0, out);
    placeAndChange(p, 0, out[BOW_VERTICAL]!, out);
  }
  out[REACH] = reachM;
  return SLACK;
}

/**
 * Newton search in both loads at once; undefined where it does not arrive. Steps are taken in
 * proportion to the loads: reach and height go more nearly by powers of them than in a straight line.
 */
function approach(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  slackM: number,
  out: Float64Array,
): number | undefined {
  const close = CLOSE * p[R.TOTAL_M]!;
  const tan = p[R.TAN]!;
  let h = loadGuess(p, heightM, reachM, slackM);
  let v = verticalToStart(p, heightM, h, out);
  for (let i = 0; i < MOST_STEPS; i++) {
    placeAndChange(p, h, v, out);
    const dx = reachM - out[REACH]!;
    const dz = heightM - out[HEIGHT]!;
    if (Math.abs(dx) + Math.abs(dz) <= close) {
      const state = stateOf(p, out);
      return state < 0 ? undefined : state;
    }
    const xh = out[REACH_BY_LOAD]!;
    const xv = out[REACH_BY_VERTICAL]!;
    const zh = out[HEIGHT_BY_LOAD]!;
    const zv = out[HEIGHT_BY_VERTICAL]!;
    const per = 1 / (xh * zv - xv * zh);
    const dh = (dx * zv - dz * xv) * per;
    const dv = (dz * xh - dx * zh) * per;
    const above = v - lowestVertical(p, h);
    h *= grown(dh / h);
    v = lowestVertical(p, h) + above * grown((dv - tan * dh) / above);
  }
  return undefined;
}

/** Factor by which a load grows whose change in proportion is `x`: the exponential, nearly, and within bounds. */
function grown(x: number): number {
  const step = x > 1.2 ? 1.2 : x < -1.2 ? -1.2 : x;
  const even = 1 + (step * step) / 12;
  return (even + 0.5 * step) / (even - 0.5 * step);
}

/** Vertical load to start from: near enough where no bed and no float makes it hard to find. */
function verticalToStart(p: PreparedRode, heightM: number, h: number, out: Float64Array): number {
  const easy = p[R.TAN] === 0 && !hasFloats(p) && heightM > 0;
  out[HEIGHT] = heightM;
  out[LOAD] = h;
  const v = easy ? guess(p, out) : NaN;
  return v > 0 ? v : verticalFor(p, heightM, h, out);
}

/**
 * Reach grows steadily with load: Newton search in the load alone, kept within a bracket. A load under
 * which a float has no lie is too much or too little: `less` says which to take it for.
 */
function search(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  slackM: number,
  less: boolean,
  out: Float64Array,
): number {
  let low = 0;
  let high = Infinity;
  let h = loadGuess(p, heightM, reachM, slackM);
  for (let i = 0; i < 10 * MOST_STEPS; i++) {
    const v = verticalFor(p, heightM, h, out);
    placeAndChange(p, h, v, out);
    const over = out[REACH]! - reachM;
    if (Math.abs(over) <= CLOSE * p[R.TOTAL_M]!) break;
    // No lie under this load: the pull stretches the rode ashore, or a float has none.
    const ashore = p[R.SIN]! * (p[R.TOTAL_M]! + h * p[R.STRETCH_PER_N]!) > heightM;
    const tooMuch = Number.isNaN(v) ? ashore || less || !hasFloats(p) : over > 0;
    if (tooMuch) high = h;
    else low = h;
    let next = h - over * stiffnessOf(out);
    if (!(next > low && next < high))
      next = high === Infinity ? 4 * h : low === 0 ? h / 16 : Math.sqrt(low * high);
    if (next === low || next === high) break;
    h = next;
  }
  const miss = Math.abs(out[REACH]! - reachM);
  return miss <= 1e-9 * p[R.TOTAL_M]! ? stateOf(p, out) : refused(p, out);
}

/** Load to start from: a level catenary, a shallow hanging one, or a line drawn taut. */
function loadGuess(p: PreparedRode, heightM: number, reachM: number, slackM: number): number {
  const spare = p[R.TOTAL_M]! - reachM;
  const most = p[R.TOTAL_M]! - slackM;
  const w = Math.abs(p[R.TOTAL_N]!) / p[R.TOTAL_M]!;
  if (spare > 0 && most > 0) {
    const part = spare / most;
    const q = (2 / 9) * (1 / (part * part) - 1);
    const hanging = heightM * Math.sqrt(1 + 2 * q);
    // Nothing to go by where the bow is level with the anchor, above a falling bed.
    if (hanging > 0 && hanging < p[R.TOTAL_M]!) return q * heightM * topWeight(p, hanging);
  }
  const chord = Math.sqrt(reachM * reachM + heightM * heightM);
  const over = chord - p[R.TOTAL_M]!;
  if (over >= 0) return ((over + 1e-4 * p[R.TOTAL_M]!) / p[R.STRETCH_PER_N]!) * (reachM / chord);
  const sag = (p[R.TOTAL_M]! * p[R.TOTAL_M]! - heightM * heightM) / (reachM * reachM) - 1;
  return (w * reachM) / Math.sqrt(12 * Math.max(1e-6, sag));
}

/** Mean weight per metre of the uppermost `lengthM` of the rode. */
function topWeight(p: PreparedRode, lengthM: number): number {
  let weight = 0;
  let left = lengthM;
  for (let i = p[R.TOP]!; i >= R.PIECES && left > 0; i -= R.ROW) {
    const l = Math.min(left, p[i + R.LENGTH]!);
    weight += l * p[i + R.WEIGHT]!;
    left -= l;
  }
  return weight / lengthM;
}
