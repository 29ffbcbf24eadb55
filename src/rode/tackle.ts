import * as z from "zod/mini";
import { check } from "../core/check.js";
import { GRAVITY_MPS2, SEA_WATER_KG_PER_M3 } from "../core/constants.js";
import { refuse } from "../core/errors.js";
import type { Range3 } from "../core/judgement.js";
import { plain, share } from "../core/schema.js";
import type { Newtons, NewtonsPerMetre } from "../core/units.js";
import type { Segment } from "./input.js";
import { INCH_CHAINS, INCH_POLYAMIDE } from "./inchTables.js";
import { CHAINS, FIBRE_NAMES, FIBRES, type Fibre } from "./tables.js";

/** Density of steel, kg/m³; the usual design figure. */
const STEEL_KG_PER_M3 = 7850;
/** Mass of short-link chain, kg/m for a square millimetre of diameter: mean of the metric rows, for sizes without a published mass. */
const CHAIN_KG_PER_M_MM2 = 0.0225;

/** A segment of known make without its length: add `lengthM`. */
export type SegmentMake = Omit<Segment, "lengthM" | "breakingN"> & {
  /** Least breaking load, new and dry. */
  breakingN: Newtons;
};

/** Weight in sea water of a metre of something heavier than water that the water fills. */
export const weightInSeaWater = (massKgPerM: number, densityKgPerM3: number): NewtonsPerMetre =>
  massKgPerM * GRAVITY_MPS2 * (1 - SEA_WATER_KG_PER_M3 / densityKgPerM3);

/** Load per unit strain of studless chain by nominal diameter in millimetres. */
export function chainStiffness(diameterMm: number): Newtons {
  const d = diameterMm / 1000;
  return (85.6e9 - 3.93e7 * d) * d * d;
}

const chainOptions = z.strictObject({
  /** Grade of the steel: 3 or 4 for metric sizes, 30 or 43 for inch sizes; the weaker when left out. */
  grade: z.optional(z.literal([3, 4, 30, 43])),
  /** Standard of the links where both make the size; ISO 4565 first when left out. */
  standard: z.optional(z.enum(["iso4565", "din766"])),
});
/** Input of {@link chain}. */
export const chainSchema = z.strictObject({
  size: z.union([plain({ above: 0, max: 100 }), z.string()]),
  options: chainOptions,
});
/** Grade and standard of a chain. */
export type ChainOptions = z.infer<typeof chainOptions>;

/**
 * Short-link anchor chain by its size, ready for a segment: weight in sea water, stiffness, breaking
 * load. Metric sizes in millimetres (`10`), inch sizes as text (`"3/8"`).
 *
 * Weight from the mass of the table with steel of 7850 kg/m³ in water of 1025 kg/m³. Inch sizes
 * have no published mass here: 0.0225 kg/m for a square millimetre of diameter, the mean of the
 * metric rows. Stiffness after DNV-OS-E301, made for chain of 50 mm and more: for small chain it is
 * so great that little hangs on it.
 *
 * *Valid*: new chain. *Accuracy*: suppliers' masses differ by about 5 %.
 *
 * @throws InputError for a size, grade or standard that is not in the table.
 * @source Grade 3/4 calibrated short link chain (DIN 766, ISO 4565), merchant's table; working load
 * limit chart for inch sizes
 * @example
 * ```ts
 * import { chain } from "hawse/rode";
 *
 * console.log(chain(10).weightInWaterNPerM.toFixed(2), chain("3/8", { grade: 43 }).breakingN.toFixed(0));
 * // 19.18 72061
 * ```
 */
export function chain(size: number | string, options: ChainOptions = {}): SegmentMake {
  const asked = check(chainSchema, { size, options });
  const row =
    typeof asked.size === "number"
      ? metricChain(asked.size, asked.options)
      : inchChain(asked.size, asked.options);
  return {
    kind: "chain",
    weightInWaterNPerM: weightInSeaWater(row.massKgPerM, STEEL_KG_PER_M3),
    axialStiffnessN: chainStiffness(row.diameterMm),
    breakingN: row.breakingN,
  };
}

function metricChain(size: number, { grade, standard }: ChainOptions) {
  const found = CHAINS.find(
    (r) =>
      r.diameterMm === size &&
      (grade === undefined || r.grade === grade) &&
      (standard === undefined || r.standards.includes(standard)),
  );
  return found ?? unknownSize(CHAINS.map((r) => `${r.diameterMm} grade ${r.grade}`));
}

