/** Degrees to radians. */
export const RAD = Math.PI / 180;

/** Direction folded into [0, 360). */
export function wrap360(deg: number): number {
  const r = deg % 360;
  // The sum may round up to exactly 360 for a tiny negative remainder.
  return r < 0 ? (r + 360) % 360 : r + 0;
}

/** Signed angle folded into [-180, 180). */
export function wrap180(deg: number): number {
  return wrap360(deg + 180) - 180;
}

/** Signed turn from one direction to another, in [-180, 180). */
export function turnDeg(fromDeg: number, toDeg: number): number {
  return wrap180(toDeg - fromDeg);
}

/** The opposite direction: where a wind from `deg` blows towards. */
export const reciprocal = (deg: number): number => wrap360(deg + 180);

/** Direction in [0, 360) of a vector given by its east and north parts. */
export const bearingOf = (east: number, north: number): number =>
  wrap360(Math.atan2(east, north) / RAD);
