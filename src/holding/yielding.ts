import { lastAtOrBefore } from "../core/series.js";
import type { Legs } from "./legs.js";

/** Reach of a rode by load, ascending in both; below the first reach it bears nothing. */
export interface ReachCurve {
  readonly loadN: readonly number[];
  readonly reachM: readonly number[];
}

interface Leg {
  loadN: number;
  /** Rise of load with distance, N/m. */
  stiffness: number;
  /** Work stored, J. */
  energyJ: number;
}

/** Load, stiffness and work of a leg at a distance from its anchor; the last slope goes on beyond the curve. */
function legAt({ loadN, reachM }: ReachCurve, distanceM: number): Leg {
  const last = Math.min(lastAtOrBefore(reachM, distanceM), reachM.length - 2);
  if (last < 0) return { loadN: 0, stiffness: 0, energyJ: 0 };
  let energyJ = 0;
  for (let i = 0; i < last; i++)
    energyJ += ((loadN[i]! + loadN[i + 1]!) * (reachM[i + 1]! - reachM[i]!)) / 2;
  const stiffness = (loadN[last + 1]! - loadN[last]!) / (reachM[last + 1]! - reachM[last]!);
  const over = distanceM - reachM[last]!;
  const load = loadN[last]! + stiffness * over;
  return {
    loadN: load,
    stiffness,
    energyJ: energyJ + ((loadN[last]! + load) * over) / 2,
  };
}

/** Force, stiffness and potential of both legs under a pull, for a bow at x, y. */
function stateAt(
  legs: readonly { curve: ReachCurve; anchorM: number }[],
  x: number,
  y: number,
  fx: number,
  fy: number,
) {
  let [gx, gy, kxx, kxy, kyy] = [-fx, -fy, 0, 0, 0];
  let potential = -fx * x - fy * y;
  const loads: number[] = [];
  for (const { curve, anchorM } of legs) {
    const dx = x - anchorM;
    const d = Math.max(1e-9, Math.sqrt(dx * dx + y * y));
    const [ux, uy] = [dx / d, y / d];
    const { loadN, stiffness, energyJ } = legAt(curve, d);
    const side = loadN / d;
    gx += loadN * ux;
    gy += loadN * uy;
    kxx += stiffness * ux * ux + side * uy * uy;
    kxy += (stiffness - side) * ux * uy;
    kyy += stiffness * uy * uy + side * ux * ux;
    potential += energyJ;
    loads.push(loadN);
  }
  return { gx, gy, kxx, kxy, kyy, potential, loads };
}

const leftOver = (s: { gx: number; gy: number }): number => Math.sqrt(s.gx * s.gx + s.gy * s.gy);

/**
 * Vessel on two legs that give: where the pull and both legs balance. Newton's method on the potential,
 * which has one minimum; `start` is where taut legs would leave her.
 */
export function onYieldingLegs(
  apart: number,
  first: ReachCurve,
  second: ReachCurve,
  fx: number,
  fy: number,
  start: Legs,
): Legs {
  const legs = [
    { curve: first, anchorM: 0 },
    { curve: second, anchorM: apart },
  ];
  let [x, y] = [start.alongM, start.acrossM];
  let s = stateAt(legs, x, y, fx, fy);
  const longest = apart + Math.abs(x) + Math.abs(y);
  const enough = 1e-9 * Math.sqrt(fx * fx + fy * fy);
  for (let i = 0; i < 200; i++) {
    if (leftOver(s) <= enough) break;
    // A trace of stiffness all round: slack legs resist nothing.
    const soft = 1e-9 * (s.kxx + s.kyy) + 1e-6;
    const [a, d] = [s.kxx + soft, s.kyy + soft];
    const det = a * d - s.kxy * s.kxy;
    const stepX = -(d * s.gx - s.kxy * s.gy) / det;
    const stepY = -(a * s.gy - s.kxy * s.gx) / det;
    let part = Math.min(1, longest / Math.sqrt(stepX * stepX + stepY * stepY));
    let next = stateAt(legs, x + part * stepX, y + part * stepY, fx, fy);
    // Near the minimum the potential is flat to rounding; the force left over still tells.
    while (next.potential > s.potential && leftOver(next) >= leftOver(s) && part > 1e-12) {
      part /= 2;
      next = stateAt(legs, x + part * stepX, y + part * stepY, fx, fy);
    }
    if (part <= 1e-12) break;
    x += part * stepX;
    y += part * stepY;
    s = next;
  }
  return { alongM: x, acrossM: y, firstN: s.loads[0]!, secondN: s.loads[1]! };
}
