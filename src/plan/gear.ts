import type { Segment } from "../rode/input.js";
import { prepareRode, type PreparedRode } from "../rode/prepare.js";
import { chain, rope } from "../rode/tackle.js";
import type { CheckedStay, RodePieces } from "./input.js";

type Tackle = CheckedStay["tackle"];

/** Rode pieces as segments with their weights and stiffnesses. */
export const segmentsOf = (pieces: RodePieces): Segment[] =>
  pieces.map((p) => {
    if (p.kind === "custom") return p;
    const make = p.kind === "chain" ? chain(p.diameterMm) : rope(p.fibre, p.diameterMm);
    return { ...make, lengthM: p.lengthM };
  });

/** Length of all pieces. */
export const totalLength = (pieces: readonly { lengthM: number }[]): number =>
  pieces.reduce((sum, p) => sum + p.lengthM, 0);

/** The part of the rode that is out: `lengthM` of it from the anchor. */
export function outOf(segments: readonly Segment[], lengthM: number): Segment[] {
  const out: Segment[] = [];
  let left = lengthM;
  for (const s of segments) {
    if (!(left > 0)) break;
    const take = Math.min(left, s.lengthM);
    out.push({ ...s, lengthM: take });
    left -= take;
  }
  return out;
}

/** The stretching line as the segment next to the bow; it takes the place of as much rode, which hangs slack beside it. */
export function snubberOf(tackle: Tackle): Segment | null {
  const s = tackle.snubber;
  return s === undefined ? null : { ...rope(s.fibre, s.diameterMm), lengthM: s.lengthM };
}

/** Segments between anchor and bow with `lengthM` out, stretching line included. */
export function laidOut(tackle: Tackle, lengthM: number): Segment[] {
  const snubber = snubberOf(tackle);
  const all = segmentsOf(tackle.rode);
  if (snubber === null || !(lengthM > 2 * snubber.lengthM)) return outOf(all, lengthM);
  return [...outOf(all, lengthM - snubber.lengthM), snubber];
}

/** The rode ready for the kernels. */
export const preparedOut = (tackle: Tackle, lengthM: number): PreparedRode =>
  prepareRode({ segments: laidOut(tackle, lengthM) });

/** Length of chain next to the anchor. */
export function chainAboard(pieces: RodePieces): number {
  const end = pieces.findIndex((p) => p.kind !== "chain");
  return totalLength(end < 0 ? pieces : pieces.slice(0, end));
}

/** Chain a neighbour of that length is guessed to lie to, mm (common practice, no source). */
const guessedChain = (lengthM: number): number =>
  lengthM < 8 ? 6 : lengthM < 12 ? 8 : lengthM < 15 ? 10 : 12;

/** Rode of a neighbour known by her make and length only. */
export function guessedRode(
  make: "chain" | "chainAndRope",
  vesselM: number,
  outM: number,
): Segment[] {
  const mm = guessedChain(vesselM);
  const all: Segment = { ...chain(mm), lengthM: outM };
  if (make === "chain") return [all];
  const leader = Math.min(outM, vesselM);
  const line: Segment = {
    ...rope("polyamide", mm + 4),
    lengthM: outM - leader,
  };
  return outM > leader ? [{ ...all, lengthM: leader }, line] : [all];
}
