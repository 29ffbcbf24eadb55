import { POUND_FORCE_N, POUND_KG } from "../core/constants.js";

const FOOT_M = 0.3048;

/** One size and grade of chain in inches. */
export interface InchChainRow {
  /** Trade size, inches. */
  readonly sizeIn: string;
  /** Nominal diameter, mm. */
  readonly diameterMm: number;
  /** 30 (proof coil) or 43 (high test). */
  readonly grade: 30 | 43;
  /** Working load, N. */
  readonly workingN: number;
  /** Proof load, twice the working load, N. */
  readonly proofN: number;
  /** Least breaking load: four times the working load, grade 43 three times, N. */
  readonly breakingN: number;
}

function inchChain(
  sizeIn: string,
  inches: number,
  grade: 30 | 43,
  workingLbf: number,
): InchChainRow {
  const workingN = workingLbf * POUND_FORCE_N;
  return {
    sizeIn,
    diameterMm: inches * 25.4,
    grade,
    workingN,
    proofN: 2 * workingN,
    breakingN: (grade === 43 ? 3 : 4) * workingN,
  };
}

/**
 * Inch chain; the source gives no masses.
 *
 * @source Working load limit chart (grades 30, 43, 70), chain merchant, table and definitions
 */
export const INCH_CHAINS: readonly InchChainRow[] = [
  inchChain("3/16", 3 / 16, 30, 800),
  inchChain("1/4", 1 / 4, 30, 1300),
  inchChain("5/16", 5 / 16, 30, 1900),
  inchChain("3/8", 3 / 8, 30, 2650),
  inchChain("7/16", 7 / 16, 30, 3700),
  inchChain("1/2", 1 / 2, 30, 4500),
  inchChain("5/8", 5 / 8, 30, 6900),
  inchChain("3/4", 3 / 4, 30, 10600),
  inchChain("1", 1, 30, 17900),
  inchChain("1/4", 1 / 4, 43, 2600),
  inchChain("5/16", 5 / 16, 43, 3900),
  inchChain("3/8", 3 / 8, 43, 5400),
  inchChain("7/16", 7 / 16, 43, 7200),
  inchChain("1/2", 1 / 2, 43, 9200),
  inchChain("5/8", 5 / 8, 43, 13000),
  inchChain("3/4", 3 / 4, 43, 20200),
  inchChain("7/8", 7 / 8, 43, 24500),
  inchChain("1", 1, 43, 30000),
];

/** One size of three-strand polyamide rope in inches. */
export interface InchRopeRow {
  /** Nominal diameter, inches. */
  readonly sizeIn: string;
  /** Mass in air, kg per metre. */
  readonly massKgPerM: number;
  /** Least breaking load, new and dry, N. */
  readonly breakingN: number;
}

const inchRope = (sizeIn: string, poundsPer100Feet: number, breakingLbf: number): InchRopeRow => ({
  sizeIn,
  massKgPerM: (poundsPer100Feet * POUND_KG) / (100 * FOOT_M),
  breakingN: breakingLbf * POUND_FORCE_N,
});

/**
 * Inch polyamide rope.
 *
 * @source Rope strength table, three-strand nylon, rope merchant
 */
export const INCH_POLYAMIDE: readonly InchRopeRow[] = [
  inchRope("3/16", 1, 900),
  inchRope("1/4", 1.5, 1490),
  inchRope("5/16", 2.5, 2300),
  inchRope("3/8", 3.5, 3340),
  inchRope("7/16", 5, 4500),
  inchRope("1/2", 6.5, 5750),
  inchRope("9/16", 8.15, 7200),
  inchRope("5/8", 10.5, 9350),
  inchRope("3/4", 14.5, 12800),
  inchRope("13/16", 17, 15300),
  inchRope("7/8", 20, 18000),
  inchRope("1 1/16", 29, 26000),
  // The strength of 1 1/8 is misprinted in the source ("29,80").
  inchRope("1 1/4", 40, 33800),
  inchRope("1 5/16", 45, 38800),
  inchRope("1 1/2", 55, 47800),
  inchRope("1 5/8", 66.5, 58500),
  inchRope("1 3/4", 83, 70000),
  inchRope("2", 95, 83000),
];
