export { readChart, type ChartOptions } from "./read-chart.js";
export type { CellInput, LayerInput, LayersInput } from "./collect.js";
export type {
  AttributeValue,
  Chart,
  ChartCell,
  ChartFeature,
  ChartReport,
  NotUsed,
  Primitive,
  SoundingDatum,
} from "./chart.js";
export type { Area } from "./area.js";
export {
  anchoringAt,
  type Anchoring,
  type AnchoringOptions,
  type AnchoringReason,
} from "./anchoring-at.js";
export { anchoringPolicy, type AnchoringPolicy, type Effect } from "./policy.js";
export { depthsIn, type Depths, type DepthSource } from "./depths-in.js";
export {
  hazardsIn,
  type Hazard,
  type HazardKind,
  type HazardOptions,
  type Hazards,
} from "./hazards-in.js";
export type { HazardDepth, WaterLevel } from "./hazard-depth.js";
export {
  seabedNear,
  type SeabedAround,
  type SeabedOptions,
  type SeabedSample,
} from "./seabed-near.js";
export { coverageOf, type Coverage } from "./coverage-of.js";
export { shoreNear, type ShoreNear } from "./shore-near.js";
export {
  surroundingsOf,
  type ChartedSurroundings,
  type SurroundingsFound,
} from "./surroundings-of.js";
export { marksOf, type ChartedLight, type ChartedMark } from "./marks-of.js";
export { zonesOfConfidence, type QualityZone, type ZoneOfConfidence } from "./quality.js";
export type { FeatureRef } from "./query.js";
export { codedAttributes, meaningOf, type CodedAttribute, type CodeValue } from "./codes.js";
export { objectClasses, type ClassUse, type ObjectClass } from "./classes.js";
