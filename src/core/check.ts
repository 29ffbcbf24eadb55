import * as z from "zod/mini";
import { InputError, refuse, type InputIssue } from "./errors.js";

type RawIssue = z.core.$ZodIssue;

/** Path as a caller writes it: `forecast[3].windMps`. */
function pathText(path: readonly PropertyKey[]): string {
  let text = "";
  for (const key of path)
    text += typeof key === "number" ? `[${key}]` : `${text === "" ? "" : "."}${String(key)}`;
  return text;
}

const bound = (issue: { inclusive?: boolean | undefined }, incl: string, excl: string) =>
  issue.inclusive === false ? excl : incl;

/** What was expected, in words; zod/mini carries none of its own. */
function messageOf(issue: RawIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return issue.expected === "number"
        ? "expected a finite number"
        : `expected ${issue.expected}`;
    case "too_small":
      return `expected ${bound(issue, "at least", "more than")} ${issue.minimum}${countOf(issue.origin)}`;
    case "too_big":
      return `expected ${bound(issue, "at most", "less than")} ${issue.maximum}${countOf(issue.origin)}`;
    case "unrecognized_keys":
      return `unknown field${issue.keys.length > 1 ? "s" : ""} ${namesOf(issue.keys)}`;
    case "invalid_value":
      return `expected one of ${issue.values.map((v) => JSON.stringify(v)).join(", ")}`;
    case "invalid_union":
      return "matches none of the allowed forms";
    default:
      return issue.message === "" || issue.message === "Invalid input"
        ? "not of the expected form"
        : issue.message;
  }
}

/** Most names that one message lists. */
const NAMED = 12;

function namesOf(keys: readonly string[]): string {
  const more = keys.length > NAMED ? ` and ${keys.length - NAMED} more` : "";
  return (
    keys
      .slice(0, NAMED)
      .map((k) => JSON.stringify(k.slice(0, 80)))
      .join(", ") + more
  );
}

const countOf = (origin: string): string =>
  origin === "array" ? " entries" : origin === "string" ? " characters" : "";

/** Issues of a failed union are those of the member that came closest. */
function flatten(issue: RawIssue, base: readonly PropertyKey[]): InputIssue[] {
  const path = [...base, ...issue.path];
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    const closest = issue.errors.reduce((a, b) => (depth(b) > depth(a) ? b : a));
    if (depth(closest) > 0) return closest.flatMap((i) => flatten(i, path));
  }
  return [{ path: pathText(path), code: issue.code, message: messageOf(issue) }];
}

/** A member whose own tag matched fails deeper or later than one whose tag did not. */
const depth = (issues: readonly RawIssue[]): number =>
  issues.some((i) => i.code === "invalid_value" || i.path.length === 0) ? 0 : 1 / issues.length;

/**
 * The input as the schema reads it (defaults filled in), or an {@link InputError} with every issue.
 */
export function check<S extends z.ZodMiniType>(schema: S, input: unknown): z.output<S> {
  const result = parsed(schema, input);
  if (result.success) return result.data;
  throw new InputError(result.error.issues.flatMap((i) => flatten(i, [])));
}

/** What the schema makes of the input; where the stack does not hold it, that is an issue of the input too. */
function parsed<S extends z.ZodMiniType>(schema: S, input: unknown) {
  try {
    return z.safeParse(schema, input);
  } catch (error) {
    if (!(error instanceof RangeError) || error instanceof InputError) throw error;
    return refuse("", "too_big", "nested too deep, or with more mistakes than can be listed");
  }
}