function inchChain(size: string, { grade, standard }: ChainOptions) {
  const found = INCH_CHAINS.find(
    (r) =>
      r.sizeIn === size && standard === undefined && (grade === undefined || r.grade === grade),
  );
  if (found === undefined)
    return unknownSize(INCH_CHAINS.map((r) => `"${r.sizeIn}" grade ${r.grade}`));
  const massKgPerM = CHAIN_KG_PER_M_MM2 * found.diameterMm * found.diameterMm;
  return { ...found, massKgPerM };
}

const unknownSize = (known: readonly string[]): never =>
  refuse(
    "size",
    "unknown_size",
    known.length > 0 ? `expected one of ${known.join(", ")}` : "expected a size in millimetres",
  );

/** Input of {@link rope}. */
export const ropeSchema = z.strictObject({
  fibre: z.enum(FIBRE_NAMES),
  size: z.union([plain({ above: 0, max: 100 }), z.string()]),
});

/**
 * Laid rope by its fibre and size, ready for a segment: weight in sea water, stiffness, breaking
 * load. Metric sizes in millimetres (`14`), inch sizes of polyamide as text (`"5/8"`).
 *
 * Weight from the mass of the table, the rope full of water. Stiffness is 3.54 times the breaking
 * load for polyamide (double braid, dry, cyclic) and 14 times for polyester: see `ropeStiffness` for
 * the spread. Left out: that rope stiffens with load and softens when new.
 *
 * *Valid*: new, dry strength; `weakestLink` takes off what wet and age cost.
 * *Accuracy*: strengths differ by about 10 % between standards, stiffness by a factor of 2.
 *
 * @throws InputError for a size that is not in the table.
 * @source Rope strength tables, The Engineering ToolBox; UFC 4-159-03 Table 6-8; MoorPy line properties
 * @example
 * ```ts
 * import { rope } from "hawse/rode";
 *
 * console.log(rope("polyamide", 14).breakingN, rope("polyamide", 14).axialStiffnessN);
 * // 32000 113280
 * ```
 */
export function rope(fibre: Fibre, size: number | string): SegmentMake {
  const asked = check(ropeSchema, { fibre, size });
  const data = FIBRES[asked.fibre];
  const rows =
    typeof asked.size === "number"
      ? data.sizes.map((r) => ({ ...r, key: r.diameterMm }))
      : asked.fibre === "polyamide"
        ? INCH_POLYAMIDE.map((r) => ({ ...r, key: r.sizeIn }))
        : [];
  const row = rows.find((r) => r.key === asked.size) ?? unknownSize(rows.map((r) => String(r.key)));
  return {
    kind: "rope",
    weightInWaterNPerM: weightInSeaWater(row.massKgPerM, data.densityKgPerM3),
    axialStiffnessN: data.stiffnessPerBreaking * row.breakingN,
    breakingN: row.breakingN,
  };
}

/** Input of {@link ropeStiffness}. */
export const ropeStiffnessSchema = z.strictObject({
  /** What the rope is made of. */
  fibre: z.enum(FIBRE_NAMES),
  /** Its breaking load. */
  breakingN: plain({ above: 0 }),
  /** Mean load as a share of the breaking load, about which a quick load varies. */
  meanLoadShare: share(),
});
/** Input of {@link ropeStiffness}. */
export type RopeStiffnessInput = z.infer<typeof ropeStiffnessSchema>;

/**
 * The spread of a rope's stiffness: under slowly varying load, and under quick cycles about a mean
 * load.
 *
 * Multiples of the breaking load, from coefficients made for large ropes.
 *
 * *Valid*: to about a factor of 2. *Accuracy*: the coefficients exactly.
 *
 * @throws InputError for bad figures.
 * @source MoorPy, default mooring line property coefficients
 * @example
 * ```ts
 * import { ropeStiffness } from "hawse/rode";
 *
 * const s = ropeStiffness({ fibre: "polyamide", breakingN: 10000, meanLoadShare: 0.2 });
 * console.log(s.slowN.likely, s.quickN.toFixed(0));
 * // 50000 98800
 * ```
 */
export function ropeStiffness(input: RopeStiffnessInput): {
  /** Under slowly varying load; low and high are the range the source gives. */
  slowN: Range3;
  /** Under quick cycles about the mean load. */
  quickN: Newtons;
} {
  const { fibre, breakingN, meanLoadShare } = check(ropeStiffnessSchema, input);
  const { quasiStatic, dynamicBase, dynamicByLoad } = FIBRES[fibre];
  return {
    slowN: {
      low: quasiStatic.low * breakingN,
      likely: quasiStatic.likely * breakingN,
      high: quasiStatic.high * breakingN,
    },
    quickN: (dynamicBase + dynamicByLoad * meanLoadShare) * breakingN,
  };
}
