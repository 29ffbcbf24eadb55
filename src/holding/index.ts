export { breakOut, type BreakOut, type BreakOutCaution, type WeighStep } from "./breakOut.js";
export { bringUp, type BringUp, type BringUpCaution } from "./bringUp.js";
export { designLoad, type DesignLoad } from "./designLoad.js";
export {
  holding,
  type Anchor,
  type Holding,
  type HoldingCaution,
  type HoldingFigure,
} from "./holding.js";
export { shipHolding } from "./shipHolding.js";
export { SAFETY_FACTORS as safetyFactors } from "./tables.js";
export { type BedName } from "./beds.js";
export { type DesignConditions } from "./rules.js";
export { sizeAnchor, type AnchorSizes } from "./sizeAnchor.js";
export { type Outfit, type SizeMethod, type SizeRow } from "./outfit.js";
export {
  twoAnchors,
  type LegLoads,
  type TwoAnchors,
  type TwoAnchorsCaution,
  type TwoAnchorsPurpose,
} from "./twoAnchors.js";
