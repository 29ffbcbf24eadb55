import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import { metres } from "../core/schema.js";
import { solve } from "./runlength.js";

/** Schema of {@link fitSwing}. */
export const fitSwingInput = z.strictObject({
  /** Where the antenna has lain, in metres of any flat picture. */
  points: z
    .array(z.strictObject({ eastM: metres(), northM: metres() }))
    .check(z.minLength(3, "expected at least 3 points")),
  /** `geometric` least distance to the circle; the others are the algebraic fits; `geometric` unless given. */
  method: z._default(z.enum(["geometric", "taubin", "pratt", "kasa"]), "geometric"),
});
/** Input of {@link fitSwing}. */
export type FitSwingInput = Given<typeof fitSwingInput>;
/** Answer of {@link fitSwing}. */
export type FitSwing =
  | {
      known: true;
      /** Centre, which is the anchor where the rode lay taut throughout. */
      eastM: number;
      /** Centre, north. */
      northM: number;
      /** Radius. */
      radiusM: number;
      /** Root mean square distance of the points from the circle. */
      rmsM: number;
      /** Arc the points span as seen from the centre; under about 60° the centre is little worth. */
      arcDeg: number;
    }
  | { known: false; reason: "pointsInLine" | "pointsCoincide" };

interface Circle {
  x: number;
  y: number;
  r: number;
}

/**
 * The circle a vessel has swung: where its anchor would lie.
 *
 * Least squares of the distances to the circle (geometric), or the algebraic fits of Kåsa, Pratt
 * and Taubin. Leaves out that the vessel lies slack in light airs, which draws the circle in.
 * *Valid*: points over a fair arc. *Accuracy*: 1e-5 m against eigenvalue solutions and a general
 * least-squares solver; the scatter of the centre grows steeply under 60° of arc.
 *
 * @throws InputError when fewer than three points are given.
 * @source I. Kåsa 1976; V. Pratt 1987; G. Taubin 1991; W. Gander, G. Golub, R. Strebel, BIT 34 (1994)
 * @example
 * ```ts
 * import { fitSwing } from "hawse/watch";
 * const at = (deg: number) => ({ eastM: 40 * Math.sin(deg), northM: 40 * Math.cos(deg) });
 * const swing = fitSwing({ points: [at(0), at(0.8), at(1.6), at(2.4)] });
 * console.log(swing.known && swing.radiusM.toFixed(2));
 * // 40.00
 * ```
 */
export function fitSwing(input: FitSwingInput): FitSwing {
  const { points, method } = check(fitSwingInput, input);
  const n = points.length;
  const mx = points.reduce((s, p) => s + p.eastM, 0) / n;
  const my = points.reduce((s, p) => s + p.northM, 0) / n;
  const xs = points.map((p) => p.eastM - mx);
  const ys = points.map((p) => p.northM - my);
  const spread = xs.reduce((s, x, i) => s + x * x + ys[i]! * ys[i]!, 0) / n;
  if (!(spread > 1e-12)) return { known: false, reason: "pointsCoincide" };
  const first = algebraic(xs, ys, method === "geometric" ? "taubin" : method);
  const fit = first && (method === "geometric" ? refine(xs, ys, first) : first);
  if (!fit || !(fit.r < 1e4 * Math.sqrt(spread))) return { known: false, reason: "pointsInLine" };
  const off = xs.map((x, i) => distance(fit, x, ys[i]!) - fit.r);
  return {
    known: true,
    eastM: fit.x + mx,
    northM: fit.y + my,
    radiusM: fit.r,
    rmsM: Math.sqrt(off.reduce((s, d) => s + d * d, 0) / n),
    arcDeg: arcOf(xs, ys, fit),
  };
}

const distance = (c: Circle, x: number, y: number): number =>
  Math.sqrt((x - c.x) * (x - c.x) + (y - c.y) * (y - c.y));

/** The full turn less the widest gap between neighbouring bearings. */
function arcOf(xs: number[], ys: number[], c: Circle): number {
  const at = xs.map((x, i) => Math.atan2(x - c.x, ys[i]! - c.y) / RAD);
  at.sort((a, b) => a - b);
  let gap = at[0]! + 360 - at[at.length - 1]!;
  for (let i = 1; i < at.length; i++) gap = Math.max(gap, at[i]! - at[i - 1]!);
  return 360 - gap;
}

