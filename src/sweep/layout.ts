import { InputError } from "../core/errors.js";
import { togetherOf, type Together } from "./correlate.js";
import { spreadOf, type Spread } from "./draw.js";
import type { Axis, CheckedSweep } from "./input.js";
import { modelOf } from "./models.js";
import { BLOCK, type Columns, type Evaluate, type Model } from "./model.js";
import { placeOf, valueOf, type Issues } from "./names.js";
import { keyOf } from "./random.js";
import { directionsOf, SOBOL_DIMENSIONS } from "./sobol.js";

/** An axis with its values as numbers. */
export interface LaidAxis {
  /** Place of the input in the model's list. */
  readonly place: number;
  readonly values: Float64Array;
  /** Cells after which it moves to its next value. */
  readonly stride: number;
}

/** A draw ready to be made. */
export interface LaidDraw {
  /** Place of the input in the model's list. */
  readonly place: number;
  readonly spread: Spread;
  /** Key of its stream of numbers. */
  readonly key: number;
  /** Direction numbers; null where it is drawn by chance. */
  readonly directions: Uint32Array | null;
}

/** Room for the scenarios that are worked out at once. */
export interface Block {
  /** Every input, at its fixed value where it has one. */
  readonly inputs: Columns;
  /** Every output, to be written over. */
  readonly outputs: Columns;
  /** Scrambled indices of the draws, to be written over. */
  readonly bits: Uint32Array;
}

/** A sweep checked and made ready: everything that its scenarios follow from. */
export interface Layout {
  readonly spec: CheckedSweep;
  readonly model: Model;
  readonly rows: number;
  readonly cells: number;
  readonly chunkRows: number;
  readonly axes: readonly LaidAxis[];
  readonly draws: readonly LaidDraw[];
  readonly together: Together | null;
  readonly block: Block;
  /** Places of the outputs wanted. */
  readonly outputs: readonly number[];
  readonly evaluate: Evaluate;
}

/** Lay out a checked sweep, or throw an {@link InputError} with everything that is wrong. */
export function layOut(spec: CheckedSweep): Layout {
  const issues: Issues = [];
  const { model, check } = modelOf(spec);
  const base = Float64Array.from(model.parameters, (p) => p.otherwise ?? NaN);
  const given = new Set<number>();
  const claim = (name: string, path: string): number => {
    const place = placeOf(name, model.parameters, path, issues);
    if (given.has(place))
      issues.push({ path, code: "twice", message: `${name} is given more than once` });
    if (place >= 0) given.add(place);
    return place;
  };
  for (const [name, value] of Object.entries(spec.fixed)) {
    const place = claim(name, `fixed.${name}`);
    if (place >= 0) base[place] = valueOf(value, model.parameters[place]!, `fixed.${name}`, issues);
  }
  const axes = laidAxes(spec, model, claim, issues);
  const draws = laidDraws(spec, model, claim, issues);
  const together = togetherOf(spec, issues);
  const cells = axes.reduce((n, a) => n * a.values.length, 1);
  const rows = rowsOf(spec, cells, issues);
  needed(model, given, issues);
  const outputs = wantedOf(spec, model, given, issues);
  if (issues.length > 0) throw new InputError(issues);
  const wanted = new Set(outputs);
  check(given, wanted);
  const varied = new Set([...axes, ...draws].map((v) => v.place));
  const evaluate = model.prepare(varied, wanted);
  const chunkRows = spec.chunkRows ?? model.chunkRows;
  const block = blockOf(base, model.outputs.length);
  return { spec, model, rows, cells, chunkRows, axes, draws, together, block, outputs, evaluate };
}

function blockOf(base: Float64Array, outputs: number): Block {
  return {
    inputs: Array.from(base, (value) => new Float64Array(BLOCK).fill(value)),
    outputs: Array.from({ length: outputs }, () => new Float64Array(BLOCK)),
    bits: new Uint32Array(BLOCK),
  };
}

type Claim = (name: string, path: string) => number;

