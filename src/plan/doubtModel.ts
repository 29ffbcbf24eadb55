import { sheerFactor } from "../lie/lie.js";
import { nearestOnSegments } from "../geo/boxtree.js";
import { planeAt, toPlane } from "../geo/plane.js";
import { guessedRode, laidOut } from "./gear.js";
import { depthErrorOf } from "./ground.js";
import { shoreSeen, type Charted } from "./chartRoom.js";
import { closingHazards } from "./ladders.js";
import {
  END_SIGMAS,
  ERROR_SIGMAS,
  NEIGHBOUR_RODE,
  RODE_SIGMA,
  weatherWeights,
} from "./doubtSpread.js";
import { shipOf, type Ship } from "./doubtShip.js";
import type { Range3 } from "../core/judgement.js";
import type { Grip } from "./grip.js";
import type { NeighbourLie } from "./neighbours.js";
import type { Study } from "./study.js";

/** A neighbour whose place and rode are drawn. */
export interface NeighbourShip {
  name: string;
  ship: Ship;
  x: number;
  y: number;
  errorM: number;
  lengthOutM: number;
  /** One sigma of it, as a share. */
  sigmaShare: number;
  /** Her wind pull yawed over that from ahead. */
  sheer: number;
}

/** The shore as seen from the anchor. */
export interface ShoreOff extends Charted {
  /** Distance from the anchor as given. */
  offM: number;
}

/** Holding along the bottom and what a lifted pull leaves of it. */
export interface GripSpread extends Range3 {
  provedN: number;
  left: Grip["left"];
}

/** A stay made ready to be run through many times: columns at a choice of its moments. */
export interface Model {
  timeMs: number[];
  windMps: Float64Array;
  gustMps: Float64Array;
  windFromDeg: Float64Array;
  sigmaDeg: Float64Array;
  /** One sigma of the wind's speed as a share. */
  speedSigma: number;
  weights: Float64Array;
  streamMps: Float64Array;
  streamTowardsDeg: Float64Array;
  tideM: Float64Array;
  /** One sigma of the tide downwards and upwards, at each moment; of the surge over the stay. */
  tideDownM: Float64Array;
  tideUpM: Float64Array;
  surgeDownM: number;
  surgeUpM: number;
  depthSigmaM: number;
  /** Whether the depth at the anchor is given and not charted. */
  errorless: boolean;
  chartedM: number;
  /** Shoalest ground in the swing, its error not taken off. */
  leastM: number;
  draughtM: number;
  own: Ship;
  lengthOutM: number;
  lengthSigmaM: number;
  placeErrorM: number;
  grip: GripSpread | null;
  neighbours: NeighbourShip[];
  shore: ShoreOff | null;
  hazards: Charted[];
  sheerOf: (yawDeg: number) => number;
  /** Whether anything stands near enough to be met. */
  roomMatters: boolean;
}

/** Widest spread of a length that is tabulated, in sigmas. */
const WIDE = 3.3;
/** What a model is for. */
export interface ModelFor {
  /** Vessels laid in one case at the most, before moments are left out. */
  mostLaid: number;
  /** Lengths of the own rode to be asked for; its spread unless given. */
  lengthsM?: readonly [number, number];
  /** Whether the rodes of neighbours are drawn; else each has out what is told or guessed. */
  drawn: boolean;
}
/** Moments are never further apart than this. */
const WIDEST_MS = 3_600_000;

/** Every so many moments, the last and those at which something is at its worst among them. */
function momentsIn(
  s: Study,
  mostLaid: number,
  vessels: number,
  worst: readonly number[],
): number[] {
  const { timeMs } = s.scene;
  const n = timeMs.length;
  const widest = Math.max(1, Math.floor(WIDEST_MS / s.input.stepMs));
  const every = Math.min(widest, Math.ceil((n * vessels) / mostLaid));
  const chosen = new Set([n - 1, ...worst.filter((i) => i >= 0)]);
  for (let i = 0; i < n; i += every) chosen.add(i);
  return [...chosen].sort((a, b) => a - b);
}

const indexOfLeast = (v: Float64Array): number =>
  v.reduce((best, x, i) => (x < (best < 0 ? Infinity : v[best]!) ? i : best), -1);

/** Greatest and least of what is known. */
function spanOf(low: Float64Array, high: Float64Array, reserve: number): [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (const v of low) if (v < least) least = v;
  for (const v of high) if (v > most) most = v;
  return least <= most ? [least - reserve, most + reserve] : [0, 1];
}

/** Whether a neighbour can be met at all, however both lie. */
function mayMeet(s: Study, n: NeighbourLie, at: Float64Array): boolean {
  const rodes = s.rode.lengthOutM * 1.2 + n.lengthOutM * 2;
  const hulls = s.body.hull.farthestM + n.body.hull.farthestM;
  const apart = Math.sqrt(at[0]! * at[0]! + at[1]! * at[1]!);
  const errors = s.input.positionErrorM + (n.of.positionErrorM ?? n.body.lengthM);
  return !(apart > rodes + hulls + errors);
}

