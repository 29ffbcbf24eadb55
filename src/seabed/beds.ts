import type { Material, Quality } from "./codes.js";
import { BEDS, type Bed } from "./holding-matrix.js";

/** Beds that a charted material may be. */
export interface BedReading {
  /** Beds the rating rests on: the worst of them counts. */
  readonly judged: readonly Bed[];
  /** Every bed it may be, the likely one among them. */
  readonly possible: readonly Bed[];
  /** False where the chart gives no material and no quality that says anything of one. */
  readonly known: boolean;
}

const only = (...beds: Bed[]): BedReading => ({
  judged: beds,
  possible: beds,
  known: true,
});

const has = (qualities: readonly Quality[], ...any: Quality[]): boolean =>
  any.some((q) => qualities.includes(q));

/** Mud of unstated firmness is rated as taught for mud, with soft mud as the low end. */
const PLAIN_MUD: BedReading = {
  judged: ["mud, firm"],
  possible: ["mud, firm", "mud, soft"],
  known: true,
};
const NOTHING_CHARTED: BedReading = {
  judged: BEDS,
  possible: BEDS,
  known: false,
};

/** Only a quality charted: the worst of the beds it may mean (common practice, no source). */
function uncharted(qualities: readonly Quality[]): BedReading {
  if (has(qualities, "hard")) return only("clay, stiff or hard", "sand, hard packed", "rock");
  if (has(qualities, "soft")) return only("mud, soft", "silt");
  if (has(qualities, "sticky")) return only("mud, firm", "clay, soft to firm");
  if (has(qualities, "stiff")) return only("mud, firm", "clay, stiff or hard");
  return NOTHING_CHARTED;
}

const STONES = only("stones, cobbles, boulders");
const ROCK = only("rock");
const SHELLS = only("shells");
const PEBBLES = only("shingle or pebbles");
const SILT = only("silt");

const FIXED: Readonly<Partial<Record<Material, BedReading>>> = {
  silt: SILT,
  stones: STONES,
  gravel: only("gravel"),
  pebbles: PEBBLES,
  cobbles: STONES,
  rock: ROCK,
  lava: ROCK,
  coral: only("coral"),
  shells: SHELLS,
  boulders: STONES,
  ooze: only("mud, soft"),
  shingle: PEBBLES,
  chalk: ROCK,
  volcanicAsh: only("sand, coarse or loose"),
  oysters: SHELLS,
  mussels: SHELLS,
  marl: only("clay, soft to firm"),
};

/** Beds of the matrix that a material with its qualities may be. */
export function bedsOf(material: Material, qualities: readonly Quality[]): BedReading {
  switch (material) {
    case "mud":
      if (has(qualities, "soft")) return only("mud, soft");
      return has(qualities, "sticky", "stiff", "hard") ? only("mud, firm") : PLAIN_MUD;
    case "clay":
      return has(qualities, "stiff", "hard")
        ? only("clay, stiff or hard")
        : only("clay, soft to firm");
    case "sand":
      if (has(qualities, "hard")) return only("sand, hard packed");
      return has(qualities, "coarse", "soft") ? only("sand, coarse or loose") : only("sand, firm");
    default:
      return FIXED[material] ?? uncharted(qualities);
  }
}

const SOFT: ReadonlySet<Material> = new Set([
  "mud",
  "clay",
  "silt",
  "sand",
  "ooze",
  "marl",
  "volcanicAsh",
]);

/** Whether a thin layer of the material may lie over ground that no anchor enters. */
export const isSoft = (material: Material): boolean => SOFT.has(material);
/** Whether an anchor does not enter the material. */
export const isHard = (material: Material, qualities: readonly Quality[]): boolean =>
  has(qualities, "hard") ||
  (!isSoft(material) && !["shells", "oysters", "mussels"].includes(material));
