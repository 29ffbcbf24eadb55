/** Pulls astern to try whether the anchor has set: the rode stretches, then she stops, or the anchor comes. */
import { planeAt, positionOf } from "../../src/geo/plane.js";
import { type SetJudgement, type WatchEvent, judgeSet } from "../../src/watch/index.js";
import { randomFrom } from "./random.js";

const plane = planeAt({ latDeg: 50, lonDeg: -4 });
/** Correlation time of the receiver's error, s; stretch of the rode, m, and its time constant, s. */
const [TAU_S, STRETCH_M, STRETCH_S] = [170, 5, 4];
const DOPPLER_SD = 0.05;

/** One pull. */
export interface Pull {
  seconds: number;
  dragMps: number;
  sigmaM: number;
  doppler: boolean;
}

/** What is seen of a pull, a fix a second; the same number gives the same error. */
export function pullEvents(number: number, p: Pull): WatchEvent[] {
  const r = randomFrom(number * 7919 + 29);
  const keep = Math.exp(-1 / TAU_S);
  const fresh = p.sigmaM * Math.sqrt(1 - keep * keep);
  let [ex, ey] = [p.sigmaM * r.gauss(), p.sigmaM * r.gauss()];
  const events: WatchEvent[] = [
    { kind: "heading", timeMs: 0, headingDeg: 0 },
    { kind: "engine", timeMs: 0, engine: "astern" },
  ];
  for (let s = 0; s <= p.seconds; s++) {
    ex = keep * ex + fresh * r.gauss();
    ey = keep * ey + fresh * r.gauss();
    const way = STRETCH_M * -Math.expm1(-s / STRETCH_S) + p.dragMps * s;
    const speed = (STRETCH_M / STRETCH_S) * Math.exp(-s / STRETCH_S) + p.dragMps;
    events.push({
      kind: "fix",
      timeMs: s * 1000,
      ...positionOf(plane, ex, ey - way),
      sigmaM: p.sigmaM,
      ...(p.doppler ? { sogMps: Math.abs(speed + DOPPLER_SD * r.gauss()), cogDeg: 180 } : {}),
    });
  }
  return events;
}

/** Verdicts of many pulls of one kind. */
export function pullRow(from: number, count: number, p: Pull) {
  const verdicts: Record<SetJudgement["verdict"], number> = {
    holds: 0,
    creeps: 0,
    drags: 0,
    cannotTell: 0,
  };
  const excluded: number[] = [];
  for (let n = 0; n < count; n++) {
    const set = judgeSet({ events: pullEvents(from + n, p) });
    verdicts[set.verdict]++;
    excluded.push(set.leastSpeedExcludedMps ?? Infinity);
  }
  excluded.sort((a, b) => a - b);
  return { ...p, verdicts, medianExcludedMps: excluded[count >> 1]! };
}

/** The table of the report. */
export function pullTable(from: number, count: number) {
  const rows: ReturnType<typeof pullRow>[] = [];
  for (const [sigmaM, doppler] of [
    [1.5, false],
    [1.5, true],
    [5, false],
    [5, true],
  ] as const)
    for (const seconds of [20, 60, 120, 180])
      for (const dragMps of [0, 0.1, 0.5])
        rows.push(pullRow(from, count, { seconds, dragMps, sigmaM, doppler }));
  return rows;
}
