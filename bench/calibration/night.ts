/**
 * One night at anchor, played from the uncertainty a plan states, by means of its own: another random generator,
 * errors of the weather drawn in time from their covariance, and the public functions of each domain one at a time.
 * Wind alone makes the vessels lie: there is no stream.
 */
import { holding } from "../../src/holding/index.js";
import { lie, vesselFrom } from "../../src/lie/index.js";
import { chain, layRode } from "../../src/rode/index.js";
import { tideHeight } from "../../src/tide/index.js";
import type { StayInput } from "../../src/plan/index.js";
import type { Random } from "../simulator/random.js";

/** A stay to be played. */
export interface Played {
  input: StayInput;
  depthM: number;
  windMps: number;
  sigmaDeg: number;
  lengthOutM: number;
  neighbour: { eastM: number; northM: number };
  timeMs: readonly number[];
}

/** What happened in a night. */
export interface Happened {
  drag: boolean;
  touch: boolean;
  neighbour: boolean;
}

const RAD = Math.PI / 180;
const FROM_DEG = 200;
const HOUR = 3_600_000;

/** Lower factor of a covariance matrix. */
function cholesky(n: number, of: (i: number, j: number) => number): number[][] {
  const l = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = of(i, j);
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      // The matrix has fewer dimensions than rows.
      l[i]![j] = i === j ? Math.sqrt(Math.max(0, sum)) : l[j]![j]! > 1e-7 ? sum / l[j]![j]! : 0;
    }
  return l;
}

/** Errors in sigmas at instants: six tenths last, a quarter turns in a day, the rest in nine hours. */
export function weatherErrors(timeMs: readonly number[]): (r: Random) => number[] {
  const turn = (apartMs: number, hours: number) =>
    Math.cos((2 * Math.PI * apartMs) / (hours * HOUR));
  const factor = cholesky(timeMs.length, (i, j) => {
    const apart = timeMs[i]! - timeMs[j]!;
    return 0.6 + 0.25 * turn(apart, 24) + 0.15 * turn(apart, 9);
  });
  return (r) => {
    const z = timeMs.map(() => r.gauss());
    return factor.map((row) => row.reduce((sum, f, k) => sum + f * z[k]!, 0));
  };
}

/** A figure of which one in twenty lies beyond each end, by normal halves. */
const halves = (low: number, likely: number, high: number, z: number): number =>
  likely + ((z < 0 ? likely - low : high - likely) / 1.644854) * z;

/** Share of wind force yawed, over that from ahead. */
function sheer(v: ReturnType<typeof vesselFrom>, yawDeg: number): number {
  const side =
    (v.windSideCoefficient * v.windageSideM2) / (v.windFrontCoefficient * v.windageFrontM2);
  return Math.max(1, Math.cos(yawDeg * RAD) + side * Math.sin(yawDeg * RAD));
}

/** Points round a hull whose bow is at a place. */
function border(bowX: number, bowY: number, headingDeg: number, lengthM: number, beamM: number) {
  const [ux, uy] = [Math.sin(headingDeg * RAD), Math.cos(headingDeg * RAD)];
  const points: [number, number][] = [];
  for (let k = 0; k <= 20; k++)
    for (const side of [-0.5, 0.5]) {
      const back = (lengthM * k) / 20;
      points.push([bowX - back * ux + side * beamM * uy, bowY - back * uy - side * beamM * ux]);
    }
  for (const back of [0, lengthM])
    for (let k = 1; k < 10; k++) {
      const across = beamM * (k / 10 - 0.5);
      points.push([bowX - back * ux + across * uy, bowY - back * uy - across * ux]);
    }
  return points;
}

const chord = (radiusM: number, deg: number): number => 2 * radiusM * Math.sin((deg * RAD) / 2);

interface Hull {
  points: [number, number][];
  /** How far any part may move as she yaws and sheers. */
  marginM: number;
}

function hullAt(
  v: ReturnType<typeof vesselFrom>,
  x: number,
  y: number,
  reachM: number,
  fromDeg: number,
  yawDeg: number,
): Hull {
  const bowX = x - reachM * Math.sin(fromDeg * RAD);
  const bowY = y - reachM * Math.cos(fromDeg * RAD);
  const corner = Math.sqrt(v.lengthM * v.lengthM + (v.beamM * v.beamM) / 4);
  return {
    points: border(bowX, bowY, fromDeg, v.lengthM, v.beamM),
    marginM: chord(reachM, yawDeg / 2) + chord(corner, yawDeg),
  };
}

function apart(a: Hull, b: Hull): number {
  // Two bows farther apart than both hulls are long leave no less than the rest.
  const [p, q] = [a.points[0]!, b.points[0]!];
  const bows = Math.sqrt((p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1]));
  const clear = bows - 30 - a.marginM - b.marginM;
  if (clear > 0) return clear;
  let least = Infinity;
  for (const [x, y] of a.points)
    for (const [u, w] of b.points) least = Math.min(least, (x - u) * (x - u) + (y - w) * (y - w));
  return Math.sqrt(least) - a.marginM - b.marginM;
}

const own = vesselFrom({ kind: "yacht", lengthM: 10, draughtM: 1.5 });
const other = vesselFrom({ kind: "motorBoat", lengthM: 9 });

