import type { Range3, Source } from "../core/judgement.js";
import type { Bed } from "../seabed/holding-matrix.js";

/** A bed by the name of the holding matrix, or by the plain word of the trade. */
export type BedName = Bed | "sand" | "mud" | "clay" | "weed";

/** What a bed does to holding. */
export interface BedFigures {
  /** Holding relative to firm sand; null where no figure is honest. */
  readonly relative: Range3 | null;
  /** Soft or hard soil of the naval holding curves; null where they do not apply. */
  readonly soil: "soft" | "hard" | null;
  /** Soil that sticks: clay and mud hold an anchor by suction when it is weighed. */
  readonly cohesive: boolean;
  /** Where the relative figure comes from, or why there is none. */
  readonly from: string;
}

/** Source of the relative holding of beds. */
export const BED_SOURCE: Source = {
  title: "Seabed coefficients relative to firm sand (after Crenshaw, Naval Shiphandling)",
  where: "list",
  provenance: "read",
};

/** The figures are good to a factor of 1.5 either way. */
const about = (likely: number): Range3 => ({
  low: likely / 1.5,
  likely,
  high: likely * 1.5,
});
const soft = (relative: Range3, from: string): BedFigures => ({
  relative,
  soil: "soft",
  cohesive: true,
  from,
});
const loose = (relative: Range3, from: string): BedFigures => ({
  relative,
  soil: null,
  cohesive: false,
  from,
});
const none = (from: string): BedFigures => ({
  relative: null,
  soil: null,
  cohesive: false,
  from,
});

const SOFT_MUD = about(0.33);
const STICKY_CLAY = about(0.66);

/** Beds with their holding relative to firm sand. */
export const BED_FIGURES: Record<BedName, BedFigures> = {
  "mud, soft": soft(SOFT_MUD, "soft mud, read"),
  "mud, firm": soft(STICKY_CLAY, "taken as sticky clay"),
  mud: soft(
    { ...SOFT_MUD, high: STICKY_CLAY.high },
    "soft mud, up to sticky clay where it is firm",
  ),
  "clay, soft to firm": soft(STICKY_CLAY, "sticky clay, read"),
  clay: soft(STICKY_CLAY, "sticky clay, read"),
  "clay, stiff or hard": {
    relative: about(1.5),
    soil: "hard",
    cohesive: true,
    from: "stiff dense clay, read; only for an anchor that gets in",
  },
  silt: soft(SOFT_MUD, "taken as soft mud"),
  "sand, firm": {
    relative: about(1),
    soil: "hard",
    cohesive: false,
    from: "firm sand, read",
  },
  sand: {
    relative: { low: 0.33 / 1.5, likely: 1, high: 1.5 },
    soil: "hard",
    cohesive: false,
    from: "firm sand, down to coarse loose sand",
  },
  "sand, hard packed": none("holding turns on whether the anchor breaks the crust"),
  "sand, coarse or loose": loose(about(0.33), "coarse loose sand, read"),
  gravel: loose(about(0.33), "gravel, read"),
  "shingle or pebbles": none("no published figure"),
  "stones, cobbles, boulders": none("holds only by hooking"),
  rock: none("none by setting; an anchor may hook, and may not come back"),
  "weed or seagrass": none("no published figure; seagrass is often protected"),
  weed: none("no published figure; seagrass is often protected"),
  kelp: none("no published figure; usually grows on rock"),
  coral: none("do not anchor"),
  shells: none("no published figure"),
  "mixed sand and mud": loose(
    { low: SOFT_MUD.low, likely: 0.66, high: 1.5 },
    "between soft mud and firm sand",
  ),
  "thin soft layer over hard": none("holding turns on the layer's thickness"),
  "hard (material unknown)": none("clay, sand or rock"),
  "soft (material unknown)": soft(SOFT_MUD, "taken as soft mud"),
  "sticky (material unknown)": soft(STICKY_CLAY, "sticky clay, read"),
};

/** All bed names. */
export const bedNames = Object.keys(BED_FIGURES) as BedName[];

/** Whether a text is the name of a bed. */
export const isBed = (word: string): word is BedName =>
  (bedNames as readonly string[]).includes(word);

/** Beds that are often protected, or should be left alone. */
export const PROTECTED: ReadonlySet<BedName> = new Set<BedName>([
  "weed",
  "weed or seagrass",
  "coral",
]);
