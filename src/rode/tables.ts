import type { Range3, Source } from "../core/judgement.js";

/** One size and grade of short-link anchor chain. */
export interface ChainRow {
  /** Nominal diameter of the bar, mm. */
  readonly diameterMm: number;
  /** Standards whose wheels it fits. */
  readonly standards: readonly ("iso4565" | "din766")[];
  /** Grade of the steel: 3 (also written 30) or 4 (40). */
  readonly grade: 3 | 4;
  /** Inner length of a link, mm. */
  readonly pitchMm: number;
  /** Greatest outer width of a link, mm. */
  readonly outerWidthMm: number;
  /** Mass in air, kg per metre; suppliers differ by about 5 %. */
  readonly massKgPerM: number;
  /** Proof load, N. */
  readonly proofN: number;
  /** Least breaking load, N. */
  readonly breakingN: number;
}

type Standards = ChainRow["standards"];
const BOTH: Standards = ["iso4565", "din766"];
const ISO: Standards = ["iso4565"];
const DIN: Standards = ["din766"];

const chainRow = (
  diameterMm: number,
  standards: Standards,
  grade: 3 | 4,
  pitchMm: number,
  outerWidthMm: number,
  massKgPerM: number,
  proofKN: number,
  breakingKN: number,
): ChainRow => ({
  diameterMm,
  standards,
  grade,
  pitchMm,
  outerWidthMm,
  massKgPerM,
  proofN: proofKN * 1000,
  breakingN: breakingKN * 1000,
});

/**
 * Metric short-link anchor chain.
 *
 * @source Grade 3/4 calibrated short link chain, galvanised (DIN 766, ISO 4565), chain merchant's table, galvanised grades
 */
export const CHAINS: readonly ChainRow[] = [
  chainRow(6, BOTH, 3, 18.5, 21.6, 0.8, 10, 18),
  chainRow(6, BOTH, 4, 18.5, 21.6, 0.8, 10, 20),
  chainRow(7, DIN, 3, 22, 23.8, 1.15, 16, 25),
  chainRow(7, DIN, 4, 22, 23.8, 1.15, 16, 30),
  chainRow(8, BOTH, 3, 24, 28.8, 1.4, 20, 32),
  chainRow(8, BOTH, 4, 24, 28.8, 1.4, 20, 40),
  chainRow(10, ISO, 3, 30, 36, 2.25, 32, 50),
  chainRow(10, ISO, 4, 30, 36, 2.25, 32, 63),
  chainRow(10, DIN, 4, 28, 36, 2.2, 32, 63),
  chainRow(12, ISO, 3, 36, 43.2, 3.25, 35, 71),
  chainRow(13, DIN, 3, 36, 47, 3.9, 50, 80),
  chainRow(14, DIN, 3, 41, 50, 4.25, 63, 100),
  chainRow(14, DIN, 4, 41, 50, 4.25, 63, 121),
  chainRow(16, DIN, 3, 45, 58, 5.8, 80, 125),
];

/** One size of rope. */
export interface RopeRow {
  /** Nominal diameter, mm. */
  readonly diameterMm: number;
  /** Mass in air, kg per metre. */
  readonly massKgPerM: number;
  /** Least breaking load, new and dry, N. */
  readonly breakingN: number;
}

const ropeRow = (diameterMm: number, massKgPerM: number, breakingKN: number): RopeRow => ({
  diameterMm,
  massKgPerM,
  breakingN: breakingKN * 1000,
});

/** Fibres that anchor rope is made of. */
export type Fibre = (typeof FIBRE_NAMES)[number];
/** The fibres of {@link FIBRES}; inputs take these and no others. */
export const FIBRE_NAMES = ["polyamide", "polyester"] as const;

/** Strength of polyamide left when wet (UFC 4-159-03 Table 3-7: 15 % weaker). */
export const POLYAMIDE_WET_SHARE = 0.85;

