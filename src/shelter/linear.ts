/**
 * Gravity of the published wave formulas and their tables, m/s² (ACES Technical Reference, 1992).
 * Their coefficients were printed with it, so standard gravity is not put in its place.
 */
export const WAVE_GRAVITY_MPS2 = 9.81;

const TWO_PI = 2 * Math.PI;

/**
 * Dimensionless wave number kd of linear theory for a dimensionless depth ω²d/g, by Newton's
 * method on x tanh x = y.
 *
 * @source Airy's linear dispersion relation, (2π/T)² = g k tanh kd
 */
export function waveNumberTimesDepth(y: number): number {
  if (y > 30) return y;
  // Both ends of the scale are exact: x² = y when shallow, x = y when deep.
  let x = y < 1 ? Math.sqrt(y) * (1 + y / 6) : y * (1 + Math.exp(-2 * y) * 2);
  for (let i = 0; i < 8; i++) {
    const t = Math.tanh(x);
    const step = (x * t - y) / (t + x * (1 - t * t));
    x -= step;
    if (Math.abs(step) < 1e-14 * x) break;
  }
  return x;
}

/** Wavelength in metres of a period in a depth. */
export function wavelength(periodS: number, depthM: number): number {
  const omega = TWO_PI / periodS;
  const y = (omega * omega * depthM) / WAVE_GRAVITY_MPS2;
  return (TWO_PI * depthM) / waveNumberTimesDepth(y);
}

/** Ratio of group to phase speed for a given kd: from 1/2 in deep water to 1 in shallow. */
export const groupRatio = (kd: number): number =>
  kd > 30 ? 0.5 : 0.5 * (1 + (2 * kd) / Math.sinh(2 * kd));

/** Height in a depth over height in deep water, waves running straight in. */
export function shoaling(kd: number): number {
  return 1 / Math.sqrt(2 * groupRatio(kd) * Math.tanh(kd));
}

/**
 * Sine of the angle between crest and contour in a depth, from the angle in deep water: Snell's law
 * over straight parallel contours.
 */
export const refractedSine = (kd: number, deepAngleRad: number): number =>
  Math.sin(deepAngleRad) * Math.tanh(kd);

/** Refraction coefficient over straight parallel contours. */
export function refraction(kd: number, deepAngleRad: number): number {
  const s = refractedSine(kd, deepAngleRad);
  return Math.sqrt(Math.cos(deepAngleRad) / Math.sqrt(1 - s * s));
}

/** Greatest height of an individual wave in a depth: 0.78 d (solitary-wave limit, as ACES uses it). */
export const breakingHeight = (depthM: number): number => 0.78 * depthM;

/** Greatest significant height a depth carries: 0.6 d (common practice 0.5 to 0.6 d; the higher is the unsafe side). */
export const significantCap = (depthM: number): number => 0.6 * depthM;

/** Period in seconds of the nth free oscillation of a bay open at one end (Merian). */
export const bayPeriod = (lengthM: number, depthM: number, mode = 0): number =>
  (4 * lengthM) / ((2 * mode + 1) * Math.sqrt(WAVE_GRAVITY_MPS2 * depthM));
