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
  HEIGHT,
  LIFTED,
  LOAD,
  ON_BOTTOM,
  REACH,
} from "../rode/kernel.js";
import { LENGTH, PIECES, SECOND, TOTAL_M, TOTAL_N, UPPER_N, WEIGHT } from "../rode/places.js";
import { prepareRode, setPiece, settle, type PreparedRode } from "../rode/prepare.js";
import { NOT_PLAIN, layPlain, solveForward } from "../rode/solve.js";
import { chain, rope } from "../rode/tackle.js";
import { anchorTypes, bedNames } from "../holding/beds.js";
import { holdingTable, shareAt, type HoldingTable } from "./holdingTable.js";
import type { CheckedSweep } from "./input.js";
import type { Columns, Evaluate, Model } from "./model.js";
import {
  HOLDING_OUTPUTS,
  IN,
  OUT,
  STATICS_OUTPUTS,
  staticsParameters,
  type StaticsFigures,
} from "./staticsTable.js";
import { atan2 } from "../core/elementary.js";

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
  const passes = [
    pullKernel(vessel),
    layKernel(hasRope, varied, holds || wanted.has(OUT.pullAngleDeg)),
    ...(holds ? [holdKernel(varied, wanted)] : []),
    ...(wanted.has(OUT.swingRadiusM) ? [swingOf(vessel.lengthM)] : []),
    ...(wanted.has(OUT.scopeOverBow) ? [scopeOf] : []),
    ...(wanted.has(OUT.strengthUsed) ? [strengthOf] : []),
  ];
  return (p, out, rows) => {
    for (const pass of passes) pass(p, out, rows);
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

/** The rode under that pull. */
function layKernel(hasRope: boolean, varied: ReadonlySet<number>, angled: boolean): Evaluate {
  const rodeOf = rodeKernel(varied);
  const laid = new Float64Array(COLUMNS);
  return (p, out, rows) => {
    const depthM = p[IN.depthM]!;
    const bowHeightM = p[IN.bowHeightM]!;
    const scope = p[IN.scope]!;
    const givenM = p[IN.lengthOutM]!;
    const chain = p[IN.chainM]!;
    const pullN = out[OUT.pullN]!;
    const rodeOutM = out[OUT.rodeOutM]!;
    const reachM = out[OUT.reachM]!;
    const tensionN = out[OUT.bowTensionN]!;
    const onBottomM = out[OUT.onBottomM]!;
    const along = out[OUT.leadsAlongBed]!;
    const angleDeg = out[OUT.pullAngleDeg]!;
    for (let r = 0; r < rows; r++) {
      const lengthM = scope[r]! > 0 ? scope[r]! * depthM[r]! : givenM[r]!;
      const rode = rodeOf(lengthM, hasRope ? chain[r]! : lengthM, p, r);
      laid[HEIGHT] = depthM[r]! + bowHeightM[r]!;
      laid[LOAD] = pullN[r]!;
      const state = solveResized(rode, laid);
      rodeOutM[r] = lengthM;
      reachM[r] = laid[REACH]!;
      tensionN[r] = laid[BOW_TENSION]!;
      onBottomM[r] = laid[ON_BOTTOM]!;
      along[r] = state < 0 ? NaN : state === LIFTED ? 0 : 1;
      if (angled) angleDeg[r] = state === LIFTED ? leadOf(laid) : 0 * laid[REACH]!;
    }
  };
}

/**
 * Lay a rode whose lengths may be new, height and load standing in their columns; it is settled only
 * where it is not laid as a plain one.
 */
function solveResized(rode: PreparedRode, laid: Float64Array): number {
  const plain = layPlain(rode, laid);
  if (plain !== NOT_PLAIN) return plain;
  settle(rode);
  return solveForward(rode, laid[HEIGHT]!, laid[LOAD]!, laid);
}

const leadOf = (laid: Float64Array): number =>
  atan2(laid[ANCHOR_VERTICAL]!, laid[ANCHOR_HORIZONTAL]!) / RAD;

/** Weights and stiffnesses of the pieces. */
const TACKLE = [IN.chainWeightNPerM, IN.chainStiffnessN, IN.ropeWeightNPerM, IN.ropeStiffnessN];

/** The rode of scenario `r`, with its chain; only its lengths are new where its tackle does not vary. */
function rodeKernel(
  varied: ReadonlySet<number>,
): (lengthM: number, chainM: number, p: Columns, r: number) => PreparedRode {
  const piece = { lengthM: 1.5, weightInWaterNPerM: 1.5, axialStiffnessN: 1e6 + 0.5 };
  const blank = (pieces: number) =>
    prepareRode({ segments: Array<typeof piece>(pieces).fill(piece) });
  const [onlyChain, onlyRope, both] = [blank(1), blank(1), blank(2)];
  const tackleVaries = TACKLE.some((i) => varied.has(i));
  let made = false;
  return (lengthM, chainM, p, r) => {
    if (tackleVaries || !made) {
      chainOf(onlyChain, p, r);
      ropeOf(onlyRope, 0, p, r);
      chainOf(both, p, r);
      ropeOf(both, 1, p, r);
      made = true;
    }
    if (chainM > 0 && chainM < lengthM) {
      both[TOTAL_M] = lengthM;
      both[PIECES + LENGTH] = chainM;
      both[SECOND + LENGTH] = lengthM - chainM;
      both[UPPER_N] = (lengthM - chainM) * both[SECOND + WEIGHT]!;
      both[TOTAL_N] = chainM * both[PIECES + WEIGHT]! + both[UPPER_N];
      return both;
    }
    const one = chainM > 0 ? onlyChain : onlyRope;
    one[TOTAL_M] = lengthM;
    one[PIECES + LENGTH] = lengthM;
    one[TOTAL_N] = lengthM * one[PIECES + WEIGHT]!;
    return one;
  };
}

function chainOf(rode: PreparedRode, p: Columns, r: number): void {
  setPiece(rode, 0, 1, p[IN.chainWeightNPerM]![r]!, p[IN.chainStiffnessN]![r]!);
}

function ropeOf(rode: PreparedRode, i: number, p: Columns, r: number): void {
  setPiece(rode, i, 1, p[IN.ropeWeightNPerM]![r]!, p[IN.ropeStiffnessN]![r]!);
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
    const mass = p[IN.anchorMassKg]!;
    const type = p[IN.anchorType]!;
    const bed = p[IN.seabed]!;
    const angleDeg = out[OUT.pullAngleDeg]!;
    const pullN = out[OUT.pullN]!;
    const holdingN = out[OUT.holdingN]!;
    const used = out[OUT.holdingUsed]!;
    let table = tableFor(type[0]!, bed[0]!, mass[0]!);
    for (let r = 0; r < rows; r++) {
      if (varies) table = tableFor(type[r]!, bed[r]!, mass[r]!);
      const likelyN = table.likelyN * shareAt(table.share, angleDeg[r]!);
      holdingN[r] = likelyN;
      used[r] = likelyN > 0 ? pullN[r]! / likelyN : NaN;
      if (!lowest) continue;
      const lowN = table.lowN * shareAt(table.lowShare, angleDeg[r]!);
      out[OUT.holdingLowN]![r] = lowN;
      out[OUT.holdingUsedWorst]![r] = lowN > 0 ? pullN[r]! / lowN : NaN;
    }
  };
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
      `holding needs anchorMassKg, anchorType (${anchorTypes.join(", ")}) and seabed, held or varied; or leave holding out of the outputs`,
    );
}
