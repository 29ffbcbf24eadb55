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

/** Works out one scenario: parameters in, outputs out, both in the order of the model's lists. No figure is NaN. */
export type Evaluate = (parameters: Float64Array, outputs: Float64Array) => void;

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
