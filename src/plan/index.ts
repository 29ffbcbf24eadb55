export {
  briefText,
  briefSections,
  type BriefOptions,
  type Section,
} from "./brief.js";
export { stayGeoJson, type FeatureCollection } from "./geojson.js";
export { planStay, type StayPlan } from "./planStay.js";
export type { PlanReason } from "./criteria.js";
export type { Danger } from "./judge.js";
export type { StayInput } from "./input.js";
export type { Limiting, Moments, Verdict } from "./types.js";
export type { RodePlan } from "./veer.js";
export type { NeighbourDrawn, RoomPlan } from "./room.js";
export type { NeighbourRoom } from "./neighbours.js";
export type { BedFound } from "./ground.js";
export type { Keeping } from "./keeping.js";
