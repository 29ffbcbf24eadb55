import { describe, expect, test } from "vitest";
import { castAll } from "../../src/shelter/rays.js";

// Every ray against every segment of an invented shore, by solving for the place where the two cross: what the one
// pass over the vertices must find, with its rays in any order and however unevenly they lie.

type Place = readonly [x: number, y: number];

/** Numbers in (0, 1) by Park and Miller's minimal standard. */
function random(seed: number): () => number {
  let now = seed;
  return () => (now = (now * 16_807) % 2_147_483_647) / 2_147_483_647;
}

const pathsOf = (lines: readonly (readonly Place[])[]) => {
  const starts = [0];
  for (const line of lines) starts.push(starts.at(-1)! + line.length);
  return { xy: Float64Array.from(lines.flat(2)), starts: Int32Array.from(starts) };
};

function cast(lines: readonly (readonly Place[])[], eye: Place, dirs: number[], limit = Infinity) {
  const count = dirs.length / 2;
  const distance = new Float64Array(count).fill(limit);
  const vertex = new Int32Array(count);
  castAll(pathsOf(lines), eye[0], eye[1], Float64Array.from(dirs), distance, vertex);
  return { distance: [...distance], vertex: [...vertex] };
}

/** First segment on one ray, and how far off it is met. */
function first(lines: readonly (readonly Place[])[], eye: Place, dx: number, dy: number) {
  let best = { distance: Infinity, vertex: -1 };
  let at = 0;
  for (const line of lines) {
    for (let i = 0; i + 1 < line.length; i++) {
      const [[ax, ay], [bx, by]] = [line[i]!, line[i + 1]!];
      // eye + t d = a + s (b - a), by Cramer's rule.
      const [ex, ey, qx, qy] = [bx - ax, by - ay, ax - eye[0], ay - eye[1]];
      const det = dy * ex - dx * ey;
      const t = (ex * qy - ey * qx) / det;
      const s = (dx * qy - dy * qx) / det;
      if (s >= 0 && s <= 1 && t >= 0 && t < best.distance) best = { distance: t, vertex: at + i };
    }
    at += line.length;
  }
  return best;
}

const direction = (deg: number): number[] => {
  const rad = (deg * Math.PI) / 180;
  return [Math.sin(rad), Math.cos(rad)];
};

function expectFirst(lines: readonly (readonly Place[])[], eye: Place, bearings: number[]): number {
  const dirs = bearings.flatMap(direction);
  const got = cast(lines, eye, dirs);
  let met = 0;
  bearings.forEach((_, i) => {
    const want = first(lines, eye, dirs[2 * i]!, dirs[2 * i + 1]!);
    expect([bearings[i], got.vertex[i]]).toEqual([bearings[i], want.vertex]);
    if (want.vertex < 0) {
      expect(got.distance[i]).toBe(Infinity);
      return;
    }
    met += 1;
    expect(got.distance[i]! / want.distance).toBeCloseTo(1, 9);
  });
  return met;
}

/** Lines that wander about a place, some with short steps, some with strides that pass it on any side. */
function shore(next: () => number, eye: Place): Place[][] {
  return Array.from({ length: 4 }, (_, n) => {
    const stride = [0.1, 1, 6, 30][n]!;
    let [x, y] = [eye[0] + 20 * (next() - 0.5), eye[1] + 20 * (next() - 0.5)];
    return Array.from({ length: 3 + Math.floor(40 * next()) }, (): Place => {
      x += stride * (next() - 0.5);
      y += stride * (next() - 0.5);
      return [x, y];
    });
  });
}

const even = (count: number, from = 0, step = 360 / count): number[] =>
  Array.from({ length: count }, (_, i) => (from + i * step) % 360);

