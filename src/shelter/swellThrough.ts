import type * as z from "zod/mini";
import { RAD, turnDeg } from "../core/angles.js";
import type { Range3, Reason } from "../core/judgement.js";
import {
  bayPeriod,
  refraction,
  shoaling,
  significantCap,
  WAVE_GRAVITY_MPS2,
  waveNumberTimesDepth,
} from "./linear.js";
import { REFLECTION, reflected } from "./reflection.js";
import { type SwellShare, swellShare } from "./swell.js";
import type { baySchema, SwellAt, swellSchema } from "./swellTypes.js";
import type { Gap } from "./window.js";

type Bay = z.output<typeof baySchema>;
type Swell = z.output<typeof swellSchema>;

/** Refraction by the shape of a bay whose contours are not known: 0.5 to 1.3, proposed, not published. */
const UNKNOWN_REFRACTION: Range3 = { low: 0.5, likely: 1, high: 1.3 };

/** Part of its height at which a swell of ten seconds or more is scored in any bay; proposed, not published. */
const LONG_SWELL_FLOOR = 0.1;
const LONG_SWELL_S = 10;

/**
 * Least part of its height a swell is scored at: it bends into almost every bay open to one side, the longer the
 * more, by the square of the period up to ten seconds.
 */
const leastShare = (periodS: number): number => {
  const part = Math.min(1, periodS / LONG_SWELL_S);
  return LONG_SWELL_FLOOR * part * part;
};

/** Swell through gaps to a depth; input checked. */
export function swellThrough(
  gaps: readonly Gap[],
  swell: Swell,
  depthM: number,
  bay: Bay,
): SwellAt {
  const { hm0M, periodS, fromDeg } = swell;
  const omega = (2 * Math.PI) / periodS;
  const kd = waveNumberTimesDepth((omega * omega * depthM) / WAVE_GRAVITY_MPS2);
  const wavelengthM = (2 * Math.PI * depthM) / kd;
  const share = swellShare(gaps, fromDeg, swell.spreadS, wavelengthM);
  const floor = leastShare(periodS);
  const shareFactor = Math.max(share.window, share.diffraction, floor);
  const shoalingFactor = shoaling(kd);
  const refractionFactor = refractionOf(bay.seawardDeg, fromDeg, kd);
  const back = reflectionOf(bay.reflector, wavelengthM);
  const bend = refractionFactor ?? UNKNOWN_REFRACTION;
  const arrives = hm0M * shareFactor * shoalingFactor;
  const hm0RangeM = capped(arrives, bend, back, significantCap(depthM));
  return {
    hm0M: hm0RangeM.likely,
    hm0RangeM,
    periodS,
    fromDeg: share.fromDeg,
    windowFactor: share.window,
    diffractionFactor: share.diffraction,
    shareFactor,
    shoalingFactor,
    refractionFactor,
    reflectionFactor: back.likely,
    wavelengthM,
    capped: hm0RangeM.likely === significantCap(depthM),
    reasons: [...shareReasons(share, floor, periodS), ...bayReasons(bay, depthM)],
  };
}

/** Height after refraction and reflection, at most the cap. */
function capped(heightM: number, bend: number | Range3, back: Range3, capM: number): Range3 {
  const at = (which: keyof Range3): number => {
    const factor = typeof bend === "number" ? bend : bend[which];
    return Math.min(capM, heightM * factor * back[which]);
  };
  return { low: at("low"), likely: at("likely"), high: at("high") };
}

/**
 * Refraction over straight contours; a swell from behind the slope is taken square to it, and one that runs along it
 * by no less than where nothing is known of them, for its spread brings part of it in less aslant.
 */
function refractionOf(seawardDeg: number | undefined, fromDeg: number, kd: number): number | null {
  if (seawardDeg === undefined) return null;
  const off = Math.abs(turnDeg(seawardDeg, fromDeg));
  return off < 90 ? Math.max(UNKNOWN_REFRACTION.low, refraction(kd, off * RAD)) : 1;
}

const NONE: Range3 = { low: 1, likely: 1, high: 1 };

function reflectionOf(reflector: Bay["reflector"], wavelengthM: number): Range3 {
  if (reflector === undefined) return NONE;
  const { shore, distanceM } = reflector;
  const by = REFLECTION[shore];
  return {
    low: reflected(by.low, distanceM, wavelengthM),
    likely: reflected(by.likely, distanceM, wavelengthM),
    high: reflected(by.high, distanceM, wavelengthM),
  };
}

function shareReasons(
  { window, diffraction }: SwellShare,
  floor: number,
  periodS: number,
): Reason[] {
  if (window >= floor || diffraction >= floor) return [];
  return [
    {
      code: "swell.leastShare",
      severity: "caution",
      value: Math.max(window, diffraction),
      limit: floor,
      basis: `a swell of ${periodS} s is never scored below this part of its height: proposed, not published`,
    },
  ];
}

/** Cautions of surge and of a mouth that narrows; nothing is added to the height for them. */
function bayReasons(bay: Bay, depthM: number): Reason[] {
  const reasons: Reason[] = [];
  if (bay.lengthM !== undefined)
    reasons.push({
      code: "swell.surge",
      severity: "caution",
      value: bayPeriod(bay.lengthM, depthM),
      limit: null,
      basis:
        "period in s at which the bay may surge: Merian, T = 4L/√(gd); Coastal Engineering Manual II-7-5",
    });
  const ratio = bay.mouthOverBerthWidth;
  if (ratio !== undefined && !(ratio <= 1))
    reasons.push({
      code: "swell.funnelling",
      severity: "caution",
      value: Math.sqrt(ratio),
      limit: 1,
      basis:
        "the bay narrows inwards: Green's law, height by the root of the widths, from memory; not added",
    });
  return reasons;
}
