import { describe, expect, test } from "vitest";
import { positionOf } from "../../src/geo/plane.js";
import type { StartWatchInput, WatchEvent } from "../../src/watch/index.js";
import { Beside } from "../besidePlain.js";
import { HOME, plane, START } from "../laws/watchScene.js";

/** Numbers from 0 to 1 from a seed (mulberry32). */
function random(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

interface Night {
  seed: number;
  /** Length, time between fixes, spread stated, and how far the error wanders. */
  hours: number;
  everyS: number;
  sigmaM: number;
  wanderM: number;
  /** Metres off the greatest distance that she lies, and how fast she drags from the middle to three quarters on. */
  outM: number;
  dragMps: number;
  /** Chances of a fix: late, the same again, the start of a leap, of a silence, of a stop. */
  late?: number;
  leap?: number;
  silence?: number;
  stop?: number;
  /** Whether there is a second receiver, headings, speeds, orders. */
  second?: boolean;
  heads?: boolean;
  speeds?: boolean;
  orders?: boolean;
  start?: Partial<StartWatchInput>;
}

const REACH = 40;
const reachAt = (t: number) => {
  const share = Math.min(1, Math.max(0, (t - START) / 7_200_000));
  return REACH + 6 * share;
};
const begin = (more: Partial<StartWatchInput> = {}) =>
  new Beside(
    {
      startMs: START,
      anchor: { known: true, position: HOME, sigmaM: 2 },
      limits: {
        rows: [0, 7_200_000].map((ms) => ({
          timeMs: START + ms,
          greatestDistanceM: reachAt(START + ms),
          leastDepthM: 3,
          greatestDepthM: 9,
        })),
        distanceSigmaM: 1.5,
      },
      ...more,
    },
    reachAt,
  );

/** What she and her receivers do, from seeded chance. */
class Scene {
  readonly rnd: () => number;
  private wander = [0, 0, 0, 0];
  private leap = { untilMs: 0, x: 0, y: 0 };
  private stopped = { untilMs: 0, x: 0, y: 0 };
  constructor(readonly night: Night) {
    this.rnd = random(night.seed);
  }
  gauss = () => Math.sqrt(-2 * Math.log(1 - this.rnd())) * Math.cos(2 * Math.PI * this.rnd());
  chance = (p = 0) => this.rnd() < p;

  private place(s: number, k: number): { x: number; y: number; bearing: number } {
    const n = this.night;
    const bearing = 0.7 + 0.5 * Math.sin(s / 900) + 0.3 * Math.sin(s / 110);
    const [from, to] = [n.hours * 1800, n.hours * 2700];
    const dragged = n.dragMps * Math.min(Math.max(0, s - from), to - from);
    const back = s > to + 300 ? dragged : 0;
    const r = reachAt(START + s * 1000) + n.outM + 2 * Math.sin(s / 37) + dragged - back;
    for (const i of [2 * k, 2 * k + 1])
      this.wander[i] = 0.97 * this.wander[i]! + 0.25 * n.wanderM * this.gauss();
    const [dx, dy] = [this.wander[2 * k]! + 4 * k, this.wander[2 * k + 1]! - 3 * k];
    return { x: r * Math.sin(bearing) + dx, y: r * Math.cos(bearing) + dy, bearing };
  }

  fix(timeMs: number, k: 0 | 1): WatchEvent {
    const n = this.night;
    let { x, y } = this.place((timeMs - START) / 1000, k);
    if (this.chance(n.leap)) {
      const far = 6 + 120 * this.rnd() ** 2;
      const way = 6.283 * this.rnd();
      const untilMs = timeMs + 1000 * (this.chance(0.5) ? 15 : 260) * this.rnd();
      this.leap = { untilMs, x: far * Math.sin(way), y: far * Math.cos(way) };
    }
    if (this.chance(n.stop)) this.stopped = { untilMs: timeMs + 80_000 * this.rnd(), x, y };
    if (timeMs < this.leap.untilMs) [x, y] = [x + this.leap.x, y + this.leap.y];
    if (timeMs < this.stopped.untilMs) ({ x, y } = this.stopped);
    return {
      kind: "fix",
      timeMs,
      ...positionOf(plane, x, y),
      ...(this.chance(0.9) && { sigmaM: n.sigmaM * (0.8 + 0.4 * this.rnd()) }),
      ...(k === 1 && { receiver: 1 as const }),
      ...(n.speeds && { sogMps: 1.2 * this.rnd(), cogDeg: 360 * this.rnd() }),
    };
  }

  told(timeMs: number): WatchEvent[] {
    const n = this.night;
    const out: WatchEvent[] = [];
    const phase = Math.floor((timeMs - START) / 600_000) % 3;
    if (n.heads) {
      out.push({ kind: "heading", timeMs, headingDeg: (220 + 60 * phase + 30 * this.rnd()) % 360 });
      if (this.chance(0.05))
        out.push({ kind: "wind", timeMs, windMps: 6 + 6 * this.rnd(), windFromDeg: 220 });
    }
    if (!n.orders) return out;
    if (this.chance(0.02))
      out.push({ kind: "depth", timeMs, depthM: [2.5, 5, 10][phase]! + 0.2 * this.rnd() });
    if (this.chance(0.004))
      out.push({
        kind: "transit",
        timeMs,
        openedDeg: 12 * this.rnd(),
        swingOpenDeg: 4,
        metresPerDegree: 5,
      });
    if (this.chance(0.01)) out.push({ kind: "acknowledge", timeMs });
    if (this.chance(0.001)) out.push({ kind: "veered", timeMs, byM: 6 * this.rnd() - 2 });
    if (this.chance(0.001))
      out.push({ kind: "anchor", timeMs, position: positionOf(plane, 3, -2), sigmaM: 4 });
    return out;
  }
}

/** A night, told to both. */
function watched(n: Night): Beside {
  const scene = new Scene(n);
  const both = begin(n.start);
  if (n.start?.stage === "letGo" || n.seed % 2 === 1)
    both.tell({ kind: "clock", timeMs: START + 70_000 });
  const endMs = START + n.hours * 3_600_000;
  for (let t = START + 1000; t < endMs; t += n.everyS * 1000) {
    if (scene.chance(n.silence)) {
      for (let c = 0; c < 14; c++) both.tell({ kind: "clock", timeMs: (t += 31_000) });
      t += 900_000 * scene.rnd() ** 3;
      t = Math.round(t);
    }
    for (const k of n.second ? ([0, 1] as const) : ([0] as const)) {
      // Now and then one of the two is silent for some minutes.
      if (n.second && Math.floor((t - START) / 400_000) % 4 === 1 + k) continue;
      const late = scene.chance(n.late) ? Math.round(-50_000 * scene.rnd() ** 2) : 0;
      const fix = scene.fix(t + late, k);
      both.tell(fix);
      if (scene.chance(n.late)) both.tell(fix);
      if (scene.chance(n.late)) both.tell({ ...fix, timeMs: t - 2000 });
    }
    for (const e of scene.told(t)) both.tell(e);
  }
  return both;
}

const quiet = { hours: 1.2, everyS: 5, sigmaM: 1.5, wanderM: 1, outM: -4, dragMps: 0 };
const NIGHTS: Record<string, Omit<Night, "seed"> & { seeds: number[] }> = {
  "a quiet night, the clock first": { ...quiet, hours: 1, seeds: [1] },
  "a drag, speeds told, acknowledged": {
    ...quiet,
    seeds: [1],
    dragMps: 0.15,
    speeds: true,
    orders: true,
  },
  "a slow drag heard of by a poor receiver": {
    ...quiet,
    seeds: [2],
    everyS: 9,
    hours: 2,
    sigmaM: 5,
    wanderM: 7,
    outM: 0,
    dragMps: 0.02,
    orders: true,
  },
  "leaps, silences and a receiver that stops": {
    ...quiet,
    seeds: [1, 2],
    late: 0.02,
    leap: 0.02,
    silence: 0.008,
    stop: 0.01,
    wanderM: 2,
    outM: 1,
    heads: true,
    start: { silentS: 90, silentInWindS: 45, ringSilentS: 300 },
  },
  "two receivers, late and leaping": {
    ...quiet,
    seeds: [1, 2],
    hours: 1.2,
    second: true,
    late: 0.02,
    leap: 0.01,
    outM: 2,
    speeds: true,
    orders: true,
  },
  "two good receivers that fall silent in turn": {
    ...quiet,
    seeds: [1],
    everyS: 7,
    second: true,
    outM: 3,
    sigmaM: 0.8,
    dragMps: 0.05,
    heads: true,
  },
  "faster than a second": {
    ...quiet,
    seeds: [1, 2],
    hours: 0.25,
    everyS: 0.7,
    outM: 3,
    late: 0.02,
    dragMps: 0.4,
  },
  "a transponder that speaks every three minutes": {
    ...quiet,
    seeds: [1, 2],
    hours: 5,
    everyS: 180,
    outM: 5,
    heads: true,
    start: { fixEveryS: 180 },
  },
  "an anchor that nobody knows": {
    ...quiet,
    seeds: [1],
    heads: true,
    dragMps: 0.1,
    start: { anchor: { known: false, near: HOME } },
  },
  "brought up in the night": {
    ...quiet,
    seeds: [1, 2],
    orders: true,
    outM: 6,
    start: { stage: "letGo" },
  },
};

describe("the watch is that which is written plainly, in every number after every event", () => {
  test.each(Object.entries(NIGHTS))("%s", (_, night) => {
    for (const seed of night.seeds)
      expect(watched({ ...night, seed }).plain.fixes).toBeGreaterThan(90);
  });
});