/** Centred moments of the points and of z = x² + y². */
function momentsOf(xs: number[], ys: number[]) {
  const m = { xx: 0, yy: 0, xy: 0, xz: 0, yz: 0, zz: 0 };
  const n = xs.length;
  for (let i = 0; i < n; i++) {
    const x = xs[i]!;
    const y = ys[i]!;
    const zed = x * x + y * y;
    m.xx += (x * x) / n;
    m.yy += (y * y) / n;
    m.xy += (x * y) / n;
    m.xz += (x * zed) / n;
    m.yz += (y * zed) / n;
    m.zz += (zed * zed) / n;
  }
  return m;
}

/** The algebraic fits differ only in the root of their characteristic polynomial; Kåsa's is nought. */
function algebraic(
  xs: number[],
  ys: number[],
  method: "taubin" | "pratt" | "kasa",
): Circle | undefined {
  const m = momentsOf(xs, ys);
  const mz = m.xx + m.yy;
  const eta = method === "kasa" ? 0 : leastRoot(m, mz, method);
  const det = eta * eta - eta * mz + m.xx * m.yy - m.xy * m.xy;
  if (!(Math.abs(det) > 1e-14 * mz * mz)) return undefined;
  const x = (m.xz * (m.yy - eta) - m.yz * m.xy) / det / 2;
  const y = (m.yz * (m.xx - eta) - m.xz * m.xy) / det / 2;
  const extra = method === "pratt" ? 2 * eta : 0;
  return { x, y, r: Math.sqrt(x * x + y * y + mz + extra) };
}

/** Smallest root of the characteristic polynomial, by Newton's steps from nought, from which they cannot pass it. */
function leastRoot(
  m: ReturnType<typeof momentsOf>,
  mz: number,
  method: "taubin" | "pratt",
): number {
  const cov = m.xx * m.yy - m.xy * m.xy;
  const varZ = m.zz - mz * mz;
  const c = m.xz * m.xz + m.yz * m.yz;
  const a0 = m.xz * (m.xz * m.yy - m.yz * m.xy) + m.yz * (m.yz * m.xx - m.xz * m.xy) - varZ * cov;
  const a1 = varZ * mz + 4 * cov * mz - c;
  // Taubin: 4 Mz η³ + b2 η² + a1 η + a0; Pratt: 4 η⁴ + b2 η² + a1 η + a0.
  const taubin = method === "taubin";
  const b2 = -3 * mz * mz - m.zz + (taubin ? 0 : 4 * cov);
  let eta = 0;
  for (let i = 0; i < 99; i++) {
    const lead = taubin ? 4 * mz * eta * eta * eta : 4 * eta * eta * eta * eta;
    const leadSlope = taubin ? 12 * mz * eta * eta : 16 * eta * eta * eta;
    const value = lead + b2 * eta * eta + a1 * eta + a0;
    const next = eta - value / (leadSlope + 2 * b2 * eta + a1);
    if (!(next >= 0) || Math.abs(next - eta) <= 1e-15 * Math.abs(next)) break;
    eta = next;
  }
  return eta;
}

/** Least squares of the distances, by damped Gauss and Newton steps. */
function refine(xs: number[], ys: number[], from: Circle): Circle {
  const cost = (c: Circle) => xs.reduce((s, x, i) => s + (distance(c, x, ys[i]!) - c.r) ** 2, 0);
  let at = from;
  let best = cost(at);
  let damping = 1e-3;
  for (let i = 0; i < 200 && damping < 1e12; i++) {
    const step = stepOf(xs, ys, at, damping);
    const next = { x: at.x + step[0]!, y: at.y + step[1]!, r: at.r + step[2]! };
    const value = cost(next);
    if (value <= best) {
      const size = Math.max(...step.map(Math.abs));
      [at, best, damping] = [next, value, damping / 10];
      if (size < 1e-10 * at.r) break;
    } else damping *= 10;
  }
  return at;
}

function stepOf(xs: number[], ys: number[], at: Circle, damping: number): number[] {
  const rows = [
    [0, 0, 0, 0],
    [0, 0, 0, 0],
    [0, 0, 0, 0],
  ];
  xs.forEach((x, i) => {
    const d = distance(at, x, ys[i]!) || 1e-300;
    const slope = [-(x - at.x) / d, -(ys[i]! - at.y) / d, -1];
    const miss = at.r - d;
    for (let r = 0; r < 3; r++) {
      for (let c = 0; c < 3; c++) rows[r]![c]! += slope[r]! * slope[c]!;
      rows[r]![3]! += slope[r]! * miss;
    }
  });
  for (let r = 0; r < 3; r++) rows[r]![r]! *= 1 + damping;
  return solve(rows, 3);
}
