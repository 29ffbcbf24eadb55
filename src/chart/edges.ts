import { type BoxTree, buildBoxTree } from "../geo/boxtree.js";

/** Paths cut out of the edges of some features. */
export interface CutPaths {
  xy: number[];
  starts: number[];
  /** Feature of each path. */
  owners: number[];
}

/** Nothing cut yet. */
export const noPaths = (): CutPaths => ({ xy: [], starts: [0], owners: [] });

/** Tree over cut paths. */
export const treeOf = ({ xy, starts }: CutPaths): BoxTree =>
  buildBoxTree({
    xy: Float64Array.from(xy),
    starts: Int32Array.from(starts),
  });

/** Add those runs of a feature's edges whose segments are wanted, by the first vertex of each. */
export function cutOut(
  out: CutPaths,
  { xy, starts }: BoxTree,
  owner: number,
  wanted: (a: number) => boolean,
): void {
  const close = () => {
    if (out.xy.length / 2 === out.starts.at(-1)!) return;
    out.starts.push(out.xy.length / 2);
    out.owners.push(owner);
  };
  for (let p = 0; p + 1 < starts.length; p++) {
    let drawing = false;
    for (let v = starts[p]!; v + 1 < starts[p + 1]!; v++) {
      if (!wanted(v)) {
        drawing = false;
        continue;
      }
      if (!drawing) {
        close();
        out.xy.push(xy[2 * v]!, xy[2 * v + 1]!);
      }
      out.xy.push(xy[2 * v + 2]!, xy[2 * v + 3]!);
      drawing = true;
    }
    close();
  }
}

// 1e-7 degree, about a centimetre, is the step of chart coordinates.
const mix = (hash: number, degrees: number): number => {
  const h = Math.imul(hash ^ (Math.round(degrees * 1e7) | 0), 0x9e3779b1);
  return h ^ (h >>> 15);
};

/**
 * Tells of each segment, by its first vertex, whether it is drawn once only: of areas that tile a
 * surface those are the edges with no neighbour.
 */
export function drawnOnce(lonLat: Float64Array, trees: readonly BoxTree[]): (a: number) => boolean {
  const firsts = trees.flatMap((tree) => segmentsOf(tree));
  let size = 16;
  while (size < 2 * firsts.length) size *= 2;
  const slots = new Int32Array(size).fill(-1);
  const again = new Set<number>();
  for (const a of firsts) {
    // The two ends count the same either way round.
    let slot =
      (mix(mix(7, lonLat[2 * a]!), lonLat[2 * a + 1]!) +
        mix(mix(7, lonLat[2 * a + 2]!), lonLat[2 * a + 3]!)) &
      (size - 1);
    while (slots[slot]! >= 0 && !sameSegment(lonLat, slots[slot]!, a))
      slot = (slot + 1) & (size - 1);
    if (slots[slot]! >= 0) again.add(slots[slot]!).add(a);
    else slots[slot] = a;
  }
  return (a) => !again.has(a);
}

function segmentsOf({ starts }: BoxTree): number[] {
  const out: number[] = [];
  for (let p = 0; p + 1 < starts.length; p++)
    for (let v = starts[p]!; v + 1 < starts[p + 1]!; v++) out.push(v);
  return out;
}

/** Whether the segments from vertices `a` and `b` join the same two places. */
function sameSegment(lonLat: Float64Array, a: number, b: number): boolean {
  const same = (i: number, j: number) =>
    lonLat[2 * i] === lonLat[2 * j] && lonLat[2 * i + 1] === lonLat[2 * j + 1];
  return (same(a, b) && same(a + 1, b + 1)) || (same(a, b + 1) && same(a + 1, b));
}
