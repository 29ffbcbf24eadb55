export { streamAt, type StreamAt, type StreamFlag } from "./at.js";
export type { StreamGap } from "./kernel.js";
export type { StreamSource, StreamTurnRow } from "./source.js";
export { streamTurns, type StreamTurn } from "./turns.js";
