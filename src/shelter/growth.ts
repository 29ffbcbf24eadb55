import { significantCap, WAVE_GRAVITY_MPS2 as G } from "./linear.js";

/** Published growth laws of wind waves that the library knows. */
export const GROWTH_METHODS = [
  "acesRestricted",
  "acesOpen",
  "spm84",
  "cem",
  "wilson",
  "jonswap",
  "kahmaCalkoen",
  "youngVerhagen",
] as const;
/** A published growth law of wind waves. */
export type GrowthMethod = (typeof GROWTH_METHODS)[number];

/** Where a growth law writes its answer, so that nothing is allocated. */
export interface Growth {
  /** Significant height, Hm0 or Hs as the method gives it. */
  hm0M: number;
  /** Period as the method gives it: peak, or significant for `wilson`. */
  periodS: number;
  /** Time for the sea to become limited by its fetch; NaN where the method has no such law. */
  minDurationS: number;
}

/** Wind over the sea as the growth laws take it: numbers only, Infinity for no limit. */
export interface Blow {
  /** Mean wind at 10 m; its component along the fetch for an off-wind fetch. */
  windMps: number;
  /** Cosine of the angle between the wind and the waves; 1 for waves straight down the wind. */
  cosine: number;
  fetchM: number;
  /** Mean water depth along the fetch. */
  depthM: number;
  /** How long the wind has blown so. */
  durationS: number;
}

const power = (x: number, p: number): number => Math.exp(p * Math.log(x));

/** Wind speed adjusted for drag as ACES does it (Technical Reference eq. 24–25). */
export const acesAdjustedWind = (windMps: number): number =>
  windMps * Math.sqrt(0.75 + 0.067 * windMps);
/** Wind-stress factor of the Shore Protection Manual, 1984: 0.71 U^1.23. */
const spmAdjustedWind = (windMps: number): number => 0.71 * power(windMps, 1.23);
/** Friction velocity by the drag law of the Coastal Engineering Manual. */
const frictionVelocity = (windMps: number): number =>
  windMps * Math.sqrt(0.001 * (1.1 + 0.035 * windMps));

/** Coefficients of the laws of one form: height, period and least duration in powers of gF/u². */
interface PowerLaw {
  h: number;
  t: number;
  tExponent: number;
  /** Least duration gt/u = d (gF/u²)^dExponent. */
  d: number;
  dExponent: number;
  /** Duration-limited height and period: gH/u² = hd (gt/u)^hdExponent, gT/u = td (gt/u)^tdExponent. */
  hd: number;
  hdExponent: number;
  td: number;
  tdExponent: number;
}

/** ACES Technical Reference 1-1, eq. 33–35 and 43–44, open water. */
const OPEN: PowerLaw = {
  h: 1.6e-3,
  t: 0.2857,
  tExponent: 1 / 3,
  d: 68.8,
  dExponent: 2 / 3,
  hd: 8.51e-5,
  hdExponent: 5 / 7,
  td: 0.0702,
  tdExponent: 0.411,
};
/** ACES Technical Reference 1-1, restricted fetch. */
const RESTRICTED: PowerLaw = {
  h: 1.5e-3,
  t: 0.3704,
  tExponent: 0.28,
  d: 51.09,
  dExponent: 0.72,
  hd: 1.03e-4,
  hdExponent: 0.69,
  td: 0.082,
  tdExponent: 0.39,
};

/**
 * Growth by the Shore Protection Manual's laws with Vincent's depth limit. The least of the fetch- and
 * the duration-limited figure goes into the depth form, so the sea never falls as the wind lasts.
 */
