import type { AttributeValue } from "./chart.js";

/** Attributes of a chart object as they came. */
export type Attributes = Readonly<Record<string, AttributeValue>>;

/** A number, also one written as a text; null where there is none, whatever else was handed over. */
export function numberOf(value: unknown): number | null {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (typeof value !== "string" || value.trim() === "") return null;
  const n = Number(value);
  return Number.isFinite(n) ? n : null;
}

/** Text of an attribute; null where it is absent or empty. */
export function textOf(value: AttributeValue | undefined): string | null {
  if (value === undefined || value === null) return null;
  const text = (Array.isArray(value) ? value.join(",") : String(value)).trim();
  return text === "" ? null : text;
}

/** Entries of a list in any of its forms (`["2","6"]`, `"2,6"`, `[2,6]`, `2`), empty slots left out. */
export function listOf(value: AttributeValue | undefined): string[] {
  if (value === undefined || value === null || value === "") return [];
  if (typeof value === "number") return [String(value)];
  return (textOf(value) ?? "")
    .split(",")
    .map((entry) => entry.trim())
    .filter((entry) => entry !== "");
}

/** Whether a list holds a code. */
export const hasCode = (value: AttributeValue | undefined, ...codes: readonly number[]): boolean =>
  listOf(value).some((entry) => codes.includes(Number(entry)));
