import { bracketedRoot } from "../core/roots.js";
import {
  BOW_VERTICAL,
  HEIGHT,
  HEIGHT_BY_LOAD,
  HEIGHT_BY_VERTICAL,
  REACH,
  REACH_BY_LOAD,
  REACH_BY_VERTICAL,
  SLACK,
  place,
} from "./kernel.js";
import { settle, solveForward } from "./solve.js";
import type { PreparedRode } from "./prepare.js";

/** Allowed miss of the bow, per metre of rode. */
const CLOSE = 2e-12;
const MOST_STEPS = 30;

/**
 * Lay a prepared rode so that the bow stands at a given reach from the anchor: fills `out` and
 * answers the state as {@link solveForward} does. Within the slack reach the load is zero.
 */
export function solveReach(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  out: Float64Array,
): number {
  const state = solveForward(p, heightM, 0, out);
  if (state < 0) return state;
  const slackM = out[REACH]!;
  if (state === SLACK && reachM <= slackM)
    return slacken(p, heightM, reachM, out);
  if (reachM <= slackM) return state;
  return (
    approach(p, heightM, reachM, slackM, out) ?? search(p, heightM, reachM, out)
  );
}

/** The bow part hangs straight down to the bed beneath it. */
function slacken(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  out: Float64Array,
): number {
  if (p.tan !== 0) {
    const level = { ...p, sin: 0, cos: 1, tan: 0 };
    solveForward(level, heightM - reachM * p.tan, 0, out);
    place(p, 0, out[BOW_VERTICAL]!, out);
  }
  out[REACH] = reachM;
  return SLACK;
}

/** Newton search in both loads at once; undefined where it does not arrive. */
function approach(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  slackM: number,
  out: Float64Array,
): number | undefined {
  const close = CLOSE * p.totalM;
  let h = loadGuess(p, heightM, reachM, slackM);
  solveForward(p, heightM, h, out);
  for (let i = 0; i < MOST_STEPS; i++) {
    const dx = reachM - out[REACH]!;
    const dz = heightM - out[HEIGHT]!;
    if (Math.abs(dx) + Math.abs(dz) <= close)
      return settle(p, h, out[BOW_VERTICAL]!, out);
    const xh = out[REACH_BY_LOAD]!;
    const xv = out[REACH_BY_VERTICAL]!;
    const zh = out[HEIGHT_BY_LOAD]!;
    const zv = out[HEIGHT_BY_VERTICAL]!;
    const det = xh * zv - xv * zh;
    const dh = (dx * zv - dz * xv) / det;
    const dv = (dz * xh - dx * zh) / det;
    const v = out[BOW_VERTICAL]!;
    const bedV = h * p.tan + p.floatedN;
    const change =
      Math.abs(dh) < 0.5 * h
        ? h + dh
        : h * Math.exp(Math.max(-2, Math.min(2, dh / h)));
    h = change;
    place(
      p,
      h,
      Math.max(v + dv, h * p.tan + p.floatedN + 0.1 * (v - bedV)),
      out,
    );
  }
  return undefined;
}

/** Reach grows steadily with load: bracket the load and close in. */
function search(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  out: Float64Array,
): number {
  const miss = (logLoad: number) => {
    solveForward(p, heightM, Math.exp(logLoad), out);
    return out[REACH]! - reachM;
  };
  const start = Math.log(Math.abs(p.totalN));
  let low = start;
  let high = start;
  for (let i = 0; i < 200 && miss(high) < 0; i++) high += 1;
  for (let i = 0; i < 600 && miss(low) > 0; i++) low -= 1;
  return solveForward(
    p,
    heightM,
    Math.exp(bracketedRoot(miss, low, high)),
    out,
  );
}

/** Load to start from. */
function loadGuess(
  p: PreparedRode,
  heightM: number,
  reachM: number,
  slackM: number,
): number {
  const chord = Math.sqrt(reachM * reachM + heightM * heightM);
  const sag = p.totalM * p.totalM - heightM * heightM;
  const w = p.totalN / p.totalM;
  const over = chord - p.totalM;
  if (over > 0)
    return Math.max(((over / p.stretchPerN) * reachM) / chord, w * heightM);
  const lambda = Math.sqrt(Math.max(1e-4, 3 * (sag / (reachM * reachM) - 1)));
  return (Math.abs(w) * reachM) / (2 * lambda) + 0 * slackM;
}
