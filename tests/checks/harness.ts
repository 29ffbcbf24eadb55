import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";

/** One published or independently computed value, as kept in `shared/checks`. */
export interface Check {
  id: string;
  quantity: string;
  source: {
    title: string;
    publisher?: string;
    year?: number | null;
    where?: string;
  };
  provenance: string;
  inputs: Record<string, unknown>;
  expected: Record<string, unknown>;
  tolerance: string;
  note?: string;
}

/** One comparison made for a check. */
export interface Measured {
  /** Row of the verification table this comparison belongs to. */
  quantity: string;
  got: unknown;
  expected: unknown;
  /** Largest allowed error: absolute unless `relative`; leave out for an exact match. */
  tolerance?: number;
  relative?: boolean;
  /** Unit of the error in the table. */
  unit?: string;
}

/** Why a check value is not compared: it must be said, a dropped value fails. */
export interface NotCompared {
  notCompared: string;
}

export type Adapter = (check: Check) => Measured[] | NotCompared;

interface Row {
  topic: string;
  id: string;
  source: string;
  provenance: string;
  notCompared?: string;
  comparisons: {
    quantity: string;
    error: number;
    tolerance: number;
    unit: string;
  }[];
}

const folder = new URL("../../shared/checks/", import.meta.url);

/** All check values of a topic. */
export function checksOf(topic: string): Check[] {
  return JSON.parse(readFileSync(new URL(`${topic}.json`, folder), "utf8")) as Check[];
}

/** Error of one comparison; 0 or 1 for things that are equal or not, Infinity where a number is missing. */
export function errorOf(m: Measured): number {
  if (m.tolerance === undefined) return deepEqual(m.got, m.expected) ? 0 : 1;
  if (typeof m.got !== "number" || typeof m.expected !== "number") return Infinity;
  const error = Math.abs(m.got - m.expected);
  const scaled = m.relative === true ? error / Math.abs(m.expected || 1) : error;
  return Number.isNaN(scaled) ? Infinity : scaled;
}

const deepEqual = (a: unknown, b: unknown): boolean => {
  try {
    expect(a).toEqual(b);
    return true;
  } catch {
    return false;
  }
};

/**
 * Feed every check value of a topic through `adapter`, one test a value, and leave the errors in
 * `reports/checks` for the verification table.
 */
export function runChecks(topic: string, adapter: Adapter): void {
  const rows: Row[] = [];
  describe(`check values: ${topic}`, () => {
    const checks = checksOf(topic);
    for (const check of checks)
      test(check.id, () => {
        const row = rowOf(topic, check, adapter(check));
        rows.push(row);
        for (const c of row.comparisons)
          expect(c.error, `${c.quantity} (${check.tolerance})`).toBeLessThanOrEqual(c.tolerance);
      });
    test("no check value is dropped", () => {
      expect(rows.map((r) => r.id)).toEqual(checks.map((c) => c.id));
    });
    afterAll(() => {
      writeRows(topic, rows);
    });
  });
}

/** Leave comparisons that do not come from a check file (gauge series, reference libraries) for the table. */
export function reportRows(topic: string, source: string, measured: readonly Measured[]): void {
  writeRows(topic, [
    rowOf(topic, { id: topic, source: { title: source }, provenance: "computed" }, measured),
  ]);
}

function rowOf(
  topic: string,
  check: Pick<Check, "id" | "source" | "provenance">,
  measured: readonly Measured[] | NotCompared,
): Row {
  const where = check.source.where ? `, ${check.source.where}` : "";
  const base = {
    topic,
    id: check.id,
    source: check.source.title + where,
    provenance: check.provenance,
  };
  if ("notCompared" in measured)
    return { ...base, notCompared: measured.notCompared, comparisons: [] };
  expect(measured.length, "an adapter must compare something or say why not").toBeGreaterThan(0);
  return {
    ...base,
    comparisons: measured.map((m) => ({
      quantity: m.quantity,
      error: errorOf(m),
      tolerance: m.tolerance ?? 0,
      unit: m.tolerance === undefined ? "exact" : m.relative === true ? "relative" : (m.unit ?? ""),
    })),
  };
}

function writeRows(topic: string, rows: readonly Row[]): void {
  const out = new URL("../../reports/checks/", import.meta.url);
  mkdirSync(out, { recursive: true });
  writeFileSync(new URL(`${topic}.json`, out), JSON.stringify(rows, null, 1));
}