function neighbourShips(s: Study, depths: [number, number], drawn: boolean): NeighbourShip[] {
  const plane = planeAt(s.input.position);
  const at = new Float64Array(2);
  return (s.neighbours ?? []).flatMap(({ lie }): NeighbourShip[] => {
    const { position, lengthOutM, make, name, positionErrorM } = lie.of;
    toPlane(plane, position.latDeg, position.lonDeg, at, 0);
    if (!mayMeet(s, lie, at)) return [];
    const sigmaShare = NEIGHBOUR_RODE[lengthOutM === undefined ? "guessed" : "told"];
    const spread = drawn ? Math.min(0.9, WIDE * sigmaShare) : 0;
    const ship = shipOf(
      lie.body,
      (m) => guessedRode(make, lie.body.lengthM, Math.max(m, 1)),
      [lie.lengthOutM * (1 - spread), lie.lengthOutM * (1 + spread)],
      depths,
    );
    return [
      {
        name,
        ship,
        x: at[0]!,
        y: at[1]!,
        errorM: positionErrorM ?? lie.body.lengthM,
        lengthOutM: lie.lengthOutM,
        sigmaShare,
        sheer: lie.body.sheerLikely,
      },
    ];
  });
}

function shoreOff(s: Study): ShoreOff | null {
  if (s.chart === null) return null;
  const seen = shoreSeen(s.chart, s.input.position);
  return { ...seen, offM: nearestOnSegments(seen.tree, seen.x, seen.y) };
}

function gripSpread(s: Study): GripSpread | null {
  const { grip } = s;
  if (grip === null || !(grip.spreadN.likely >= 0)) return null;
  return {
    ...grip.spreadN,
    provedN: s.input.tackle.provedN ?? 0,
    left: grip.left,
  };
}

/** Columns of the scene at some of its moments. */
function columnsOf(s: Study, moments: readonly number[]) {
  const { scene } = s;
  const pick = (c: Float64Array) => Float64Array.from(moments, (i) => c[i]!);
  const { low, likely, high } = scene.surgeM;
  return {
    timeMs: moments.map((i) => scene.timeMs[i]!),
    windMps: pick(scene.windMps),
    gustMps: pick(scene.gustMps),
    windFromDeg: pick(scene.windFromDeg),
    sigmaDeg: pick(scene.sigmaDeg),
    streamMps: pick(scene.streamMps),
    streamTowardsDeg: pick(scene.streamTowardsDeg),
    tideM: pick(scene.tideM),
    tideDownM: pick(
      scene.tideM.map((t, i) => (t - likely - (scene.tideLowM[i]! - low)) / ERROR_SIGMAS),
    ),
    tideUpM: pick(
      scene.tideM.map((t, i) => (scene.tideHighM[i]! - high - (t - likely)) / ERROR_SIGMAS),
    ),
    surgeDownM: (likely - low) / END_SIGMAS,
    surgeUpM: (high - likely) / END_SIGMAS,
  };
}

/** Lengths about one, as far as they are drawn. */
const spreadOf = (lengthM: number, sigmaM: number): [number, number] => [
  Math.max(0.5, lengthM - WIDE * sigmaM),
  lengthM + WIDE * sigmaM,
];

/** Own vessel, her rode tabulated. */
const ownShip = (s: Study, depths: [number, number], lengthsM: readonly [number, number]): Ship =>
  shipOf(s.body, (m) => laidOut(s.input.tackle, m), lengthsM, depths);

/** Make a study ready to be run through many times. */
export function modelOf(s: Study, { mostLaid, lengthsM, drawn }: ModelFor): Model {
  const { scene, input, ground, anchorDepth } = s;
  const at = anchorDepth.chartedM;
  const errorM = Number.isNaN(anchorDepth.errorM) ? 0 : anchorDepth.errorM;
  const inSwingM = ground.depths === null ? errorM : depthErrorOf(ground.depths);
  const depthSigmaM = (Number.isNaN(inSwingM) ? 0 : inSwingM) / ERROR_SIGMAS;
  const known = Number.isNaN(at) ? 0 : at;
  const [low, high] = spanOf(scene.tideLowM, scene.tideHighM, 1.5 * errorM + 0.5);
  const depths: [number, number] = [known + low, known + high];
  const lengthSigmaM = input.tackle.lengthSigmaM ?? RODE_SIGMA * s.rode.lengthOutM;
  const neighbours = neighbourShips(s, depths, drawn);
  const shore = shoreOff(s);
  const hazards = closingHazards(s).map((h) => h.charted);
  const moments = momentsIn(s, mostLaid, 1 + neighbours.length, [
    indexOfLeast(s.underKeelM),
    indexOfLeast(s.lie.gustPullN.map((p) => -p)),
  ]);
  const columns = columnsOf(s, moments);
  return {
    ...columns,
    speedSigma: input.forecast?.speedSigmaShare ?? 0,
    weights: weatherWeights(columns.timeMs),
    depthSigmaM,
    errorless: anchorDepth.from === "caller",
    chartedM: at,
    leastM: Math.min(ground.depths === null ? at : (ground.depths.leastM ?? NaN), at),
    draughtM: scene.vessel.draughtM,
    own: ownShip(s, depths, lengthsM ?? spreadOf(s.rode.lengthOutM, lengthSigmaM)),
    lengthOutM: s.rode.lengthOutM,
    lengthSigmaM,
    placeErrorM: input.positionErrorM,
    grip: gripSpread(s),
    neighbours,
    shore,
    hazards,
    sheerOf: (deg) => sheerFactor(scene.vessel, deg),
    roomMatters:
      neighbours.length + hazards.length > 0 || (shore !== null && !(shore.offM > s.radiusM * 1.3)),
  };
}
