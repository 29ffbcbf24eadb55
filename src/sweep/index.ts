export { sweep, sweepShard, type SweepPart } from "./sweep.js";
export type { ColumnChunk } from "./run.js";
export type { Axis, Draw, SweepInput } from "./input.js";
