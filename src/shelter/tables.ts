/** One row of the Beaufort scale. */
export interface BeaufortRow {
  /** Force, 0 to 12. */
  force: number;
  /** Name of the wind. */
  name: string;
  /** Least whole knots of the force. */
  minKn: number;
  /** Greatest whole knots; null for the highest force. */
  maxKn: number | null;
  /** Least mean wind at 10 m, m/s, as the table prints it. */
  minMps: number;
  /** Greatest mean wind at 10 m, m/s, as the table prints it; null for the highest force. */
  maxMps: number | null;
  /** Probable wave height far from land, m. Says nothing of sheltered water. */
  probableHeightM: number;
  /** Probable greatest wave height far from land, m; null where the table gives none. */
  probableMaxHeightM: number | null;
}

const force = (
  n: number,
  name: string,
  kn: [number, number | null],
  mps: [number, number | null],
  height: [number, number | null],
): BeaufortRow => ({
  force: n,
  name,
  minKn: kn[0],
  maxKn: kn[1],
  minMps: mps[0],
  maxMps: mps[1],
  probableHeightM: height[0],
  probableMaxHeightM: height[1],
});

/** Beaufort scale, WMO-No. 306 code table 1100 and the WMO probable wave heights of the open sea. */
export const BEAUFORT: readonly BeaufortRow[] = [
  force(0, "calm", [0, 0], [0, 0.2], [0, null]),
  force(1, "light air", [1, 3], [0.3, 1.5], [0.1, 0.1]),
  force(2, "light breeze", [4, 6], [1.6, 3.3], [0.2, 0.3]),
  force(3, "gentle breeze", [7, 10], [3.4, 5.4], [0.6, 1]),
  force(4, "moderate breeze", [11, 16], [5.5, 7.9], [1, 1.5]),
  force(5, "fresh breeze", [17, 21], [8, 10.7], [2, 2.5]),
  force(6, "strong breeze", [22, 27], [10.8, 13.8], [3, 4]),
  force(7, "near gale", [28, 33], [13.9, 17.1], [4, 5.5]),
  force(8, "gale", [34, 40], [17.2, 20.7], [5.5, 7.5]),
  force(9, "strong gale", [41, 47], [20.8, 24.4], [7, 10]),
  force(10, "storm", [48, 55], [24.5, 28.4], [9, 12.5]),
  force(11, "violent storm", [56, 63], [28.5, 32.6], [11.5, 16]),
  force(12, "hurricane force", [64, null], [32.7, null], [14, null]),
];

/** A class with a name and the span it covers; the upper bound belongs to the class. */
export interface NamedSpan {
  /** Name of the class. */
  name: string;
  /** Lower bound; belongs to the class below. */
  min: number;
  /** Upper bound, included; null for the highest class. */
  max: number | null;
}

const spans = (...rows: readonly (readonly [name: string, max: number | null])[]): NamedSpan[] =>
  rows.map(([name, max], i) => ({ name, min: rows[i - 1]?.[1] ?? 0, max }));

/** State of sea, WMO code table 3700, significant height in metres; the index is the code. */
export const SEA_STATE: readonly NamedSpan[] = spans(
  ["calm (glassy)", 0],
  ["calm (rippled)", 0.1],
  ["smooth", 0.5],
  ["slight", 1.25],
  ["moderate", 2.5],
  ["rough", 4],
  ["very rough", 6],
  ["high", 9],
  ["very high", 14],
  ["phenomenal", null],
);
/** Height of swell in metres, WMO terms. */
export const SWELL_HEIGHT: readonly NamedSpan[] = spans(
  ["low", 2],
  ["moderate", 4],
  ["heavy", null],
);
/** Length of swell in metres, WMO terms. */
export const SWELL_LENGTH: readonly NamedSpan[] = spans(
  ["short", 100],
  ["average", 200],
  ["long", null],
);

/** How the sea meets the hull. */
export type Encounter = "head" | "oblique" | "beam";

/** One row of a published wave climate for moored small craft. */
export interface WaveClimateRow {
  /** How the sea meets the hull. */
  encounter: Encounter;
  /** Peak period from, s. */
  fromS: number;
  /** Peak period below, s; null for no upper bound. */
  belowS: number | null;
  /** Significant height not to be passed but once in fifty years, m; null where the table gives none. */
  onceIn50YearsM: number | null;
  /** Not to be passed but once a year, m. */
  onceAYearM: number;
  /** Not to be passed but once a week, m. */
  onceAWeekM: number;
}

const climate = (
  encounter: Encounter,
  fromS: number,
  belowS: number | null,
  limits: readonly [number | null, number, number],
): WaveClimateRow => ({
  encounter,
  fromS,
  belowS,
  onceIn50YearsM: limits[0],
  onceAYearM: limits[1],
  onceAWeekM: limits[2],
});

/**
 * "Good" wave climate of small-craft harbours: Mercer, Isaacson & Mulcahy 1982 (Fisheries and Oceans
 * Canada), repeated in ASCE Manual 50 and AS 3962. From memory. Times 0.75 for excellent, 1.25 for moderate.
 */
export const GOOD_CLIMATE: readonly WaveClimateRow[] = [
  climate("head", 0, 2, [null, 0.3, 0.3]),
  climate("head", 2, 6, [0.6, 0.3, 0.15]),
  climate("head", 6, null, [0.6, 0.3, 0.15]),
  climate("oblique", 0, 2, [null, 0.3, 0.3]),
  climate("oblique", 2, 6, [0.4, 0.3, 0.15]),
  climate("oblique", 6, null, [0.4, 0.3, 0.15]),
  climate("beam", 0, 2, [null, 0.3, 0.3]),
  climate("beam", 2, 6, [0.25, 0.15, 0.1]),
  climate("beam", 6, null, [0.25, 0.15, 0.1]),
];

/** Acceptable greatest wave in a berthing area, ft: MIL-HDBK-1025/5, 2.2.2.1 (read). */
export const BERTH_WAVE_FT = { min: 1, max: 1.5 } as const;

/** One row of the motion limits for an activity, root mean square. */
export interface MotionLimitRow {
  /** What the people aboard are doing. */
  activity: string;
  /** Vertical acceleration, parts of gravity. */
  verticalAccelG: number;
  /** Lateral acceleration, parts of gravity. */
  lateralAccelG: number;
  /** Roll, degrees. */
  rollDeg: number;
}

const motion = (
  activity: string,
  verticalAccelG: number,
  lateralAccelG: number,
  rollDeg: number,
): MotionLimitRow => ({ activity, verticalAccelG, lateralAccelG, rollDeg });

/** Root-mean-square motion limits: NORDFORSK, Assessment of ship performance in a seaway, 1987. From memory. */
export const MOTION_LIMITS: readonly MotionLimitRow[] = [
  motion("light manual work", 0.2, 0.1, 6),
  motion("heavy manual work", 0.15, 0.07, 4),
  motion("intellectual work", 0.1, 0.05, 3),
  motion("transit passengers", 0.05, 0.04, 2.5),
  motion("cruise liner", 0.02, 0.03, 2),
];
