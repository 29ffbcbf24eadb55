import { reciprocal, turnDeg } from "../core/angles.js";
import { overWindsBetween } from "../lie/between.js";
import { LIE, lieKernel } from "../lie/kernel.js";
import { isUnsettled } from "../lie/lie.js";
import type { Segment } from "../rode/input.js";
import { emptyRoom, fillRoom, type Room } from "../swing/kernel.js";
import { readTable, tableOf, type RodeTable } from "./doubtRode.js";
import { yawed, type Body, type Weather } from "./lying.js";

/** A vessel ready to be laid to any weather, with any length of rode, from any place: room under the mean wind, then in the gust. */
export interface Ship {
  body: Body;
  table: RodeTable;
  room: Room;
  lie: Record<"reachM" | "pullTowardsDeg" | "headingDeg" | "sheerDeg" | "yawDeg", Float64Array>;
  read: Float64Array;
  /** Pull in the gust, yawing included, or in a wind below it that pulls harder. */
  pullN: number;
  /** Pull angle at the anchor under that pull. */
  angleDeg: number;
}

/** What of a vessel is not known to the figure. */
export interface ShipDraw {
  lengthOutM: number;
  /** Anchor east and north of the place of our own, as given. */
  x: number;
  y: number;
  /** Yaw to either side in wind alone. */
  yawDeg: number;
  /** Wind pull yawed over wind pull from ahead. */
  sheer: number;
  /** Direction from anchor to bow where neither wind nor stream settles it. */
  slackDeg: number;
}

/** A vessel whose rode is tabulated over spans of its length and of the depth. */
export function shipOf(
  body: Body,
  segmentsAt: (lengthM: number) => Segment[],
  lengthsM: readonly [number, number],
  depthsM: readonly [number, number],
): Ship {
  const two = () => new Float64Array(2);
  const height = (depthM: number) => Math.max(0, depthM) + body.bowHeightM;
  return {
    body,
    table: tableOf(segmentsAt, lengthsM, [height(depthsM[0]), height(depthsM[1])]),
    room: emptyRoom(2),
    lie: {
      reachM: two(),
      pullTowardsDeg: two(),
      headingDeg: two(),
      sheerDeg: two(),
      yawDeg: two(),
    },
    read: two(),
    pullN: 0,
    angleDeg: 0,
  };
}

/** Lay a ship to a weather: pull and pull angle in the gust and, where `roomToo`, the room she takes. */
export function layShip(
  s: Ship,
  w: Weather,
  depthM: number,
  draw: ShipDraw,
  roomToo: boolean,
): void {
  if (roomToo) layIn(s, w, w.windMps, depthM, draw, 0);
  layIn(s, w, w.gustMps, depthM, draw, 1);
  if (w.streamMps > 0) pullHardest(s, w, depthM, draw);
  if (roomToo) fillRoom(s.room, draw.x, draw.y, 0, s.body.hull, s.lie);
}

/** A gust against the stream may ease the pull, or turn her round: then the hardest of any wind up to it counts, as in `layBody`. */
function pullHardest(s: Ship, w: Weather, depthM: number, draw: ShipDraw): void {
  const { lieOut, coefficients } = s.body;
  const { windMps, windFromDeg, streamMps, streamTowardsDeg } = w;
  const restDeg = reciprocal(streamTowardsDeg);
  // From the same half they only add up.
  if (!(Math.abs(turnDeg(restDeg, windFromDeg)) > 90)) return;
  let most = s.pullN;
  const look = (mps: number, fromDeg: number): number => {
    lieKernel(coefficients, mps, fromDeg, streamMps, streamTowardsDeg, lieOut, depthM);
    const pullN = yawed(lieOut, draw.sheer);
    const near = pullN / most;
    most = Math.max(most, pullN);
    return near;
  };
  // A first look will do: draws differ by far more.
  overWindsBetween(lieOut, windMps, w.gustMps, windFromDeg, restDeg, look, false);
  look(windMps, windFromDeg);
  if (most > s.pullN) takePull(s, depthM, draw, most);
}

/** Read off the rode what a pull makes of it. */
function takePull(s: Ship, depthM: number, draw: ShipDraw, pullN: number): void {
  const heightM = (depthM < 0 ? 0 : depthM) + s.body.bowHeightM;
  readTable(s.table, draw.lengthOutM, heightM, pullN, s.read);
  s.pullN = pullN;
  s.angleDeg = s.read[1]!;
}

function layIn(s: Ship, w: Weather, speed: number, depthM: number, draw: ShipDraw, k: 0 | 1): void {
  const { lieOut, coefficients } = s.body;
  lieKernel(coefficients, speed, w.windFromDeg, w.streamMps, w.streamTowardsDeg, lieOut, depthM);
  const share = lieOut[LIE.windMomentShare]!;
  takePull(s, depthM, draw, k === 1 ? yawed(lieOut, draw.sheer) : lieOut[LIE.pullN]!);
  const firm = !isUnsettled(lieOut);
  s.lie.reachM[k] = s.read[0]!;
  s.lie.pullTowardsDeg[k] = firm ? lieOut[LIE.pullTowardsDeg]! : draw.slackDeg;
  s.lie.headingDeg[k] = firm ? lieOut[LIE.headingDeg]! : draw.slackDeg + 180;
  s.lie.yawDeg[k] = draw.yawDeg * share;
  s.lie.sheerDeg[k] = (draw.yawDeg * share) / 2;
}
