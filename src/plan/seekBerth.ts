import { known } from "../core/series.js";
import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { areaSchema, layArea, type PlaneArea } from "../chart/area.js";
import type { Anchoring } from "../chart/anchoring-at.js";
import type { Chart } from "../chart/chart.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { metres, type Position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import { pointInRings } from "../geo/boxtree.js";
import { positionOf } from "../geo/plane.js";
import type { PlanReason } from "./criteria.js";
import { chartOf } from "./ground.js";
import { stayInput, type CheckedStay, withoutPlace } from "./input.js";
import { judge, type Danger } from "./judge.js";
import { sceneOf } from "./scene.js";
import { lookAt, searchOf, type Looked } from "./seekPoint.js";
import { studyOf } from "./study.js";
import type { Verdict } from "./types.js";

/** Input of {@link seekBerth}: a stay, and where to look. */
export const seekInput = z.extend(stayInput, {
  /** Water to search: a circle, or the corners of a polygon. */
  area: areaSchema,
  /** Distance between the places looked at; 25 m unless given. */
  spacingM: z._default(metres({ min: 5, max: 1000 }), 25),
  /** Berths planned in full at the most; 5 unless given. */
  most: z._default(z.int().check(z.gte(1), z.lte(20)), 5),
});
/** A stay, and where to look for a berth for it. */
export type SeekInput = Given<typeof seekInput>;

/** What was found place by place, one array a quantity; null where not known. */
export interface BerthField {
  /** Latitude of each place. */
  latDeg: Degrees[];
  /** Longitude. */
  lonDeg: Degrees[];
  /** How good it is, 0 to 1: the least of water, room and holding, each as a share of plenty, less where anchoring is restricted. */
  score: number[];
  /** Outlook by depth, room, bed and chart; the sea is looked at for the best berths alone. */
  verdict: Verdict[];
  /** Charted depth. */
  chartedDepthM: (Metres | null)[];
  /** Least water under the keel over the stay, anywhere within the swing. */
  underKeelM: (Metres | null)[];
  /** Room beyond the swinging circle to shore and hazards, and to neighbours that lie the same way. */
  roomM: (Metres | null)[];
  /** Likely holding over the pull in the hardest gust. */
  holdingMargin: (number | null)[];
  /** Radius of the swinging circle with the rode to be veered there. */
  radiusM: (Metres | null)[];
  /** What the chart says of anchoring. */
  anchoring: Anchoring["verdict"][];
}

/** A berth found and planned. */
export interface BerthFound {
  /** Where. */
  position: Position;
  /** Its place in the field. */
  index: number;
  /** Its score in the field. */
  score: number;
  /** Verdict of the full plan. */
  verdict: Verdict;
  /** Reasons of the full plan, the weightiest first. */
  reasons: PlanReason[];
  /** When it first stops being safe. */
  danger: Danger;
  /** Rode to veer there. */
  lengthOutM: Metres;
}

/** Berths of an area. */
export interface BerthSearch {
  /** Version of this form. */
  version: 1;
  /** Distance between the places. */
  spacingM: Metres;
  /** Places looked at. */
  count: number;
  /** What was found, place by place. */
  field: BerthField;
  /** The best berths, best first: by verdict of the full plan, then by the first danger, then by score. */
  best: BerthFound[];
}

const MOST_PLACES = 40_000;

/** Places of a grid within an area, on the plane of a chart. */
function placesIn(chart: Chart, area: PlaneArea, spacingM: number): Position[] {
  const [west, south, east, north] = area.box;
  const across = Math.floor((east - west) / spacingM);
  const up = Math.floor((north - south) / spacingM);
  if ((across + 1) * (up + 1) > MOST_PLACES)
    refuse("spacingM", "too_small", `more than ${MOST_PLACES} places: take a wider spacing`);
  // The grid stands in the middle of the box.
  const x0 = (west + east - across * spacingM) / 2;
  const y0 = (south + north - up * spacingM) / 2;
  const places: Position[] = [];
  for (let j = 0; j <= up; j++)
    for (let i = 0; i <= across; i++) {
      const [x, y] = [x0 + i * spacingM, y0 + j * spacingM];
      if (holds(area, x, y)) places.push(positionOf(chart.plane, x, y));
    }
  return places;
}

function holds({ ring, x: cx, y: cy, radius }: PlaneArea, x: number, y: number): boolean {
  if (ring !== null) return pointInRings(ring, x, y);
  return (x - cx) * (x - cx) + (y - cy) * (y - cy) <= radius * radius;
}

const fieldOf = (places: readonly Position[], looked: readonly Looked[]): BerthField => ({
  latDeg: places.map((p) => p.latDeg),
  lonDeg: places.map((p) => p.lonDeg),
  score: looked.map((l) => l.score),
  verdict: looked.map((l) => l.verdict),
  chartedDepthM: looked.map((l) => known(l.chartedDepthM)),
  underKeelM: looked.map((l) => known(l.underKeelM)),
  roomM: looked.map((l) => known(l.roomM)),
  holdingMargin: looked.map((l) => known(l.holdingMargin)),
  radiusM: looked.map((l) => known(l.radiusM)),
  anchoring: looked.map((l) => l.anchoring),
});

