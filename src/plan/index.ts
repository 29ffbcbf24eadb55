export { briefText, briefSections, type BriefOptions, type Section } from "./brief.js";
export { stayGeoJson, type FeatureCollection } from "./geojson.js";
export { planStay, type StayPlan } from "./planStay.js";
export { safeUntil, type SafeUntil } from "./safeUntil.js";
export type { PlanReason } from "./criteria.js";
export type { Danger } from "./judge.js";
export type { StayInput } from "./input.js";
export type { Limiting, Moments, Verdict } from "./types.js";
export type { RodePlan } from "./veer.js";
export type { NeighbourDrawn, RoomPlan } from "./room.js";
export type { NeighbourRoom } from "./neighbours.js";
export type { BedFound } from "./ground.js";
export type { Keeping } from "./keeping.js";
export type { RodeDrawn } from "./rodeDrawn.js";
export type { Chance, Doubt, DoubtEvent } from "./doubt.js";
export type { DoubtShare } from "./doubtShares.js";
export { wayOut, type Departures, type WayOut, type WayOutInput } from "./wayOut.js";
export type { Beside, Leg } from "./wayTrack.js";
export type { WayDepth, WayHazard } from "./wayDepth.js";
export type { SteerBy, WayMark } from "./wayMarks.js";
export type { LegWeather, Light, Passage, WindOn } from "./wayWeather.js";
export type { EngineFails, Leaving } from "./leaving.js";
export type { Advice, Gain } from "./advice.js";
export type { Tipping } from "./tipping.js";
export { checklist, stages, type Stage, type StageId, type Step } from "./checklist.js";
export type { Counsel } from "./counsel.js";
export {
  seekBerth,
  type BerthField,
  type BerthFound,
  type BerthSearch,
  type SeekInput,
} from "./seekBerth.js";
export {
  compareBerths,
  type Because,
  type BerthComparison,
  type BerthFigures,
  type CompareOptions,
  type RankedBerth,
} from "./compareBerths.js";
