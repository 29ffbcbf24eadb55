import { wrap360 } from "../core/angles.js";
import type { InputIssue } from "../core/errors.js";
import type { Output, Parameter } from "./model.js";

/** What is found wrong with a sweep, gathered so that all of it can be told at once. */
export type Issues = InputIssue[];

/** Units in words, for messages. */
const UNITS: Readonly<Record<string, string>> = {
  "1": "a ratio",
  word: "a word",
  m: "metres",
  "m/s": "metres per second",
  deg: "degrees",
  N: "newtons",
  "N/m": "newtons per metre",
  kg: "kilograms",
  ms: "milliseconds",
};

/** Name without the unit it ends in. */
const stem = (name: string): string => name.replace(/[A-Z][A-Za-z0-9]*$/, "").toLowerCase();

/** Place of a name in a list, or -1 and an issue that tells the right ones. */
export function placeOf(
  name: string,
  list: readonly (Parameter | Output)[],
  path: string,
  issues: Issues,
): number {
  const place = list.findIndex((p) => p.name === name);
  if (place >= 0) return place;
  const meant = list.find((p) => stem(p.name) === stem(name));
  const hint =
    meant === undefined
      ? ""
      : ` Did you mean ${meant.name}, in ${UNITS[meant.unit] ?? meant.unit}?`;
  issues.push({
    path,
    code: "unknown_name",
    message: `there is no ${JSON.stringify(name)}: expected one of ${list.map((p) => p.name).join(", ")}.${hint}`,
  });
  return -1;
}

/** A value as a number: a word by its place; NaN and an issue where it is none of the parameter's. */
export function valueOf(
  value: number | string,
  p: Parameter,
  path: string,
  issues: Issues,
): number {
  const wrong = (message: string) => {
    issues.push({ path, code: "invalid_value", message });
    return NaN;
  };
  if (p.words !== undefined) {
    const place = typeof value === "string" ? p.words.indexOf(value) : -1;
    return place >= 0
      ? place
      : wrong(`expected one of ${p.words.map((w) => JSON.stringify(w)).join(", ")}`);
  }
  if (typeof value === "string") return wrong(`expected a number in ${UNITS[p.unit] ?? p.unit}`);
  if (p.turns === true) return wrap360(value);
  return value >= p.min && value <= p.max
    ? value
    : wrong(`${p.name} of ${value}: expected ${p.min} to ${p.max} ${UNITS[p.unit] ?? p.unit}`);
}
