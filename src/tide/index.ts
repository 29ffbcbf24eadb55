export {
  tideHeight,
  type HeightOfTide,
  type KnownHeight,
  type TideHeightOptions,
  type UnknownHeight,
} from "./height.js";
export { tideTurns } from "./turns.js";
export { tideSeries, type TideSteps } from "./series.js";
export {
  depthOverStay,
  type DepthAt,
  type DepthCase,
  type DepthOverStay,
  type DepthOverStayInput,
  type KnownDepth,
  type SurgeGap,
  type UnknownDepth,
} from "./depth.js";
export { secondaryTurns, type DifferencesInput, type TurnRows } from "./secondary.js";
export { pressureSurge, type PressureSurge, type PressureSurgeInput } from "./pressure.js";
export type { SecondaryTurn } from "./differences.js";
export type { Gap, Unknown } from "./curve.js";
export type { Turn } from "./kinds.js";
export type { PortCurve, TideSource, TideType } from "./source.js";
export { portCurveFrom, type PortCurveFound, type PortCurveInput } from "./port-curve.js";
