/** Degrees per radian, inverted. */
const RAD = Math.PI / 180;
const MS_PER_CENTURY = 36_525 * 86_400_000;
const J2000_MS = Date.UTC(2000, 0, 1, 12);

/**
 * Mean longitudes in degrees and their rates per mean solar hour, by the order used everywhere here:
 * hour angle of the mean sun, moon, sun, lunar perigee, solar perigee.
 */
export const RATES_DEG_PER_HOUR = [
  15,
  481_267.88123421 / 876_600,
  36_000.76983 / 876_600,
  4069.0137287 / 876_600,
  1.71946 / 876_600,
] as const;

/**
 * The five longitudes at an instant, written to `out`; returns the longitude of the moon's node.
 *
 * @source J. Meeus, Astronomical Algorithms, 2nd edition, chapters 25, 47 and 49 (from memory);
 * the difference from the 1900 series of Schureman (1940), table 1, is below 0.02° in this century.
 */
export function longitudes(timeMs: number, out: Float64Array): number {
  const c = (timeMs - J2000_MS) / MS_PER_CENTURY;
  const dayPart = (timeMs / 3_600_000) % 24;
  out[0] = 15 * (dayPart < 0 ? dayPart + 24 : dayPart) + 180;
  out[1] = (218.3164477 + c * (481_267.88123421 - 0.0015786 * c)) % 360;
  out[2] = (280.46646 + c * (36_000.76983 + 0.0003032 * c)) % 360;
  out[3] = (83.3532465 + c * (4069.0137287 - 0.01032 * c)) % 360;
  out[4] = 282.93735 + c * (1.71946 + 0.00046 * c);
  return (125.04452 - c * (1934.136261 - 0.0020708 * c)) % 360;
}

/** Constituents whose own node factor others borrow. */
export const NODE_KINDS = [
  "M2",
  "O1",
  "K1",
  "K2",
  "J1",
  "OO1",
  "MM",
  "MF",
  "M3",
  "M1",
  "L2",
] as const;
/** One of them. */
export type NodeKind = (typeof NODE_KINDS)[number];

/** Node factor f and node angle u, by kind. */
export type NodeFactors = Record<NodeKind, { f: number; uDeg: number }>;

/**
 * Node factors at an instant.
 *
 * @source P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, SP 98 (1940), equations
 * 73–78, 149, 191, 197, 203–206, 213–215, 224, 227, 232, 235 (from memory; checked against published predictions)
 */
export function nodeFactors(timeMs: number): NodeFactors {
  const lon = new Float64Array(5);
  const node = longitudes(timeMs, lon);
  const n = (node > 180 ? node - 360 : node < -180 ? node + 360 : node) * RAD;
  const inclination = Math.acos(0.913694997 - 0.035692561 * Math.cos(n));
  const e1 = Math.atan(1.01883 * Math.tan(n / 2)) - n / 2;
  const e2 = Math.atan(0.64412 * Math.tan(n / 2)) - n / 2;
  const xi = -(e1 + e2);
  const nu = e1 - e2;
  const sinI = Math.sin(inclination);
  const cosHalf = Math.cos(inclination / 2);
  const cos2 = cosHalf * cosHalf;
  const fM2 = (cos2 * cos2) / 0.9154;
  const fO1 = (sinI * cos2) / 0.38;
  return {
    M2: factor(fM2, 2 * xi - 2 * nu),
    O1: factor(fO1, 2 * xi - nu),
    ...lunisolar(inclination, nu),
    J1: factor(Math.sin(2 * inclination) / 0.7214, -nu),
    OO1: factor((sinI * (1 - cos2)) / 0.0164, -2 * xi - nu),
    MM: factor((2 / 3 - sinI * sinI) / 0.5021, 0),
    MF: factor((sinI * sinI) / 0.1578, -2 * xi),
    M3: factor((cos2 * cos2 * cos2) / 0.8758, 3 * xi - 3 * nu),
    ...perigeeFactors(fM2, fO1, xi, nu, lon[3]! * RAD - xi, 1 / cos2 - 1),
  };
}

const factor = (f: number, u: number): { f: number; uDeg: number } => ({
  f,
  uDeg: u / RAD,
});

/** K1 and K2, which moon and sun share. */
function lunisolar(inclination: number, nu: number): Pick<NodeFactors, "K1" | "K2"> {
  const a = Math.sin(2 * inclination);
  const b = Math.sin(inclination) * Math.sin(inclination);
  const cos2Nu = Math.cos(2 * nu);
  return {
    K1: factor(
      Math.sqrt(0.8965 * a * a + 0.6001 * a * Math.cos(nu) + 0.1006),
      -Math.atan2(a * Math.sin(nu), a * Math.cos(nu) + 0.3347),
    ),
    K2: factor(
      Math.sqrt(19.0444 * b * b + 2.7702 * b * cos2Nu + 0.0981),
      -Math.atan2(b * Math.sin(2 * nu), b * cos2Nu + 0.0727),
    ),
  };
}

/** M1 and L2, which follow the perigee as well as the node. */
function perigeeFactors(
  fM2: number,
  fO1: number,
  xi: number,
  nu: number,
  perigee: number,
  tan2Half: number,
): Pick<NodeFactors, "M1" | "L2"> {
  const cos2P = Math.cos(2 * perigee);
  const q = Math.atan2(0.483 * Math.sin(perigee), Math.cos(perigee));
  const r = Math.atan2(Math.sin(2 * perigee), 1 / (6 * tan2Half) - cos2P);
  return {
    M1: factor(fO1 * Math.sqrt(2.31 + 1.435 * cos2P), q - perigee - nu),
    L2: factor(
      fM2 * Math.sqrt(1 - 12 * tan2Half * cos2P + 36 * tan2Half * tan2Half),
      2 * xi - 2 * nu - r,
    ),
  };
}
