import { prepareRode, type PieceData, type PreparedRode } from "../rode/prepare.js";

/** A rode whose figures can be changed in place; on a level bed, without friction, weights or floats. */
export type WorkRode = { -readonly [K in keyof PreparedRode]: PreparedRode[K] };

/** A rode of chain, or of chain and rope, to be changed with {@link changeRode}. */
export const workRode = (pieces: readonly PieceData[]): WorkRode => ({
  ...prepareRode({ segments: pieces }),
});

/** Give a piece of a rode, counted from the anchor, new figures; {@link settleRode} must follow. */
export function setPiece(
  rode: WorkRode,
  i: number,
  lengthM: number,
  weightNPerM: number,
  stiffnessN: number,
): void {
  rode.lengthM[i] = lengthM;
  rode.weightNPerM[i] = weightNPerM;
  rode.metresPerN[i] = 1 / weightNPerM;
  rode.strainPerN[i] = 1 / stiffnessN;
}

/** Bring everything that hangs on the pieces into line with them: the same as making the rode anew, without new objects. */
export function settleRode(rode: WorkRode): void {
  let totalM = 0;
  let totalN = 0;
  let below = 0;
  let stretchPerN = 0;
  let heaviest = 0;
  for (let i = 0; i < rode.count; i++) {
    const l = rode.lengthM[i]!;
    const w = rode.weightNPerM[i]!;
    below += l * (totalN + (l * w) / 2);
    totalN += l * w;
    totalM += l;
    stretchPerN += l * rode.strainPerN[i]!;
    if (w > heaviest) heaviest = w;
  }
  const firstM = rode.lengthM[0]!;
  rode.totalM = totalM;
  rode.totalN = totalN;
  rode.upperM = totalM - firstM;
  rode.upperN = totalN - firstM * rode.weightNPerM[0]!;
  rode.upperStretchPerN = stretchPerN - firstM * rode.strainPerN[0]!;
  rode.meanBelowN = below / totalM;
  rode.stretchPerN = stretchPerN;
  rode.slackStretchM = totalN * stretchPerN;
  rode.leastMetresPerN = 1 / heaviest;
  let hanging = 0;
  for (let i = rode.count - 1, k = 0; i >= 0; i--, k++) {
    hanging += rode.lengthM[i]! * rode.weightNPerM[i]!;
    rode.marksN[k] = hanging;
  }
}
