import { RAD } from "../core/angles.js";
import { atan2 } from "../core/elementary.js";
import {
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
import type { Columns, Evaluate } from "./model.js";
import { IN, OUT } from "./staticsTable.js";

/** What laying needs: rodes whose lengths are set anew for every scenario, and a row for what comes out. */
export interface Laying {
  readonly hasRope: boolean;
  /** Whether weights and stiffnesses have to be set for every scenario. */
  readonly tackleVaries: boolean;
  readonly onlyChain: PreparedRode;
  readonly onlyRope: PreparedRode;
  readonly both: PreparedRode;
  readonly laid: Float64Array;
}

/**
 * The rode under that pull; the angle's column gets the upward part of the pull at the anchor, for
 * {@link angleRows}. No closure, for an engine makes new code for each of those.
 */
export function layRows(s: Laying, p: Columns, out: Columns, rows: number): void {
  const { hasRope, tackleVaries, laid } = s;
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
  const upN = out[OUT.pullAngleDeg]!;
  setTackle(s, p, 0);
  for (let r = 0; r < rows; r++) {
    if (tackleVaries) setTackle(s, p, r);
    const lengthM = scope[r]! > 0 ? scope[r]! * depthM[r]! : givenM[r]!;
    const rode = rodeOf(s, lengthM, hasRope ? chain[r]! : lengthM);
    laid[HEIGHT] = depthM[r]! + bowHeightM[r]!;
    laid[LOAD] = pullN[r]!;
    const state = solveResized(rode, laid);
    rodeOutM[r] = lengthM;
    reachM[r] = laid[REACH]!;
    tensionN[r] = laid[BOW_TENSION]!;
    onBottomM[r] = laid[ON_BOTTOM]!;
    along[r] = state < 0 ? NaN : state === LIFTED ? 0 : 1;
    upN[r] = laid[ANCHOR_VERTICAL]!;
  }
}

/** Angle of the pull at the anchor, out of its upward part. */
export const angleRows: Evaluate = (_, out, rows) => {
  // The bed is level and the rode without friction: the anchor is pulled along it by what pulls the bow.
  const alongN = out[OUT.pullN]!;
  const angleDeg = out[OUT.pullAngleDeg]!;
  for (let r = 0; r < rows; r++) {
    const upN = angleDeg[r]!;
    if (upN !== 0) angleDeg[r] = atan2(upN, alongN[r]!) / RAD;
  }
};

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

/** Weights and stiffnesses of the pieces. */
const TACKLE = [IN.chainWeightNPerM, IN.chainStiffnessN, IN.ropeWeightNPerM, IN.ropeStiffnessN];

/** Make ready to lay rodes; `varied` holds the places of the inputs that vary. */
export function layingOf(hasRope: boolean, varied: ReadonlySet<number>): Laying {
  const piece = { lengthM: 1.5, weightInWaterNPerM: 1.5, axialStiffnessN: 1e6 + 0.5 };
  const blank = (pieces: number) =>
    prepareRode({ segments: Array<typeof piece>(pieces).fill(piece) });
  return {
    hasRope,
    tackleVaries: TACKLE.some((i) => varied.has(i)),
    onlyChain: blank(1),
    onlyRope: blank(1),
    both: blank(2),
    laid: new Float64Array(COLUMNS),
  };
}

/** Give the rodes the weights and stiffnesses of scenario `r`; the lengths are yet to be set. */
function setTackle({ onlyChain, onlyRope, both }: Laying, p: Columns, r: number): void {
  const chainNPerM = p[IN.chainWeightNPerM]![r]!;
  const chainN = p[IN.chainStiffnessN]![r]!;
  const ropeNPerM = p[IN.ropeWeightNPerM]![r]!;
  const ropeN = p[IN.ropeStiffnessN]![r]!;
  setPiece(onlyChain, 0, 1, chainNPerM, chainN);
  setPiece(onlyRope, 0, 1, ropeNPerM, ropeN);
  setPiece(both, 0, 1, chainNPerM, chainN);
  setPiece(both, 1, 1, ropeNPerM, ropeN);
}

/** The rode of a length of which so much is chain, as far as `layPlain` reads it. */
function rodeOf({ onlyChain, onlyRope, both }: Laying, lengthM: number, chainM: number) {
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
}
