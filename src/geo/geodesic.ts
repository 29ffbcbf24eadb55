import { RAD, wrap180, wrap360 } from "../core/angles.js";
import { bracketedRoot } from "../core/roots.js";
import type { Position } from "../core/schema.js";
import { E2_SECOND, FLATTENING, POLE_M } from "./ellipsoid.js";

/** The shortest way between two positions. */
export interface Course {
  /** Length of the geodesic. */
  distanceM: number;
  /** Bearing of the second position at the first, [0, 360); 0 where the two coincide. */
  bearingDeg: number;
}

/** Arc on the auxiliary sphere from one reduced latitude to another. */
interface Arc {
  sinSigma: number;
  cosSigma: number;
  sigma: number;
  /** Cosine squared of the azimuth at the equator. */
  cos2Alpha: number;
  /** Cosine of twice the angle from the equator to the middle of the arc. */
  cos2Mid: number;
}

/** Sine and cosine of the reduced latitude, exact at the poles. */
function reduced(latDeg: number): { sin: number; cos: number } {
  const phi = latDeg * RAD;
  const s = (1 - FLATTENING) * Math.sin(phi);
  const c = Math.abs(latDeg) === 90 ? 0 : Math.cos(phi);
  const r = Math.sqrt(s * s + c * c);
  return { sin: s / r, cos: c / r };
}

/** Helmert's expansion parameter, from the cosine squared of the azimuth at the equator. */
function helmert(cos2Alpha: number): number {
  const root = Math.sqrt(1 + E2_SECOND * cos2Alpha);
  return (root - 1) / (root + 1);
}

const scaleA = (k: number): number => (1 + (k * k) / 4) / (1 - k);
const scaleB = (k: number): number => k * (1 - 0.375 * k * k);

/** Vincenty's correction of the spherical arc, equation 6. */
function deltaSigma(b: number, sin: number, cos: number, mid: number): number {
  const m2 = mid * mid;
  return (
    b *
    sin *
    (mid + (b / 4) * (cos * (2 * m2 - 1) - (b / 6) * mid * (4 * sin * sin - 3) * (4 * m2 - 3)))
  );
}

/** Longitude on the ellipsoid less longitude on the sphere, equations 10 and 11, with its sign turned. */
function longitudeExcess(sinAlpha: number, arc: Arc): number {
  const c = (FLATTENING / 16) * arc.cos2Alpha * (4 + FLATTENING * (4 - 3 * arc.cos2Alpha));
  const m = arc.cos2Mid;
  return (
    (1 - c) *
    FLATTENING *
    sinAlpha *
    (arc.sigma + c * arc.sinSigma * (m + c * arc.cosSigma * (2 * m * m - 1)))
  );
}

const lengthOf = (arc: Arc): number => {
  const k = helmert(arc.cos2Alpha);
  const shift = deltaSigma(scaleB(k), arc.sinSigma, arc.cosSigma, arc.cos2Mid);
  return POLE_M * scaleA(k) * (arc.sigma - shift);
};

/**
 * Length and first bearing of the geodesic from `a` to `b` on WGS 84. Vincenty's inverse with
 * Helmert's parameter; where that does not settle (nearly antipodal pairs) the first bearing is
 * bracketed instead, so an answer always comes.
 *
 * @source T. Vincenty, Survey Review XXIII (176), 1975; C. F. F. Karney, Journal of Geodesy 87 (2013), section 4 (bracketing)
 */
export function geodesicInverse(a: Position, b: Position): Course {
  const u1 = reduced(a.latDeg);
  const u2 = reduced(b.latDeg);
  const lonDeg = wrap180(b.lonDeg - a.lonDeg);
  const lon = lonDeg * RAD;
  let lambda = lon;
  for (let i = 0; i < 20; i++) {
    const sinL = Math.sin(lambda);
    const cosL = Math.cos(lambda);
    const east = u2.cos * sinL;
    const north = u1.cos * u2.sin - u1.sin * u2.cos * cosL;
    const sinSigma = Math.sqrt(east * east + north * north);
    const cosSigma = u1.sin * u2.sin + u1.cos * u2.cos * cosL;
    if (sinSigma === 0 && cosSigma > 0) return { distanceM: 0, bearingDeg: 0 };
    const sinAlpha = sinSigma === 0 ? 0 : (u1.cos * u2.cos * sinL) / sinSigma;
    const cos2Alpha = 1 - sinAlpha * sinAlpha;
    const sigma = Math.atan2(sinSigma, cosSigma);
    const cos2Mid = cos2Alpha > 0 ? cosSigma - (2 * u1.sin * u2.sin) / cos2Alpha : 0;
    const arc = { sinSigma, cosSigma, sigma, cos2Alpha, cos2Mid };
    const next = lon + longitudeExcess(sinAlpha, arc);
    const step = Math.abs(next - lambda);
    lambda = next;
    if (!(Math.abs(lambda) < Math.PI)) break;
    if (step < 1e-13)
      return {
        distanceM: lengthOf(arc),
        bearingDeg: wrap360(Math.atan2(east, north) / RAD),
      };
  }
  return nearAntipodes(a, b, lonDeg);
}

