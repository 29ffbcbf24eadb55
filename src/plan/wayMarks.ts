import { turnDeg } from "../core/angles.js";
import type { Chart } from "../chart/chart.js";
import { marksOn, type ChartedMark } from "../chart/marks-of.js";
import { onPlane } from "../chart/area.js";
import { nauticalMiles } from "../core/units.js";
import type { Degrees } from "../core/units.js";
import { geodesicInverse } from "../geo/geodesic.js";
import { besideOf, type Beside, type Track } from "./wayTrack.js";

/** A charted mark along the track. */
export interface WayMark extends Beside {
  /** What it is called, or what it is. */
  name: string;
  /** What it is. */
  kind: ChartedMark["kind"];
  /** Whether it floats. */
  floating: boolean;
  /** Whether it shows a light; null where the chart has no lights to tell. */
  lit: boolean | null;
}

/** A fixed mark to steer a leg by, ahead or astern. */
export interface SteerBy {
  /** Which leg, from 0. */
  leg: number;
  /** What it is called. */
  name: string;
  /** Where it is kept. */
  where: "ahead" | "astern";
  /** Whether it shows a light; null where the chart has no lights to tell. */
  lit: boolean | null;
  /** Its bearing off the line of the leg, to starboard positive. */
  offDeg: Degrees;
}

/** Marks farther from the track than this are not told, nor more of them than that. */
const SEEN_M = nauticalMiles(1);
const MOST = 30;
/** A mark within this of the line of a leg serves to steer by, out to that distance. */
const LINE_DEG = 3;
const LINE_M = nauticalMiles(3);

/** Charted marks along a track, in the order they are passed. */
export function marksAlong(chart: Chart, track: Track): WayMark[] {
  return marksOn(chart)
    .map((m): WayMark => {
      const { x, y } = onPlane(chart.plane, m.position);
      const { name, kind, floating, lit } = m;
      return { ...besideOf(track, x, y), name, kind, floating, lit };
    })
    .filter((m) => m.offM <= SEEN_M)
    .sort((a, b) => a.offM - b.offM)
    .slice(0, MOST)
    .sort((a, b) => a.alongM - b.alongM);
}

/** Fixed marks on the line of each leg, ahead and astern, the nearest to the line of each. */
export function steeringMarks(chart: Chart, { legs }: Track): SteerBy[] {
  const fixed = marksOn(chart).filter((m) => !m.floating);
  return legs.flatMap(({ from, to, courseDeg }, leg) =>
    (["ahead", "astern"] as const).flatMap((where): SteerBy[] => {
      const [eye, line] = where === "ahead" ? [to, courseDeg] : [from, courseDeg + 180];
      const on = fixed
        .map(({ name, lit, position }) => {
          const { distanceM, bearingDeg } = geodesicInverse(eye, position);
          return { leg, name, where, lit, offDeg: turnDeg(line, bearingDeg), distanceM };
        })
        .filter((m) => m.distanceM > 0 && m.distanceM <= LINE_M && Math.abs(m.offDeg) <= LINE_DEG)
        .sort((a, b) => Math.abs(a.offDeg) - Math.abs(b.offDeg))
        .slice(0, 1);
      return on.map((m) => ({ leg, name: m.name, where, lit: m.lit, offDeg: m.offDeg }));
    }),
  );
}
