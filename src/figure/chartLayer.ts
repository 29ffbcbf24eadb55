import { numberOf } from "../chart/attributes.js";
import { clipLine, clipRing, thinned } from "./clip.js";
import type { Box, Placer } from "./layout.js";
import type { MapView, Place } from "./mapView.js";
import { el, pathData, px } from "./svg.js";

type Point = readonly [number, number];
type Coordinates = number[] | Coordinates[];

interface Feature {
  properties?: Readonly<Record<string, unknown>> | null;
  geometry?: { type: string; coordinates: Coordinates } | null;
}

/** Feature collections by the name of their object class. */
export type Layers = Readonly<Record<string, { features: readonly unknown[] }>>;

/** Where and how finely a chart is drawn. */
interface Drawing {
  place: Place;
  frame: Box;
  /** Smallest step between drawn points, px; what is smaller than it is left out. */
  stepPx: number;
}

const featuresOf = (layers: Layers, name: string): Feature[] =>
  (layers[name]?.features ?? []) as Feature[];

const isPosition = (c: Coordinates): c is number[] => typeof c[0] === "number";

/** Paths of a geometry of any kind, in the picture. */
function pathsOf(coordinates: Coordinates, place: Place): Point[][] {
  if (isPosition(coordinates)) return [[place(coordinates[0]!, coordinates[1]!)]];
  if (coordinates.every(isPosition)) return [coordinates.map((c) => place(c[0]!, c[1]!))];
  return coordinates.flatMap((c) => pathsOf(c, place));
}

function filled(f: Feature, { place, frame, stepPx }: Drawing, kind: string): string {
  if (f.geometry?.type.includes("Polygon") !== true) return "";
  const d = pathsOf(f.geometry.coordinates, place)
    .map((ring) => thinned(clipRing(ring, frame), stepPx))
    .filter((ring) => ring.length > 2)
    .map((ring) => pathData(ring, true))
    .join("");
  return d === "" ? "" : el("path", { d, class: kind, "fill-rule": "evenodd" });
}

function drawn(f: Feature, { place, frame, stepPx }: Drawing, kind: string): string {
  if (f.geometry == null || !/Line|Polygon/.test(f.geometry.type)) return "";
  const d = pathsOf(f.geometry.coordinates, place)
    .flatMap((line) => clipLine(line, frame))
    .map((part) => pathData(thinned(part, stepPx)))
    .join("");
  return d === "" ? "" : el("path", { d, class: kind });
}

/** Depths shoaler than this are tinted, m. */
const SHOAL_M = 2;

const depthTint = (f: Feature): string =>
  (numberOf(f.properties?.["DRVAL1"]) ?? -Infinity) >= SHOAL_M ? "water" : "shoal";

const inside = ([x, y]: Point, f: Box): boolean =>
  x > f.left && x < f.right && y > f.top && y < f.bottom;

/** Dangers as stars, one to a cell of the picture. */
function dangers(layers: Layers, { place, frame, stepPx }: Drawing, words: Placer): string {
  const cell = 8 + 3 * stepPx;
  const seen = new Set<string>();
  const d = ["UWTROC", "WRECKS", "OBSTRN"]
    .flatMap((name) => featuresOf(layers, name))
    .flatMap((f) =>
      f.geometry?.type.endsWith("Point") === true ? pathsOf(f.geometry.coordinates, place) : [],
    )
    .flat()
    .filter((p) => {
      const key = `${Math.round(p[0] / cell)} ${Math.round(p[1] / cell)}`;
      if (!inside(p, frame) || seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .map(([x, y]) => {
      words.block({ left: x - 6, right: x + 6, top: y - 6, bottom: y + 6 });
      return `M${px(x - 5)} ${px(y)}h10m-5 -5v10m-4 -9l8 8m0 -8l-8 8`;
    })
    .join("");
  return d === "" ? "" : el("path", { d, class: "line bad" });
}

/** At most so many soundings are written. */
const MOST_SOUNDINGS = 60;

/** Soundings where there is room for them, to be written after everything weightier. */
export function soundings(layers: Layers, { place, frame }: MapView, words: Placer): string {
  return featuresOf(layers, "SOUNDG")
    .flatMap((f) => {
      const c = f.geometry?.coordinates;
      if (c === undefined) return [];
      return (isPosition(c) ? [c] : (c as number[][])).map((p) => ({
        at: place(p[0]!, p[1]!),
        depth: p[2],
      }));
    })
    .filter(({ at, depth }) => typeof depth === "number" && inside(at, frame))
    .slice(0, MOST_SOUNDINGS)
    .map(({ at: [x, y], depth }) =>
      words.text(depth!.toFixed(1), [{ x, y: y + 4, anchor: "middle" }], "soft"),
    )
    .join("");
}

/** A figure of a crowded chart is drawn coarser until its chart is no longer than this. */
const MOST_CHARACTERS = 34_000;
const STEPS_PX = [1.2, 3, 6, 12, 24];

/** The chart under a picture: depth areas, land, shore, contours, areas with rules and dangers. */
export function drawChart(layers: Layers, { place, frame }: MapView, words: Placer): string {
  let out = "";
  for (const stepPx of STEPS_PX) {
    out = drawnAt(layers, { place, frame, stepPx }, words);
    if (out.length <= MOST_CHARACTERS) return out;
  }
  // Nothing but the dangers where even the coarsest chart is too much.
  return dangers(layers, { place, frame, stepPx: STEPS_PX.at(-1)! }, words);
}

function drawnAt(layers: Layers, to: Drawing, words: Placer): string {
  const every = (names: readonly string[], draw: (f: Feature) => string): string =>
    names.flatMap((name) => featuresOf(layers, name).map(draw)).join("");
  return [
    every(["DEPARE", "DRGARE"], (f) => filled(f, to, depthTint(f))),
    every(["LNDARE"], (f) => filled(f, to, "land")),
    every(["DEPCNT"], (f) => drawn(f, to, "rule")),
    every(["COALNE", "SLCONS"], (f) => drawn(f, to, "line")),
    every(["RESARE", "CBLARE", "PIPARE", "DMPGRD", "CBLSUB", "PIPSOL"], (f) =>
      drawn(f, to, "line bad dots"),
    ),
    dangers(layers, to, words),
  ].join("");
}
