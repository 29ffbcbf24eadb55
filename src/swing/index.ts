export { swingCircle, type SwingCircle, type SwingCircleInput } from "./swing-circle.js";
export {
  swingEnvelope,
  type SwingEnvelope,
  type SwingEnvelopeInput,
  type SwingSector,
} from "./swing-envelope.js";
export { swingGap, type SwingGap } from "./swing-gap.js";
export type { AnchoredVessel, SwingMoment, SwingVessel } from "./vessel.js";
export { swingClearance } from "./swing-clearance.js";
export type { HazardMet, SwingClearance } from "./clearance.js";
export type { DepthMoment } from "./depth-under.js";
export type { Nearest } from "./nearest.js";
export type { Surroundings } from "./surroundings.js";
export {
  neighbourGuess,
  type NeighbourGuess,
  type NeighbourGuessInput,
} from "./neighbour-guess.js";
export {
  twoAnchorEnvelope,
  type TwoAnchorEnvelope,
  type TwoAnchorEnvelopeInput,
} from "./two-anchor-envelope.js";
