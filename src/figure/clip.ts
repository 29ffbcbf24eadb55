import type { Box } from "./layout.js";

type Point = readonly [number, number];

/** Whether a point lies inside one side of the frame, and where a line crosses that side. */
interface Side {
  inside: (p: Point) => boolean;
  cross: (a: Point, b: Point) => Point;
}

const upright = (x: number, sign: number): Side => ({
  inside: (p) => sign * (p[0] - x) >= 0,
  cross: (a, b) => [x, a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1])],
});
const level = (y: number, sign: number): Side => ({
  inside: (p) => sign * (p[1] - y) >= 0,
  cross: (a, b) => [a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]), y],
});

const sidesOf = (f: Box): Side[] => [
  upright(f.left, 1),
  upright(f.right, -1),
  level(f.top, 1),
  level(f.bottom, -1),
];

/** Ring cut to a frame, side by side (Sutherland and Hodgman 1974); empty where nothing is left. */
export function clipRing(ring: readonly Point[], frame: Box): Point[] {
  let points = [...ring];
  for (const side of sidesOf(frame)) {
    const out: Point[] = [];
    points.forEach((b, i) => {
      const a = points[(i + points.length - 1) % points.length]!;
      if (side.inside(a) !== side.inside(b)) out.push(side.cross(a, b));
      if (side.inside(b)) out.push(b);
    });
    points = out;
  }
  return points;
}

/** Parts of a line inside a frame. */
export function clipLine(line: readonly Point[], frame: Box): Point[][] {
  const parts: Point[][] = [];
  let open: Point[] = [];
  for (let i = 1; i < line.length; i++) {
    const piece = clipSegment(line[i - 1]!, line[i]!, frame);
    const last = open.at(-1);
    const goesOn = piece !== null && last?.[0] === piece[0][0] && last[1] === piece[0][1];
    if (goesOn) {
      open.push(piece[1]);
      continue;
    }
    if (open.length > 1) parts.push(open);
    open = piece === null ? [] : [...piece];
  }
  if (open.length > 1) parts.push(open);
  return parts;
}

function clipSegment(a: Point, b: Point, frame: Box): [Point, Point] | null {
  let [p, q] = [a, b];
  for (const side of sidesOf(frame)) {
    const [inP, inQ] = [side.inside(p), side.inside(q)];
    if (!inP && !inQ) return null;
    if (!inP) p = side.cross(p, q);
    else if (!inQ) q = side.cross(p, q);
  }
  return [p, q];
}

/** Points with those closer than `step` to the one before left out; the last stays. */
export function thinned(points: readonly Point[], step: number): Point[] {
  const out: Point[] = [];
  points.forEach((p, i) => {
    const last = out.at(-1);
    const near = last !== undefined && Math.abs(p[0] - last[0]) + Math.abs(p[1] - last[1]) < step;
    if (!near || i === points.length - 1) out.push(p);
  });
  return out;
}
