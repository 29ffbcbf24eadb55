import { lesser } from "./criteria.js";
import { distanceTo } from "./chartRoom.js";
import { YAW_DEG } from "../lie/tables.js";
import { gapAt, type Room } from "../swing/kernel.js";
import type { GripSpread, Model, ShoreOff } from "./doubtModel.js";
import { layShip, type ShipDraw } from "./doubtShip.js";
import {
  COLUMN,
  END_SIGMAS,
  GUST_SIGMA,
  offMiddle,
  PER_NEIGHBOUR,
  SET_SIGMA,
  WEATHER,
  type Draws,
} from "./doubtSpread.js";
import type { Weather } from "./lying.js";

/** Margins of one case, moment by moment: below or at zero the thing has happened. */
export interface CaseMargins {
  /** Holding over pull, less one. */
  drag: Float64Array;
  /** Water under the keel over the shoalest ground in the swing, m. */
  touch: Float64Array;
  /** Room to each neighbour, one column each, m. */
  neighbours: Float64Array[];
  /** Room to the shore and to hazards, m. */
  shore: Float64Array;
}

/** Columns to be filled. */
export const emptyCase = (m: Model): CaseMargins => {
  const column = () => new Float64Array(m.timeMs.length);
  return {
    drag: column(),
    touch: column(),
    neighbours: m.neighbours.map(column),
    shore: column(),
  };
};

/** What holds through a whole case. */
interface Lasting {
  flatN: number;
  lift: number;
  gust: number;
  surgeM: number;
  tide: number;
  depthM: number;
  own: ShipDraw;
  others: ShipDraw[];
}

/** Holding along the bottom: two-sided by powers between the ends of its spread, straight down to nothing where its low end is nothing. */
function flatHolding(g: GripSpread, sigmas: number, share: number, setSigmas: number): number {
  const end = sigmas < 0 ? g.low : g.high;
  const part = Math.abs(sigmas) / END_SIGMAS;
  const by =
    end > 0 ? Math.exp(part * Math.log(end / g.likely)) : Math.max(0, (share - 0.05) / 0.45);
  return Math.max(g.provedN, g.likely * by * Math.exp(SET_SIGMA * setSigmas));
}

/** A place somewhere in a circle, all parts alike. */
function placeIn(draw: ShipDraw, x: number, y: number, radiusM: number, u: number, v: number) {
  const r = radiusM * Math.sqrt(u);
  draw.x = x + r * Math.sin(2 * Math.PI * v);
  draw.y = y + r * Math.cos(2 * Math.PI * v);
}

const noShip = (): ShipDraw => ({ lengthOutM: 0, x: 0, y: 0, yawDeg: 0, sheer: 1, slackDeg: 0 });

const emptyLasting = (m: Model): Lasting => ({
  flatN: 0,
  lift: 0,
  gust: 1,
  surgeM: 0,
  tide: 0,
  depthM: 0,
  own: noShip(),
  others: m.neighbours.map(noShip),
});

function drawLasting(m: Model, d: Draws, c: number, out: Lasting): void {
  const z = (column: number): number => d.sigmas[column]![c]!;
  const u = (column: number): number => d.share[column]![c]!;
  out.flatN =
    m.grip === null
      ? NaN
      : flatHolding(m.grip, z(COLUMN.holding), u(COLUMN.holding), z(COLUMN.set));
  out.lift = z(COLUMN.lift);
  out.gust = Math.exp(GUST_SIGMA * z(COLUMN.gusts));
  out.surgeM = offMiddle(m.surgeDownM, m.surgeUpM, z(COLUMN.surge));
  out.tide = z(COLUMN.tide);
  out.depthM = m.depthSigmaM * z(COLUMN.chartedDepth);
  out.own.yawDeg = yawOf(z(COLUMN.yaw));
  out.own.sheer = m.sheerOf(out.own.yawDeg);
  out.own.lengthOutM = Math.max(0.5, m.lengthOutM + m.lengthSigmaM * z(COLUMN.rodeOut));
  out.own.slackDeg = 360 * u(COLUMN.lieAtSlack);
  placeIn(out.own, 0, 0, m.placeErrorM, u(COLUMN.ownPlace), u(COLUMN.ownPlace + 1));
  m.neighbours.forEach((n, k) => {
    const at = COLUMN.neighbours + PER_NEIGHBOUR * k;
    const other = out.others[k]!;
    other.lengthOutM = Math.max(0.1, 1 + n.sigmaShare * z(at + 2)) * n.lengthOutM;
    // She yaws as usual: how far is not held against the verdict of our own.
    other.yawDeg = YAW_DEG.likely;
    other.sheer = n.sheer;
    other.slackDeg = 360 * u(at + 3);
    placeIn(other, n.x, n.y, n.errorM, u(at), u(at + 1));
  });
}

const yawOf = (sigmas: number): number => {
  const { low, likely, high } = YAW_DEG;
  const off = offMiddle(likely - low, high - likely, sigmas / END_SIGMAS);
  return Math.min(80, Math.max(0, likely + off));
};

