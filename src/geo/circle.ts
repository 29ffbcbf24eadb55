import { RAD } from "../core/angles.js";

/**
 * Outline of a circle as a polygon that holds all of it, clockwise from north: its sides touch the
 * circle, its corners lie outside by a factor 1 / cos(π / sides).
 */
export function circleAround(x: number, y: number, radius: number, sides = 72): Float64Array {
  const out = new Float64Array(2 * sides);
  const r = radius / Math.cos(Math.PI / sides);
  for (let i = 0; i < sides; i++) {
    const t = (2 * Math.PI * (i + 0.5)) / sides;
    out[2 * i] = x + r * Math.sin(t);
    out[2 * i + 1] = y + r * Math.cos(t);
  }
  return out;
}

/**
 * Outline of an arc from one direction clockwise to another that holds all of the sector when
 * closed through the centre: a chain whose sides touch the arc, at most `stepDeg` each.
 */
export function arcAround(
  x: number,
  y: number,
  radius: number,
  fromDeg: number,
  sweepDeg: number,
  stepDeg = 5,
): Float64Array {
  const sides = Math.max(1, Math.ceil(sweepDeg / stepDeg));
  const half = (sweepDeg / sides / 2) * RAD;
  const out = new Float64Array(2 * (sides + 2));
  const put = (i: number, deg: number, r: number) => {
    out[2 * i] = x + r * Math.sin(deg * RAD);
    out[2 * i + 1] = y + r * Math.cos(deg * RAD);
  };
  put(0, fromDeg, radius);
  for (let i = 0; i < sides; i++)
    put(i + 1, fromDeg + ((i + 0.5) * sweepDeg) / sides, radius / Math.cos(half));
  put(sides + 1, fromDeg + sweepDeg, radius);
  return out;
}

/** Outline of a sector: the centre and an arc that holds all of it. */
export function sectorAround(
  x: number,
  y: number,
  radius: number,
  fromDeg: number,
  sweepDeg: number,
  stepDeg = 5,
): Float64Array {
  const arc = arcAround(x, y, radius, fromDeg, sweepDeg, stepDeg);
  const out = new Float64Array(arc.length + 2);
  out[0] = x;
  out[1] = y;
  out.set(arc, 2);
  return out;
}

/**
 * Outline that holds the common part of two discs, clockwise; empty where they do not meet. Middles
 * lie at (ax, ay) and (bx, by).
 */
export function lensAround(
  ax: number,
  ay: number,
  ra: number,
  bx: number,
  by: number,
  rb: number,
  stepDeg = 5,
): Float64Array {
  const dx = bx - ax;
  const dy = by - ay;
  const d = Math.sqrt(dx * dx + dy * dy);
  if (!(d <= ra + rb)) return new Float64Array(0);
  const sides = Math.ceil(360 / stepDeg);
  if (d <= Math.abs(ra - rb))
    return ra < rb ? circleAround(ax, ay, ra, sides) : circleAround(bx, by, rb, sides);
  const half = (r: number, s: number) =>
    Math.acos(Math.max(-1, Math.min(1, (d * d + r * r - s * s) / (2 * d * r)))) / RAD;
  const towards = Math.atan2(dx, dy) / RAD;
  const ha = half(ra, rb);
  const hb = half(rb, ra);
  const first = arcAround(ax, ay, ra, towards - ha, 2 * ha, stepDeg);
  const second = arcAround(bx, by, rb, towards + 180 - hb, 2 * hb, stepDeg);
  const out = new Float64Array(first.length + second.length);
  out.set(first);
  out.set(second, first.length);
  return out;
}
