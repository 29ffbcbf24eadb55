export { type CoastInput, prepareCoast, type PreparedCoast } from "./coast.js";
export type { ComfortClass } from "./comfort.js";
export {
  effectiveFetch,
  type EffectiveFetch,
  type EffectiveFetchInput,
  type FetchMethod,
} from "./effectiveFetch.js";
export type { Extent } from "./extent.js";
export type { FanInput, FetchFan, RayEnd } from "./fan.js";
export { fetchFan, type FetchFanInput } from "./fetchFan.js";
export type { GrowthMethod } from "./growth.js";
export { shelter } from "./shelter.js";
export type { ShelterInput } from "./shelterInput.js";
export type {
  OpenSector,
  RiskiestHour,
  Shelter,
  ShelterHours,
  Tipping,
} from "./shelterTypes.js";
export { swellAt, type SwellAtInput } from "./swellAt.js";
export type { SwellAt } from "./swellTypes.js";
export { windWaves, type WindWaves, type WindWavesInput } from "./windWaves.js";
