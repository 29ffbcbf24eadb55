import { turnDeg } from "../core/angles.js";
import { noBlow, noGrowth, seaAt } from "./berth.js";
import { asHeadSea, beamPart, CLASS_LIMITS } from "./comfort.js";
import type { PreparedStay } from "./prepareStay.js";
import type { Step } from "./run.js";
import type { OpenSector } from "./shelterTypes.js";

const TOLERABLE = CLASS_LIMITS[1]!;

/**
 * Winds that bring a sea worse than tolerable, at the strongest mean wind of the stay, the vessel lying to them and
 * the highest swell of the stay with it; with the most open fan.
 */
export function opensTo({ levels }: PreparedStay, steps: readonly Step[]): OpenSector[] {
  const { berth } = levels[levels.length - 1]!;
  const wind = steps.reduce((most, s) => Math.max(most, s.wind.windMps || 0), 0);
  const swell = steps.reduce((a, { swell: b }) => (b.hm0M > a.hm0M ? b : a), {
    hm0M: 0,
    periodS: 0,
    fromDeg: 0,
  });
  const swellM = swell.hm0M;
  const blow = noBlow();
  const growth = noGrowth();
  const height = new Float64Array(360);
  const open: boolean[] = [];
  for (let d = 0; d < 360; d++) {
    seaAt(berth, wind, d, Infinity, blow, growth);
    const h = growth.hm0M;
    height[d] = Math.sqrt(h * h + swellM * swellM);
    const felt = asHeadSea(
      TOLERABLE,
      h,
      beamPart(berth.table.turnDeg[d]!),
      swellM,
      beamPart(turnDeg(d, swell.fromDeg)),
    );
    open.push(!(felt <= TOLERABLE.headM));
  }
  return sectorsOf(open, height);
}

/** Runs of open degrees, round the compass. */
function sectorsOf(open: readonly boolean[], height: Float64Array): OpenSector[] {
  const start = open.indexOf(false);
  if (start < 0) return [sector(0, 359, height)];
  const sectors: OpenSector[] = [];
  let from = -1;
  for (let k = 1; k <= 360; k++) {
    const d = start + k;
    if (open[d % 360]! && from < 0) from = d;
    if (!open[d % 360]! && from >= 0) {
      sectors.push(sector(from, d - 1, height));
      from = -1;
    }
  }
  return sectors;
}

function sector(from: number, to: number, height: Float64Array): OpenSector {
  let worst = from;
  for (let d = from; d <= to; d++) if (height[d % 360]! > height[worst % 360]!) worst = d;
  return {
    fromDeg: from % 360,
    toDeg: to % 360,
    worstM: height[worst % 360]!,
    worstFromDeg: worst % 360,
  };
}
