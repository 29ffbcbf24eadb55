export * from "./units.js";
export { utc } from "./time.js";
export { InputError, type InputIssue } from "./errors.js";
export type { Interval, Range3, Reason, Severity, Source } from "./judgement.js";
export type { Position } from "./schema.js";