/** Figures of a fibre and of rope made from it. */
export interface FibreData {
  /** Density of the fibre, kg/m³; the rope is taken to fill with water. */
  readonly densityKgPerM3: number;
  /** Load per unit strain as a multiple of the breaking load, used by `rope`. */
  readonly stiffnessPerBreaking: number;
  /** Under slowly varying load, as a multiple of the breaking load. */
  readonly quasiStatic: Range3;
  /** Under quick cycles: this multiple of the breaking load at no mean load. */
  readonly dynamicBase: number;
  /** And so much more for the mean load as a share of the breaking load. */
  readonly dynamicByLoad: number;
  /** Strength left when wet. */
  readonly wetShare: number;
  /** Strength found in weathered lines 10 to 12 years old; null where none was read. */
  readonly weatheredShare: {
    readonly low: number;
    readonly high: number;
  } | null;
  /** Where these come from. */
  readonly sources: readonly Source[];
  /** Three-strand and eight-strand rope by size. */
  readonly sizes: readonly RopeRow[];
  /** Where the sizes come from. */
  readonly sizesSource: Source;
}

const STIFFNESS_SOURCE: Source = {
  title: "MoorPy, default mooring line property coefficients (made for large ropes)",
  where: "moorpy/library/MoorProps_default.yaml",
  provenance: "read",
};

/** Rope fibres. */
export const FIBRES: Readonly<Record<Fibre, FibreData>> = {
  polyamide: {
    densityKgPerM3: 1140,
    stiffnessPerBreaking: 3.54,
    quasiStatic: { low: 1, likely: 5, high: 10 },
    dynamicBase: 2.08,
    dynamicByLoad: 39,
    wetShare: POLYAMIDE_WET_SHARE,
    weatheredShare: { low: 0.25, high: 0.51 },
    sources: [
      STIFFNESS_SOURCE,
      {
        title: "UFC 4-159-03 Design: Moorings",
        where: "Table 6-8 (double braid, dry, cyclic: 3.54) and Table 3-7 (15 % weaker wet)",
        provenance: "read",
      },
      {
        title: "The fine art of stretching lines until they snap, Practical Sailor",
        where: "table of seven weathered lines",
        provenance: "read",
      },
    ],
    sizes: [
      ropeRow(5, 0.013, 3.91),
      ropeRow(6, 0.023, 6.61),
      ropeRow(8, 0.036, 10.2),
      ropeRow(10, 0.053, 14.4),
      ropeRow(11, 0.071, 19.2),
      ropeRow(12, 0.094, 25.2),
      ropeRow(14, 0.119, 32),
      ropeRow(16, 0.147, 39.6),
      ropeRow(18, 0.213, 56.8),
      ropeRow(22, 0.29, 76.9),
      ropeRow(24, 0.377, 98.9),
      ropeRow(26, 0.427, 112),
      ropeRow(28, 0.479, 126),
      ropeRow(30, 0.591, 155),
      ropeRow(32, 0.65, 170),
      ropeRow(36, 0.848, 216),
      ropeRow(40, 1, 255),
      ropeRow(44, 1.16, 294),
      ropeRow(48, 1.49, 376),
    ],
    sizesSource: {
      title: "Nylon ropes, strengths (3- and 8-strand), The Engineering ToolBox",
      where: "table",
      provenance: "read",
    },
  },
  polyester: {
    densityKgPerM3: 1380,
    stiffnessPerBreaking: 14,
    quasiStatic: { low: 14, likely: 14, high: 14 },
    dynamicBase: 11.6,
    dynamicByLoad: 40,
    wetShare: 1,
    weatheredShare: null,
    sources: [
      STIFFNESS_SOURCE,
      { title: "Polyester keeps its strength when wet", provenance: "memory" },
    ],
    sizes: [
      ropeRow(5, 0.016, 3.4),
      ropeRow(6, 0.029, 5.85),
      ropeRow(8, 0.045, 9.1),
      ropeRow(10, 0.065, 12.9),
      ropeRow(11, 0.088, 17.4),
      ropeRow(12, 0.115, 22.6),
      ropeRow(14, 0.146, 28.6),
      ropeRow(16, 0.179, 34.8),
      ropeRow(18, 0.256, 49.8),
      ropeRow(22, 0.348, 67.7),
      ropeRow(24, 0.452, 88),
      ropeRow(26, 0.509, 99),
      ropeRow(28, 0.573, 110),
      ropeRow(30, 0.692, 133),
      ropeRow(32, 0.759, 145),
      ropeRow(36, 0.997, 188),
      ropeRow(40, 1.16, 219),
    ],
    sizesSource: {
      title: "Polyester rope, strength (3- and 8-strand), The Engineering ToolBox",
      where: "table",
      provenance: "read",
    },
  },
};
