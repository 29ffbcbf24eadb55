import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { plain } from "../core/schema.js";
import { vesselSketch } from "../lie/vessel.js";
import { stayInput } from "../plan/input.js";
import { chainSize, ropeSize } from "../rode/sizes.js";
import { FIBRE_NAMES } from "../rode/tables.js";

const name = () => z.string().check(z.minLength(1), z.maxLength(60));
const value = () => z.union([plain(), z.string()]);
const count = (most: number) => z.int().check(z.gte(1), z.lte(most));

/** Values of one input, all of which are run through. */
export const axisSchema = z.union([
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Its values, numbers or words. */
    values: z.array(value()).check(z.minLength(1), z.maxLength(100_000)),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** First value. */
    from: plain(),
    /** Last value. */
    to: plain(),
    /** Number of values, evenly spaced, both ends included; one only where both ends are the same. */
    count: count(100_000),
  }),
]);
/** Values of one input, all of which are run through. */
export type Axis = z.infer<typeof axisSchema>;

/** Ways in which an input can be spread. */
export const drawSchema = z.discriminatedUnion("spread", [
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Every value between two is as likely. */
    spread: z.literal("uniform"),
    /** Least value. */
    low: plain(),
    /** Greatest value. */
    high: plain(),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Rising from the least value to the likeliest and falling to the greatest. */
    spread: z.literal("triangular"),
    /** Least value. */
    low: plain(),
    /** Likeliest value. */
    likely: plain(),
    /** Greatest value. */
    high: plain(),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Normal, cut off at the bounds of the input. */
    spread: z.literal("normal"),
    /** Mean, before cutting off. */
    mean: plain(),
    /** Standard deviation, before cutting off. */
    sigma: plain({ above: 0 }),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Its logarithm is normal; cut off at the bounds of the input. */
    spread: z.literal("logNormal"),
    /** Value that half lie below. */
    median: plain({ above: 0 }),
    /** Standard deviation of the natural logarithm. */
    sigmaLog: plain({ above: 0 }),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** Weibull, as wind speeds over a season are commonly taken; cut off at the bounds of the input. */
    spread: z.literal("weibull"),
    /** Scale, in the unit of the input. */
    scale: plain({ above: 0 }),
    /** Shape; 2 is common for wind. */
    shape: plain({ above: 0.1, max: 50 }),
  }),
  z.strictObject({
    /** Which input. */
    name: name(),
    /** One of some values, numbers or words. */
    spread: z.literal("choice"),
    /** The values. */
    values: z.array(value()).check(z.minLength(1), z.maxLength(10_000)),
    /** How often each, relative to the others; all alike unless given. */
    weights: z.optional(z.array(plain({ min: 0 }))),
  }),
]);
/** One input drawn anew for every scenario. */
export type Draw = z.infer<typeof drawSchema>;

/** The rode of the statics model: chain next to the anchor, rope above it. */
const rodeSchema = z.strictObject({
  /** Diameter of the chain in millimetres; a size of the chain table. */
  chainMm: chainSize(),
  /** Rope beyond the chain; all chain unless given. */
  rope: z.optional(
    z
      .strictObject({
        /** What it is made of. */
        fibre: z.enum(FIBRE_NAMES),
        /** Diameter in millimetres; a size of the rope table. */
        diameterMm: plain({ above: 0, max: 100 }),
      })
      .check(ropeSize()),
  ),
});

/** What {@link sweep} is asked. */
export const sweepInput = z
  .strictObject({
    /** Version of this form. */
    version: z._default(z.literal(1), 1),
    /** What you call the sweep. */
    title: z.optional(z.string().check(z.maxLength(200))),
    /** One moment of lying to an anchor: a vessel and her rode. This, or `stay`. */
    statics: z.optional(
      z.strictObject({
        /** The vessel, as far as her figures are known. */
        vessel: vesselSketch,
        /** Her rode. */
        rode: rodeSchema,
      }),
    ),
    /** A whole stay, planned anew for every scenario. This, or `statics`. */
    stay: z.optional(stayInput),
    /** Inputs held at one value. */
    fixed: z._default(z.record(name(), value()), {}),
    /** Inputs run through all their values, every one with every other; the last one turns fastest. */
    axes: z._default(z.array(axisSchema).check(z.maxLength(20)), []),
    /** Inputs drawn by chance; every cell of the axes gets the same draws. */
    draws: z._default(z.array(drawSchema).check(z.maxLength(40)), []),
    /** How draws fill their space: by chance, or evenly (a scrambled Sobol sequence, up to ten draws); by chance, `random`, unless given. */
    method: z._default(z.enum(["random", "even"]), "random"),
    /** Draws that go together: the correlation of the normal scores behind them; others are independent. */
    correlations: z._default(
      z.array(
        z.strictObject({
          /** The two draws. */
          between: z.tuple([name(), name()]),
          /** Correlation of their normal scores. */
          rho: plain({ min: -1, max: 1 }),
        }),
      ),
      [],
    ),
    /** What all draws follow from; a whole number. */
    seed: z.int().check(z.gte(0)),
    /** Number of scenarios: a multiple of the cells of the axes; one of each cell unless given. */
    rows: z.optional(count(2 ** 50)),
    /** What to work out, in the order of the columns; everything unless given. */
    outputs: z.optional(z.array(name()).check(z.minLength(1))),
    /** Scenarios in a chunk; 8192, or 64 of whole stays, unless given. Results do not hang on it. */
    chunkRows: z.optional(count(1_048_576)),
  })
  .check(
    z.refine(
      (s) => (s.stay === undefined) !== (s.statics === undefined),
      "expected one of `statics` and `stay`",
    ),
  );
/** What {@link sweep} is asked. */
export type SweepInput = Given<typeof sweepInput>;
/** A sweep with its defaults filled in. */
export type CheckedSweep = z.output<typeof sweepInput>;