/** The best places, none in the circle of a better one. */
function candidates(
  chart: Chart,
  places: readonly Position[],
  looked: readonly Looked[],
  most: number,
): number[] {
  const chosen: { i: number; x: number; y: number }[] = [];
  const order = looked
    .map((_, i) => i)
    .filter((i) => looked[i]!.score > 0)
    .sort((a, b) => looked[b]!.score - looked[a]!.score || a - b);
  for (const i of order) {
    if (chosen.length === most) break;
    const { x, y } = layArea(chart.plane, { centre: places[i]!, radiusM: 0 });
    const apart = looked[i]!.radiusM;
    if (chosen.every((c) => (c.x - x) * (c.x - x) + (c.y - y) * (c.y - y) > apart * apart))
      chosen.push({ i, x, y });
  }
  return chosen.map((c) => c.i);
}

const ORDER: readonly Verdict[] = ["suitable", "withCare", "cannotTell", "unsuitable"];

const better = (a: BerthFound, b: BerthFound): number =>
  ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict) ||
  (b.danger.atMs ?? Infinity) - (a.danger.atMs ?? Infinity) ||
  b.score - a.score;

function planned(
  input: CheckedStay,
  chart: Chart,
  position: Position,
  index: number,
  score: number,
): BerthFound {
  const s = studyOf({ ...input, position }, chart);
  const { verdict, reasons, danger } = judge(s);
  return { position, index, score, verdict, reasons, danger, lengthOutM: s.rode.lengthOutM };
}

/**
 * Search an area of the chart for berths for a stay: a field of places with depth, room, holding and what the
 * chart says of anchoring, and the best berths planned in full.
 *
 * Every place takes the rode the stay asks for at its depth, to the metre, and the whole circle that goes with it.
 * Room to neighbours is that of vessels that lie the same way. The best places, none within the circle of a
 * better one, are then planned as `planStay` does, hour by hour. The sea is reckoned for these alone. A charted
 * depth given with the stay does not count, a bed given with it counts everywhere.
 *
 * *Valid*: areas within one chart, up to 40,000 places. *Accuracy*: that of the chart; the score ranks, and is
 * no probability.
 *
 * @throws InputError as `planStay`, where there is no chart, or with more places than 40,000.
 * @source see `basis` of each reason
 * @example
 * ```ts
 * import { seekBerth } from "hawse";
 * const ring = [[-30.02, 39.98], [-29.98, 39.98], [-29.98, 40.02], [-30.02, 40.02], [-30.02, 39.98]];
 * const layer = (type: string, coordinates: unknown, properties = {}) => ({
 *   type: "FeatureCollection" as const,
 *   features: [{ type: "Feature", properties, geometry: { type, coordinates } }],
 * });
 * // Neither tide nor wind is given: places are looked at, none can be ranked.
 * const { count, best } = seekBerth({
 *   position: { latDeg: 40, lonDeg: -30 },
 *   stay: { fromMs: Date.UTC(2026, 5, 1, 12), toMs: Date.UTC(2026, 5, 1, 15) },
 *   vessel: { kind: "yacht", lengthM: 10 },
 *   tackle: { anchor: { type: "claw", massKg: 20 }, rode: [{ kind: "chain", diameterMm: 10, lengthM: 60 }] },
 *   seabed: "sand, firm",
 *   chart: {
 *     soundingDatum: "LAT",
 *     layers: {
 *       M_COVR: layer("Polygon", [ring], { CATCOV: 1 }),
 *       DEPARE: layer("Polygon", [ring], { DRVAL1: 6, DRVAL2: 6 }),
 *       COALNE: layer("LineString", ring),
 *     },
 *   },
 *   area: { centre: { latDeg: 40, lonDeg: -30 }, radiusM: 100 },
 *   spacingM: 50,
 * });
 * console.log(count, best.length);
 * // 13 0
 * ```
 */
export function seekBerth(input: SeekInput): BerthSearch {
  return seekChecked(check(seekInput, input));
}

/** {@link seekBerth} for input that has been checked. */
export function seekChecked(asked: z.output<typeof seekInput>): BerthSearch {
  const { area, spacingM, most, ...given } = asked;
  const input = withoutPlace(given);
  const chart = chartOf(input);
  if (chart === null) refuse("chart", "required", "a chart is needed to search");
  const places = placesIn(chart, layArea(chart.plane, area), spacingM);
  const search = searchOf(input, chart, sceneOf(input));
  const looked = places.map((p) => lookAt(search, p));
  return {
    version: 1,
    spacingM,
    count: places.length,
    field: fieldOf(places, looked),
    best: candidates(chart, places, looked, most)
      .map((i) => planned(input, chart, places[i]!, i, looked[i]!.score))
      .sort(better),
  };
}
