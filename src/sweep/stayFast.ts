import { wrap360 } from "../core/angles.js";
import type { Chart } from "../chart/chart.js";
import { fillVessel, type Vessel } from "../lie/vessel.js";
import { lieOverStay, type LieColumnsOfStay } from "../plan/columns.js";
import { preparedOut } from "../plan/gear.js";
import { gripOf, type Grip } from "../plan/grip.js";
import { anchorDepth, bedOf, type AnchorDepth } from "../plan/ground.js";
import type { CheckedStay } from "../plan/input.js";
import { prepareBody } from "../plan/lying.js";
import type { Scene } from "../plan/scene.js";
import { rodePlan, type RodePlan } from "../plan/veer.js";
import { prepareRode } from "../rode/prepare.js";
import { directionSigma } from "../shelter/spread.js";
import type { EvaluateOne } from "./model.js";
import { changedBerth } from "./stayChange.js";
import { STAY_IN, STAY_OUT } from "./stayTable.js";

/** A ratio where nothing pulls. */
const BEYOND_NEED = 1e9;

/** The greatest of some values, NaN if one is not known. */
const most = (values: Float64Array): number => {
  let x = -Infinity;
  for (const v of values) if (!(v <= x)) x = Number.isNaN(x) ? x : v;
  return x;
};
/** The least, NaN if one is not known. */
const least = (values: Float64Array): number => {
  let x = Infinity;
  for (const v of values) if (!(v >= x)) x = Number.isNaN(x) ? x : v;
  return x;
};

/**
 * Depth, pull, rode and holding of a stay, from the pieces the plan is made of: no chart but for
 * the depth at the anchor, no sea. The scene of the stay as given is worked out once.
 */
export function fastStay(
  stay: CheckedStay,
  base: Scene,
  chart: Chart | null,
  needsLength: boolean,
): EvaluateOne {
  const scene = copyOf(base);
  const grip = gripKeeper();
  // What pulls does not hang on the rode: the cheapest there is will do.
  const anyRode = prepareRode({
    segments: [{ lengthM: 4000, weightInWaterNPerM: 1e3, axialStiffnessN: 1e15 }],
  });
  return (p, out) => {
    const berth = changedBerth(stay, p);
    const vessel = Number.isNaN(p[STAY_IN.draughtM]) ? base.vessel : fillVessel(berth.vessel);
    changeScene(stay, base, scene, p);
    const at = anchorDepth(berth, chart);
    const given = berth.tackle.lengthOutM;
    const rode =
      given !== undefined && !needsLength
        ? null
        : rodeOf(
            berth,
            scene,
            at,
            vessel,
            lieOverStay(scene, prepareBody(vessel, anyRode), at.chartedM).gustPullN,
          );
    const lengthM = given ?? rode!.lengthOutM;
    const lie = lieOverStay(
      scene,
      prepareBody(vessel, preparedOut(berth.tackle, lengthM)),
      at.chartedM,
    );
    depths(scene, at, vessel, out);
    pulls(lie, out);
    out[STAY_OUT.rodeOutM] = lengthM;
    out[STAY_OUT.lengthForPullM] = rode?.forPullM ?? NaN;
    holds(grip(berth, chart), lie, out);
  };
}

const copyOf = (s: Scene): Scene => ({
  ...s,
  tideLowM: s.tideLowM.slice(),
  tideM: s.tideM.slice(),
  tideHighM: s.tideHighM.slice(),
  windMps: s.windMps.slice(),
  windFromDeg: s.windFromDeg.slice(),
  gustMps: s.gustMps.slice(),
  sigmaDeg: s.sigmaDeg.slice(),
  streamMps: s.streamMps.slice(),
});

