import { type Plane, toPlane } from "../geo/plane.js";
import { windows } from "./block.js";
import type { ToldEvent } from "./events.js";
import { DEPTH_LASTS_MS, explain, restartTests } from "./judge.js";
import { addHeading } from "./kernel.js";
import { Bit, Column, Part, Ring, Slot as m, UNKNOWN } from "./memory.js";
import { setAnchor } from "./place.js";
import { type Memory, limitAt, setReach } from "./reach.js";
import { takeLimits } from "./state.js";
import { BASE, BLOCKS } from "./tables.js";

/** Room for one conversion; nothing in it outlives a call. */
const xy = new Float64Array(2);

/** Take in what is told beside fixes. */
export function tell(mem: Memory, plane: Plane, e: ToldEvent): void {
  const open = mem.open;
  switch (e.kind) {
    case "heading":
      addHeading(open, e.headingDeg);
      break;
    case "wind":
      open[m.WIND_MPS] = e.windMps;
      open[m.WIND_FROM] = e.windFromDeg;
      open[m.WIND_T] = e.timeMs;
      break;
    case "depth":
      takeDepth(mem, e.timeMs, e.depthM);
      break;
    case "transit":
      open[m.TRANSIT_EXCESS] = (Math.abs(e.openedDeg) - e.swingOpenDeg) * e.metresPerDegree;
      open[m.TRANSIT_SIGMA] = (e.sigmaDeg ?? 1) * e.metresPerDegree;
      open[m.TRANSIT_T] = e.timeMs;
      break;
    default:
      order(mem, plane, e);
  }
}

/** What the skipper does or says. */
function order(mem: Memory, plane: Plane, e: ToldEvent): void {
  const open = mem.open;
  switch (e.kind) {
    case "veered":
      open[m.VEERED]! += e.byM;
      setReach(mem, e.timeMs);
      shiftExcess(mem, e.byM);
      break;
    case "limits": {
      const before = open[m.REACH]!;
      takeLimits(mem, e.limits, e.timeMs);
      shiftExcess(mem, open[m.REACH]! - before);
      break;
    }
    case "anchor":
      toPlane(plane, e.position.latDeg, e.position.lonDeg, xy, 0);
      setAnchor(mem, xy[0]!, xy[1]!, e.sigmaM, 1);
      shiftExcess(mem, 0);
      break;
    case "stage":
      open[m.STAGE] = ["letGo", "broughtUp", "weighing"].indexOf(e.stage);
      break;
    case "acknowledge":
      open[m.ACKNOWLEDGED] = open[m.LATCHED]!;
      break;
  }
}

/** Hold all closed blocks against a distance greater by so much; a drag it explains no longer stands. */
function shiftExcess(mem: Memory, byM: number): void {
  const open = mem.open;
  for (let i = 0; i < BLOCKS; i++) mem.ring[Ring.E + i]! -= byM;
  restartTests(open);
  for (const r of [m.RECEIVER, m.RECEIVER + Part.SIZE])
    for (let i = 0; i < open[r + Part.COUNT]!; i++) open[r + Part.EXCESS + i]! -= byM;
  explain(open, Bit.DRAG);
  open[m.BASE] = 0;
  open[m.BASE_UNTIL] = open[m.NOW]! + BASE.forMs;
  windows(mem, Infinity);
}

/** A sounding against the band of the moment. */
function takeDepth(mem: Memory, timeMs: number, depthM: number): void {
  const open = mem.open;
  const toldMs = Math.max(0, timeMs - open[m.DEPTH_T]!);
  open[m.DEPTH] = depthM;
  open[m.DEPTH_T] = timeMs;
  const least = limitAt(mem, Column.LEAST, timeMs);
  const greatest = limitAt(mem, Column.GREATEST, timeMs);
  since(open, m.SHOAL_SINCE, timeMs, toldMs, least !== UNKNOWN && depthM < least);
  since(open, m.DEEP_SINCE, timeMs, toldMs, greatest !== UNKNOWN && depthM > greatest);
}

/** A sounding inside the band takes back so many times as long as it stands for; common practice, no source. */
const TAKES_BACK = 3;

/** Keep since when something has held; a wild sounding among many does not end it, a spell of them does. */
function since(open: number[], at: number, timeMs: number, toldMs: number, holds: boolean): void {
  if (open[at] === 0) {
    if (holds) open[at] = timeMs;
  } else if (!holds) {
    const left = Math.min(timeMs - open[at]!, DEPTH_LASTS_MS) - TAKES_BACK * toldMs;
    open[at] = left > 0 ? timeMs - left : 0;
  }
}
