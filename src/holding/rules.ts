import type { Source } from "../core/judgement.js";
import { knots } from "../core/units.js";

/** One row of the small commercial vessel code's table. */
export interface CodeRow {
  /** Mean length the row stands for, m. */
  readonly meanLengthM: number;
  /** Main anchor, kg. */
  readonly mainAnchorKg: number;
  /** Kedge, kg. */
  readonly kedgeAnchorKg: number;
  /** Chain of the main cable, mm. */
  readonly mainChainMm: number;
  /** Polyamide rope of the main cable, mm. */
  readonly mainRopeMm: number;
  /** Chain of the kedge cable, mm. */
  readonly kedgeChainMm: number;
  /** Polyamide rope of the kedge cable, mm. */
  readonly kedgeRopeMm: number;
}

/** Where the code table comes from. */
export const CODE_SOURCE: Source = {
  title: "Small commercial vessel code, anchors and cables",
  where: "20.5, Table 20.1",
  provenance: "read",
};

// Mean length m, main kg, kedge kg, main chain mm, main rope mm, kedge chain mm, kedge rope mm.
const CODE: readonly (readonly number[])[] = [
  [6, 8, 4, 6, 12, 6, 10],
  [7, 9, 4, 8, 12, 6, 10],
  [8, 10, 5, 8, 12, 6, 10],
  [9, 11, 5, 8, 12, 6, 10],
  [10, 13, 6, 8, 12, 6, 10],
  [11, 15, 7, 8, 12, 6, 10],
  [12, 18, 9, 8, 14, 8, 12],
  [13, 21, 10, 10, 14, 8, 12],
  [14, 24, 12, 10, 14, 8, 12],
  [15, 27, 13, 10, 14, 8, 12],
  [16, 30, 15, 10, 14, 8, 12],
  [17, 34, 17, 10, 14, 8, 14],
  [18, 38, 19, 10, 16, 8, 14],
  [19, 42, 21, 12, 16, 10, 14],
  [20, 47, 23, 12, 16, 10, 14],
  [21, 52, 26, 12, 16, 10, 14],
  [22, 57, 28, 12, 19, 10, 16],
  [23, 62, 31, 12, 19, 10, 16],
  [24, 68, 34, 12, 19, 10, 16],
];

/** Row of the code table for a mean length, the next longer where it lies between two; null beyond 24 m. */
export function codeRow(meanLengthM: number): CodeRow | null {
  const row = CODE.find((r) => meanLengthM <= r[0]!);
  if (row === undefined) return null;
  return {
    meanLengthM: row[0]!,
    mainAnchorKg: row[1]!,
    kedgeAnchorKg: row[2]!,
    mainChainMm: row[3]!,
    mainRopeMm: row[4]!,
    kedgeChainMm: row[5]!,
    kedgeRopeMm: row[6]!,
  };
}

/** Least anchors of the code by area of operation: 90 % in categories 4 and 5, one kedge's mass in 6 (20.5.3 to 20.5.5). */
export function codeLeastKg(
  row: CodeRow,
  areaCategory: number,
): { mainKg: number; kedgeKg: number | null } {
  if (areaCategory === 6) return { mainKg: row.kedgeAnchorKg, kedgeKg: null };
  const share = areaCategory >= 4 ? 0.9 : 1;
  return {
    mainKg: share * row.mainAnchorKg,
    kedgeKg: share * row.kedgeAnchorKg,
  };
}

/** One row of the equipment table by equipment number. */
export interface EquipmentRow {
  /** From this equipment number, included. */
  readonly from: number;
  /** To this one, not included. */
  readonly to: number;
  /** Number of bower anchors. */
  readonly anchors: number;
  /** Mass of each stockless bower anchor, kg. */
  readonly bowerKg: number;
  /** Mass of the stockless stream anchor, kg. */
  readonly streamAnchorKg: number;
  /** Total length of stud-link chain, m. */
  readonly chainM: number;
  /** Chain of mild steel, grade 1, mm. */
  readonly chainGrade1Mm: number;
  /** Chain of special quality, grade 2 or 3, mm. */
  readonly chainGrade2Mm: number;
}

/** Where the equipment table comes from. */
export const EQUIPMENT_SOURCE: Source = {
  title: "IACS Recommendation 10 Rev.5 (2023)",
  where: "Table 1; equipment number of UR A1",
  provenance: "read",
};

