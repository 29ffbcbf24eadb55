export { scopeByRule, type ScopeByRule, type ScopeByRuleInput } from "./scopeByRule.js";
export {
  chain,
  rope,
  ropeStiffness,
  type ChainOptions,
  type RopeStiffnessInput,
  type SegmentMake,
} from "./tackle.js";
export { layRode, type LayRodeInput, type RodeLie } from "./layRode.js";
export { loadAtReach, type LoadAtReachInput } from "./loadAtReach.js";
export { rodeForLoad, type RodeForLoad, type RodeForLoadInput } from "./rodeForLoad.js";
export { rodeProfile, type RodeProfile, type RodeProfileInput } from "./rodeProfile.js";
export {
  surgeCapacity,
  type SurgeCapacity,
  type SurgeCapacityInput,
  type SurgeWork,
} from "./surgeCapacity.js";
export {
  weakestLink,
  type PartStrength,
  type WeakestLink,
  type WeakestLinkInput,
} from "./weakestLink.js";
export type { Rode, RodeWeight, Segment } from "./input.js";
export {
  CHAINS,
  FIBRES,
  type ChainRow,
  type Fibre,
  type FibreData,
  type RopeRow,
} from "./tables.js";
