import * as z from "zod/mini";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { plain } from "../core/schema.js";
import type { Geometry } from "../geo/geojson.js";
import type { Attributes } from "./attributes.js";
import { numberOf, textOf } from "./attributes.js";
import type { AttributeValue, ChartCell, ChartReport, NotUsed } from "./chart.js";
import { CLASS_OF, CLASS_OF_OBJL, isListed, type ObjectClass } from "./classes.js";
import { refuseOtherAreas, refuseOtherUnits } from "./datum.js";

/** A GeoJSON FeatureCollection of chart objects. */
export interface LayerInput {
  /** Always `FeatureCollection`. */
  type: string;
  /** Name of the layer, mostly the class acronym. */
  name?: string;
  /** The objects: GeoJSON features with a geometry and properties by acronym. */
  features: readonly object[];
}

/** Layers of one chart: by class acronym, or in a row with their names inside. */
export type LayersInput = Readonly<Record<string, LayerInput>> | readonly LayerInput[];

const cellSchema = z.strictObject({
  /** Name of the cell. */
  cell: z.string(),
  /** Compilation scale as the number after 1:; read from a DSID layer where that is given. */
  scale: z.optional(plain({ above: 0 })),
  /** Edition. */
  edition: z.optional(z.string()),
  /** Update applied. */
  update: z.optional(z.string()),
  /** The layers. */
  layers: z.custom<LayersInput>(
    (value: unknown) => typeof value === "object" && value !== null,
    "expected GeoJSON layers",
  ),
});
/** Layers with the cell they belong to. */
export type CellInput = z.infer<typeof cellSchema>;
const cellList = z.array(cellSchema);

/** A feature of a known use, as it came. */
export interface RawFeature {
  id: string;
  acronym: string;
  cell: number;
  geometry: Geometry;
  attributes: Attributes;
}

/** Everything found in the input. */
export interface Collected {
  cells: ChartCell[];
  features: RawFeature[];
  report: ChartReport;
}

