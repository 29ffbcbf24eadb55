export {
  swingCircle,
  type SwingCircle,
  type SwingCircleInput,
} from "./swing-circle.js";
export {
  swingEnvelope,
  type SwingEnvelope,
  type SwingEnvelopeInput,
  type SwingSector,
} from "./swing-envelope.js";
export { swingGap, type SwingGap } from "./swing-gap.js";
export type { AnchoredVessel, SwingMoment, SwingVessel } from "./vessel.js";
