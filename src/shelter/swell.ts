import { bearingOf, RAD, turnDeg, wrap360 } from "../core/angles.js";
import { diffract, type Tip, tipAt } from "./diffraction.js";
import type { Complex } from "./fresnel.js";
import type { Gap, Headland } from "./window.js";

/** Greatest angle off its mean direction at which swell carries energy: ACES Technical Reference 3-2. */
const HALF_SPREAD_DEG = 67.5;
/** Step over the directions of a swell. */
const STEP_DEG = 5;

/** Share of a swell that reaches a berth, as factors on its height. */
export interface SwellShare {
  /** By the open window alone. */
  window: number;
  /** By diffraction round the headlands; not below the window where no headland is known. */
  diffraction: number;
  /** Direction from which most of it arrives. */
  fromDeg: number;
}

/** A gap with its headlands prepared for one wavelength. */
interface PreparedGap {
  gap: Gap;
  first: Tip | null;
  last: Tip | null;
}

/**
 * Share of a directionally spread swell that comes in through gaps: the energy of the directions that see the berth,
 * and that of every direction diffracted round the headlands of each gap.
 *
 * @param spreadS exponent s of cos^2s(θ/2); the higher, the longer-crested.
 */
export function swellShare(
  gaps: readonly Gap[],
  fromDeg: number,
  spreadS: number,
  wavelengthM: number,
): SwellShare {
  const prepared = gaps.map((gap) => prepare(gap, wavelengthM));
  let [total, seen, bent, east, north] = [0, 0, 0, 0, 0];
  for (let a = -HALF_SPREAD_DEG; a <= HALF_SPREAD_DEG; a += STEP_DEG) {
    const energy = Math.exp(2 * spreadS * Math.log(Math.cos(0.5 * a * RAD)));
    const from = wrap360(fromDeg + a);
    total += energy;
    for (const each of prepared) {
      const into = wrap360(from - each.gap.fromDeg);
      const straight = partInside(each.gap.widthDeg, into);
      seen += energy * straight;
      const known = each.first !== null || each.last !== null;
      const part = energy * (known ? throughGap(each, into) : straight);
      bent += part;
      const arrives = arrival(each.gap, from) * RAD;
      east += part * Math.sin(arrives);
      north += part * Math.cos(arrives);
    }
  }
  return {
    window: Math.sqrt(Math.min(1, seen / total)),
    diffraction: Math.sqrt(bent / total),
    fromDeg: bent > 0 ? bearingOf(east, north) : wrap360(fromDeg),
  };
}

function prepare(gap: Gap, wavelengthM: number): PreparedGap {
  const tip = (h: Headland | null): Tip | null =>
    h === null || h.distanceM <= 0
      ? null
      : tipAt((2 * Math.PI * h.distanceM) / wavelengthM, h.wedgeAngleDeg);
  return { gap, first: tip(gap.first), last: tip(gap.last) };
}

/** Part of a step of directions that lies inside a gap, for its middle clockwise of the gap's first edge. */
function partInside(widthDeg: number, into: number): number {
  const within = (middle: number): number =>
    Math.max(0, Math.min(middle + 0.5 * STEP_DEG, widthDeg) - Math.max(middle - 0.5 * STEP_DEG, 0));
  return widthDeg < 360 ? (within(into) + within(into - 360)) / STEP_DEG : 1;
}

/** Direction a component arrives from: its own through the gap, else the nearer edge's. */
function arrival(gap: Gap, from: number): number {
  if (wrap360(from - gap.fromDeg) <= gap.widthDeg) return from;
  const last = wrap360(gap.fromDeg + gap.widthDeg);
  return Math.abs(turnDeg(from, last)) < Math.abs(turnDeg(from, gap.fromDeg)) ? last : gap.fromDeg;
}

/**
 * Energy of a component that comes in through a gap, for its direction clockwise of the gap's first edge. Inside the
 * gap both headlands light it; from behind the land it bends round either end, and the energies add.
 */
function throughGap({ gap, first, last }: PreparedGap, into: number): number {
  const width = gap.widthDeg;
  if (into <= width) return square(past(first, -into) * past(last, into - width));
  const [before, after] = [360 - into, into - width];
  return (
    square(past(first, before) * past(last, -width - before)) +
    square(past(last, after) * past(first, -width - after))
  );
}

const square = (x: number): number => x * x;

/** This far on the open side the headland no longer matters. */
const CLEAR_DEG = -60;

/** Factor past one edge; where no headland is known there, all on the open side and nothing behind it. */
function past(tip: Tip | null, shadowDeg: number): number {
  if (tip === null) return shadowDeg > 0 ? 0 : 1;
  return shadowDeg < CLEAR_DEG ? 1 : shadowFactor(tip, shadowDeg);
}

/**
 * Diffraction factor at an angle into the shadow of a headland, negative on the open side. The land is taken
 * square to the waves and turned only as far as leaves the berth afloat; deeper in, the berth on its lee face
 * has the figure of the face.
 */
function shadowFactor(tip: Tip, shadowDeg: number): number {
  const water = 360 - tip.wedgeDeg;
  const square = 90 - 0.5 * tip.wedgeDeg;
  const deepest = water - 180;
  const alpha = Math.max(0, Math.min(square, deepest - shadowDeg));
  const theta = Math.max(0, Math.min(water, 180 + alpha + Math.min(shadowDeg, deepest)));
  const out: Complex = { re: 0, im: 0 };
  diffract(tip, theta, alpha, out);
  return Math.sqrt(out.re * out.re + out.im * out.im);
}
