import { RAD } from "../core/angles.js";
import { refuse } from "../core/errors.js";
import { LIE, lieCoefficients, lieKernel } from "../lie/kernel.js";
import { sheerFactor } from "../lie/lie.js";
import { fillVessel, type Vessel } from "../lie/vessel.js";
import {
  ANCHOR_HORIZONTAL,
  ANCHOR_VERTICAL,
  BOW_TENSION,
  COLUMNS,
  LIFTED,
  ON_BOTTOM,
  REACH,
} from "../rode/kernel.js";
import { solveForward } from "../rode/solve.js";
import { chain, rope } from "../rode/tackle.js";
import { anchorTypes, bedNames } from "../holding/beds.js";
import { holdingTable, type HoldingTable } from "./holdingTable.js";
import type { CheckedSweep } from "./input.js";
import type { Evaluate, Model } from "./model.js";
import {
  HOLDING_OUTPUTS,
  IN,
  OUT,
  STATICS_OUTPUTS,
  staticsParameters,
  type StaticsFigures,
} from "./staticsTable.js";
import { setPiece, settleRode, workRode, type WorkRode } from "./workRode.js";

type Statics = NonNullable<CheckedSweep["statics"]>;

/** Inputs that change the rode. */
const RODE_INPUTS = [
  IN.depthM,
  IN.lengthOutM,
  IN.scope,
  IN.chainM,
  IN.chainWeightNPerM,
  IN.chainStiffnessN,
  IN.ropeWeightNPerM,
  IN.ropeStiffnessN,
];

/** Inputs that holding needs. */
const HOLD_INPUTS = [IN.anchorMassKg, IN.anchorType, IN.seabed];

/** One moment of lying to an anchor: wind and stream to pull, pull to rode, rode to holding. */
export function staticsModel(input: Statics): Model {
  const vessel = fillVessel(input.vessel);
  const { figures, hasRope } = figuresOf(input, vessel);
  return {
    name: "statics",
    parameters: staticsParameters(figures),
    outputs: STATICS_OUTPUTS,
    sources: [
      "drag law and balance of turning moments about the bow; UFC 4-159-03, Eq. 11 and 15-21",
      "elastic catenary on a level bed, pieces of uniform weight, no friction",
      "holding over weight of small anchors and bed coefficients: see the function holding",
    ],
    usual: (given) =>
      STATICS_OUTPUTS.map((_, i) => i).filter(
        (i) => HOLD_INPUTS.some((k) => given.has(k)) || !HOLDING_OUTPUTS.includes(i),
      ),
    prepare: (varied, wanted) => evaluateOf(vessel, hasRope, varied, wanted),
  };
}

function figuresOf(input: Statics, vessel: Vessel): { figures: StaticsFigures; hasRope: boolean } {
  const c = chain(input.rode.chainMm);
  const r = input.rode.rope;
  const line = r === undefined ? c : rope(r.fibre, r.diameterMm);
  return {
    hasRope: r !== undefined,
    figures: {
      bowHeightM: vessel.bowHeightM,
      chainWeightNPerM: c.weightInWaterNPerM,
      chainStiffnessN: c.axialStiffnessN,
      ropeWeightNPerM: line.weightInWaterNPerM,
      ropeStiffnessN: line.axialStiffnessN,
      breakingN: Math.min(c.breakingN, line.breakingN),
    },
  };
}

function evaluateOf(
  vessel: Vessel,
  hasRope: boolean,
  varied: ReadonlySet<number>,
  wanted: ReadonlySet<number>,
): Evaluate {
  const pullOf = pullKernel(vessel);
  const rodeOf = rodeKernel(
    hasRope,
    RODE_INPUTS.some((i) => varied.has(i)),
  );
  const hold = HOLDING_OUTPUTS.some((i) => wanted.has(i)) ? holdKernel(varied) : null;
  const laid = new Float64Array(COLUMNS);
  const { lengthM } = vessel;
  return (p, out) => {
    const pullN = pullOf(p);
    const rode = rodeOf(p);
    const heightM = p[IN.depthM]! + p[IN.bowHeightM]!;
    const state = solveForward(rode, heightM, pullN, laid);
    const angleDeg = state === LIFTED ? leadOf(laid) : 0 * laid[REACH]!;
    out[OUT.pullN] = pullN;
    out[OUT.lengthOutM] = rode.totalM;
    out[OUT.scopeOverBow] = rode.totalM / heightM;
    out[OUT.reachM] = laid[REACH]!;
    out[OUT.swingRadiusM] = laid[REACH]! + lengthM;
    out[OUT.bowTensionN] = laid[BOW_TENSION]!;
    out[OUT.pullAngleDeg] = angleDeg;
    out[OUT.onBottomM] = laid[ON_BOTTOM]!;
    out[OUT.leadsAlongBed] = state < 0 ? NaN : state === LIFTED ? 0 : 1;
    out[OUT.strengthUsed] = laid[BOW_TENSION]! / p[IN.breakingN]!;
    if (hold !== null) hold(p, pullN, angleDeg, out);
  };
}

