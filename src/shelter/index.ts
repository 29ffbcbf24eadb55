export { type CoastInput, prepareCoast, type PreparedCoast } from "./coast.js";
export type { ComfortClass } from "./comfort.js";
export {
  effectiveFetch,
  type EffectiveFetch,
  type EffectiveFetchInput,
  type FetchMethod,
} from "./effectiveFetch.js";
export { diffractionAt, type DiffractionAt, type DiffractionAtInput } from "./diffractionAt.js";
export type { Extent } from "./extent.js";
export type { FanInput, FetchFan, RayEnd } from "./fan.js";
export { fetchFan, type FetchFanInput } from "./fetchFan.js";
export type { GrowthMethod } from "./growth.js";
export {
  motion,
  type Motion,
  type MotionInput,
  naturalRoll,
  type NaturalRollInput,
} from "./motion.js";
export { type RankedShelter, rankShelter, type RankShelterInput } from "./rankShelter.js";
export { shelter } from "./shelter.js";
export type { ShelterInput } from "./shelterInput.js";
export type {
  OpenSector,
  RiskiestHour,
  Shelter,
  ShelterHours,
  SeaTipping,
} from "./shelterTypes.js";
export { swellAt, type SwellAtInput } from "./swellAt.js";
export type { SwellAt } from "./swellTypes.js";
export { windWaves, type WindWaves, type WindWavesInput } from "./windWaves.js";
export {
  meanWindOfForce,
  seaState,
  type SeaState,
  type SeaStateInput,
  swellTerms,
  type SwellTermsInput,
  windForce,
  type WindForceInput,
} from "./terms.js";
export type { BeaufortRow, Encounter, NamedSpan } from "./tables.js";
export { waveGrowth, type WaveGrowth, type WaveGrowthInput } from "./waveGrowth.js";
export { wavesInDepth, type WavesInDepth, type WavesInDepthInput } from "./wavesInDepth.js";
export { windTo, type WindTo, type WindToInput } from "./windTo.js";
