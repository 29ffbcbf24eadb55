import { refuse } from "../core/errors.js";
import { LIE, lieCoefficients, lieKernel } from "../lie/kernel.js";
import { sheerFactor } from "../lie/lie.js";
import { fillVessel, type Vessel } from "../lie/vessel.js";
import { chain, rope } from "../rode/tackle.js";
import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { bedNames } from "../holding/beds.js";
import { holdingTable, shareAt, type HoldingTable } from "./holdingTable.js";
import type { CheckedSweep } from "./input.js";
import type { Columns, Evaluate, Model } from "./model.js";
import { angleRows, layingOf, layRows } from "./staticsLay.js";
import {
  HOLDING_OUTPUTS,
  IN,
  OUT,
  STATICS_OUTPUTS,
  staticsParameters,
  type StaticsFigures,
} from "./staticsTable.js";

type Statics = NonNullable<CheckedSweep["statics"]>;

/** Inputs that holding needs. */
const HOLD_INPUTS = [IN.anchorMassKg, IN.anchorType, IN.seabed];

/** One moment of lying to an anchor: wind and stream to pull, pull to rode, rode to holding. */
export function staticsModel(input: Statics): Model {
  const vessel = fillVessel(input.vessel);
  const { figures, hasRope } = figuresOf(input, vessel);
  return {
    name: "statics",
    chunkRows: 8192,
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
  // What costs something is worked out only where it is asked for.
  const holds = HOLDING_OUTPUTS.some((i) => wanted.has(i));
  const laying = layingOf(hasRope, varied);
  const pull = pullKernel(vessel);
  const after = [
    ...(holds || wanted.has(OUT.pullAngleDeg) ? [angleRows] : []),
    ...(holds ? [holdKernel(varied, wanted)] : []),
    ...(wanted.has(OUT.swingRadiusM) ? [swingOf(vessel.lengthM)] : []),
    ...(wanted.has(OUT.scopeOverBow) ? [scopeOf] : []),
    ...(wanted.has(OUT.strengthUsed) ? [strengthOf] : []),
  ];
  return (p, out, rows) => {
    pull(p, out, rows);
    layRows(laying, p, out, rows);
    for (const pass of after) pass(p, out, rows);
  };
}

/** Pull of wind and stream; without stream she lies head to wind and the pull goes by the square of the wind. */
function pullKernel(vessel: Vessel): Evaluate {
  const c = lieCoefficients(vessel);
  const lie = new Float64Array(LIE.length);
  lieKernel(c, 1, 0, 0, 0, lie);
  const perSquare = lie[LIE.pullN]!;
  return (p, out, rows) => {
    const wind = p[IN.windMps]!;
    const stream = p[IN.streamMps]!;
    const yaw = p[IN.yawDeg]!;
    const pullN = out[OUT.pullN]!;
    let yawDeg = yaw[0]!;
    let sheer = sheerFactor(vessel, yawDeg);
    for (let r = 0; r < rows; r++) {
      if (yaw[r] !== yawDeg) {
        yawDeg = yaw[r]!;
        sheer = sheerFactor(vessel, yawDeg);
      }
      if (stream[r] === 0) {
        pullN[r] = perSquare * wind[r]! * wind[r]! * sheer;
        continue;
      }
      const towardsDeg = p[IN.streamTowardsDeg]![r]!;
      const depthM = p[IN.depthM]![r];
      lieKernel(c, wind[r]!, p[IN.windFromDeg]![r]!, stream[r]!, towardsDeg, lie, depthM);
      // She yaws to the wind: what share of her turning the wind has.
      const yawing = lie[LIE.windN]! * lie[LIE.windMomentShare]! * (sheer - 1);
      pullN[r] = lie[LIE.pullN]! + yawing;
    }
  };
}

/** Holding of the anchor in its bed at the angle of the pull. */
function holdKernel(varied: ReadonlySet<number>, wanted: ReadonlySet<number>): Evaluate {
  const tables: (HoldingTable | undefined)[] = [];
  const massVaries = varied.has(IN.anchorMassKg);
  const varies = HOLD_INPUTS.some((i) => varied.has(i));
  const lowest = wanted.has(OUT.holdingLowN) || wanted.has(OUT.holdingUsedWorst);
  const tableFor = (type: number, bed: number, massKg: number): HoldingTable => {
    const table = (tables[type * bedNames.length + bed] ??= holdingTable(type, bed, massVaries));
    if (massKg !== table.massKg) Object.assign(table, { massKg, ...table.at(massKg) });
    return table;
  };
  return (p, out, rows) => {
    const step = varies ? 1 : rows;
    for (let r = 0; r < rows; r += step) {
      const { likelyN, share, lowN, lowShare } = tableFor(
        p[IN.anchorType]![r]!,
        p[IN.seabed]![r]!,
        p[IN.anchorMassKg]![r]!,
      );
      holdRows(likelyN, share, out, OUT.holdingN, OUT.holdingUsed, r, r + step);
      if (lowest) holdRows(lowN, lowShare, out, OUT.holdingLowN, OUT.holdingUsedWorst, r, r + step);
    }
  };
}

/** Scenarios of one anchor in one bed: what it holds at the angle of the pull, and the pull over that. */
function holdRows(
  alongN: number,
  share: Float64Array,
  out: Columns,
  holdingAt: OUT,
  usedAt: OUT,
  from: number,
  to: number,
): void {
  const angleDeg = out[OUT.pullAngleDeg]!;
  const pullN = out[OUT.pullN]!;
  const holdingN = out[holdingAt]!;
  const used = out[usedAt]!;
  for (let r = from; r < to; r++) {
    const n = alongN * shareAt(share, angleDeg[r]!);
    holdingN[r] = n;
    // Not as a choice of two values, for which engines make an object a scenario.
    if (n > 0) used[r] = pullN[r]! / n;
    else used[r] = NaN;
  }
}

const swingOf =
  (lengthM: number): Evaluate =>
  (_, out, rows) => {
    for (let r = 0; r < rows; r++) out[OUT.swingRadiusM]![r] = out[OUT.reachM]![r]! + lengthM;
  };

const scopeOf: Evaluate = (p, out, rows) => {
  for (let r = 0; r < rows; r++)
    out[OUT.scopeOverBow]![r] =
      out[OUT.rodeOutM]![r]! / (p[IN.depthM]![r]! + p[IN.bowHeightM]![r]!);
};

const strengthOf: Evaluate = (p, out, rows) => {
  for (let r = 0; r < rows; r++)
    out[OUT.strengthUsed]![r] = out[OUT.bowTensionN]![r]! / p[IN.breakingN]![r]!;
};

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
      `holding needs anchorMassKg, anchorType (${ANCHOR_TYPES.join(", ")}) and seabed, held or varied; or leave holding out of the outputs`,
    );
}