function powerLaw(law: PowerLaw, u: number, capWindMps: number, blow: Blow, out: Growth): void {
  const x = (G * blow.fetchM) / (u * u);
  const tau = (G * blow.durationS) / u;
  out.minDurationS = (law.d * power(x, law.dExponent) * u) / G;
  const short = blow.durationS < out.minDurationS;
  let h = law.h * Math.sqrt(x);
  let t = law.t * power(x, law.tExponent);
  if (short) h = Math.min(h, law.hd * power(tau, law.hdExponent));
  if (short) t = Math.min(t, law.td * power(tau, law.tdExponent));
  if (Number.isFinite(blow.depthM)) {
    const d = (G * blow.depthM) / (u * u);
    const root = Math.sqrt(d);
    const a = 0.283 * Math.tanh(0.53 * root * Math.sqrt(root));
    const b = 7.54 * Math.tanh(0.833 * power(d, 0.375));
    h = a * Math.tanh(h / a);
    t = b * Math.tanh(t / b);
  }
  const full = (capWindMps * capWindMps) / G;
  out.hm0M = Math.min((h * u * u) / G, 0.2433 * full);
  out.periodS = Math.min((t * u) / G, (8.134 * capWindMps) / G);
}

/** Coastal Engineering Manual, with its printed period coefficient 0.651 and equivalent fetch for a short blow. */
function cem(blow: Blow, out: Growth): void {
  const wind = blow.windMps * blow.cosine;
  const u = frictionVelocity(wind);
  const equivalent = 5.23e-3 * power((G * blow.durationS) / u, 1.5);
  const x = Math.min((G * blow.fetchM) / (u * u), equivalent);
  out.hm0M = (Math.min(4.13e-2 * Math.sqrt(x), 211.5) * u * u) / G;
  out.periodS = (Math.min(0.651 * Math.cbrt(x), 239.8) * u) / G;
  out.minDurationS = (77.23 * power(blow.fetchM, 0.67)) / (power(wind, 0.34) * power(G, 0.33));
}

/** Wilson 1965. A short blow is a shorter fetch: the one whose least duration it is. */
function wilson(blow: Blow, out: Growth): void {
  const u = blow.windMps * blow.cosine;
  const rate = power(u, 0.46) * power(G, 0.27);
  const reach = power((blow.durationS * rate) / 43, 1 / 0.73);
  const x = (G * Math.min(blow.fetchM, reach)) / (u * u);
  const a = 1 + 0.004 * Math.sqrt(x);
  const b = 1 + 0.008 * Math.cbrt(x);
  out.hm0M = (0.3 * (1 - 1 / (a * a)) * u * u) / G;
  out.periodS = (8.61 * (1 - 1 / (b * b * b * b * b)) * u) / G;
  out.minDurationS = (43 * power(blow.fetchM, 0.73)) / rate;
}

/** Significant height of a dimensionless energy g²E/u⁴. */
const heightOf = (energy: number, u: number): number => (4 * Math.sqrt(energy) * u * u) / G;

/** JONSWAP 1973: energy 1.6e-7 x, peak frequency 3.5 x^-0.33, up to the fully developed sea. */
function jonswap(blow: Blow, out: Growth): void {
  const u = blow.windMps * blow.cosine;
  const x = (G * blow.fetchM) / (u * u);
  out.hm0M = Math.min(heightOf(1.6e-7 * x, u), (0.2433 * u * u) / G);
  out.periodS = Math.min((power(x, 0.33) / 3.5) * (u / G), (8.134 * u) / G);
  out.minDurationS = NaN;
}

/** Kahma & Calkoen 1992, composite data set. */
function kahmaCalkoen(blow: Blow, out: Growth): void {
  const u = blow.windMps * blow.cosine;
  const x = (G * blow.fetchM) / (u * u);
  out.hm0M = Math.min(heightOf(5.2e-7 * power(x, 0.9), u), (0.2433 * u * u) / G);
  out.periodS = Math.min(((2 * Math.PI) / 13.7) * power(x, 0.27) * (u / G), (8.134 * u) / G);
  out.minDurationS = NaN;
}

/**
 * Young & Verhagen 1996, finite depth; in unlimited depth its deep-water limit. Of the limits of Young & Babanin
 * 2006 only that of the period is ever met: the one of energy, 1e-3 δ^1.2, lies above the form at every depth.
 */
