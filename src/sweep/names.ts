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

/** Words of a name without the unit it ends in, which may be one over another. */
const stem = (name: string): string[] =>
  (
    name.replace(/(?<=.)([A-Z][a-z0-9]*Per)?[A-Z][a-z0-9]*$/, "").match(/[A-Z]?[a-z0-9]+|[A-Z]/g) ??
    []
  ).map((word) => word.toLowerCase());

/** Whether one name begins with the words of the other. */
const alike = (a: readonly string[], b: readonly string[]): boolean =>
  a.length > 0 && b.length > 0 && a.every((word, i) => i >= b.length || word === b[i]);

/** The one of a list that was meant by a name, before all else one that differs by its unit alone. */
function meantBy<P extends Parameter | Output>(name: string, list: readonly P[]): P | undefined {
  const words = stem(name);
  const near = list.filter((p) => alike(words, stem(p.name)));
  return near.find((p) => stem(p.name).length === words.length) ?? near[0];
}

/** Place of a name in a list, or -1 and an issue that tells the right ones. */
export function placeOf(
  name: string,
  list: readonly (Parameter | Output)[],
  path: string,
  issues: Issues,
): number {
  const place = list.findIndex((p) => p.name === name);
  if (place >= 0) return place;
  const meant = meantBy(name, list);
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
