/** The error of a real receiver laid over simulated nights, and which logs there are to take one from. */
import { existsSync, readFileSync } from "node:fs";
import { planeAt, toPlane } from "../../src/geo/plane.js";
import { readNmea0183 } from "../../src/feed/nmea.js";
import type { FixEvent } from "../../src/watch/events.js";
import { dragRow, metre, percent, shareOf } from "./found.js";
import { type Drag, type Night, type Scenario, simulateNight } from "./night.js";
import { randomFrom } from "./random.js";
import { traceNight } from "./trace.js";

/** Where the open logs lie beside the project. */
const FOLDER = "../shared/data/nmea";
const LOGS = [
  "gps.log",
  "gofree-merrimac.log",
  "gpsd-ijsselmeer-mixed.log",
  "gpsd-depth-river.log",
  "gpsd-ais-gps-hdt.log",
  "gpsd-gnss-imu.log",
  "gpsd-hemi.log",
];
/** The only one with minutes of fixes at little way. */
const LONGEST = LOGS[0]!;
/** Pieces of the log that a night is put together from, and how long one takes over from another, s. */
const [PIECE_S, FADE_S] = [300, 30];

const DRAGS: Record<string, Drag> = {
  "0.5 m/min": { mPerMin: 0.5 },
  "1 kn": { mPerMin: 1852 / 60 },
};

/** Positions about their middle, m, a second apart as far as the log has them, and what was stated and told. */
export interface Series {
  x: number[];
  y: number[];
  sigmaM: number;
  minutes: number;
  fixes: number;
  middleKn: number;
  greatestKn: number;
}

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
const spread = (values: readonly number[]): number => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) * (b - mean), 0) / values.length);
};

/** The fixes of a log, by the library's own reader. */
export function seriesOf(log: string): Series {
  const fixes = readNmea0183(log).events.filter((e): e is FixEvent => e.kind === "fix");
  const at = {
    latDeg: middle(fixes.map((f) => f.latDeg)),
    lonDeg: middle(fixes.map((f) => f.lonDeg)),
  };
  const plane = planeAt(at);
  const xy = new Float64Array(2);
  const [x, y]: [number[], number[]] = [[], []];
  for (const f of fixes) {
    toPlane(plane, f.latDeg, f.lonDeg, xy, 0);
    x.push(xy[0]!);
    y.push(xy[1]!);
  }
  const told = fixes.flatMap((f) => (f.sogMps === undefined ? [] : [(f.sogMps * 3600) / 1852]));
  return {
    x,
    y,
    sigmaM: middle(fixes.map((f) => f.sigmaM ?? NaN)),
    minutes: fixes.length === 0 ? 0 : (fixes.at(-1)!.timeMs - fixes[0]!.timeMs) / 60_000,
    fixes: fixes.length,
    middleKn: middle(told),
    greatestKn: told.length === 0 ? NaN : told.reduce((a, b) => Math.max(a, b)),
  };
}

/** An error put together from pieces drawn at random, one fading into the next, turned about as a whole. */
export function replayed(number: number, night: Night, s: Series): Night {
  const r = randomFrom(number * 7919 + 43);
  const turn = r.between(0, 2 * Math.PI);
  const [c, n] = [Math.cos(turn), Math.sin(turn)];
  const draw = () => Math.floor(r.between(0, s.fixes - PIECE_S - FADE_S));
  let [from, next, began] = [draw(), draw(), 0];
  const error = (t: number) => {
    if (t - began >= PIECE_S) [from, next, began] = [next, draw(), began + PIECE_S];
    const k = Math.floor(t - began);
    // The old piece runs on while the new one comes in, their spread kept.
    const part = Math.min(1, Math.max(0, (k - PIECE_S + FADE_S) / FADE_S));
    const [a, b] = [Math.sqrt(1 - part), Math.sqrt(part)];
    const into = Math.max(0, k - PIECE_S + FADE_S);
    const at = part > 0 ? next : from;
    const ex = a * s.x[from + k + FADE_S]! + b * s.x[at + into]!;
    const ey = a * s.y[from + k + FADE_S]! + b * s.y[at + into]!;
    return [c * ex + n * ey, c * ey - n * ex] as const;
  };
  const set = Math.floor(r.between(0, s.fixes));
  const out = { ...night, x: night.x.slice(), y: night.y.slice(), statedSigmaM: s.sigmaM };
  [out.setX, out.setY] = [s.x[set]! + 1.5 * r.gauss(), s.y[set]! + 1.5 * r.gauss()];
  for (let i = 0; i < night.steps; i++) {
    const [ex, ey] = error(i * night.stepS);
    out.x[i] = night.x[i]! + ex;
    out.y[i] = night.y[i]! + ey;
  }
  return out;
}