/**
 * The inverse near the antipodes: with the point of the higher latitude first and in the south,
 * the longitude reached at the other's latitude grows steadily with the first azimuth, so the
 * azimuth can be bracketed.
 */
function nearAntipodes(a: Position, b: Position, lonDeg: number): Course {
  const swap = Math.abs(a.latDeg) < Math.abs(b.latDeg);
  const [first, second] = swap ? [b, a] : [a, b];
  const flip = first.latDeg > 0 ? -1 : 1;
  const u1 = reduced(-Math.abs(first.latDeg));
  const u2 = reduced(flip * second.latDeg + 0);
  const lon = Math.abs(lonDeg) * RAD;
  const alpha = bracketedRoot((x) => arcTo(u1, u2, x).lon - lon, 0, Math.PI, 1e-15);
  // Only a pair on one meridian leaves no sign change: it goes straight over the pole.
  const { arc, azimuth2 } = arcTo(u1, u2, Number.isNaN(alpha) ? 0 : alpha);
  const east = lonDeg < 0 ? -1 : 1;
  const away = Number.isNaN(alpha) ? 0 : alpha;
  const atA = swap ? Math.PI - azimuth2 : away;
  const north = flip * Math.cos(atA);
  return {
    distanceM: lengthOf(arc),
    bearingDeg: wrap360(Math.atan2(east * Math.sin(atA), north) / RAD),
  };
}

interface Leg {
  arc: Arc;
  lon: number;
  azimuth2: number;
}

/** Arc that leaves the first latitude at an azimuth and comes to the second going north. */
function arcTo(
  u1: { sin: number; cos: number },
  u2: { sin: number; cos: number },
  alpha1: number,
): Leg {
  const sin1 = Math.sin(alpha1);
  const cos1 = Math.cos(alpha1);
  const sin0 = sin1 * u1.cos;
  const cos2Alpha = 1 - sin0 * sin0;
  const sin2 = u2.cos === 0 ? 0 : sin0 / u2.cos;
  const cos2 =
    Math.sqrt(Math.max(0, cos1 * cos1 * u1.cos * u1.cos + (u2.cos * u2.cos - u1.cos * u1.cos))) /
    (u2.cos === 0 ? 1 : u2.cos);
  const s1 = Math.atan2(u1.sin, cos1 * u1.cos);
  const s2 = Math.atan2(u2.sin, cos2 * u2.cos);
  const w1 = Math.atan2(sin0 * u1.sin, cos1 * u1.cos);
  const w2 = Math.atan2(sin0 * u2.sin, cos2 * u2.cos);
  const sigma = s2 - s1;
  const sum = Math.cos(s1 + s2);
  const arc = {
    sinSigma: Math.sin(sigma),
    cosSigma: Math.cos(sigma),
    sigma,
    cos2Alpha,
    cos2Mid: sum,
  };
  const lon = w2 - w1 - longitudeExcess(sin0, arc);
  return { arc, lon, azimuth2: Math.atan2(sin2, cos2) };
}

/** Spherical arc of a length already put in polar radii: Vincenty's equations 5 to 7, settled by repetition. */
function arcOf(plain: number, b: number, sigma1: number): number {
  let sigma = plain;
  for (let i = 0; i < 20; i++) {
    const mid = Math.cos(2 * sigma1 + sigma);
    const next = plain + deltaSigma(b, Math.sin(sigma), Math.cos(sigma), mid);
    const step = Math.abs(next - sigma);
    sigma = next;
    if (step < 1e-14) break;
  }
  return sigma;
}

/**
 * Position reached from `a` along a first bearing and a distance on WGS 84, by Vincenty's direct
 * formulae with Helmert's parameter; longitude in [-180, 180).
 *
 * @source T. Vincenty, Survey Review XXIII (176), 1975
 */
export function geodesicDirect(a: Position, bearingDeg: number, distanceM: number): Position {
  const u1 = reduced(a.latDeg);
  const sin1 = Math.sin(bearingDeg * RAD);
  const cos1 = Math.cos(bearingDeg * RAD);
  const sigma1 = Math.atan2(u1.sin, u1.cos * cos1);
  const sinAlpha = u1.cos * sin1;
  const cos2Alpha = 1 - sinAlpha * sinAlpha;
  const k = helmert(cos2Alpha);
  const sigma = arcOf(distanceM / (POLE_M * scaleA(k)), scaleB(k), sigma1);
  const sinSigma = Math.sin(sigma);
  const cosSigma = Math.cos(sigma);
  const across = u1.sin * sinSigma - u1.cos * cosSigma * cos1;
  const lat = Math.atan2(
    u1.sin * cosSigma + u1.cos * sinSigma * cos1,
    (1 - FLATTENING) * Math.sqrt(sinAlpha * sinAlpha + across * across),
  );
  const lambda = Math.atan2(sinSigma * sin1, u1.cos * cosSigma - u1.sin * sinSigma * cos1);
  const cos2Mid = Math.cos(2 * sigma1 + sigma);
  const arc = { sinSigma, cosSigma, sigma, cos2Alpha, cos2Mid };
  const lon = lambda - longitudeExcess(sinAlpha, arc);
  return {
    latDeg: lat / RAD,
    lonDeg: wrap180(a.lonDeg + lon / RAD),
  };
}