function laidAxes(spec: CheckedSweep, model: Model, claim: Claim, issues: Issues): LaidAxis[] {
  const axes = spec.axes.map((axis, i) => {
    const place = claim(axis.name, `axes[${i}].name`);
    const p = model.parameters[place];
    if ("count" in axis && axis.count === 1 && axis.from !== axis.to)
      issues.push({
        path: `axes[${i}].count`,
        code: "too_small",
        message: `expected at least 2: with one value there is no room for both ${axis.from} and ${axis.to}`,
      });
    const values = Float64Array.from(axisValues(axis), (v, k) =>
      p === undefined
        ? NaN
        : valueOf(v, p, `axes[${i}]${"values" in axis ? `.values[${k}]` : ""}`, issues),
    );
    return { place, values, stride: 1 };
  });
  for (let i = axes.length - 2; i >= 0; i--)
    axes[i]!.stride = axes[i + 1]!.stride * axes[i + 1]!.values.length;
  return axes;
}

function axisValues(axis: Axis): (number | string)[] {
  if ("values" in axis) return axis.values;
  const { from, to, count } = axis;
  return Array.from({ length: count }, (_, i) =>
    // The last one as it is given: reckoned, it may lie beside it.
    i > 0 && i === count - 1 ? to : from + (i / Math.max(1, count - 1)) * (to - from),
  );
}

function laidDraws(spec: CheckedSweep, model: Model, claim: Claim, issues: Issues): LaidDraw[] {
  const even = spec.method === "even";
  if (even && spec.draws.length > SOBOL_DIMENSIONS)
    issues.push({
      path: "method",
      code: "too_big",
      message: `expected at most ${SOBOL_DIMENSIONS} draws that fill their space evenly`,
    });
  return spec.draws.map((draw, i) => {
    const place = claim(draw.name, `draws[${i}].name`);
    const p = model.parameters[place];
    return {
      place,
      spread: p === undefined ? () => undefined : spreadOf(draw, p, `draws[${i}]`, issues),
      key: keyOf(spec.seed, i),
      directions: even ? directionsOf(i) : null,
    };
  });
}

/** Most scenarios: their numbers, and the products made of them, are whole in a double. */
const MOST_ROWS = 2 ** 50;

function rowsOf(spec: CheckedSweep, cells: number, issues: Issues): number {
  const rows = spec.rows ?? cells;
  const wrong = (message: string) => issues.push({ path: "rows", code: "invalid_value", message });
  if (cells > MOST_ROWS) wrong(`there are ${cells} cells of the axes: expected at most 2^50`);
  else if (spec.draws.length > 0 && spec.rows === undefined)
    wrong("draws need the number of scenarios");
  else if (rows % cells !== 0) wrong(`expected a multiple of ${cells}, the cells of the axes`);
  else if (spec.draws.length === 0 && rows !== cells)
    wrong(`without draws there are ${cells} scenarios, one for each cell of the axes`);
  if (spec.method === "even" && rows / cells > 2 ** 32)
    wrong("expected at most 2^32 draws that fill their space evenly");
  return rows;
}

/** Inputs that have to be said, and are not. */
function needed(model: Model, given: ReadonlySet<number>, issues: Issues): void {
  model.parameters.forEach((p, i) => {
    if (p.otherwise === null && !given.has(i))
      issues.push({
        path: `fixed.${p.name}`,
        code: "missing",
        message: `${p.name} is needed, fixed or varied: ${p.what}`,
      });
  });
}

function wantedOf(
  spec: CheckedSweep,
  model: Model,
  given: ReadonlySet<number>,
  issues: Issues,
): number[] {
  if (spec.outputs === undefined) return model.usual(given);
  const places = spec.outputs.map((n, i) => placeOf(n, model.outputs, `outputs[${i}]`, issues));
  if (new Set(places).size < places.length)
    issues.push({ path: "outputs", code: "twice", message: "an output is named more than once" });
  return places;
}