describe("rays over a shore without an index", () => {
  const fans: Record<string, (next: () => number) => number[]> = {
    "one ray": (next) => [360 * next()],
    "two rays opposite each other": (next) => even(2, 360 * next()),
    "two rays close together": (next) => even(2, 360 * next(), 20),
    "five rays of one quarter": (next) => even(5, 360 * next(), 20),
    "a fan of less than half a turn": (next) => even(9, 360 * next(), 15),
    "three rays": (next) => even(3, 360 * next()),
    "four rays": () => even(4),
    "rays every 5°": () => even(72),
    "rays in no order, at no even step": (next) => Array.from({ length: 40 }, () => 360 * next()),
  };
  test.each(Object.entries(fans))("%s: the segment met first", (_, bearings) => {
    const next = random(20_260);
    let met = 0;
    for (let i = 0; i < 60; i++) {
      const eye: Place = [100 * (next() - 0.5), 100 * (next() - 0.5)];
      met += expectFirst(shore(next, eye), eye, bearings(next));
    }
    expect(met).toBeGreaterThan(20);
  });

  test("a fine shore all round, with more rays than vertices and with fewer", () => {
    const round = even(600).map((deg): Place => {
      const [x, y] = direction(deg + 0.123) as [number, number];
      const r = 5 + Math.sin(deg / 7) + 0.5 * Math.cos(deg * 11);
      return [3 + r * x, -2 + r * y];
    });
    for (const count of [7, 72, 1500])
      expect(expectFirst([[...round, round[0]!]], [3, -2], even(count))).toBe(count);
  });

  test("nothing is met beyond what is looked at", () => {
    const wall: Place[] = [
      [-5, 10],
      [5, 10],
    ];
    expect(cast([wall], [0, 0], [0, 1], 11)).toEqual({ distance: [10], vertex: [0] });
    expect(cast([wall], [0, 0], [0, 1], 9)).toEqual({ distance: [9], vertex: [-1] });
  });

  test("one line does not run on into the next", () => {
    const ends: Place[][] = [
      [
        [-5, 10],
        [-4, 10],
      ],
      [
        [4, 10],
        [5, 10],
      ],
    ];
    expect(cast(ends, [0, 0], [0, 1])).toEqual({ distance: [Infinity], vertex: [-1] });
  });

  test("corners that lie on rays to the last bit", () => {
    // Rays of 3-4-5 triangles and along the axes, each through a corner of the square or of the kite.
    const dirs = [1, 0, 0.6, 0.8, 0, 1, -0.6, 0.8, -1, 0, -0.6, -0.8, 0, -1, 0.6, -0.8];
    const round = (corners: Place[]) => [[...corners, corners[0]!]];
    const kite: Place[] = [
      [10, 0],
      [6, 8],
      [0, 20],
      [-6, 8],
      [-10, 0],
      [-6, -8],
      [0, -20],
      [6, -8],
    ];
    const want = [10, 10, 20, 10, 10, 10, 20, 10].map((d) => expect.closeTo(d, 9) as number);
    expect(cast(round(kite), [0, 0], dirs).distance).toEqual(want);
    expect(cast(round([...kite].reverse()), [0, 0], dirs).distance).toEqual(want);
    const wide: Place[] = [
      [10, -10],
      [10, 10],
      [-10, 10],
      [-10, -10],
    ];
    const square = [10, 12.5, 10, 12.5, 10, 12.5, 10, 12.5].map(
      (d) => expect.closeTo(d, 9) as number,
    );
    expect(cast(round(wide), [0, 0], dirs).distance).toEqual(square);
  });

  test("a point of land that just touches a ray, its body clockwise of it", () => {
    const spit: Place[] = [
      [4, 4],
      [0, 5],
      [4, 6],
    ];
    // With a narrow fan, which is looked at quickly, and with one ray.
    for (const dirs of [
      [0, 1],
      [0, 1, 1, 0, -1, 0, 0, -1],
    ])
      expect(cast([spit], [0, 0], dirs).distance[0]).toBe(5);
  });

  test("a shore seen end on is met between its ends or passed by, never before them", () => {
    const next = random(7);
    for (let i = 0; i < 4000; i++) {
      const [dx, dy] = direction(360 * next()) as [number, number];
      const close = 1 + 1000 * next();
      const far = close + 1000 * next();
      const line: Place[] = [
        [close * dx, close * dy],
        [far * dx, far * dy],
      ];
      const dirs = [dx, dy, -dy, dx, -dx, -dy, dy, -dx];
      for (const way of [line, [...line].reverse()]) {
        const [ahead, ...others] = cast([way], [0, 0], dirs).distance;
        if (ahead !== Infinity) {
          expect(ahead).toBeGreaterThan(close - 1e-9);
          expect(ahead).toBeLessThan(far + 1e-9);
        }
        expect(others).toEqual([Infinity, Infinity, Infinity]);
      }
    }
  });
});
