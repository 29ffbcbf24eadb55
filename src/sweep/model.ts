/** One thing that can be varied, or held, in a sweep. */
export interface Parameter {
  /** Name, its unit at the end. */
  readonly name: string;
  /** Unit: SI and degrees; "1" for a ratio, "word" for one of some words. */
  readonly unit: string;
  /** What it is. */
  readonly what: string;
  /** Least and greatest value; for words, the places of the first and the last. */
  readonly min: number;
  readonly max: number;
  /** Value where nothing else is said; null where it has to be said. */
  readonly otherwise: number | null;
  /** The words, where the value is one: a column holds the place of the word. */
  readonly words?: readonly string[];
  /** A direction: turned into [0, 360). */
  readonly turns?: boolean;
}

/** One thing a model works out. */
export interface Output {
  /** Name, its unit at the end. */
  readonly name: string;
  /** Unit. */
  readonly unit: string;
  /** What it is, and what no figure (NaN) means. */
  readonly what: string;
  /** The words, where the value is one. */
  readonly words?: readonly string[];
}

/** Columns of a block of scenarios, at most {@link BLOCK}. */
export type Columns = readonly Float64Array[];

/** Scenarios worked out at once: few enough that their columns stay close to the processor. */
export const BLOCK = 512;

/** Works out the first `rows` scenarios of a block: parameters in, outputs out, both in the order of the model's lists. No figure is NaN. */
export type Evaluate = (parameters: Columns, outputs: Columns, rows: number) => void;

/** The same for one scenario. */
export type EvaluateOne = (parameters: Float64Array, outputs: Float64Array) => void;

/** A model that works out one scenario after another. */
export function oneByOne(one: EvaluateOne, inputs: number, outputs: number): Evaluate {
  const p = new Float64Array(inputs);
  const out = new Float64Array(outputs);
  return (from, to, rows) => {
    for (let r = 0; r < rows; r++) {
      for (let i = 0; i < inputs; i++) p[i] = from[i]![r]!;
      one(p, out);
      for (let i = 0; i < outputs; i++) to[i]![r] = out[i]!;
    }
  };
}

/** A model ready to be run. */
export interface Model {
  readonly name: string;
  readonly parameters: readonly Parameter[];
  readonly outputs: readonly Output[];
  /** Scenarios in a chunk where none are asked for: some milliseconds of work. */
  readonly chunkRows: number;
  /** Where its figures come from. */
  readonly sources: readonly string[];
  /** Places of the outputs to give where none are asked for, with these inputs given. */
  readonly usual: (given: ReadonlySet<number>) => number[];
  /** Make ready for one run; `varied` and `wanted` are places in the two lists. */
  readonly prepare: (varied: ReadonlySet<number>, wanted: ReadonlySet<number>) => Evaluate;
}

/** A parameter that is a number. */
export const inputRow = (
  name: string,
  unit: string,
  what: string,
  min: number,
  max: number,
  otherwise: number | null,
  turns = false,
): Parameter => ({ name, unit, what, min, max, otherwise, ...(turns && { turns }) });

/** A parameter that is one of some words. */
export const wordRow = (name: string, what: string, words: readonly string[]): Parameter => ({
  ...inputRow(name, "word", what, 0, words.length - 1, NaN),
  words,
});
