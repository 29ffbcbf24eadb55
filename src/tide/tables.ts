import type { NodeKind } from "./astro.js";

/** Multiples of hour angle, moon, sun, lunar perigee, solar perigee; constant in degrees; node factor. */
export type Row = readonly [number, number, number, number, number, number, NodeKind | null];

/**
 * Astronomical constituents. The hour angle of the mean sun is counted from noon.
 *
 * @source P. Schureman, SP 98 (1940), table 2 (from memory, checked against published predictions); those
 * marked IHO: International Hydrographic Organization, Standard List of Tidal Constituents (from memory; speeds
 * compared with an open-source library in the tests)
 */
export const ASTRONOMICAL: Readonly<Record<string, Row>> = {
  // Long period
  SA: [0, 0, 1, 0, 0, 0, null],
  SSA: [0, 0, 2, 0, 0, 0, null],
  MM: [0, 1, 0, -1, 0, 0, "MM"],
  MSF: [0, 2, -2, 0, 0, 0, "MM"],
  MF: [0, 2, 0, 0, 0, 0, "MF"],
  MSM: [0, 1, -2, 1, 0, 0, "MM"], // IHO
  MSTM: [0, 3, -2, 1, 0, 0, "MF"], // IHO
  MTM: [0, 3, 0, -1, 0, 0, "MF"], // IHO
  MSQM: [0, 4, -2, 0, 0, 0, "MF"], // IHO
  // Diurnal
  "2Q1": [1, -4, 1, 2, 0, 90, "O1"],
  SIGMA1: [1, -4, 3, 0, 0, 90, "O1"], // IHO
  Q1: [1, -3, 1, 1, 0, 90, "O1"],
  RHO: [1, -3, 3, -1, 0, 90, "O1"],
  O1: [1, -2, 1, 0, 0, 90, "O1"],
  M1: [1, -1, 1, 1, 0, -90, "M1"],
  CHI1: [1, -1, 3, -1, 0, -90, "J1"], // IHO
  PI1: [1, 0, -2, 0, 1, 90, null], // IHO
  P1: [1, 0, -1, 0, 0, 90, null],
  S1: [1, 0, 0, 0, 0, 0, null],
  K1: [1, 0, 1, 0, 0, -90, "K1"],
  PSI1: [1, 0, 2, 0, -1, -90, null], // IHO
  PHI1: [1, 0, 3, 0, 0, -90, null], // IHO
  THETA1: [1, 1, -1, 1, 0, -90, "J1"], // IHO
  J1: [1, 1, 1, -1, 0, -90, "J1"],
  UPS1: [1, 3, 1, -1, 0, -90, "OO1"], // IHO
  OO1: [1, 2, 1, 0, 0, -90, "OO1"],
  // Semidiurnal
  EPS2: [2, -5, 4, 1, 0, 0, "M2"], // IHO
  "2N2": [2, -4, 2, 2, 0, 0, "M2"],
  MU2: [2, -4, 4, 0, 0, 0, "M2"],
  N2: [2, -3, 2, 1, 0, 0, "M2"],
  NU2: [2, -3, 4, -1, 0, 0, "M2"],
  MA2: [2, -2, 1, 0, 0, 0, "M2"], // IHO
  MB2: [2, -2, 3, 0, 0, 0, "M2"], // IHO
  M2: [2, -2, 2, 0, 0, 0, "M2"],
  LAM2: [2, -1, 0, 1, 0, 180, "M2"],
  L2: [2, -1, 2, -1, 0, 180, "L2"],
  T2: [2, 0, -1, 0, 1, 0, null],
  S2: [2, 0, 0, 0, 0, 0, null],
  R2: [2, 0, 1, 0, -1, 180, null],
  ETA2: [2, 1, 2, -1, 0, 0, "K2"], // IHO
  K2: [2, 0, 2, 0, 0, 0, "K2"],
  // Terdiurnal
  M3: [3, -3, 3, 0, 0, 0, "M3"],
};

/** Other names of the same constituents. */
export const ALIASES: Readonly<Record<string, string>> = {
  RHO1: "RHO",
  LDA2: "LAM2",
  LAMBDA2: "LAM2",
  SIG1: "SIGMA1",
  THE1: "THETA1",
  EP2: "EPS2",
  SGM: "SIGMA1",
};

/** A constituent and how often it counts in a compound. */
export type Part = readonly [name: string, factor: number];

/**
 * Compound constituents: the ones in daily use, and those whose name does not spell its parts in the usual way.
 *
 * @source P. Schureman, SP 98 (1940), table 2; International Hydrographic Organization, Standard List of Tidal
 * Constituents (both from memory; speeds compared with an open-source library in the tests)
 */
// prettier-ignore
export const COMPOUND: Readonly<Record<string, readonly Part[]>> = {
  "2SM2": [["S2", 2], ["M2", -1]],
  MK3: [["M2", 1], ["K1", 1]],
  "2MK3": [["M2", 2], ["K1", -1]],
  MN4: [["M2", 1], ["N2", 1]],
  M4: [["M2", 2]],
  MS4: [["M2", 1], ["S2", 1]],
  S4: [["S2", 2]],
  M6: [["M2", 3]],
  S6: [["S2", 3]],
  M8: [["M2", 4]],
  OO2: [["O1", 1], ["Q1", 1]],
  M2KS2: [["M2", 1], ["K2", 2], ["S2", -2]],
  "2MN2S2": [["M2", 2], ["N2", 1], ["S2", -2]],
  S3: [["S1", 3]],
  "3KM5": [["K2", 1], ["K1", 1], ["M2", 1]],
};