function nights(from: number, count: number, s: Series, more: Partial<Scenario>) {
  return Array.from({ length: count }, (_, k) => {
    const night = replayed(from + k, simulateNight(from + k, { receiver: "perfect", ...more }), s);
    return { night, trace: { ...traceNight(night, { anchor: true }), windows: [] } };
  });
}

/** Share of nights with a false alarm, a part of them at a time. */
function falseNights(from: number, count: number, s: Series, more: Partial<Scenario> = {}) {
  let hits = 0;
  for (let at = 0; at < count; at += 50)
    hits += nights(from + at, Math.min(50, count - at), s, more).filter(
      (n) => n.trace.alarmStep >= 0,
    ).length;
  return shareOf(hits, count);
}

/** What the logs are like, and what the watch makes of nights with the error of the longest; null where they are not at hand. */
export function replayReport(from: number, count: number, drags: number) {
  if (!existsSync(FOLDER)) return null;
  const all = LOGS.map((name) => ({
    name,
    series: seriesOf(readFileSync(`${FOLDER}/${name}`, "utf8")),
  }));
  const s = all.find((l) => l.name === LONGEST)!.series;
  return {
    from,
    logs: all.map(({ name, series: { x, y, ...rest } }) => ({
      name,
      ...rest,
      spreadEastM: spread(x),
      spreadNorthM: spread(y),
    })),
    of: LONGEST,
    all: falseNights(from, count, s),
    windy: falseNights(from, count, s, { windy: true }),
    drags: Object.entries(DRAGS).map(([name, drag]) => {
      const found = nights(from, drags, s, { drag });
      return dragRow(
        name,
        found.map((f) => f.night),
        found.map((f) => f.trace),
        (t) => t.alarmStep,
      );
    }),
  };
}

type Report = NonNullable<ReturnType<typeof replayReport>>;

const one = (v: number | null): string => (v === null || Number.isNaN(v) ? "–" : v.toFixed(1));

/** What was tried against real receivers, and what was not. */
export function replayPage(report: Report | null): string[] {
  if (report === null) return [];
  const longest = report.logs.find((l) => l.name === report.of)!;
  return [
    "",
    "## Real receivers",
    "",
    "A figure tried against real receivers would want series of hours from receivers known to lie still: at two open places at least, at one under trees, cliffs or masts, and of one kind of receiver that no limit was tuned to. None is at hand. The open logs that are:",
    "",
    "| log | minutes | fixes | speed told, middle / greatest | spread east / north |",
    "|---|---|---|---|---|",
    ...report.logs.map(
      (l) =>
        `| \`${l.name}\` | ${one(l.minutes)} | ${l.fixes} | ${one(l.middleKn)} / ${one(l.greatestKn)} kn | ${one(l.spreadEastM)} / ${one(l.spreadNorthM)} m |`,
    ),
    "",
    `Only \`${report.of}\` has minutes of fixes at little way, and nothing says that its receiver lay still: part of what is taken for its error may be the vessel. It states ${one(longest.sigmaM)} m (dilution times the reader's default) and strays several times as far, along one axis. Its ${one(longest.minutes)} min are a handful of independent pieces, whatever number of nights is made of them; so what follows is a trial of one receiver on one day, not an accuracy. Nights are put together from pieces of ${PIECE_S} s drawn at random, fading into each other over ${FADE_S} s, turned at random, and the anchor's place is off by its error at a moment drawn at random; no gaps, jumps or freezes but its own; numbered from ${report.from} on.`,
    "",
    `| ${report.all.of} nights with a false alarm | ${report.windy.of} windy nights | ${report.drags.map((d) => d.scenario).join(" | ")} | before | missed |`,
    `|---|---|${"---|".repeat(report.drags.length)}---|---|`,
    `| ${percent(report.all)} | ${percent(report.windy)} | ${report.drags.map((d) => `${metre(d.medianM)} / ${metre(d.ninetyM)}`).join(" | ")} | ${report.drags.map((d) => d.early).join(", ")} | ${report.drags.map((d) => d.late).join(", ")} |`,
    "",
    "Not shown: that ships which lay at anchor for days ring no alarm and those that shifted do. It would want their AIS tracks, a position every few minutes over whole stays, of ships known to have held and to have shifted; none is at hand.",
  ];
}