// From, to, anchors, bower kg, stream anchor kg, chain m, grade 1 mm, grade 2 or 3 mm.
const EQUIPMENT: readonly (readonly number[])[] = [
  [50, 70, 2, 180, 60, 220, 14, 12.5],
  [70, 90, 2, 240, 80, 220, 16, 14],
  [90, 110, 2, 300, 100, 247.5, 17.5, 16],
  [110, 130, 2, 360, 120, 247.5, 19, 17.5],
  [130, 150, 2, 420, 140, 275, 20.5, 17.5],
  [150, 175, 2, 480, 165, 275, 22, 19],
  [175, 205, 2, 570, 190, 302.5, 24, 20.5],
];

/** Equipment number EN = D^(2/3) + 2 h B + 0.1 A, displacement in tonnes. */
export const equipmentNumber = (
  displacementT: number,
  beamM: number,
  effectiveHeightM: number,
  profileAreaM2: number,
): number => {
  const root = Math.cbrt(displacementT);
  return root * root + 2 * effectiveHeightM * beamM + 0.1 * profileAreaM2;
};

/** Row of the equipment table; null below 50, where most yachts are, and from 205 up. */
export function equipmentRow(number: number): EquipmentRow | null {
  const row = EQUIPMENT.find((r) => number >= r[0]! && number < r[1]!);
  if (row === undefined) return null;
  return {
    from: row[0]!,
    to: row[1]!,
    anchors: row[2]!,
    bowerKg: row[3]!,
    streamAnchorKg: row[4]!,
    chainM: row[5]!,
    chainGrade1Mm: row[6]!,
    chainGrade2Mm: row[7]!,
  };
}

/** Where the fishing vessel formula comes from. */
export const FISHING_SOURCE: Source = {
  title: "Fishing Vessel Safety Regulations, C.R.C. c. 1486",
  where: "s. 43(1)-(5)",
  provenance: "read",
};

/** Cubic number up to which the first branch of the formula holds. */
export const CUBIC_NUMBER_BREAK = 566;
/** Total mass above which two anchors are carried, kg. */
const TWO_ANCHORS_KG = 135;

/** Total anchor mass of a fishing vessel by length x breadth x depth, kg. */
export const fishingAnchorKg = (cubicNumber: number): number =>
  cubicNumber <= CUBIC_NUMBER_BREAK ? 0.64 * cubicNumber : 0.48 * cubicNumber + 91;

/** Anchors of a fishing vessel: all of them, less 40 % for approved patent anchors, and the least main anchor where two are carried. */
export function fishingAnchors(cubicNumber: number): {
  totalKg: number;
  patentKg: number;
  mainKg: number | null;
} {
  const totalKg = fishingAnchorKg(cubicNumber);
  return {
    totalKg,
    patentKg: 0.6 * totalKg,
    mainKg: totalKg > TWO_ANCHORS_KG ? 0.6 * totalKg : null,
  };
}

/** Where the special service craft rules come from. */
export const CRAFT_SOURCE: Source = {
  title: "Rules for Special Service Craft, Part 3, Chapter 5",
  where: "5.1.2, 5.1.5",
  provenance: "read",
};

/** Mass of an ordinary anchor in place of a high-holding-power one, over the table's. */
export const ORDINARY_ANCHOR = 1.33;
/** Mass of a yacht's second anchor over the rule's, beside a full first one. */
export const SECOND_ANCHOR = 0.7;
/** Mass of each of a yacht's two anchors over the rule's, where they are alike. */
export const TWO_ALIKE = 0.9;

/** Line to be carried with the anchor of a recreational craft: below 6 m, and from 6 m up. */
export const recreationalLine = (lengthM: number): { chainM: number; lineM: number } =>
  lengthM < 6 ? { chainM: 2, lineM: 40 } : { chainM: 5, lineM: 50 };

/** Where the line lengths come from. */
export const LINE_SOURCE: Source = {
  title: "Anchor, rope and chain (Marine and Safety Tasmania)",
  where: "table",
  provenance: "read",
};

/** Weather that a method designs for. */
export interface DesignConditions {
  /** Wind. */
  readonly windMps: number;
  /** Stream. */
  readonly streamMps: number;
  /** Depth; null where the method names none. */
  readonly depthM: number | null;
  /** Where they come from. */
  readonly basis: Source;
}

/** Weather that class equipment by equipment number is meant for: sheltered water, scope 6 to 10. */
export const EQUIPMENT_CONDITIONS: DesignConditions = {
  windMps: 25,
  streamMps: 2.5,
  depthM: null,
  basis: EQUIPMENT_SOURCE,
};

/** Least weather for the anchors of naval ships. */
export const NAVAL_CONDITIONS: DesignConditions = {
  windMps: knots(70),
  streamMps: knots(4),
  depthM: 73,
  basis: {
    title: "UFC 4-159-03, Design: Moorings",
    where: "Table 3-6a",
    provenance: "read",
  },
};
