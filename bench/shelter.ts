/**
 * Shelter: a fan of 72 rays over 108,000 segments of coast, and a night of 16 hours over 21 directions.
 *
 * Each case runs `n` operations and returns a sum so that no work can be left out. `against` names
 * the case whose time is divided by this one's for the ratio.
 */
import { drawCoast, prepareChecked, type PreparedCoast } from "../src/shelter/coast.js";
import { castRays, fetchFan } from "../src/shelter/fetchFan.js";
import { type Eye, eyeAt, rayDirection } from "../src/shelter/frame.js";
import { shelter, type ShelterInput } from "../src/shelter/index.js";

const RINGS = 180;
const VERTICES = 600;
const LIMIT_M = 100_000;
const HOUR = 3_600_000;
const position = { latDeg: 47, lonDeg: -20 };
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;

/** Ragged islets about a berth, 108,000 segments of about 50 m. */
const coast = {
  type: "MultiPolygon",
  coordinates: Array.from({ length: RINGS }, (_, k) => {
    const bearing = 2 * Math.PI * part(k, 0.6180339887498949);
    const off = 0.07 + 0.6 * part(k, 0.7548776662466927);
    const ring = Array.from({ length: VERTICES }, (_, v) => {
      const a = (2 * Math.PI * v) / VERTICES;
      const r = 0.04 * (1 + 0.2 * Math.sin(7 * a + k) + 0.03 * part(v, 0.5698));
      return [
        -20 + 1.47 * (off * Math.sin(bearing) + r * Math.cos(a)),
        47 + off * Math.cos(bearing) + r * Math.sin(a),
      ];
    });
    return [[...ring, ring[0]!]];
  }),
};
const bearings = Float64Array.from({ length: 72 }, (_, i) => 5 * i);
const plain = drawCoast({ coast });
const indexed = prepareChecked({ coast });
const eye = eyeAt(plain.frame, position);
const eyes = Array.from({ length: 64 }, (_, i) =>
  eyeAt(indexed.frame, {
    latDeg: 47 + 0.02 * (part(i, 0.618) - 0.5),
    lonDeg: -20 + 0.02 * (part(i, 0.7548) - 0.5),
  }),
);

/** Every ray against every segment. */
function naive({ xy, starts }: PreparedCoast, from: Eye): number {
  const dir = new Float64Array(2);
  let sum = 0;
  for (const bearing of bearings) {
    rayDirection(from, bearing, dir, 0);
    const dx = dir[0]!;
    const dy = dir[1]!;
    let nearest = LIMIT_M;
    for (let p = 0; p + 1 < starts.length; p++)
      for (let v = starts[p]!; v + 1 < starts[p + 1]!; v++) {
        const ax = xy[2 * v]! - from.x;
        const ay = xy[2 * v + 1]! - from.y;
        const sx = xy[2 * v + 2]! - xy[2 * v]!;
        const sy = xy[2 * v + 3]! - xy[2 * v + 1]!;
        const across = dx * sy - dy * sx;
        const t = (ax * sy - ay * sx) / across;
        const u = (ax * dy - ay * dx) / across;
        if (t >= 0 && t < nearest && u >= 0 && u <= 1) nearest = t;
      }
    sum += nearest;
  }
  return sum;
}

const cast = (on: PreparedCoast, from: Eye): number =>
  castRays(on, from, bearings, LIMIT_M).fetchM[0]!;

const fan = fetchFan({ coast, position });
const start = Date.UTC(2026, 5, 1, 18);
const rows = Array.from({ length: 16 }, (_, i) => ({
  timeMs: start + i * HOUR,
  windMps: 6 + 6 * part(i, 0.618),
  windFromDeg: (200 + 9 * i) % 360,
}));
const night: ShelterInput = {
  fan,
  stay: { fromMs: start, toMs: start + 15 * HOUR },
  forecast: { rows },
};
const swell = rows.map(({ timeMs }, i) => ({
  timeMs,
  hm0M: 1.2,
  periodS: 8 + i / 8,
  fromDeg: 250,
}));

const times = (of: (k: number) => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += of(k);
  return sum;
};

/** Cases: a name, what it is held against and by how much, and a run of `n` operations. */
export const cases = [
  {
    name: "72 rays, 108,000 segments, no index",
    against: "72 rays, 108,000 segments, every ray on every segment",
    goalNs: 2e6,
    run: times(() => cast(plain, eye)),
  },
  {
    name: "72 rays, 108,000 segments, every ray on every segment",
    run: times(() => naive(plain, eye)),
  },
  {
    name: "72 rays, 108,000 segments, with index (1 M rays/s is 72 µs)",
    goalNs: 72e3,
    run: times((k) => cast(indexed, eyes[k % eyes.length]!)),
  },
  {
    name: "fetchFan from GeoJSON of 108,000 segments, read and checked",
    run: times(() => fetchFan({ coast, position }).fetchM[0]!),
  },
  {
    name: "prepareCoast of 108,000 segments",
    run: times(() => prepareChecked({ coast }).xy[0]!),
  },
  {
    name: "shelter, 16 h by 21 directions",
    goalNs: 3e6,
    run: times(() => shelter(night).summary.poor),
  },
  {
    name: "shelter, 16 h by 21 directions, with hourly swell",
    run: times(() => shelter({ ...night, swell }).summary.poor),
  },
];