function youngVerhagen(blow: Blow, out: Growth): void {
  const u = blow.windMps * blow.cosine;
  const chi = (G * blow.fetchM) / (u * u);
  const delta = (G * blow.depthM) / (u * u);
  const a1 = Math.tanh(0.493 * power(delta, 0.75));
  const b1 = 3.13e-3 * power(chi, 0.57);
  const a2 = Math.tanh(0.331 * power(delta, 1.01));
  const b2 = 5.215e-4 * power(chi, 0.73);
  const energy = 3.64e-3 * power(a1 * Math.tanh(b1 / a1), 1.74);
  out.hm0M = heightOf(energy, u);
  const nu = 0.133 * power(a2 * Math.tanh(b2 / a2), -0.37);
  out.periodS = u / (G * Math.max(nu, 0.2 * power(delta, -0.375)));
  out.minDurationS = NaN;
}

/** Height and period by one growth law. Calm, or no fetch, gives no sea. */
export function grow(method: GrowthMethod, blow: Blow, out: Growth): void {
  if (!(blow.windMps * blow.cosine > 0.01 && blow.fetchM > 0)) {
    const unknown = Number.isNaN(blow.windMps + blow.cosine + blow.fetchM);
    out.hm0M = out.periodS = unknown ? NaN : 0;
    out.minDurationS = 0;
    return;
  }
  switch (method) {
    case "acesRestricted":
      restricted(RESTRICTED, acesAdjustedWind, blow, out);
      break;
    case "acesOpen":
      restricted(OPEN, acesAdjustedWind, blow, out);
      break;
    case "spm84":
      spm84(blow, out);
      break;
    case "cem":
      cem(blow, out);
      break;
    case "wilson":
      wilson(blow, out);
      break;
    case "jonswap":
      jonswap(blow, out);
      break;
    case "kahmaCalkoen":
      kahmaCalkoen(blow, out);
      break;
    case "youngVerhagen":
      youngVerhagen(blow, out);
      break;
  }
}

function restricted(
  law: PowerLaw,
  adjust: (windMps: number) => number,
  blow: Blow,
  out: Growth,
): void {
  powerLaw(law, adjust(blow.windMps) * blow.cosine, blow.windMps, blow, out);
}

/** Shore Protection Manual 1984: its full development too is told in the adjusted wind (eq. 3-36 to 3-38), that of ACES in the wind itself. */
function spm84(blow: Blow, out: Growth): void {
  const u = spmAdjustedWind(blow.windMps) * blow.cosine;
  powerLaw(OPEN, u, u, blow, out);
}

/** Laws that bracket the chosen one: the lowest and the highest of those usual for short fetch. */
export const BRACKET = ["youngVerhagen", "kahmaCalkoen"] as const;

/**
 * Sea by one law of the bracket under the conditions of the chosen law: a short blow is the fetch whose least
 * duration it is by the chosen law, and a law for deep water is capped by the depth.
 */
export function growAlike(
  method: GrowthMethod,
  chosen: "acesRestricted" | "acesOpen",
  blow: Blow,
  out: Growth,
): void {
  if (method === chosen) {
    grow(method, blow, out);
    return;
  }
  const law = chosen === "acesRestricted" ? RESTRICTED : OPEN;
  const u = acesAdjustedWind(blow.windMps) * blow.cosine;
  const whole = blow.fetchM;
  if (u > 0) {
    const x = power((blow.durationS * G) / (u * law.d), 1 / law.dExponent);
    blow.fetchM = Math.min(whole, (x * u * u) / G);
  }
  grow(method, blow, out);
  blow.fetchM = whole;
  out.hm0M = Math.min(out.hm0M, significantCap(blow.depthM));
}

/** Time in which an adjusted wind raises a sea of this height where neither fetch nor depth limits it; none for a calm. */
export function durationOf(hm0M: number, adjustedMps: number): number {
  if (adjustedMps === 0) return 0;
  const h = (G * hm0M) / (adjustedMps * adjustedMps);
  const tau = power(h / RESTRICTED.hd, 1 / RESTRICTED.hdExponent);
  return (tau * adjustedMps) / G;
}
