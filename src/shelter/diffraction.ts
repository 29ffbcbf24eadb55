import { RAD } from "../core/angles.js";
import { besselLadder } from "./bessel.js";
import { type Complex, fresnel } from "./fresnel.js";

/**
 * Reach of the wedge series: ACES states the theory to ten wavelengths from the tip. Behind a headland the
 * sea only falls further in, so a point beyond is given the figure at ten wavelengths.
 */
export const WEDGE_REACH_KR = 20 * Math.PI;

/** A headland prepared for one distance from its tip. */
export interface Tip {
  /** 2π times the distance from the tip in wavelengths. */
  kr: number;
  /** Interior angle of the headland, whole degrees; 0 is a thin wall. */
  wedgeDeg: number;
  /** J of the orders of the series; empty for a thin wall. */
  j: Float64Array;
}

/** Prepare a headland. Angles at the tip run anticlockwise from its lit face; its body lies at the end of the turn. */
export function tipAt(kr: number, wedgeDeg: number): Tip {
  const wedge = Math.round(wedgeDeg);
  if (wedge === 0) return { kr, wedgeDeg: 0, j: new Float64Array(0) };
  const near = Math.min(kr, WEDGE_REACH_KR);
  return { kr: near, wedgeDeg: wedge, j: seriesOrders(near, wedge) };
}

/** J of orders 180 n/(360 − W) for n = 0, 1, …; orders that differ by whole numbers share one ladder. */
export function seriesOrders(kr: number, wedgeDeg: number): Float64Array {
  const water = 360 - wedgeDeg;
  const period = water / divisor(180, water);
  const last = kr + 12 + 8 * Math.cbrt(kr);
  const j = new Float64Array(Math.ceil((last * water) / 180));
  const ladder = new Float64Array(Math.ceil(last) + 2);
  for (let first = 0; first < Math.min(period, j.length); first++) {
    const order = (180 * first) / water;
    const whole = Math.floor(order);
    besselLadder(order - whole, Math.max(kr, 1e-6), ladder);
    for (let n = first; n < j.length; n += period)
      j[n] = ladder[whole + Math.round((180 * (n - first)) / water)]!;
  }
  return j;
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/**
 * Wave at a point over the wave that comes in, as a complex factor.
 *
 * @param thetaDeg bearing of the point at the tip, from the lit face.
 * @param alphaDeg where the wave comes from, from the lit face.
 * @source Sommerfeld 1896 and Penney & Price 1952 for the thin wall; ACES Technical Reference 3-3 for the wedge
 */
export function diffract(tip: Tip, thetaDeg: number, alphaDeg: number, out: Complex): void {
  if (tip.wedgeDeg === 0) thinWall(tip.kr, thetaDeg, alphaDeg, out);
  else wedgeSeries(tip, thetaDeg, alphaDeg, out);
}

function thinWall(kr: number, thetaDeg: number, alphaDeg: number, out: Complex): void {
  halfPlane(kr, (thetaDeg - alphaDeg) * RAD, out);
  const { re, im } = out;
  halfPlane(kr, (thetaDeg + alphaDeg) * RAD, out);
  out.re += re;
  out.im += im;
}

/** exp(ikr cos ψ) · (1 + i)/2 · [(½ + C) − i(½ + S)] at s = 2√(kr/π) cos(ψ/2). */
function halfPlane(kr: number, psi: number, out: Complex): void {
  fresnel(2 * Math.sqrt(kr / Math.PI) * Math.cos(0.5 * psi), out);
  const c = 0.5 + out.re;
  const s = 0.5 + out.im;
  const gr = 0.5 * (c + s);
  const gi = 0.5 * (c - s);
  const phase = kr * Math.cos(psi);
  const cos = Math.cos(phase);
  const sin = Math.sin(phase);
  out.re = gr * cos - gi * sin;
  out.im = gr * sin + gi * cos;
}

/** (2/ν)[J₀ + 2 Σ exp(inπ/2ν) J_{n/ν} cos(nα/ν) cos(nθ/ν)], cosines and phases by recurrence. */
export function wedgeSeries(tip: Tip, thetaDeg: number, alphaDeg: number, out: Complex): void {
  const nu = (360 - tip.wedgeDeg) / 180;
  const minus = 2 * Math.cos(((thetaDeg - alphaDeg) * RAD) / nu);
  const plus = 2 * Math.cos(((thetaDeg + alphaDeg) * RAD) / nu);
  const turnRe = Math.cos(Math.PI / (2 * nu));
  const turnIm = Math.sin(Math.PI / (2 * nu));
  let [m0, m1, p0, p1] = [1, 0.5 * minus, 1, 0.5 * plus];
  let [phRe, phIm] = [turnRe, turnIm];
  let re = 0.5 * tip.j[0]!;
  let im = 0;
  for (let n = 1; n < tip.j.length; n++) {
    // cos a cos b = ½ [cos(a − b) + cos(a + b)]
    const size = tip.j[n]! * 0.5 * (m1 + p1);
    re += size * phRe;
    im += size * phIm;
    [m0, m1] = [m1, minus * m1 - m0];
    [p0, p1] = [p1, plus * p1 - p0];
    [phRe, phIm] = [phRe * turnRe - phIm * turnIm, phRe * turnIm + phIm * turnRe];
  }
  out.re = (4 / nu) * re;
  out.im = (4 / nu) * im;
}
