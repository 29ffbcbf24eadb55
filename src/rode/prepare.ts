import { RAD } from "../core/angles.js";
import * as R from "./places.js";

/** One uniform piece of the rode, as the kernels need it. */
export interface PieceData {
  /** Unstretched length. */
  readonly lengthM: number;
  /** Weight in water per unstretched metre, more than zero. */
  readonly weightInWaterNPerM: number;
  /** Load per unit strain. */
  readonly axialStiffnessN: number;
}

/** A weight or float hung on the rode. */
export interface PointLoad {
  /** Unstretched metres of rode between the anchor and the weight. */
  readonly fromAnchorM: number;
  /** Weight in water; negative for a float. */
  readonly weightInWaterN: number;
}

/** What {@link prepareRode} needs: a checked input of any function of the rode will do. */
export interface RodeData {
  /** Segments from the anchor to the bow. */
  readonly segments: readonly PieceData[];
  /** Weights and floats on the rode. */
  readonly weights?: readonly PointLoad[] | undefined;
  /** Slope of the bed, rising from the anchor towards the bow when positive; flat when left out. */
  readonly seabedSlopeDeg?: number | undefined;
  /** Friction of the rode on the bed; none when left out. */
  readonly bedFriction?: number | undefined;
}

/**
 * A rode made ready for the kernels: its figures at the places of `places.ts`. A weight or float
 * splits the segment it hangs on and belongs to the piece above it. After the rows of the pieces
 * stand the marks: the vertical loads at the bow, less that of a line along the bed, at which the
 * touchdown passes from one piece to the next, or takes up and leaves a weight; ascending, the last
 * one Infinity.
 */
export type PreparedRode = Float64Array & { readonly __rode?: true };

/** Make a rode ready for the kernels. Unchecked: lengths, weights and stiffnesses are taken to be positive. */
export function prepareRode(rode: RodeData): PreparedRode {
  const pieces = splitAtLoads(rode.segments, rode.weights ?? []);
  const firstFloat = pieces.findIndex((piece) => piece.hungN < 0);
  const firstFree = firstFloat < 0 ? pieces.length : firstFloat;
  const weights = pieces.filter((piece, k) => k < firstFree && piece.hungN > 0).length;
  const p: PreparedRode = new Float64Array(R.startOf(pieces.length) + firstFree + weights + 1);
  p[R.TOP] = R.startOf(pieces.length - 1);
  p[R.FREE] = R.startOf(firstFree);
  for (const [k, piece] of pieces.entries()) {
    setPiece(p, k, piece.lengthM, piece.weightInWaterNPerM, piece.axialStiffnessN);
    p[R.startOf(k) + R.HUNG] = piece.hungN;
  }
  setBed(p, (rode.seabedSlopeDeg ?? 0) * RAD, rode.bedFriction ?? 0);
  settle(p);
  return p;
}

/** Give piece `k`, counted from the anchor, its figures; {@link settle} must follow. */
export function setPiece(
  p: PreparedRode,
  k: number,
  lengthM: number,
  weightNPerM: number,
  stiffnessN: number,
): void {
  const i = R.startOf(k);
  p[i + R.LENGTH] = lengthM;
  p[i + R.WEIGHT] = weightNPerM;
  p[i + R.M_PER_N] = 1 / weightNPerM;
  p[i + R.STRAIN] = 1 / stiffnessN;
}

/** Put a plane bed under the rode; {@link settle} must follow. */
export function setBed(p: PreparedRode, slope: number, friction: number): void {
  p[R.TAN] = Math.tan(slope);
  p[R.SIN] = Math.sin(slope);
  p[R.COS] = Math.cos(slope);
  p[R.SEC] = 1 / p[R.COS];
  p[R.DRAG_PER_N] = p[R.SIN] + friction * p[R.COS];
}

/** Bring what follows from the pieces and the bed into line with them. */
export function settle(p: PreparedRode): void {
  const top = p[R.TOP]!;
  let lengthM = 0;
  let weightN = 0;
  let stretchPerN = 0;
  let heaviest = 0;
  let below = 0;
  let squares = 0;
  let floatedN = 0;
  for (let i = R.PIECES; i <= top; i += R.ROW) {
    const l = p[i + R.LENGTH]!;
    const hung = p[i + R.HUNG]!;
    const weight = l * p[i + R.WEIGHT]!;
    if (i >= p[R.FREE]!) floatedN += weight + hung;
    weightN += hung;
    below += l * (weightN + weight / 2);
    squares += l * (weightN * (weightN + weight) + (weight * weight) / 3);
    weightN += weight;
    lengthM += l;
    stretchPerN += l * p[i + R.STRAIN]!;
    heaviest = Math.max(heaviest, p[i + R.WEIGHT]!);
  }
  const mean = below / lengthM;
  const firstM = p[R.PIECES + R.LENGTH]!;
  p[R.TOTAL_M] = lengthM;
  p[R.TOTAL_N] = weightN;
  p[R.STRETCH_PER_N] = stretchPerN;
  p[R.UPPER_M] = lengthM - firstM;
  p[R.UPPER_N] = weightN - firstM * p[R.PIECES + R.WEIGHT]!;
  p[R.UPPER_STRETCH_PER_N] = stretchPerN - firstM * p[R.PIECES + R.STRAIN]!;
  p[R.MEAN_BELOW_N] = mean;
  p[R.SPREAD_BELOW] = Math.max(0, squares / lengthM - mean * mean);
  p[R.LEAST_M_PER_N] = 1 / heaviest;
  p[R.FLOATED_N] = floatedN;
  const level = p[R.TAN] === 0;
  p[R.SLACK_STRETCH_M] = level && p[R.FREE]! > top ? weightN * stretchPerN : Infinity;
  p[R.PLAIN] = level && p[R.DRAG_PER_N] === 0 ? plainPieces(p, top) : 0;
  setMarks(p);
}

/** One or two pieces of which nothing hangs; else 0. */
function plainPieces(p: PreparedRode, top: number): number {
  if (top > R.SECOND || p[top + R.HUNG] !== 0 || p[R.PIECES + R.HUNG] !== 0) return 0;
  return top === R.PIECES ? 1 : 2;
}

function setMarks(p: PreparedRode): void {
  let at = p[R.TOP]! + R.ROW;
  let hanging = p[R.FLOATED_N]!;
  for (let i = p[R.FREE]! - R.ROW; i >= R.PIECES; i -= R.ROW) {
    p[at++] = hanging += p[i + R.LENGTH]! * p[i + R.WEIGHT]!;
    if (p[i + R.HUNG]! > 0) p[at++] = hanging += p[i + R.HUNG]!;
  }
  p[at] = Infinity;
}

interface Piece extends PieceData {
  hungN: number;
}

/** Segments cut where weights hang; weights at one place are added up. */
function splitAtLoads(segments: readonly PieceData[], loads: readonly PointLoad[]): Piece[] {
  const pieces: Piece[] = [];
  let start = 0;
  for (const s of segments) {
    const end = start + s.lengthM;
    const inside = loads
      .filter((p) => p.fromAnchorM >= start && p.fromAnchorM < end)
      .sort((a, b) => a.fromAnchorM - b.fromAnchorM);
    let piece: Piece = { ...s, hungN: 0 };
    let from = start;
    for (const load of inside) {
      if (load.fromAnchorM > from) {
        pieces.push({ ...piece, lengthM: load.fromAnchorM - from });
        from = load.fromAnchorM;
        piece = { ...s, hungN: 0 };
      }
      piece.hungN += load.weightInWaterN;
    }
    pieces.push({ ...piece, lengthM: end - from });
    start = end;
  }
  return pieces;
}
