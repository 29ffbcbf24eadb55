import { known } from "../core/series.js";
import type { Metres, Milliseconds } from "../core/units.js";
import { planeAt, toPlane } from "../geo/plane.js";
import { fillVessel } from "../lie/vessel.js";
import { prepareRode } from "../rode/prepare.js";
import { scopeByRuleUnchecked } from "../rode/scopeByRule.js";
import { emptyRoom, fillRoom, gapAt, type Room } from "../swing/kernel.js";
import { lieOverStay, type LieColumnsOfStay } from "./columns.js";
import { guessedRode } from "./gear.js";
import type { CheckedStay, Neighbour } from "./input.js";
import { prepareBody, type Body } from "./lying.js";
import { isSettled, marginOf, type Margin } from "./margins.js";
import type { Scene } from "./scene.js";

/** Room to one neighbour over the stay. */
export interface NeighbourRoom {
  /** What you call her. */
  name: string;
  /** Least gap between the hulls over the fan of winds; null where it is not known at some moment. */
  leastGapM: Metres | null;
  /** When. */
  atMs: Milliseconds | null;
  /** Least gap under the forecast winds alone; null where not known. */
  leastForecastGapM: Metres | null;
  /** Rode she is taken to have out; null where it is not told and the depth for a rule of thumb is not known. */
  lengthOutM: Metres | null;
  /** How she lies then: direction from her anchor to her bow, heading and reach; null where not settled. */
  thenTowardsDeg: number | null;
  /** Her heading then. */
  thenHeadingDeg: number | null;
  /** How far her bow lies from her anchor then. */
  thenReachM: Metres | null;
  /** What was guessed of her. */
  assumed: string[];
}

/** A neighbour laid out over the stay. */
export interface NeighbourLie {
  of: Neighbour;
  body: Body;
  columns: LieColumnsOfStay;
  room: Room;
  lengthOutM: number;
}

/** The room a vessel takes, one entry for every direction and lie of every moment. */
export function roomOf(
  body: Body,
  columns: LieColumnsOfStay,
  x: number,
  y: number,
  errorM: number,
): Room {
  const room = emptyRoom(columns.fan.reachM.length);
  fillRoom(room, x, y, errorM, body.hull, columns.fan);
  return room;
}

/** Lay each neighbour to the weather of the stay, in her own way, over the same bottom as ours. */
export function layNeighbours(
  input: CheckedStay,
  scene: Scene,
  chartedM: number,
  greatestDepthM: number,
): NeighbourLie[] {
  const plane = planeAt(input.position);
  const at = new Float64Array(2);
  return (input.neighbours ?? []).map((of) => {
    const vessel = fillVessel(of.vessel);
    const rule = scopeByRuleUnchecked({
      make: of.make,
      greatestDepthM: Math.max(0, greatestDepthM),
      bowHeightM: vessel.bowHeightM,
    });
    const lengthOutM = of.lengthOutM ?? rule.lengthM;
    const segments = guessedRode(of.make, vessel.lengthM, Math.max(lengthOutM, 1));
    const body = prepareBody(vessel, prepareRode({ segments }));
    const columns = lieOverStay(scene, body, chartedM);
    toPlane(plane, of.position.latDeg, of.position.lonDeg, at, 0);
    const errorM = of.positionErrorM ?? vessel.lengthM;
    const room = roomOf(body, columns, at[0]!, at[1]!, errorM);
    return { of, body, columns, room, lengthOutM };
  });
}

/** Room between two vessels, each lying her own way to the same wind at the same moment. */
export const marginBetween = (own: Room, other: Room, start: Int32Array): Margin =>
  marginOf(
    start,
    (i) => gapAt(own, i, other, i),
    (i) => isSettled(own, i) && isSettled(other, i),
  );

/** Index of the least value; a value that is not a number counts as the least of all. */
export function leastIndex(values: ArrayLike<number>): number {
  let least = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) return i;
    if (values[i]! < values[least]!) least = i;
  }
  return least;
}

/** The room to one neighbour, told. */
export function neighbourRoom(
  n: NeighbourLie,
  gaps: Margin,
  timeMs: readonly number[],
): NeighbourRoom {
  const i = leastIndex(gaps.fanM);
  const guessed = fillVessel(n.of.vessel).assumed ?? [];
  return {
    name: n.of.name,
    leastGapM: known(gaps.fanM[i]),
    atMs: timeMs[i] ?? null,
    leastForecastGapM: known(gaps.forecastM[leastIndex(gaps.forecastM)]),
    lengthOutM: known(n.lengthOutM),
    thenTowardsDeg: known(n.columns.pullTowardsDeg[i]),
    thenHeadingDeg: known(n.columns.headingDeg[i]),
    thenReachM: known(n.columns.reachM[i]),
    assumed: [
      ...(n.of.lengthOutM === undefined ? ["length out by rule of thumb"] : []),
      ...(n.of.positionErrorM === undefined
        ? ["anchor within her own length of the place given"]
        : []),
      ...(guessed.length > 0 ? [`from kind and length: ${guessed.join(", ")}`] : []),
    ],
  };
}
