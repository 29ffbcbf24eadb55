import { RAD } from "../core/angles.js";

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
 * A rode made ready for the kernels: one entry a uniform piece, from the anchor to the bow. A
 * weight or float splits the segment it hangs on and belongs to the piece above it.
 */
export interface PreparedRode {
  /** Number of pieces. */
  readonly count: number;
  /** Unstretched length of each piece, m. */
  readonly lengthM: Float64Array;
  /** Weight in water of each piece, N per unstretched metre. */
  readonly weightNPerM: Float64Array;
  /** Metres of piece for a newton of weight. */
  readonly metresPerN: Float64Array;
  /** Strain of each piece per newton. */
  readonly strainPerN: Float64Array;
  /** Weight in water hung at the lower end of each piece, N; negative for a float. */
  readonly hungN: Float64Array;
  /**
   * Vertical load at the bow, less that of a line along the bed, at which the touchdown passes from
   * one piece to the next, or takes up and leaves a weight; ascending, the last one Infinity.
   */
  readonly marksN: Float64Array;
  /** Lowest piece that a float keeps off the bed; `count` without floats. */
  readonly firstFree: number;
  /** Weight in water of all that a float keeps off the bed, floats included, N; 0 without floats. */
  readonly floatedN: number;
  /** Sine of the bed's slope. */
  readonly sin: number;
  /** Its cosine. */
  readonly cos: number;
  /** Its tangent. */
  readonly tan: number;
  /** One over its cosine. */
  readonly sec: number;
  /** Tension lost towards the anchor for a newton of rode on the bed. */
  readonly dragPerN: number;
  /** Whole unstretched length, m, and weight in water, weights and floats included, N. */
  readonly totalM: number;
  readonly totalN: number;
  /** Unstretched length and weight of all but the lowest piece, weights included. */
  readonly upperM: number;
  readonly upperN: number;
  /** How much more than its length less the height a rode may reach while slack, at most, m; Infinity unless the bed is level and there are no floats. */
  readonly slackStretchM: number;
  /** Stretch of all but the lowest piece for a newton of even tension, m. */
  readonly upperStretchPerN: number;
  /** Length of the heaviest piece that weighs a newton, m. */
  readonly leastMetresPerN: number;
  /** Weight below a point of the rode, averaged over its length, N. */
  readonly meanBelowN: number;
  /** Stretch of the whole rode for a newton of even tension, m. */
  readonly stretchPerN: number;
}

/** Make a rode ready for the kernels. Unchecked: lengths, weights and stiffnesses are taken to be positive. */
export function prepareRode(rode: RodeData): PreparedRode {
  const pieces = splitAtLoads(rode.segments, rode.weights ?? []);
  const column = (of: (p: Piece) => number) => Float64Array.from(pieces, of);
  const bed = bedOf(rode);
  const sums = sumsOf(pieces);
  const mayLieSlack = sums.firstFree === pieces.length && bed.tan === 0;
  return {
    count: pieces.length,
    lengthM: column((p) => p.lengthM),
    weightNPerM: column((p) => p.weightInWaterNPerM),
    metresPerN: column((p) => 1 / p.weightInWaterNPerM),
    strainPerN: column((p) => 1 / p.axialStiffnessN),
    hungN: column((p) => p.hungN),
    marksN: marksOf(pieces, sums),
    slackStretchM: mayLieSlack ? sums.totalN * sums.stretchPerN : Infinity,
    leastMetresPerN: 1 / Math.max(...pieces.map((p) => p.weightInWaterNPerM)),
    ...bed,
    ...sums,
  };
}

function sumsOf(pieces: readonly Piece[]) {
  const firstFloat = pieces.findIndex((p) => p.hungN < 0);
  const firstFree = firstFloat < 0 ? pieces.length : firstFloat;
  let totalM = 0;
  let totalN = 0;
  let below = 0;
  let stretchPerN = 0;
  let floatedN = 0;
  for (const [i, p] of pieces.entries()) {
    const weight = p.lengthM * p.weightInWaterNPerM;
    if (i >= firstFree) floatedN += weight + p.hungN;
    below += p.lengthM * (totalN + p.hungN + weight / 2);
    totalN += weight + p.hungN;
    totalM += p.lengthM;
    stretchPerN += p.lengthM / p.axialStiffnessN;
  }
  const { lengthM, weightInWaterNPerM, axialStiffnessN } = pieces[0]!;
  return {
    firstFree,
    floatedN,
    totalM,
    totalN,
    upperM: totalM - lengthM,
    upperN: totalN - lengthM * weightInWaterNPerM,
    upperStretchPerN: stretchPerN - lengthM / axialStiffnessN,
    meanBelowN: below / totalM,
    stretchPerN,
  };
}

function marksOf(
  pieces: readonly Piece[],
  { firstFree, floatedN }: { firstFree: number; floatedN: number },
): Float64Array {
  const marks: number[] = [];
  let hanging = floatedN;
  for (const p of pieces.slice(0, firstFree).reverse()) {
    hanging += p.lengthM * p.weightInWaterNPerM;
    marks.push(hanging);
    if (p.hungN > 0) marks.push((hanging += p.hungN));
  }
  return Float64Array.from([...marks, Infinity]);
}

function bedOf(rode: RodeData) {
  const slope = (rode.seabedSlopeDeg ?? 0) * RAD;
  const sin = Math.sin(slope);
  const cos = Math.cos(slope);
  const dragPerN = sin + (rode.bedFriction ?? 0) * cos;
  return { sin, cos, tan: Math.tan(slope), sec: 1 / cos, dragPerN };
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