/** Write the wind and water of a scenario over those of the one before. */
function changeScene(stay: CheckedStay, base: Scene, scene: Scene, p: Float64Array): void {
  const factor = p[STAY_IN.windFactor]!;
  const turn = p[STAY_IN.windTurnDeg]!;
  const rise = p[STAY_IN.surgeM]!;
  const stream = p[STAY_IN.streamFactor]!;
  const issuedMs = stay.forecast?.issuedMs ?? stay.forecast?.rows[0]?.timeMs ?? NaN;
  const given = stay.forecast?.directionSigmaDeg;
  for (let i = 0; i < scene.timeMs.length; i++) {
    scene.tideLowM[i] = base.tideLowM[i]! + rise;
    scene.tideM[i] = base.tideM[i]! + rise;
    scene.tideHighM[i] = base.tideHighM[i]! + rise;
    scene.windMps[i] = base.windMps[i]! * factor;
    scene.gustMps[i] = base.gustMps[i]! * factor;
    scene.windFromDeg[i] = wrap360(base.windFromDeg[i]! + turn);
    scene.sigmaDeg[i] = given ?? directionSigma(scene.windMps[i]!, scene.timeMs[i]! - issuedMs);
    scene.streamMps[i] = base.streamMps[i]! * stream;
  }
}

function rodeOf(
  berth: CheckedStay,
  { timeMs, tideM, tideHighM }: Scene,
  at: AnchorDepth,
  { bowHeightM }: Vessel,
  pullN: Float64Array,
): RodePlan {
  const heightM = tideHighM.map((t) => at.deepM + t + bowHeightM);
  const firstM = at.chartedM + tideM[0]!;
  return rodePlan(
    berth,
    bowHeightM,
    most(tideHighM) + at.deepM,
    Number.isNaN(firstM) ? null : firstM,
    {
      timeMs,
      heightM,
      pullN,
    },
  );
}

function depths(scene: Scene, at: AnchorDepth, { draughtM }: Vessel, out: Float64Array): void {
  const leastM = at.chartedM + least(scene.tideM);
  out[STAY_OUT.leastDepthM] = leastM;
  out[STAY_OUT.greatestDepthM] = at.chartedM + most(scene.tideM);
  out[STAY_OUT.underKeelM] = leastM - draughtM;
  out[STAY_OUT.underKeelLowM] = at.chartedM + least(scene.tideLowM) - draughtM;
}

function pulls(lie: LieColumnsOfStay, out: Float64Array): void {
  out[STAY_OUT.pullN] = most(lie.pullN);
  out[STAY_OUT.gustPullN] = most(lie.gustPullN);
  out[STAY_OUT.gustPullHighN] = most(lie.gustPullHighN);
  out[STAY_OUT.reachM] = most(lie.gustReachM);
  out[STAY_OUT.pullAngleDeg] = most(lie.angleDeg);
}

function holds(grip: Grip | null, lie: LieColumnsOfStay, out: Float64Array): void {
  out[STAY_OUT.holdingRatio] = NaN;
  out[STAY_OUT.holdingRatioWorst] = NaN;
  if (grip === null) return;
  const ratio = (hold: (deg: number) => number, pullN: Float64Array) =>
    least(
      pullN.map((pull, i) =>
        pull === 0 ? BEYOND_NEED : Math.min(BEYOND_NEED, hold(lie.angleDeg[i]!) / pull),
      ),
    );
  out[STAY_OUT.holdingRatio] = ratio(grip.likely, lie.gustPullN);
  out[STAY_OUT.holdingRatioWorst] = ratio(grip.low, lie.gustPullHighN);
}

/** Holding of anchors in beds, each worked out once; a mass drawn anew every time is worked out every time. */
function gripKeeper() {
  const kept = new Map<string, Grip | null>();
  return (berth: CheckedStay, chart: Chart | null): Grip | null => {
    const { anchor, provedN } = berth.tackle;
    const at = berth.seabed === undefined ? berth.position : null;
    const key = JSON.stringify([anchor, berth.seabed, at, provedN]);
    let found = kept.get(key);
    if (found === undefined) {
      const bed = bedOf(berth, chart);
      found = bed.beds.length > 0 ? gripOf(anchor, bed, provedN) : null;
      if (kept.size > 10_000) kept.clear();
      kept.set(key, found);
    }
    return found;
  };
}
