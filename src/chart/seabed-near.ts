import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { bearingOf } from "../core/angles.js";
import { check } from "../core/check.js";
import { instant, metres, position, type Position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import { nearestOnSegments, nothingFound } from "../geo/boxtree.js";
import { positionOf } from "../geo/plane.js";
import { layArea } from "./area.js";
import { listOf, textOf, type Attributes } from "./attributes.js";
import type { AttributeValue, Chart } from "./chart.js";
import { meaningOf } from "./codes.js";
import { chartSchema, covers, near, positionFound, refOf, type FeatureRef } from "./query.js";

/** Schema of the options of {@link seabedNear}. */
export const seabedOptionsSchema = z.strictObject({
  /** How far to look; by default 1000 m. */
  radiusM: z._default(metres({ min: 0, max: 20_000 }), 1000),
  /** When the ages of the samples are asked for; without it they are null. */
  atMs: z.optional(instant()),
});
/** Options of {@link seabedNear}. */
export type SeabedOptions = Given<typeof seabedOptionsSchema>;

/** One charted sample of the bed, weed on it, or form of it. */
export interface SeabedSample {
  /** What is charted: a bed, weed, sandwaves or a spring. */
  kind: "bed" | "weed" | "sandwaves" | "spring";
  /** Codes as charted, in the form that `seabedFromCodes` takes. */
  codes: {
    /** NATSUR; null where no material is charted. A list that came as an array stays one: it may have lost empty slots. */
    natsur: string | string[] | null;
    /** NATQUA, likewise; null where no quality is charted. */
    natqua: string | string[] | null;
    /** CATWED of weed; null for anything else. */
    catwed: string | string[] | null;
  };
  /** The codes in words, e.g. `sand, broken shells`. */
  words: string;
  /** Whether a material is charted, not a quality alone. */
  material: boolean;
  /** Distance from the position; 0 inside an area. */
  distanceM: Metres;
  /** Bearing of the sample from the position; 0 at no distance. */
  bearingDeg: Degrees;
  /** Where the sample is charted, nearest to the position. */
  position: Position;
  /** Whether it is an area that holds the position: the bed here, as charted. */
  here: boolean;
  /** Date of the source as charted; null where not given. */
  sourceDate: string | null;
  /** Age in years of the source, from the start of the time its date names; null where either is not known. */
  ageYears: number | null;
  /** The feature. */
  feature: FeatureRef;
}

/** Answer of {@link seabedNear}. */
export interface SeabedAround {
  /** Samples within the radius: areas that hold the position first, then the nearest. */
  samples: SeabedSample[];
  /** The nearest sample of the bed itself; null where there is none. */
  nearest: SeabedSample | null;
  /** Different beds among the samples and how many of each, the commonest first. */
  spread: {
    /** The bed as the chart abbreviates it. */
    words: string;
    /** How many samples say so. */
    count: number;
  }[];
  /** Whether the samples of the bed all say the same; false also where there are none. */
  agree: boolean;
  /** How far was looked. */
  radiusM: Metres;
}

const KIND: Readonly<Record<string, SeabedSample["kind"]>> = {
  SBDARE: "bed",
  WEDKLP: "weed",
  SNDWAV: "sandwaves",
  SPRING: "spring",
};

/** A list as a text that keeps its empty slots, or as the array it came as. */
function codesOf(attributes: Attributes, name: string): string | string[] | null {
  const value = attributes[name];
  const text = textOf(value);
  if (text === null || !Array.isArray(value)) return text;
  return (value as readonly AttributeValue[]).map((v) => textOf(v) ?? "");
}

/** Whether two lists have as many entries, where one came as an array and may have lost empty slots. */
function paired(natsur: string | string[] | null, natqua: string | string[] | null): boolean {
  if (natsur === null || natqua === null) return true;
  if (!Array.isArray(natsur) && !Array.isArray(natqua)) return true;
  const size = (list: string | string[]) => String(list).split(",").length;
  return size(natsur) === size(natqua);
}

function wordsOf(attributes: Attributes, kind: SeabedSample["kind"]): string {
  if (kind === "weed")
    return (
      listOf(attributes["CATWED"])
        .map((c) => meaningOf("CATWED", Number(c)) ?? `CATWED ${c}`)
        .join(", ") || "weed"
    );
  if (kind !== "bed") return kind;
  const [materials, qualities] = [codesOf(attributes, "NATSUR"), codesOf(attributes, "NATQUA")];
  if (!paired(materials, qualities))
    return `${layerWords(String(materials), "")}; ${layerWords("", String(qualities))} (of which is not known)`;
  const natsur = String(materials ?? "").split("/");
  const natqua = String(qualities ?? "").split("/");
  return (
    natsur.map((layer, i) => layerWords(layer, natqua[i] ?? "")).join(" over ") || "not charted"
  );
}

const word = (attribute: string, code: string | undefined): string =>
  code === undefined || code.trim() === ""
    ? ""
    : (meaningOf(attribute, Number(code)) ?? `${attribute} ${code.trim()}`);

function layerWords(natsur: string, natqua: string): string {
  const [materials, qualities] = [natsur.split(","), natqua.split(",")];
  const slots = Array.from({ length: Math.max(materials.length, qualities.length) }, (_, i) =>
    [word("NATQUA", qualities[i]), word("NATSUR", materials[i])].filter((w) => w !== "").join(" "),
  );
  return slots.filter((s) => s !== "").join(", ") || "not charted";
}

const YEAR_MS = 365.25 * 86_400_000;

/** Years from the start of the time a charted date (YYYY, YYYYMM, YYYYMMDD) names; null for other forms. */
function ageYearsOf(date: string | null, atMs: number | undefined): number | null {
  const m = date === null ? null : /^(\d{4})(\d{2})?(\d{2})?$/.exec(date);
  if (m === null || atMs === undefined) return null;
  const [year, month, day] = [Number(m[1]), m[2], m[3]];
  const fromMs = Date.UTC(year, month === undefined ? 0 : Number(month) - 1, Number(day ?? 1));
  // The oldest day it may mean: an age is not made to look younger.
  return Math.max(0, (atMs - fromMs) / YEAR_MS);
}

function sampleOf(
  chart: Chart,
  index: number,
  x: number,
  y: number,
  atMs: number | undefined,
): SeabedSample {
  const { acronym, attributes } = chart.features[index]!;
  const kind = KIND[acronym]!;
  const here = covers(chart, index, x, y);
  const out = nothingFound();
  const d = here ? 0 : nearestOnSegments(chart.trees[index]!, x, y, Infinity, out);
  const sourceDate = textOf(attributes["SORDAT"]);
  const [natsur, natqua] =
    kind === "bed" ? [codesOf(attributes, "NATSUR"), codesOf(attributes, "NATQUA")] : [null, null];
  return {
    kind,
    codes: {
      natsur,
      natqua,
      catwed: kind === "weed" ? codesOf(attributes, "CATWED") : null,
    },
    words: wordsOf(attributes, kind),
    material: listOf(attributes["NATSUR"]).length > 0,
    distanceM: d,
    bearingDeg: d === 0 ? 0 : bearingOf(out.x - x, out.y - y),
    position: here ? positionOf(chart.plane, x, y) : positionFound(chart, index, out),
    here,
    sourceDate,
    ageYears: ageYearsOf(sourceDate, atMs),
    feature: refOf(chart, index),
  };
}

function spreadOf(beds: readonly SeabedSample[]): SeabedAround["spread"] {
  const counts = new Map<string, number>();
  for (const { words } of beds) counts.set(words, (counts.get(words) ?? 0) + 1);
  return [...counts].map(([words, count]) => ({ words, count })).sort((a, b) => b.count - a.count);
}

/**
 * The charted samples of the seabed round a position, nearest first, with their distance, age and
 * how far they agree.
 *
 * A sample tells of its own spot and day; the bed between samples is not charted, so all of them
 * are given and nothing is interpolated. Areas of bed and weed that hold the position come first.
 * Many samples name a quality only (hard, soft, sticky).
 *
 * *Valid*: up to 20 km round. *Accuracy*: that of the chart; samples are often copied from old
 * charts. An age counts from the start of the time its date names.
 *
 * @throws InputError where the chart, position or options are none.
 * @source IHO S-57 edition 3.1: SBDARE, WEDKLP, NATSUR, NATQUA, SORDAT
 * @example
 * ```ts
 * import { readChart, seabedNear } from "hawse/chart";
 * const sand = { type: "Feature", properties: { NATSUR: "4", SORDAT: "2010" }, geometry: { type: "Point", coordinates: [-30, 40] } };
 * const chart = readChart({ SBDARE: { type: "FeatureCollection", features: [sand] } }, { soundingDatum: 23 });
 * const { nearest } = seabedNear(chart, { latDeg: 40.001, lonDeg: -30 });
 * console.log(nearest?.words, nearest?.distanceM.toFixed(1), nearest?.bearingDeg);
 * // sand 111.0 180
 * ```
 */
export function seabedNear(chart: Chart, at: Position, options: SeabedOptions = {}): SeabedAround {
  return seabedAround(
    check(chartSchema, chart),
    check(position, at),
    check(seabedOptionsSchema, options),
  );
}

/** {@link seabedNear} of an input that is already checked. */
export function seabedAround(
  chart: Chart,
  at: Position,
  { radiusM, atMs }: z.output<typeof seabedOptionsSchema>,
): SeabedAround {
  const circle = layArea(chart.plane, { centre: at, radiusM });
  const samples = near(chart, circle, 0, (f) => KIND[f.acronym] !== undefined)
    .map((i) => sampleOf(chart, i, circle.x, circle.y, atMs))
    .filter((s) => s.distanceM <= radiusM)
    .sort((a, b) => a.distanceM - b.distanceM);
  const beds = samples.filter((s) => s.kind === "bed");
  const spread = spreadOf(beds);
  return {
    samples,
    nearest: beds[0] ?? null,
    spread,
    agree: spread.length === 1,
    radiusM,
  };
}
