import { surgeCapacityUnchecked } from "../rode/surgeCapacity.js";
import { rope } from "../rode/tackle.js";
import type { Advice } from "./adviceTypes.js";
import type { Hardest } from "./adviceHold.js";
import { laidOut } from "./gear.js";
import type { Study } from "./study.js";

/** The line advised where there is none: polyamide, millimetres and metres (common practice, no source). */
const LINE = { diameterMm: 12, lengthM: 8 } as const;
/** A line that leaves more of the peak than this is not worth fitting (proposed). */
const WORTH = 0.9;
/** Mass with the water she carries along, over displacement. */
const WITH_WATER = 1.08;

/** Peak pull as she falls back from the mean pull into the hardest gust; null where no such lie exists. */
function peakOf(s: Study, h: Hardest, snubbed: boolean): number | null {
  const { tackle } = s.input;
  const line = { fibre: "polyamide", ...LINE } as const;
  const segments = laidOut(snubbed ? { ...tackle, snubber: line } : tackle, s.rode.lengthOutM);
  const { peak } = surgeCapacityUnchecked({
    segments,
    bowHeightAboveAnchorM: h.depthM + s.body.bowHeightM,
    loadFromN: h.meanN,
    surge: { vesselMassKg: WITH_WATER * s.scene.vessel.displacementKg, gustLoadN: h.pullN },
  });
  return peak !== null && Number.isFinite(peak.loadN) ? peak.loadN : null;
}

/** A stretching line where chain alone is out, and what it takes off the peak of the hardest gust. */
export function snubberAdvice(s: Study, h: Hardest, atMs: number): Advice[] {
  const { tackle } = s.input;
  const heightM = h.depthM + s.body.bowHeightM;
  if (tackle.snubber !== undefined || !(s.rode.lengthOutM > 1.2 * heightM)) return [];
  const steel = laidOut(tackle, s.rode.lengthOutM).every(
    (p) => p.axialStiffnessN > STIFF * rope("polyamide", LINE.diameterMm).axialStiffnessN,
  );
  if (!steel) return [];
  const [from, to] = [peakOf(s, h, false), peakOf(s, h, true)];
  if (from === null || to === null || !(to <= WORTH * from)) return [];
  return [
    {
      code: "snubber.fit",
      atMs,
      value: LINE.lengthM,
      buys: { of: "peakPullN", from, to },
      against: null,
      basis: `work and energy of the rode; polyamide of ${LINE.diameterMm} mm as she falls back from the mean wind into the hardest gust`,
    },
  ];
}

/** A rode this many times stiffer than the line gives as good as nothing. */
const STIFF = 10;
