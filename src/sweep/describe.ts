import { check } from "../core/check.js";
import { sweepInput, type SweepInput } from "./input.js";
import { layOut, type Layout } from "./layout.js";
import { VERSION } from "./version.js";

/** One column of a sweep. */
export interface SweepColumn {
  /** Name, its unit at the end. */
  name: string;
  /** Unit: SI and degrees; "1" for a ratio, "word" for a word. */
  unit: string;
  /** What it is, and what no figure means. */
  what: string;
  /** Run through, drawn, or worked out. */
  role: "axis" | "draw" | "output";
  /** The words, where the column holds places of words; null for numbers. */
  words: string[] | null;
}

/** What a sweep is, for people and for the head of a file. */
export interface SweepDescription {
  /** Name of this form. */
  format: "hawse sweep";
  /** Version of the library. */
  library: string;
  /** What all draws follow from. */
  seed: number;
  /** Number of scenarios. */
  rows: number;
  /** Cells of the axes; the draws repeat in every cell. */
  cells: number;
  /** Which model. */
  model: string;
  /** The columns in their order. */
  columns: SweepColumn[];
  /** Inputs that are the same in every scenario, as numbers or words; those left to the model are not among them. */
  fixed: Record<string, number | string>;
  /** Where the figures come from. */
  sources: string[];
  /** The sweep as it was asked for, with defaults filled in. */
  sweep: unknown;
}

/**
 * Says what a sweep is without running it: how many scenarios, which columns in which units, and from which sources.
 *
 * The same description stands in the head of every file a sweep is written to. Leaves out figures.
 *
 * *Valid*: always. *Accuracy*: exact.
 *
 * @throws InputError as `sweep`.
 * @source own form
 * @example
 * ```ts
 * import { describeSweep } from "hawse/sweep";
 *
 * const { rows, columns } = describeSweep({
 *   statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
 *   axes: [{ name: "depthM", from: 3, to: 12, count: 10 }],
 *   fixed: { windMps: 15, scope: 4 },
 *   seed: 1,
 *   outputs: ["pullAngleDeg"],
 * });
 * console.log(rows, columns.map((c) => `${c.name} in ${c.unit}`).join(", "));
 * // 10 depthM in m, pullAngleDeg in deg
 * ```
 */
export const describeSweep = (input: SweepInput): SweepDescription =>
  descriptionOf(layOut(check(sweepInput, input)));

/** {@link describeSweep} of a sweep laid out before. */
export function descriptionOf(l: Layout): SweepDescription {
  const { model, spec } = l;
  const column = (
    role: SweepColumn["role"],
    c: Omit<SweepColumn, "role" | "words"> & { words?: readonly string[] },
  ): SweepColumn => ({
    name: c.name,
    unit: c.unit,
    what: c.what,
    role,
    words: c.words === undefined ? null : [...c.words],
  });
  return {
    format: "hawse sweep",
    library: VERSION,
    seed: spec.seed,
    rows: l.rows,
    cells: l.cells,
    model: model.name,
    columns: [
      ...l.axes.map((a) => column("axis", model.parameters[a.place]!)),
      ...l.draws.map((d) => column("draw", model.parameters[d.place]!)),
      ...l.outputs.map((o) => column("output", model.outputs[o]!)),
    ],
    fixed: spec.fixed,
    sources: [...model.sources],
    sweep: spec,
  };
}
