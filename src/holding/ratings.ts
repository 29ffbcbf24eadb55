import { ANCHOR_TYPES, type AnchorType } from "../core/anchorTypes.js";
import type { HoldingRating } from "../seabed/holding-matrix.js";
import type { BedName } from "./beds.js";

/**
 * How far each type is to be relied on, 0 to 4, one digit a type in the order of `ANCHOR_TYPES`. As commonly taught;
 * where the teaching and the advice texts behind the holding matrix differ, the lower.
 */
const ROWS: Record<BedName, string> = {
  "mud, soft": "12214202",
  "mud, firm": "13334413",
  mud: "13334403",
  "clay, soft to firm": "23323403",
  clay: "23323403",
  "clay, stiff or hard": "21211301",
  silt: "12223302",
  "sand, firm": "13334403",
  sand: "13334403",
  "sand, hard packed": "11212302",
  "sand, coarse or loose": "12223302",
  gravel: "32221311",
  "shingle or pebbles": "21120211",
  "stones, cobbles, boulders": "31120121",
  rock: "30010130",
  "weed or seagrass": "31211211",
  weed: "31211211",
  kelp: "20000120",
  coral: "21110131",
  shells: "21111211",
  "mixed sand and mud": "13334403",
  "thin soft layer over hard": "21112201",
  "hard (material unknown)": "20010100",
  "soft (material unknown)": "12213202",
  "sticky (material unknown)": "23323403",
};

/** Rating of an anchor type on a bed, as commonly taught. */
export const ratingOf = (type: AnchorType, bed: BedName): HoldingRating =>
  Number(ROWS[bed][ANCHOR_TYPES.indexOf(type)]) as HoldingRating;