const leadOf = (laid: Float64Array): number =>
  Math.atan2(laid[ANCHOR_VERTICAL]!, laid[ANCHOR_HORIZONTAL]!) / RAD;

/** Pull of wind and stream; without stream she lies head to wind and the pull goes by the square of the wind. */
function pullKernel(vessel: Vessel): (p: Float64Array) => number {
  const c = lieCoefficients(vessel);
  const lie = new Float64Array(LIE.length);
  lieKernel(c, 1, 0, 0, 0, lie);
  const perSquare = lie[LIE.pullN]!;
  let yawDeg = NaN;
  let sheer = 1;
  return (p) => {
    if (p[IN.yawDeg] !== yawDeg) {
      yawDeg = p[IN.yawDeg]!;
      sheer = sheerFactor(vessel, yawDeg);
    }
    const wind = p[IN.windMps]!;
    if (p[IN.streamMps] === 0) return perSquare * wind * wind * sheer;
    lieKernel(
      c,
      wind,
      p[IN.windFromDeg]!,
      p[IN.streamMps]!,
      p[IN.streamTowardsDeg]!,
      lie,
      p[IN.depthM]!,
    );
    // She yaws to the wind: what share of her turning the wind has.
    return lie[LIE.pullN]! + lie[LIE.windN]! * lie[LIE.windMomentShare]! * (sheer - 1);
  };
}

/** The rode of a scenario; made once where nothing about it varies. */
function rodeKernel(hasRope: boolean, varies: boolean): (p: Float64Array) => WorkRode {
  const piece = { lengthM: 1.5, weightInWaterNPerM: 1.5, axialStiffnessN: 1e6 + 0.5 };
  const one = workRode([piece]);
  const two = workRode([piece, piece]);
  let made: WorkRode | null = null;
  const make = (p: Float64Array): WorkRode => {
    const scope = p[IN.scope]!;
    const lengthM = scope > 0 ? scope * p[IN.depthM]! : p[IN.lengthOutM]!;
    const chainM = hasRope ? p[IN.chainM]! : lengthM;
    const rode = chainM > 0 && chainM < lengthM ? two : one;
    if (chainM > 0)
      setPiece(
        rode,
        0,
        rode === two ? chainM : lengthM,
        p[IN.chainWeightNPerM]!,
        p[IN.chainStiffnessN]!,
      );
    if (rode === two || !(chainM > 0))
      setPiece(
        rode,
        rode.count - 1,
        lengthM - (rode === two ? chainM : 0),
        p[IN.ropeWeightNPerM]!,
        p[IN.ropeStiffnessN]!,
      );
    settleRode(rode);
    return rode;
  };
  if (varies) return make;
  return (p) => (made ??= make(p));
}

/** Holding of the anchor in its bed at the angle of the pull. */
function holdKernel(varied: ReadonlySet<number>) {
  const tables: (HoldingTable | undefined)[] = [];
  const massVaries = varied.has(IN.anchorMassKg);
  return (p: Float64Array, pullN: number, angleDeg: number, out: Float64Array): void => {
    const place = p[IN.anchorType]! * bedNames.length + p[IN.seabed]!;
    const table = (tables[place] ??= holdingTable(p[IN.anchorType]!, p[IN.seabed]!, massVaries));
    const massKg = p[IN.anchorMassKg]!;
    const along = angleDeg === 0;
    const likelyN = table.likelyN(massKg) * (along ? 1 : table.shareAt(angleDeg));
    const lowN = table.lowN(massKg) * (along ? 1 : table.lowShareAt(angleDeg));
    out[OUT.holdingN] = likelyN;
    out[OUT.holdingLowN] = lowN;
    out[OUT.holdingUsed] = likelyN > 0 ? pullN / likelyN : NaN;
    out[OUT.holdingUsedWorst] = lowN > 0 ? pullN / lowN : NaN;
  };
}

/** Refuse what a table of bounds cannot state. `given` holds the places of the inputs that are held or varied. */
export function checkStatics(
  input: Statics,
  given: ReadonlySet<number>,
  wanted: ReadonlySet<number>,
): void {
  if (given.has(IN.lengthOutM) === given.has(IN.scope))
    refuse("fixed", "missing", "expected one of lengthOutM and scope, held or varied");
  if (input.rode.rope !== undefined && !given.has(IN.chainM))
    refuse(
      "fixed.chainM",
      "missing",
      "expected the length of chain next to the anchor, the rest being rope",
    );
  if (input.rode.rope === undefined && given.has(IN.chainM))
    refuse(
      "fixed.chainM",
      "no_rope",
      "there is no rope: give statics.rode.rope, or leave chainM out",
    );
  if (HOLDING_OUTPUTS.some((i) => wanted.has(i)) && !HOLD_INPUTS.every((i) => given.has(i)))
    refuse(
      "fixed",
      "missing",
      `holding needs anchorMassKg, anchorType (${anchorTypes.join(", ")}) and seabed, held or varied; or leave holding out of the outputs`,
    );
}