/** Somewhere in a circle. */
function somewhere(r: Random, x: number, y: number, radiusM: number): [number, number] {
  for (;;) {
    const [u, v] = [r.between(-1, 1), r.between(-1, 1)];
    if (u * u + v * v <= 1) return [x + radiusM * u, y + radiusM * v];
  }
}

interface Lies {
  pullN: number;
  angleDeg: number;
  reachM: number;
}

/** A vessel in the wind alone, on chain. */
function liesIn(
  v: ReturnType<typeof vesselFrom>,
  windMps: number,
  yawDeg: number,
  chainMm: number,
  lengthM: number,
  depthM: number,
): Lies {
  const { pullN } = lie({ vessel: v, windMps, windFromDeg: 0, streamMps: 0, streamTowardsDeg: 0 });
  const load = pullN * sheer(v, yawDeg);
  const rode = layRode({
    segments: [{ ...chain(chainMm), lengthM }],
    bowHeightAboveAnchorM: depthM + v.bowHeightM,
    horizontalLoadN: load,
  });
  return { pullN: load, angleDeg: rode.pullAngleDeg, reachM: rode.horizontalReachM };
}

/** Likely rode of a neighbour of whom nothing is said: four times depth and bow height. */
const ruleLength = (greatestDepthM: number): number => 4 * (greatestDepthM + other.bowHeightM);

/** Share of the holding along the bottom that a lifted pull leaves. */
function shareLeft(anchor: StayInput["tackle"]["anchor"], angleDeg: number, z: number): number {
  if (angleDeg < 1e-6) return 1;
  const { low, likely, high } = holding({
    anchor,
    seabed: "sand",
    pullAngleDeg: angleDeg,
  }).upliftShare;
  return Math.min(1, Math.max(0, halves(low, likely, high, z)));
}

/** Play one night of a stay. */
export function playNight(p: Played, errors: (r: Random) => number[], r: Random): Happened {
  const { anchor } = p.input.tackle;
  const flat = holding({ anchor, seabed: "sand" }).ultimateN!;
  const z = () => r.gauss();
  const zHold = z();
  const end = zHold < 0 ? flat.low : flat.high;
  const holdN =
    flat.likely *
    Math.pow(end / flat.likely, Math.abs(zHold) / 1.644854) *
    Math.exp((Math.log(1.5) / 1.959964) * z());
  const zLift = z();
  const yawDeg = halves(20, 30, 40, z());
  const gusty = Math.exp(0.1 * z());
  const surgeM = halves(p.input.surgeM!.low, 0, p.input.surgeM!.high, z());
  const zTide = z();
  const chartM = ((0.5 + 0.01 * p.depthM) / 1.959964) * z();
  const lengthM = p.lengthOutM * (1 + 0.03 * z());
  const [x, y] = somewhere(r, 0, 0, 5);
  const [nx, ny] = somewhere(r, p.neighbour.eastM, p.neighbour.northM, other.lengthM);
  const greatest =
    Math.max(...p.timeMs.map((t) => heightAt(p, t, 1.959964))) + p.input.surgeM!.high;
  // Her rode is taken for the depth on the high side, the error of the chart too.
  const theirs =
    ruleLength(p.depthM + greatest + 0.5 + 0.01 * p.depthM) * Math.max(0.1, 1 + 0.25 * z());
  const [speeds, turns] = [errors(r), errors(r)];
  const happened: Happened = { drag: false, touch: false, neighbour: false };
  p.timeMs.forEach((t, i) => {
    const depthM = p.depthM + chartM + surgeM + heightAt(p, t, zTide);
    if (depthM - own.draughtM <= 0) happened.touch = true;
    const wind = p.windMps * Math.max(0, 1 + 0.2 * speeds[i]!);
    const gust = Math.max(wind, wind * 1.4 * gusty);
    const fromDeg = FROM_DEG + p.sigmaDeg * turns[i]!;
    const at = Math.max(0, depthM);
    const mine = liesIn(own, gust, yawDeg, 10, lengthM, at);
    if (holdN * shareLeft(anchor, mine.angleDeg, zLift) <= mine.pullN) happened.drag = true;
    if (happened.neighbour) return;
    for (const [speed, yaws] of [
      [gust, true],
      [wind, false],
    ] as const) {
      const a = liesIn(own, speed, yaws ? yawDeg : 0, 10, lengthM, at);
      const b = liesIn(other, speed, yaws ? 30 : 0, 8, theirs, at);
      const gap = apart(
        hullAt(own, x, y, a.reachM, fromDeg, yawDeg),
        hullAt(other, nx, ny, b.reachM, fromDeg, 30),
      );
      if (gap <= 0) happened.neighbour = true;
    }
  });
  return happened;
}

/** Height of tide with its error so many sigmas off. */
function heightAt(p: Played, timeMs: number, sigmas: number): number {
  const h = tideHeight(p.input.tide!, timeMs);
  if (!h.known) throw new RangeError("the tide is not known");
  const { low, high } = h.errorM;
  return h.heightM + ((sigmas < 0 ? -low : high) / 1.959964) * sigmas;
}
