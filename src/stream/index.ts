export { streamAt, type StreamAt, type StreamFlag } from "./at.js";
export { streamBelow, type StreamBelow, type StreamBelowInput } from "./below.js";
export { ellipsesFrom, type EllipsesFromInput, type FittedEllipses } from "./fit.js";
export type { StreamGap } from "./kernel.js";
export type { StreamSource, StreamTurnRow } from "./source.js";
export { subordinateTurns, type SubordinateTurnsInput } from "./subordinate.js";
export { streamTurns, type StreamTurn } from "./turns.js";
