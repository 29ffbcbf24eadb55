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

const MISSING = "is missing";

const oneOf = (values: readonly unknown[]): string =>
  `expected one of ${values.map((v) => JSON.stringify(v)).join(", ")}`;

/** Words for what is known only while the input is at hand: that there was no value, and what fields there are. */
function wordsOf(issue: z.core.$ZodRawIssue): string | undefined {
  const { code, input } = issue;
  if (code === "unrecognized_keys") {
    const { keys } = issue as z.core.$ZodIssueUnrecognizedKeys;
    const shape = (issue.inst as { _zod?: { def?: { shape?: object } } })._zod?.def?.shape ?? {};
    const free = Object.keys(shape).filter((k) => !Object.hasOwn(input as object, k));
    return `unknown field${keys.length > 1 ? "s" : ""} ${namesOf(keys, free)}`;
  }
  const tag = code === "invalid_union" ? issue.discriminator : undefined;
  const value = typeof tag === "string" ? (input as Record<string, unknown>)[tag] : input;
  return value === undefined && code.startsWith("invalid_") ? MISSING : undefined;
}

/** What was expected, in words; zod/mini carries none of its own. */
function messageOf(issue: RawIssue, path: string): string {
  if (issue.message === MISSING && path !== "") return MISSING;
  switch (issue.code) {
    case "invalid_type":
      return issue.expected === "number"
        ? "expected a finite number"
        : `expected ${issue.expected}`;
    case "too_small":
      return `expected ${bound(issue, "at least", "more than")} ${issue.minimum}${countOf(issue.origin)}`;
    case "too_big":
      return `expected ${bound(issue, "at most", "less than")} ${issue.maximum}${countOf(issue.origin)}`;
    case "invalid_value":
      return oneOf(issue.values);
    case "invalid_union":
      return formsOf(issue, path);
    default:
      return ["", "Invalid input", MISSING].includes(issue.message)
        ? "not of the expected form"
        : issue.message;
  }
}

/** The forms that a value of none of them might have had. */
function formsOf(issue: z.core.$ZodIssueInvalidUnion, path: string): string {
  const { options } = issue as { options?: readonly unknown[] };
  if (options !== undefined) return oneOf(options);
  const own = issue.errors.map((e) => e.find((i) => i.path.length === 0));
  const strange = own.reduce(
    (best, i) =>
      i?.code === "unrecognized_keys" && !best?.message.includes("did you mean") ? i : best,
    undefined,
  );
  if (strange !== undefined) return `matches none of the allowed forms: ${strange.message}`;
  if (own.length === 0 || own.includes(undefined)) return "matches none of the allowed forms";
  const words = own.map((i) => messageOf(i!, path).replace(/^expected /, ""));
  return `expected ${[...new Set(words)].join(", or ")}`;
}

/** Most names that one message lists. */
const NAMED = 12;

function namesOf(keys: readonly string[], meant: readonly string[]): string {
  const more = keys.length > NAMED ? ` and ${keys.length - NAMED} more` : "";
  return (
    keys
      .slice(0, NAMED)
      .map((k) => JSON.stringify(k.slice(0, 80)) + hintOf(k, meant))
      .join(", ") + more
  );
}

/** The field that was meant, if one is no more than two letters off; of a short name one. */
function hintOf(key: string, meant: readonly string[]): string {
  let [nearest, off] = ["", Math.min(2, key.length >> 1) + 1];
  for (const name of meant) {
    const letters = lettersOff(key, name);
    if (letters < off) [nearest, off] = [name, letters];
  }
  return nearest === "" ? "" : ` (did you mean "${nearest}"?)`;
}

/** Letters to put in, take out or change to make one name of another; without end where far more than two. */
function lettersOff(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2) return Infinity;
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const above = row;
    row = [i];
    for (let j = 1; j <= b.length; j++)
      row.push(
        Math.min(above[j]! + 1, row[j - 1]! + 1, above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)),
      );
  }
  return row[b.length]!;
}

const countOf = (origin: string): string =>
  origin === "array" ? " entries" : origin === "string" ? " characters" : "";

/** Issues of a failed union are those of the member that came closest. */
function flatten(issue: RawIssue, base: readonly PropertyKey[]): InputIssue[] {
  const path = [...base, ...issue.path];
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    const closest = issue.errors.reduce((a, b) => (depth(b) > depth(a) ? b : a));
    const alike = issue.errors.filter((e) => depth(e) === depth(closest));
    if (depth(closest) > 0 && alike.length === 1) return closest.flatMap((i) => flatten(i, path));
  }
  const where = pathText(path);
  return [{ path: where, code: issue.code, message: messageOf(issue, where) }];
}

/** A member whose own tag matched fails deeper or later than one whose tag did not; each field too many counts. */
const depth = (issues: readonly RawIssue[]): number =>
  issues.some(isOfOther)
    ? 0
    : 1 / issues.reduce((n, i) => n + (i.code === "unrecognized_keys" ? i.keys.length : 1), 0);

/** Whether a member fails so that it cannot have been meant. */
const isOfOther = (i: RawIssue): boolean =>
  i.code === "invalid_value" || (i.path.length === 0 && i.code !== "unrecognized_keys");

/**
 * The input as the schema reads it (defaults filled in), or an {@link InputError} with every issue.
 */
export function check<S extends z.ZodMiniType>(schema: S, input: unknown): z.output<S> {
  const result = parsed(schema, input);
  if (result.success) return result.data;
  throw new InputError(result.error.issues.flatMap((i) => flatten(i, [])));
}

const TELLING = { error: wordsOf };

/** What the schema makes of the input; where the stack does not hold it, that is an issue of the input too. */
function parsed<S extends z.ZodMiniType>(schema: S, input: unknown) {
  try {
    return z.safeParse(schema, input, TELLING);
  } catch (error) {
    if (!(error instanceof RangeError) || error instanceof InputError) throw error;
    return refuse("", "too_big", "nested too deep, or with more mistakes than can be listed");
  }
}
