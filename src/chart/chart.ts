import type { Metres } from "../core/units.js";
import type { BoxTree } from "../geo/boxtree.js";
import type { Plane } from "../geo/plane.js";

/** What a chart object may carry in an attribute. */
export type AttributeValue = string | number | boolean | null | readonly AttributeValue[];

/** One chart, or cell, that features came from. */
export interface ChartCell {
  /** Name of the cell; empty where none is given. */
  name: string;
  /** Edition, where given. */
  edition: string | null;
  /** Update applied, where given. */
  update: string | null;
  /** Date of issue as given, mostly YYYYMMDD. */
  issued: string | null;
  /** Compilation scale as the number after 1:, where given; the smaller, the larger the scale. */
  scale: number | null;
  /** Sounding datum (VERDAT code) stated in the cell, where given. */
  soundingDatum: number | null;
}

/** Whether a feature is a point, lines or an area. */
export type Primitive = "point" | "line" | "area";

/** One chart object. */
export interface ChartFeature {
  /** Name of the feature: LNAM where given, else layer and place in it. */
  id: string;
  /** Class acronym. */
  acronym: string;
  /** Whether it is a point, lines or an area. */
  primitive: Primitive;
  /** Index of its cell in {@link Chart.cells}. */
  cell: number;
  /** Its attributes as they came. */
  attributes: Readonly<Record<string, AttributeValue>>;
  /** Depth of a sounding, positive down; null for anything else, and where it is not given. */
  depthM: Metres | null;
}

/** Why features were not used. */
export interface NotUsed {
  /** Layer or class. */
  layer: string;
  /** `class` not used by any question here, `unknownClass`, `noGeometry`, `badGeometry`, `noDepth`, `repeated` or `header`. */
  reason:
    "class" | "unknownClass" | "noGeometry" | "badGeometry" | "noDepth" | "repeated" | "header";
  /** How many. */
  count: number;
}

/** What {@link readChart} did with its input. */
export interface ChartReport {
  /** Features given. */
  given: number;
  /** Features used. */
  used: number;
  /** Features used, by class. */
  usedByClass: Record<string, number>;
  /** Features not used, and why; with `used` they add up to `given`. */
  notUsed: NotUsed[];
  /** Classes that would be used and of which the input has no feature: none charted, or not handed over. */
  absentClasses: string[];
  /** Codes that are in no list here; they are kept, and count on the unsafe side. */
  unknownCodes: {
    /** The attribute it stands in. */
    attribute: string;
    /** The code. */
    code: string;
    /** How often it was met. */
    count: number;
  }[];
  /** What else was noticed. */
  warnings: string[];
}

/** A datum to which depths are charted. */
export interface SoundingDatum {
  /** VERDAT code; null where the datum is named otherwise. */
  code: number | null;
  /** Its name. */
  name: string;
  /** Whether the caller gave it or the chart states it. */
  from: "caller" | "chart";
}

/** A chart read and indexed: plain data that survives a structured clone. Its insides may change; ask the questions. */
export interface Chart {
  /** Version of this layout. */
  version: 1;
  /** Datum of the depths. */
  soundingDatum: SoundingDatum;
  /** The cells, largest scale first. */
  cells: ChartCell[];
  /** The features in use. */
  features: ChartFeature[];
  /** What was done with the input. */
  report: ChartReport;
  /** Plane on which the chart lies. */
  plane: Plane;
  /** Longitude and latitude of every vertex in turn. */
  lonLat: Float64Array;
  /** Edges of each feature, all over one list of vertices. */
  trees: BoxTree[];
  /** Boxes of the features: path i is the diagonal of feature i. */
  boxes: BoxTree;
  /** Edges of the shore, false edges left out. */
  shore: BoxTree;
  /** Feature of each path of the shore. */
  shoreFeature: Int32Array;
  /** Edges at which the coverage ends and nothing else begins. */
  coverageEdges: BoxTree;
  /** Edges at which charted depths and land end and nothing else begins. */
  skinEdges: BoxTree;
  /** Per cell, the depth that stands for every drying area (a bound, not a measured height); NaN where there is none. */
  fillers: Float64Array;
}
