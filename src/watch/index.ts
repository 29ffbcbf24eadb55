export {
  type AccuracyInput,
  type ErrorRadiusInput,
  errorRadius,
  sigmaFromAccuracy,
} from "./accuracy.js";
export {
  type CheckCause,
  type CheckLook,
  type CheckTime,
  type CheckTimesInput,
  checkTimes,
} from "./checktimes.js";
export type { WatchEvent } from "./events.js";
export { type JudgeSetInput, type SetJudgement, judgeSet } from "./judgeset.js";
export {
  type LimitRow,
  type LimitTable,
  type WatchLimits,
  type WatchLimitsInput,
  watchLimits,
} from "./limits.js";
export type { WatchMode } from "./memory.js";
export type { WatchAlarm, WatchExcess, WatchReport } from "./report.js";
export {
  type CallWhen,
  type RotaWatch,
  type WatchRota,
  type WatchRotaInput,
  watchRota,
} from "./rota.js";
export {
  type CusumInput,
  type SequentialInput,
  type SequentialTest,
  cusumRunLength,
  sequentialTest,
} from "./runlength.js";
export { resumeWatch, saveWatch } from "./savewatch.js";
export { type StartWatchInput, startWatch } from "./startwatch.js";
export type { WatchState } from "./state.js";
export type { StayColumns, StreamTurn, TideTurn, WindRow } from "./stay.js";
export { type WatchStep, stepWatch } from "./stepwatch.js";
export { type FitSwing, type FitSwingInput, fitSwing } from "./swingfit.js";
export {
  type PickTransits,
  type PickTransitsInput,
  type Transit,
  pickTransits,
} from "./transits.js";
