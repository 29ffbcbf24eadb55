export { sweep, sweepShard, type SweepPart } from "./sweep.js";
export { summariseSweep } from "./summary.js";
export type { ColumnSummary, Exceedance, SweepSummary, TableRow } from "./summary.js";
export type { SummaryInput } from "./summaryInput.js";
export { describeSweep, type SweepColumn, type SweepDescription } from "./describe.js";
export { sweepProgress, type SweepProgress } from "./progress.js";
export { sweepText } from "./sweepText.js";
export type { ColumnChunk } from "./run.js";
export type { Axis, Draw, SweepInput } from "./input.js";
