import { refuse } from "../core/errors.js";
import { NODE_KINDS, RATES_DEG_PER_HOUR, type NodeKind } from "./astro.js";
import { ALIASES, ASTRONOMICAL, COMPOUND, type Part } from "./tables.js";

/** What a constituent's angle is made of. */
export interface Argument {
  /** Multiples of the five longitudes. */
  multiples: readonly number[];
  /** Constant part. */
  constantDeg: number;
  /** Power of each node factor: amplitude times f to the size of the power, angle plus power times u. */
  nodes: readonly (readonly [NodeKind, number])[];
}

/** Constituents a letter of a compound name may stand for. */
const LETTERS: Readonly<Record<string, readonly string[]>> = {
  M: ["M2"],
  S: ["S2"],
  N: ["N2"],
  L: ["L2"],
  T: ["T2"],
  R: ["R2"],
  K: ["K2", "K1"],
  O: ["O1"],
  P: ["P1"],
  Q: ["Q1"],
  J: ["J1"],
};

const speciesOf = (name: string): number => Number(/\d+$/.exec(name)![0]);

/** Name by which a constituent stands in the tables. */
function keyOf(name: string): string {
  const upper = name.toUpperCase();
  return ALIASES[upper] ?? upper;
}

/** Argument of a named constituent, or null when the name says nothing. */
export function argumentOf(name: string): Argument | null {
  const key = keyOf(name);
  const row = ASTRONOMICAL[key];
  if (row !== undefined)
    return {
      multiples: row.slice(0, 5) as number[],
      constantDeg: row[5],
      nodes: row[6] === null ? [] : [[row[6], 1]],
    };
  const parts = COMPOUND[key] ?? spelledParts(key);
  return parts === null ? null : sumOf(parts);
}

/** Speed in degrees per mean solar hour. */
export const speedOf = (a: Argument): number =>
  a.multiples.reduce((sum, k, i) => sum + k * RATES_DEG_PER_HOUR[i]!, 0);

function sumOf(parts: readonly Part[]): Argument {
  const multiples = [0, 0, 0, 0, 0];
  const powers = new Map<NodeKind, number>();
  let constantDeg = 0;
  for (const [name, factor] of parts) {
    const one = argumentOf(name)!;
    one.multiples.forEach((k, i) => (multiples[i]! += factor * k));
    constantDeg += factor * one.constantDeg;
    for (const [kind] of one.nodes) powers.set(kind, (powers.get(kind) ?? 0) + factor);
  }
  const nodes = NODE_KINDS.flatMap((kind) => {
    const power = powers.get(kind) ?? 0;
    return power === 0 ? [] : [[kind, power] as const];
  });
  return { multiples, constantDeg, nodes };
}

/**
 * Parts of a compound name such as `2MS6`: letters with their multipliers, added from the left and taken
 * off from the right, so that the cycles per day come to the number at the end.
 */
function spelledParts(name: string): Part[] | null {
  const m = /^((?:\d*[A-Z])+?)(\d+)$/.exec(name);
  if (m === null) return null;
  const tokens = [...m[1]!.matchAll(/(\d*)([A-Z])/g)].map(
    (t) => [t[2]!, t[1] === "" ? 1 : Number(t[1])] as const,
  );
  if (tokens.some(([letter]) => LETTERS[letter] === undefined)) return null;
  const species = Number(m[2]);
  const doubled = tokens.map(
    ([letter], i) => [letter, i < 2 ? tokens[0]![1] : tokens[i]![1]] as const,
  );
  const single = tokens.length === 1 ? repeated(tokens[0]!, species) : null;
  return single ?? signed(tokens, species) ?? signed(doubled, species);
}

/** `M4`, `S6`: one letter as often as the number asks. */
function repeated([letter, times]: readonly [string, number], species: number): Part[] | null {
  const name = LETTERS[letter]![0]!;
  const factor = species / speciesOf(name);
  return times === 1 && Number.isInteger(factor) ? [[name, factor]] : null;
}

function signed(tokens: readonly (readonly [string, number])[], species: number): Part[] | null {
  for (let minus = 0; minus < tokens.length; minus++) {
    const choices = tokens.reduce<Part[][]>(
      (all, [letter, times], i) =>
        all.flatMap((parts) =>
          LETTERS[letter]!.map((name): Part[] => [
            ...parts,
            [name, i < tokens.length - minus ? times : -times],
          ]),
        ),
      [[]],
    );
    const found = choices.find(
      (parts) => parts.reduce((sum, [n, k]) => sum + k * speciesOf(n), 0) === species,
    );
    if (found !== undefined) return found;
  }
  return null;
}

/** Refuses a constituent given twice, by whatever name: it would count double without a word. */
export function refuseTwice(constituents: readonly { name: string; amplitudeM: number }[]): void {
  const seen = new Set<string>();
  constituents.forEach(({ name, amplitudeM }, i) => {
    if (amplitudeM === 0) return;
    const key = keyOf(name);
    if (seen.has(key))
      refuse(`constituents[${i}].name`, "duplicate", `the same constituent twice: ${name}`);
    seen.add(key);
  });
}

/**
 * The argument of a constituent of the source, null where it brings its own; an InputError where there is none,
 * or two: a constituent left out or misread would be a height that is wrong without a word.
 */
export function argumentFor(
  c: { name: string; argument?: unknown },
  index: number,
): Argument | null {
  const found = argumentOf(c.name);
  const own = c.argument !== undefined;
  if (found === null && !own)
    refuse(
      `constituents[${index}].name`,
      "unknown_constituent",
      `no argument is known for ${c.name}: give it as "argument"`,
    );
  if (found !== null && own)
    refuse(
      `constituents[${index}].argument`,
      "known_constituent",
      `${c.name} has an argument with node factors: leave it out, or give the constituent another name`,
    );
  return found;
}