/** Wind, stream and tide of a case at moment `i`, into the run. */
export function comeTo(m: Model, d: Draws, c: number, i: number, run: Run): void {
  const { weather: w, lasting } = run;
  run.tideM = m.tideM[i]! + offMiddle(m.tideDownM[i]!, m.tideUpM[i]!, lasting.tide);
  let speed = 0;
  let turn = 0;
  for (let k = 0; k < WEATHER; k++) {
    const weight = m.weights[i * WEATHER + k]!;
    const column = k === 0 ? COLUMN.windSpeed : COLUMN.windSpeedLater + k - 1;
    speed += weight * d.sigmas[column]![c]!;
    turn += weight * d.sigmas[COLUMN.windDirection + k]![c]!;
  }
  const factor = Math.max(0, 1 + m.speedSigma * speed);
  w.windMps = m.windMps[i]! * factor;
  w.gustMps = Math.max(w.windMps, m.gustMps[i]! * factor * lasting.gust);
  w.windFromDeg = m.windFromDeg[i]! + m.sigmaDeg[i]! * turn;
  w.streamMps = m.streamMps[i]!;
  w.streamTowardsDeg = m.streamTowardsDeg[i]!;
}

/** Share of the horizontal holding left at a pull angle. */
function leftAt(g: GripSpread, angleDeg: number, sigmas: number): number {
  if (angleDeg === 0) return 1;
  const likely = g.left(angleDeg, "likely");
  const end = g.left(angleDeg, sigmas < 0 ? "low" : "high");
  const left = likely + (Math.abs(sigmas) / END_SIGMAS) * (end - likely);
  return Math.min(1, Math.max(0, left));
}

/** Least room from the hull, as a circle about its middle, to shore and hazards, over both lies. */
function roomAround(m: Model, room: Room): number {
  let least = Infinity;
  for (let k = 0; k < room.count; k++) {
    const x = room.x[k]!;
    const y = room.y[k]!;
    if (!(x - x === 0 && y - y === 0)) return NaN;
    const around = room.aroundM[k]!;
    for (const h of m.hazards) {
      least = lesser(least, distanceTo(h, x, y) - around);
    }
    if (m.shore !== null) least = lesser(least, toShore(m.shore, x, y) - around);
  }
  return least;
}

/** Room nearer than this is worked out to the metre, m. */
const NEAR_M = 60;

/** Distance to the shore; a lower bound of it where it is far. */
function toShore(s: ShoreOff, x: number, y: number): number {
  const least = s.offM - Math.sqrt(x * x + y * y);
  if (least > NEAR_M) return least;
  return distanceTo(s, x, y);
}

/** A model being run through: what lasts through the case, and the weather of the moment. */
export interface Run {
  lasting: Lasting;
  weather: Weather;
  /** Depth at the anchor, and least depth under the keel in the swing, before the tide. */
  atAnchorM: number;
  shoalestM: number;
  /** Height of the tide at the moment. */
  tideM: number;
}

/** Scratch for a model. */
export const runOf = (m: Model): Run => ({
  lasting: emptyLasting(m),
  weather: { windMps: 0, windFromDeg: 0, gustMps: 0, streamMps: 0, streamTowardsDeg: 0 },
  atAnchorM: 0,
  shoalestM: 0,
  tideM: 0,
});

/** Draw all that lasts through a case. */
export function beginCase(m: Model, d: Draws, c: number, run: Run): void {
  const l = run.lasting;
  drawLasting(m, d, c, l);
  run.atAnchorM = m.chartedM + l.surgeM + (m.errorless ? 0 : l.depthM);
  const shoalestM = m.leastM + l.surgeM + l.depthM - m.draughtM;
  run.shoalestM = Math.min(shoalestM, run.atAnchorM - m.draughtM);
}

/** Water under the keel at the moment of the run. */
export const touching = (run: Run): number => run.shoalestM + run.tideM;

/** Lay the own vessel to the moment of the run: holding over pull, less one. */
export function dragging(m: Model, run: Run, roomToo: boolean): number {
  const { lasting, weather } = run;
  layShip(m.own, weather, run.atAnchorM + run.tideM, lasting.own, roomToo);
  const { pullN, angleDeg } = m.own;
  if (pullN === 0) return Infinity;
  return m.grip === null
    ? NaN
    : (lasting.flatN * leftAt(m.grip, angleDeg, lasting.lift)) / pullN - 1;
}

/** Room to neighbour `k` at the moment of the run, the own vessel having been laid to it. */
export function roomToNeighbour(m: Model, k: number, run: Run): number {
  const { ship } = m.neighbours[k]!;
  layShip(ship, run.weather, run.atAnchorM + run.tideM, run.lasting.others[k]!, true);
  const { room } = m.own;
  return lesser(gapAt(room, 0, ship.room, 0), gapAt(room, 1, ship.room, 1));
}

/** Room to shore and hazards, the own vessel having been laid. */
export const roomToShore = (m: Model): number =>
  m.roomMatters ? roomAround(m, m.own.room) : Infinity;

/** Run the stay through in one case: every margin at every moment into `out`. */
export function runCase(m: Model, d: Draws, c: number, run: Run, out: CaseMargins): void {
  beginCase(m, d, c, run);
  for (let i = 0; i < m.timeMs.length; i++) {
    comeTo(m, d, c, i, run);
    out.drag[i] = dragging(m, run, m.roomMatters);
    out.touch[i] = touching(run);
    for (let k = 0; k < m.neighbours.length; k++)
      out.neighbours[k]![i] = roomToNeighbour(m, k, run);
    out.shore[i] = roomToShore(m);
  }
}
