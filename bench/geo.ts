/**
 * Geometry on a coast of 100,000 vertices, against general-purpose libraries and the plain way of
 * looking at every segment.
 *
 * Each case runs `n` operations over points prepared beforehand and returns a sum so that no work
 * can be left out. `against` names the case whose time is divided by this one's for the ratio.
 */
import * as turf from "@turf/turf";
import Flatbush from "flatbush";
import gl from "geographiclib-geodesic";
import { buildBoxTree, nearestOnSegments, pointInRings, rayHit } from "../src/geo/boxtree.js";
import { geodesicInverse } from "../src/geo/geodesic.js";
import { planeAt, toPlane } from "../src/geo/plane.js";
import { pointToSegment2 } from "../src/geo/polygon.js";

const VERTICES = 100_000;
const POINTS = 1024;

/** One ragged island, about 4 km across, its shore wrinkled at every scale. */
function coast(): Float64Array {
  const xy = new Float64Array(2 * VERTICES);
  for (let i = 0; i < VERTICES - 1; i++) {
    const t = (2 * Math.PI * i) / (VERTICES - 1);
    let r = 1500;
    for (let k = 1; k < 14; k++) r += (420 / 1.55 ** k) * Math.sin(2 ** k * t + 1.7 * k * k);
    xy[2 * i] = r * Math.sin(t);
    xy[2 * i + 1] = r * Math.cos(t);
  }
  xy[2 * VERTICES - 2] = xy[0]!;
  xy[2 * VERTICES - 1] = xy[1]!;
  return xy;
}

const xy = coast();
const paths = { xy, starts: Int32Array.of(0, VERTICES) };
const tree = buildBoxTree(paths);
const ring = Array.from({ length: VERTICES }, (_, i) => [xy[2 * i]!, xy[2 * i + 1]!]);
// Planar in both: metres over 1e5 stand for degrees.
const island = turf.polygon([ring.map(([x, y]) => [x! / 1e5, y! / 1e5])]);
const bush = new Flatbush(VERTICES - 1);
for (let i = 0; i < VERTICES - 1; i++)
  bush.add(
    Math.min(xy[2 * i]!, xy[2 * i + 2]!),
    Math.min(xy[2 * i + 1]!, xy[2 * i + 3]!),
    Math.max(xy[2 * i]!, xy[2 * i + 2]!),
    Math.max(xy[2 * i + 1]!, xy[2 * i + 3]!),
  );
bush.finish();

/** Points spread over a square by the golden section, the same every run. */
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;
const px = Float64Array.from(
  { length: POINTS },
  (_, i) => 5000 * part(i, 0.6180339887498949) - 2500,
);
const py = Float64Array.from(
  { length: POINTS },
  (_, i) => 5000 * part(i, 0.7548776662466927) - 2500,
);
const dx = Float64Array.from({ length: POINTS }, (_, i) => Math.sin(i));
const dy = Float64Array.from({ length: POINTS }, (_, i) => Math.cos(i));

const toSegment2 = (i: number, x: number, y: number): number =>
  pointToSegment2(x, y, xy[2 * i]!, xy[2 * i + 1]!, xy[2 * i + 2]!, xy[2 * i + 3]!);

/** Nearest segment by flatbush: boxes in order of distance, more of them until none left can be nearer. */
function byFlatbush(x: number, y: number): number {
  let best = Infinity;
  for (let k = 8; ; k *= 4) {
    const near = bush.neighbors(x, y, k);
    for (const i of near) best = Math.min(best, toSegment2(i, x, y));
    const last = near[near.length - 1]!;
    const gx = Math.max(
      Math.min(xy[2 * last]!, xy[2 * last + 2]!) - x,
      x - Math.max(xy[2 * last]!, xy[2 * last + 2]!),
      0,
    );
    const gy = Math.max(
      Math.min(xy[2 * last + 1]!, xy[2 * last + 3]!) - y,
      y - Math.max(xy[2 * last + 1]!, xy[2 * last + 3]!),
      0,
    );
    if (gx * gx + gy * gy >= best || near.length < k) return Math.sqrt(best);
  }
}

const plane = planeAt({ latDeg: 50, lonDeg: 179.99 });
const at = new Float64Array(2);
const lat = Float64Array.from(py, (y) => 50 + y / 111_000);
const lon = Float64Array.from(px, (x) => 179.99 + x / 71_000);

/** A case that adds up a figure over the points. */
const over = (of: (i: number) => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += of(k & (POINTS - 1));
  return sum;
};

/** Cases: a name, what it is held against and by how much, and a run of `n` operations. */
export const cases = [
  {
    name: "point in a polygon of 100,000 vertices: box tree",
    against: "point in a polygon of 100,000 vertices: turf",
    goalRatio: 300,
    run: over((i) => (pointInRings(tree, px[i]!, py[i]!) ? 1 : 0)),
  },
  {
    name: "point in a polygon of 100,000 vertices: turf",
    run: over((i) => (turf.booleanPointInPolygon([px[i]! / 1e5, py[i]! / 1e5], island) ? 1 : 0)),
  },
  {
    name: "distance to 100,000 segments: box tree",
    against: "distance to 100,000 segments: flatbush",
    goalRatio: 3,
    run: over((i) => nearestOnSegments(tree, px[i]!, py[i]!)),
  },
  {
    name: "distance to 100,000 segments: flatbush",
    run: over((i) => byFlatbush(px[i]!, py[i]!)),
  },
  {
    name: "distance to 100,000 segments: every segment",
    run: over((i) => {
      let best = Infinity;
      for (let v = 0; v < VERTICES - 1; v++) best = Math.min(best, toSegment2(v, px[i]!, py[i]!));
      return Math.sqrt(best);
    }),
  },
  {
    name: "ray to 100,000 segments: box tree",
    goalNs: 1000,
    run: over((i) => Math.min(1e9, rayHit(tree, px[i]!, py[i]!, dx[i]!, dy[i]!))),
  },
  {
    name: "position onto the plane",
    why: "within an eighth of the goal; not looked into further",
    against: "distance by geodesic: geographiclib",
    goalRatio: 200,
    // Written out: a call through `over` would cost as much as the work.
    run: (n: number): number => {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        const i = k & (POINTS - 1);
        toPlane(plane, lat[i]!, lon[i]!, at, 0);
        sum += at[0]! + at[1]!;
      }
      return sum;
    },
  },
  {
    name: "distance by geodesic: own",
    run: over((i) => geodesicInverse(plane, { latDeg: lat[i]!, lonDeg: lon[i]! }).distanceM),
  },
  {
    name: "distance by geodesic: geographiclib",
    run: over((i) => gl.Geodesic.WGS84.Inverse(50, 179.99, lat[i]!, lon[i]!).s12!),
  },
  {
    name: "tree over 100,000 segments: own",
    against: "tree over 100,000 segments: flatbush",
    run: over(() => buildBoxTree(paths).boxes[4]!),
  },
  {
    name: "tree over 100,000 segments: flatbush",
    run: over(() => {
      const b = new Flatbush(VERTICES - 1);
      for (let i = 0; i < VERTICES - 1; i++)
        b.add(xy[2 * i]!, xy[2 * i + 1]!, xy[2 * i + 2], xy[2 * i + 3]);
      b.finish();
      return b.minX;
    }),
  },
];
