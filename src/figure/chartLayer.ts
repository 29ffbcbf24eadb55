import { clipLine, clipRing, thinned, type Frame } from "./clip.js";
import { el, label, pathData, px } from "./svg.js";

type Point = readonly [number, number];
type Place = (lonDeg: number, latDeg: number) => Point;
type Coordinates = number[] | Coordinates[];

interface Feature {
  properties?: Readonly<Record<string, unknown>> | null;
  geometry?: { type: string; coordinates: Coordinates } | null;
}

type Layers = Readonly<Record<string, { features: readonly unknown[] }>>;

const featuresOf = (layers: Layers, name: string): Feature[] =>
  (layers[name]?.features ?? []) as Feature[];

/** Smallest step between drawn points, px: finer detail only makes the file larger. */
const STEP_PX = 1.2;

const isPosition = (c: Coordinates): c is number[] => typeof c[0] === "number";

/** Paths of a geometry of any kind, in the picture. */
function pathsOf(coordinates: Coordinates, place: Place): Point[][] {
  if (isPosition(coordinates)) return [[place(coordinates[0]!, coordinates[1]!)]];
  if (coordinates.every(isPosition)) return [coordinates.map((c) => place(c[0]!, c[1]!))];
  return coordinates.flatMap((c) => pathsOf(c, place));
}

function filled(f: Feature, place: Place, frame: Frame, kind: string): string {
  if (f.geometry?.type.includes("Polygon") !== true) return "";
  const d = pathsOf(f.geometry.coordinates, place)
    .map((ring) => pathData(thinned(clipRing(ring, frame), STEP_PX), true))
    .join("");
  return d === "" ? "" : el("path", { d, class: kind, "fill-rule": "evenodd" });
}

function drawn(f: Feature, place: Place, frame: Frame, kind: string): string {
  if (f.geometry == null || !/Line|Polygon/.test(f.geometry.type)) return "";
  const d = pathsOf(f.geometry.coordinates, place)
    .flatMap((line) => clipLine(line, frame))
    .map((part) => pathData(thinned(part, STEP_PX)))
    .join("");
  return d === "" ? "" : el("path", { d, class: kind });
}

/** Depths shoaler than this are tinted, m. */
const SHOAL_M = 2;

const depthTint = (f: Feature): string =>
  Number(f.properties?.["DRVAL1"] ?? NaN) >= SHOAL_M ? "water" : "shoal";

function spots(layers: Layers, place: Place, frame: Frame): string {
  const marks = ["UWTROC", "WRECKS", "OBSTRN"].flatMap((name) =>
    featuresOf(layers, name).flatMap((f) =>
      f.geometry?.type === "Point" ? pathsOf(f.geometry.coordinates, place) : [],
    ),
  );
  return marks
    .flat()
    .filter(([x, y]) => inside(x, y, frame))
    .map(([x, y]) =>
      el("path", {
        d: `M${px(x - 4)} ${px(y)}h8m-4 -4v8m-3 -7l6 6m0 -6l-6 6`,
        class: "line bad",
      }),
    )
    .join("");
}

/** At most so many soundings are written. */
const MOST_SOUNDINGS = 60;

function soundings(layers: Layers, place: Place, frame: Frame): string {
  return featuresOf(layers, "SOUNDG")
    .flatMap((f) => {
      const c = f.geometry?.coordinates;
      if (c === undefined) return [];
      return (isPosition(c) ? [c] : (c as number[][])).map((p) => ({
        at: place(p[0]!, p[1]!),
        depth: p[2],
      }));
    })
    .filter(({ at: [x, y], depth }) => depth !== undefined && inside(x, y, frame))
    .slice(0, MOST_SOUNDINGS)
    .map(({ at: [x, y], depth }) =>
      label(x, y, depth!.toFixed(1), {
        "text-anchor": "middle",
        class: "soft",
      }),
    )
    .join("");
}

const inside = (x: number, y: number, f: Frame): boolean =>
  x > f.left && x < f.right && y > f.top && y < f.bottom;

/** The chart under a picture: depth areas, land, shore, contours, areas with rules, dangers and soundings. */
export function drawChart(layers: Layers, place: Place, frame: Frame): string {
  const every = (names: readonly string[], draw: (f: Feature) => string): string =>
    names.flatMap((name) => featuresOf(layers, name).map(draw)).join("");
  return [
    every(["DEPARE", "DRGARE"], (f) => filled(f, place, frame, depthTint(f))),
    every(["LNDARE"], (f) => filled(f, place, frame, "land")),
    every(["DEPCNT"], (f) => drawn(f, place, frame, "rule")),
    every(["COALNE", "SLCONS"], (f) => drawn(f, place, frame, "line")),
    every(["RESARE", "CBLARE", "PIPARE", "DMPGRD", "CBLSUB", "PIPSOL"], (f) =>
      drawn(f, place, frame, "line bad dots"),
    ),
    spots(layers, place, frame),
    soundings(layers, place, frame),
  ].join("");
}
