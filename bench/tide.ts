/**
 * Height of tide: 37 constituents against a general-purpose tide library, a table of turns against
 * the plain lookup.
 *
 * Each case runs `n` operations and returns a sum so that no work can be left out. `against` names
 * the case whose time is divided by this one's for the ratio.
 */
import { createTidePredictor } from "@neaps/tide-predictor";
import { check } from "../src/core/check.js";
import { tideHeight, tideSeries, type TideSource } from "../src/tide/index.js";
import { knotFill, knotHeight, type Knots } from "../src/tide/knots.js";
import { tideCurve } from "../src/tide/prepare.js";
import { tideSource } from "../src/tide/source.js";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const FROM = Date.UTC(2026, 5, 1);
const TO = FROM + 14 * DAY;
const MINUTE = 60_000;

/** The 37 constituents of the printed predictions, with amplitudes that fall off as they do in nature. */
const constituents =
  "M2 S2 N2 K1 M4 O1 M6 MK3 S4 MN4 NU2 S6 MU2 2N2 OO1 LAM2 S1 M1 J1 MM SSA SA MSF MF RHO Q1 T2 R2 2Q1 P1 2SM2 M3 L2 2MK3 K2 M8 MS4"
    .split(" ")
    .map((name, i) => ({
      name,
      amplitudeM: 1.5 / (i + 1),
      phaseDeg: (137 * i) % 360,
    }));
const source: TideSource = {
  kind: "constituents",
  constituents,
  meanLevelM: 2,
  datum: "LAT",
};
const curve = tideCurve(check(tideSource, source), FROM, TO);
const peer = createTidePredictor(
  constituents.map((c) => ({
    name: c.name,
    amplitude: c.amplitudeM,
    phase: c.phaseDeg,
  })),
  { nodeCorrections: "schureman" },
);

/** A year of turns. */
const TURNS = 1411;
const knots: Knots = {
  times: Float64Array.from(
    { length: TURNS },
    (_, i) => FROM + i * 6.21 * HOUR + 0.4 * HOUR * Math.sin(i),
  ),
  heights: Float64Array.from(
    { length: TURNS },
    (_, i) => 2 + (i % 2 === 0 ? -1.7 : 1.9) + 0.4 * Math.cos(i / 9),
  ),
  slopes: new Float64Array(TURNS),
  known: new Uint8Array(TURNS).fill(1),
  low: new Float64Array(TURNS),
  high: new Float64Array(TURNS),
  beyond: new Uint8Array(TURNS),
  rule: "cosine",
};
const SPAN = knots.times[TURNS - 1]! - FROM - 2 * HOUR;
const instants = Float64Array.from(
  { length: 4096 },
  (_, i) => FROM + HOUR + (((i + 1) * 0.6180339887) % 1) * SPAN,
);
const near = Float64Array.from(
  { length: 4096 },
  (_, i) => FROM + (((i + 1) * 0.6180339887) % 1) * 14 * DAY,
);
const timeline = new Float64Array(14 * 24 * 60 + 1);

const times =
  (f: (i: number) => number) =>
  (n: number): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += f(i);
    return sum;
  };

/** Heights of a timeline one by one, each found for itself. */
function plainTimeline(): number {
  for (let k = 0; k < timeline.length; k++)
    timeline[k] = knotHeight(knots, FROM + DAY + k * MINUTE);
  return timeline[777]!;
}

export const cases = [
  {
    name: "37 constituents, 14 days by 1 min, with checks and preparation",
    against: "37 constituents, 14 days by 1 min: tide-predictor",
    goalRatio: 20,
    run: times(() => tideSeries(source, { fromMs: FROM, toMs: TO, stepMs: MINUTE })[777]!),
  },
  {
    name: "37 constituents, 14 days by 1 min: tide-predictor",
    run: times(
      () =>
        peer.getTimelinePrediction({
          start: new Date(FROM),
          end: new Date(TO),
          timeFidelity: 60,
        })[777]!.level,
    ),
  },
  {
    name: "37 constituents, one height on a curve made ready",
    against: "37 constituents, one height: tide-predictor",
    goalRatio: 20,
    run: times((i) => curve.heightAt(near[i & 4095]!)),
  },
  {
    name: "37 constituents, one height, with checks and preparation",
    run: times((i) => {
      const h = tideHeight(source, near[i & 4095]!);
      return h.known ? h.heightM : NaN;
    }),
  },
  {
    name: "37 constituents, one height: tide-predictor",
    run: times((i) => peer.getWaterLevelAtTime({ time: new Date(near[i & 4095]!) }).level),
  },
  {
    name: "turns of a year, one height",
    goalNs: 60,
    run: times((i) => knotHeight(knots, instants[i & 4095]!)),
  },
  {
    name: "turns of a year, timeline of 14 days by 1 min",
    against: "turns of a year, the same one height after another",
    goalRatio: 4,
    run: times(() => {
      knotFill(knots, FROM + DAY, MINUTE, timeline);
      return timeline[777]!;
    }),
  },
  {
    name: "turns of a year, the same one height after another",
    run: times(plainTimeline),
  },
];