/** Count one feature that is not used. */
export function setAside(report: ChartReport, layer: string, reason: NotUsed["reason"]): void {
  const row = report.notUsed.find((n) => n.layer === layer && n.reason === reason);
  if (row === undefined) report.notUsed.push({ layer, reason, count: 1 });
  else row.count++;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Named layers of any form of the input. */
function namedLayers(
  layers: LayersInput,
  path: string,
): [name: string, path: string, layer: LayerInput][] {
  const isRow = Array.isArray(layers);
  const named = Object.entries(layers as Record<string, LayerInput>);
  return named.map(([key, layer]) => {
    const at = isRow ? `${path}[${key}]` : `${path === "" ? "" : `${path}.`}${key}`;
    if (!isObject(layer) || !Array.isArray(layer.features))
      refuse(at, "invalid_type", "expected a GeoJSON FeatureCollection");
    const name: unknown = layer.name;
    if (name !== undefined && typeof name !== "string")
      refuse(`${at}.name`, "invalid_type", "expected a text");
    return [name ?? (isRow ? "" : key), at, layer];
  });
}

const newCell = (name: string, given?: CellInput): ChartCell => ({
  name,
  edition: given?.edition ?? null,
  update: given?.update ?? null,
  issued: null,
  scale: given?.scale ?? null,
  soundingDatum: null,
});

/** What the header record of a cell tells of it. */
function readHeader(cell: ChartCell, attributes: Attributes): void {
  refuseOtherUnits(attributes);
  const name = textOf(attributes["DSID_DSNM"]);
  if (cell.name === "" && name !== null) cell.name = name.replace(/\.\d+$/, "");
  cell.edition ??= textOf(attributes["DSID_EDTN"]);
  cell.update ??= textOf(attributes["DSID_UPDN"]);
  cell.issued ??= textOf(attributes["DSID_ISDT"]);
  cell.scale ??= numberOf(attributes["DSPM_CSCL"]);
  cell.soundingDatum ??= numberOf(attributes["DSPM_SDAT"]);
}

/** Class of a feature: by OBJL, surest of all, by its acronym, or by the name of its layer. */
function classOf(attributes: Attributes, layer: string): ObjectClass | null {
  const objl = attributes["OBJL"];
  const byNumber = CLASS_OF_OBJL.get(numberOf(objl) ?? NaN);
  if (byNumber !== undefined) return byNumber;
  for (const name of [attributes["acronym"], objl, layer]) {
    const found = typeof name === "string" ? CLASS_OF.get(name.trim().toUpperCase()) : undefined;
    if (found !== undefined) return found;
  }
  return null;
}

/** A class by a name that no list has; what every object answers to is no name. */
const nameless = (name: string): string => (name in {} ? "" : name);

/** Deepest list in an attribute that is kept as a list. */
const DEEPEST = 4;
/** Longest text or list that an attribute is taken to hold; none in the catalogue has a tenth of it. */
const LONGEST = 10_000;

const NOT_A_VALUE = "[not a value]";

/** What an attribute says; what no attribute can hold becomes a text that is in no list of codes, and so counts on the unsafe side. */
function valueOf(given: unknown, depth = 0): AttributeValue {
  switch (typeof given) {
    case "string":
      return given.length > LONGEST ? NOT_A_VALUE : given;
    case "boolean":
      return given;
    case "bigint":
      return String(given);
    case "number":
      return Number.isFinite(given) ? given : NOT_A_VALUE;
    case "undefined":
      return null;
    case "object":
      if (given === null) return null;
      if (Array.isArray(given) && depth < DEEPEST && given.length <= LONGEST)
        return given.map((v: unknown) => valueOf(v, depth + 1));
  }
  return NOT_A_VALUE;
}

/** Attributes of a feature as they came. */
function attributesOf(properties: unknown, path: string): Attributes {
  if (properties === undefined || properties === null) return {};
  if (!isObject(properties)) refuse(path, "invalid_type", "expected an object or null");
  return Object.fromEntries(Object.entries(properties).map(([k, v]) => [k, valueOf(v)]));
}

/** Rings of one area at most, its own and its holes. */
const MOST_RINGS = 10_000;

/** Geometry of an object that is used; it is read when it is laid on the plane. */
function geometryOf(given: unknown, path: string): Geometry {
  const rings = isObject(given) && given["type"] === "Polygon" ? given["coordinates"] : null;
  if (Array.isArray(rings) && rings.length > MOST_RINGS)
    refuse(path, "too_big", `an area of more than ${MOST_RINGS} rings`);
  return given as Geometry;
}

/** Add the features of one layer. */
function addLayer(
  out: Collected,
  cell: number,
  name: string,
  path: string,
  layer: LayerInput,
): void {
  for (const [i, given] of layer.features.entries()) {
    if (!isObject(given) || !("geometry" in given))
      refuse(`${path}.features[${i}]`, "invalid_type", "expected a GeoJSON Feature");
    out.report.given++;
    const attributes = attributesOf(given["properties"], `${path}.features[${i}].properties`);
    const known = classOf(attributes, name);
    const acronym = known?.acronym ?? nameless(textOf(attributes["acronym"]) ?? name);
    refuseOtherAreas(acronym, attributes);
    if (acronym === "DSID") {
      readHeader(out.cells[cell]!, attributes);
      setAside(out.report, acronym, "header");
    } else if (given["geometry"] === null) setAside(out.report, acronym, "noGeometry");
    else if ((known?.uses.length ?? 0) === 0 && textOf(attributes["RESTRN"]) === null)
      setAside(out.report, acronym, isListed(acronym.toUpperCase()) ? "class" : "unknownClass");
    else
      out.features.push({
        id: textOf(attributes["LNAM"]) ?? `${acronym}/${i}`,
        acronym,
        cell,
        geometry: geometryOf(given["geometry"], `${path}.features[${i}].geometry`),
        attributes,
      });
  }
}

const emptyReport = (): ChartReport => ({
  given: 0,
  used: 0,
  usedByClass: {},
  notUsed: [],
  absentClasses: [],
  unknownCodes: [],
  warnings: [],
});

/** Whether the input is a row of cells rather than layers. */
export const isCells = (input: LayersInput | readonly CellInput[]): input is readonly CellInput[] =>
  Array.isArray(input) && input.some((c: unknown) => isObject(c) && "layers" in c);

/** All features of the input with their classes and cells. */
export function collect(input: LayersInput | readonly CellInput[]): Collected {
  const out: Collected = { cells: [], features: [], report: emptyReport() };
  const cells = isCells(input) ? check(cellList, input) : [{ cell: "", layers: input }];
  for (const [i, given] of cells.entries()) {
    out.cells.push(newCell(given.cell, given));
    const path = isCells(input) ? `[${i}].layers` : "";
    for (const [name, at, layer] of namedLayers(given.layers, path))
      addLayer(out, i, name, at, layer);
  }
  return out;
}
