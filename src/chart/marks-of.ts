import { check } from "../core/check.js";
import type { Position } from "../core/schema.js";
import type { Degrees, Metres, Seconds } from "../core/units.js";
import { numberOf, textOf } from "./attributes.js";
import type { Chart, ChartFeature } from "./chart.js";
import { chartSchema, refOf, serves, type FeatureRef, positionFound } from "./query.js";

/** A charted light. */
export interface ChartedLight {
  /** Character (LITCHR code); null where not charted. */
  character: number | null;
  /** Group, e.g. `(2)`; null where not charted. */
  group: string | null;
  /** Period; null where not charted. */
  periodS: Seconds | null;
  /** Colour codes; null where not charted. */
  colour: string | null;
  /** Nominal range in nautical miles as charted; null where not charted. */
  rangeNm: number | null;
  /** Limits of the sector from seaward; null where it shows all round. */
  sector: {
    /** First limit, from seaward, clockwise. */
    fromDeg: Degrees;
    /** Second limit. */
    toDeg: Degrees;
  } | null;
}

/** A charted mark that a bearing can be taken of. */
export interface ChartedMark {
  /** Name of the object, or of its class where it has none. */
  name: string;
  /** What it is. */
  kind: "beacon" | "buoy" | "light" | "landmark" | "lightFloat" | "daymark" | "pile" | "dolphin";
  /** Whether it floats, and so moves about its mooring. */
  floating: boolean;
  /** Whether it shows a light by night; null where the chart has no lights layer to tell. */
  lit: boolean | null;
  /** Its lights. */
  lights: ChartedLight[];
  /** Where it stands. */
  position: Position;
  /** Height as charted, above the datum of heights; null where not charted. */
  heightM: Metres | null;
  /** Yearly season in which it is in place (PERSTA to PEREND); null for the whole year. */
  season: string | null;
  /** The feature. */
  feature: FeatureRef;
}

function kindOf({ acronym, attributes }: ChartFeature): ChartedMark["kind"] | null {
  if (acronym.startsWith("BCN")) return "beacon";
  if (acronym.startsWith("BOY")) return "buoy";
  switch (acronym) {
    case "LIGHTS":
      return "light";
    case "LNDMRK":
      return "landmark";
    case "LITFLT":
    case "LITVES":
      return "lightFloat";
    case "DAYMAR":
      return "daymark";
    case "PILPNT":
      return "pile";
    case "MORFAC":
      return ["1", "2"].includes(textOf(attributes["CATMOR"]) ?? "") ? "dolphin" : null;
    default:
      return null;
  }
}

const lightOf = ({ attributes }: ChartFeature): ChartedLight => {
  const fromDeg = numberOf(attributes["SECTR1"]);
  const toDeg = numberOf(attributes["SECTR2"]);
  return {
    character: numberOf(attributes["LITCHR"]),
    group: textOf(attributes["SIGGRP"]),
    periodS: numberOf(attributes["SIGPER"]),
    colour: textOf(attributes["COLOUR"]),
    rangeNm: numberOf(attributes["VALNMR"]),
    sector: fromDeg === null || toDeg === null ? null : { fromDeg, toDeg },
  };
};

/** How near a light must be charted to a structure to stand on it, m. */
const SAME_PLACE_M = 2;

interface Placed {
  index: number;
  x: number;
  y: number;
}

/** Features with where they stand: a point, or the middle of the box of a larger one. */
function placed(chart: Chart, wanted: (f: ChartFeature) => boolean): Placed[] {
  const { xy } = chart.boxes;
  return chart.features.flatMap((f, index) =>
    wanted(f)
      ? [
          {
            index,
            x: (xy[4 * index]! + xy[4 * index + 2]!) / 2,
            y: (xy[4 * index + 1]! + xy[4 * index + 3]!) / 2,
          },
        ]
      : [],
  );
}

const together = (a: Placed, b: Placed): boolean =>
  Math.abs(a.x - b.x) <= SAME_PLACE_M && Math.abs(a.y - b.y) <= SAME_PLACE_M;

function markOf(
  chart: Chart,
  { index, x, y }: Placed,
  lights: readonly Placed[],
  known: boolean,
): ChartedMark | null {
  const f = chart.features[index]!;
  const kind = kindOf(f);
  if (kind === null) return null;
  const { attributes } = f;
  const vertex = chart.trees[index]!.starts[0]!;
  const season = [textOf(attributes["PERSTA"]), textOf(attributes["PEREND"])];
  const feature = refOf(chart, index);
  return {
    name: feature.objectName ?? feature.className,
    kind,
    floating: kind === "buoy" || kind === "lightFloat",
    lit: lights.length > 0 ? true : known ? false : null,
    lights: lights.map((l) => lightOf(chart.features[l.index]!)),
    position: positionFound(chart, index, { vertex, x, y }),
    heightM: numberOf(attributes["HEIGHT"]),
    season:
      season[0] === null && season[1] === null
        ? null
        : `${season[0] ?? "?"} to ${season[1] ?? "?"}`,
    feature,
  };
}

/**
 * The charted marks of which bearings and transits can be taken: beacons, lights, landmarks, piles
 * and dolphins, which stand, and buoys and light floats, which swing about their moorings.
 *
 * A light charted at the place of a structure counts as its light; a light alone is a mark by
 * itself. Where the chart has no layer of lights it cannot tell a lit mark from an unlit one, and
 * `lit` is null. It leaves out whether a mark can be seen from the berth.
 *
 * *Valid*: anywhere. *Accuracy*: that of the chart.
 *
 * @throws InputError where the chart is none.
 * @source IHO S-57 edition 3.1: BCN..., BOY..., LIGHTS, LNDMRK, PILPNT, MORFAC
 * @example
 * ```ts
 * import { marksOf, readChart } from "hawse/chart";
 * const at = { type: "Point", coordinates: [-30, 40] };
 * const layer = (properties: object) => ({ type: "FeatureCollection", features: [{ type: "Feature", properties, geometry: at }] });
 * const chart = readChart({ BCNLAT: layer({ OBJNAM: "Outer beacon" }), LIGHTS: layer({ SIGPER: 5 }) }, { soundingDatum: 23 });
 * console.log(marksOf(chart).map((m) => `${m.name} ${m.floating} ${m.lit}`).join());
 * // Outer beacon false true
 * ```
 */
export function marksOf(chart: Chart): ChartedMark[] {
  return marksOn(check(chartSchema, chart));
}

/** {@link marksOf} of a chart that is already checked. */
export function marksOn(chart: Chart): ChartedMark[] {
  const lights = placed(chart, (f) => f.acronym === "LIGHTS");
  const structures = placed(
    chart,
    (f) =>
      f.acronym !== "LIGHTS" &&
      (serves(f, "mark") || f.acronym === "PILPNT" || f.acronym === "MORFAC"),
  );
  const alone = lights.filter((l) => !structures.some((s) => together(l, s)));
  const firsts = alone.filter((l, i) => !alone.slice(0, i).some((k) => together(k, l)));
  return [...structures, ...firsts].flatMap((s) => {
    const own = lights.filter((l) => together(l, s));
    return markOf(chart, s, own, lights.length > 0) ?? [];
  });
}
