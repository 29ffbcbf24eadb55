/**
 * Swinging room: an envelope of 15,000 hulls against polygon unions of 800, and the gap of a vessel
 * against 1,000 neighbours over 24 hours.
 *
 * Each case runs `n` operations and returns a sum so that no work can be left out. `against` names
 * the case whose time is divided by this one's for the ratio.
 */
import { Clipper, FillRule, type PathsD } from "clipper2-ts";
import polygonClipping from "polygon-clipping";
import {
  emptyRoom,
  fillRoom,
  leastGapSameTime,
  type LieColumns,
  noGap,
} from "../src/swing/kernel.js";
import { cornersOf, hullWithBorder, sweepBody } from "../src/swing/sweep.js";

const HULL = { aheadM: 0.5, asternM: 12, halfBeamM: 2, farthestM: 12.2 };
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;

/** Lies of `count` moments that wander round the compass as wind and stream do. */
function lies(count: number, salt: number): LieColumns {
  const pull = (i: number) => (360 * salt + 70 * Math.sin(i / 23 + salt) + 0.4 * i + 360) % 360;
  return {
    reachM: Float64Array.from(
      { length: count },
      (_, i) => 28 + 6 * Math.sin(i / 40) + part(i, 0.618),
    ),
    pullTowardsDeg: Float64Array.from({ length: count }, (_, i) => pull(i)),
    headingDeg: Float64Array.from(
      { length: count },
      (_, i) => (pull(i) + 170 + 20 * part(i, 0.7548)) % 360,
    ),
  };
}

const many = lies(15_000, 0.3);
/** The same stay thinned to 800 moments. */
const thinned = (column: Float64Array) =>
  Float64Array.from({ length: 800 }, (_, i) => column[Math.floor((i * 15_000) / 800)]!);
const few = sweepBody(
  cornersOf(HULL),
  {
    reachM: thinned(many.reachM),
    pullTowardsDeg: thinned(many.pullTowardsDeg),
    headingDeg: thinned(many.headingDeg),
  },
  false,
).points;
const outlines = Array.from({ length: 800 }, (_, k) =>
  Array.from({ length: 4 }, (_, c): [number, number] => [
    few[8 * k + 2 * c]!,
    few[8 * k + 2 * c + 1]!,
  ]),
);
const paths: PathsD = outlines.map((o) => o.map(([x, y]) => ({ x, y })));

const MOMENTS = 145;
const NEIGHBOURS = 1000;
const own = emptyRoom(MOMENTS);
fillRoom(own, 0, 0, 0, HULL, lies(MOMENTS, 0.3));
const neighbours = Array.from({ length: NEIGHBOURS }, (_, k) => ({
  x: 2000 * part(k, 0.6180339887498949) - 1000,
  y: 2000 * part(k, 0.7548776662466927) - 1000,
  lie: lies(MOMENTS, 0.3 + 0.05 * part(k, 0.5698)),
}));

/** Gap to every neighbour; her room is worked out from her lies each time. */
function gapToAll(): number {
  const room = emptyRoom(MOMENTS);
  const gap = noGap();
  let sum = 0;
  for (const { x, y, lie } of neighbours) {
    fillRoom(room, x, y, 5, HULL, lie);
    leastGapSameTime(own, room, gap);
    sum += gap.gapM;
  }
  return sum;
}

const times = (of: () => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += of();
  return sum;
};

/** Cases: a name, what it is held against and by how much, and a run of `n` operations. */
export const cases = [
  {
    name: "envelope of 15,000 hulls",
    against: "union of 800 hulls: clipper2",
    goalRatio: 20,
    run: times(() => hullWithBorder(sweepBody(cornersOf(HULL), many, false).points, 0).length),
  },
  {
    name: "union of 800 hulls: clipper2",
    run: times(() => Clipper.unionD(paths, [], FillRule.NonZero, 6).length),
  },
  {
    name: "union of 800 hulls: polygon-clipping",
    run: times(
      () => polygonClipping.union([outlines[0]!], ...outlines.slice(1).map((o) => [o])).length,
    ),
  },
  {
    name: "gap against 1,000 neighbours over 24 h by 10 min",
    goalNs: 10e6,
    run: times(gapToAll),
  },
];
