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
import type { Evaluate, Model } from "./model.js";
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
  const pull = pullKernel(vessel);
  const rodeOf = rodeKernel(hasRope, varied);
  const hold = HOLDING_OUTPUTS.some((i) => wanted.has(i)) ? holdKernel(varied, wanted) : null;
  // What costs something is worked out only where it is asked for.
  const angled = hold !== null || wanted.has(OUT.pullAngleDeg);
  const scoped = wanted.has(OUT.scopeOverBow);
  const strained = wanted.has(OUT.strengthUsed);
  const laid = new Float64Array(COLUMNS);
  const { lengthM } = vessel;
  return (p, out) => {
    pull(p, out);
    const rode = rodeOf(p);
    const heightM = p[IN.depthM]! + p[IN.bowHeightM]!;
    laid[HEIGHT] = heightM;
    laid[LOAD] = out[OUT.pullN]!;
    const state = solveResized(rode, laid);
    out[OUT.rodeOutM] = rode[TOTAL_M]!;
    if (scoped) out[OUT.scopeOverBow] = rode[TOTAL_M]! / heightM;
    out[OUT.reachM] = laid[REACH]!;
    out[OUT.swingRadiusM] = laid[REACH]! + lengthM;
    out[OUT.bowTensionN] = laid[BOW_TENSION]!;
    if (angled) out[OUT.pullAngleDeg] = state === LIFTED ? leadOf(laid) : 0 * laid[REACH]!;
    out[OUT.onBottomM] = laid[ON_BOTTOM]!;
    out[OUT.leadsAlongBed] = state < 0 ? NaN : state === LIFTED ? 0 : 1;
    if (strained) out[OUT.strengthUsed] = laid[BOW_TENSION]! / p[IN.breakingN]!;
    if (hold !== null) hold(p, out);
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

/** Pull of wind and stream; without stream she lies head to wind and the pull goes by the square of the wind. */
function pullKernel(vessel: Vessel): Evaluate {
  const c = lieCoefficients(vessel);
  const lie = new Float64Array(LIE.length);
  lieKernel(c, 1, 0, 0, 0, lie);
  const perSquare = lie[LIE.pullN]!;
  let yawDeg = 0;
  let sheer = sheerFactor(vessel, yawDeg);
  return (p, out) => {
    if (p[IN.yawDeg] !== yawDeg) {
      yawDeg = p[IN.yawDeg]!;
      sheer = sheerFactor(vessel, yawDeg);
    }
    const wind = p[IN.windMps]!;
    const stream = p[IN.streamMps]!;
    if (stream === 0) {
      out[OUT.pullN] = perSquare * wind * wind * sheer;
      return;
    }
    lieKernel(c, wind, p[IN.windFromDeg]!, stream, p[IN.streamTowardsDeg]!, lie, p[IN.depthM]);
    // She yaws to the wind: what share of her turning the wind has.
    const yawing = lie[LIE.windN]! * lie[LIE.windMomentShare]! * (sheer - 1);
    out[OUT.pullN] = lie[LIE.pullN]! + yawing;
  };
}

/** Weights and stiffnesses of the pieces. */
const TACKLE = [IN.chainWeightNPerM, IN.chainStiffnessN, IN.ropeWeightNPerM, IN.ropeStiffnessN];

/** The rode of a scenario; what was made last is used again where nothing about it changes. */
function rodeKernel(
  hasRope: boolean,
  varied: ReadonlySet<number>,
): (p: Float64Array) => PreparedRode {
  const piece = { lengthM: 1.5, weightInWaterNPerM: 1.5, axialStiffnessN: 1e6 + 0.5 };
  const rodes = [1, 2].map((n) => prepareRode({ segments: Array<typeof piece>(n).fill(piece) }));
  const [one, two] = rodes as [PreparedRode, PreparedRode];
  const tackleVaries = TACKLE.some((i) => varied.has(i));
  let [lastM, lastChainM] = [NaN, NaN];
  let rode = one;
  let make = true;
  return (p) => {
    const scope = p[IN.scope]!;
    const lengthM = scope > 0 ? scope * p[IN.depthM]! : p[IN.lengthOutM]!;
    const chainM = hasRope ? p[IN.chainM]! : lengthM;
    if (lengthM === lastM && chainM === lastChainM && !make) return rode;
    const next = chainM > 0 && chainM < lengthM ? two : one;
    make ||= next !== rode || chainM > 0 !== lastChainM > 0;
    lastM = lengthM;
    lastChainM = chainM;
    rode = next;
    const lowerM = chainM > 0 ? Math.min(chainM, lengthM) : lengthM;
    if (make) {
      pieceOf(rode, 0, lowerM, chainM > 0, p);
      if (rode === two) pieceOf(two, 1, lengthM - chainM, false, p);
      make = tackleVaries;
    }
    rode[TOTAL_M] = lengthM;
    rode[PIECES + LENGTH] = lowerM;
    rode[TOTAL_N] = lowerM * rode[PIECES + WEIGHT]!;
    if (rode === two) {
      two[SECOND + LENGTH] = lengthM - chainM;
      two[UPPER_N] = (lengthM - chainM) * two[SECOND + WEIGHT]!;
      two[TOTAL_N]! += two[UPPER_N];
    }
    return rode;
  };
}

function pieceOf(
  rode: PreparedRode,
  i: number,
  lengthM: number,
  isChain: boolean,
  p: Float64Array,
) {
  const weight = isChain ? p[IN.chainWeightNPerM]! : p[IN.ropeWeightNPerM]!;
  setPiece(rode, i, lengthM, weight, isChain ? p[IN.chainStiffnessN]! : p[IN.ropeStiffnessN]!);
}

/** Holding of the anchor in its bed at the angle of the pull. */
function holdKernel(varied: ReadonlySet<number>, wanted: ReadonlySet<number>): Evaluate {
  const tables: (HoldingTable | undefined)[] = [];
  const massVaries = varied.has(IN.anchorMassKg);
  const lowest = wanted.has(OUT.holdingLowN) || wanted.has(OUT.holdingUsedWorst);
  return (p, out) => {
    const place = p[IN.anchorType]! * bedNames.length + p[IN.seabed]!;
    const table = (tables[place] ??= holdingTable(p[IN.anchorType]!, p[IN.seabed]!, massVaries));
    const massKg = p[IN.anchorMassKg]!;
    if (massKg !== table.massKg) Object.assign(table, { massKg, ...table.at(massKg) });
    const angleDeg = out[OUT.pullAngleDeg]!;
    const likelyN = table.likelyN * shareAt(table.share, angleDeg);
    const pullN = out[OUT.pullN]!;
    out[OUT.holdingN] = likelyN;
    out[OUT.holdingUsed] = likelyN > 0 ? pullN / likelyN : NaN;
    if (!lowest) return;
    const lowN = table.lowN * shareAt(table.lowShare, angleDeg);
    out[OUT.holdingLowN] = lowN;
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
