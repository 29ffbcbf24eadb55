export { parseSeabed, type SeabedTextOptions } from "./parse-seabed.js";
export { seabedFromCodes, type SeabedCodes } from "./seabed-from-codes.js";
export { rateAnchors, type AnchorRating, type AnchorRatings } from "./rate-anchors.js";
export type { Seabed, SeabedLayer } from "./seabed.js";
export {
  materialRows,
  qualityRows,
  weedRows,
  vocabularySources,
  type Material,
  type Quality,
  type Weed,
  type VocabularyRow,
  type VocabularySource,
} from "./codes.js";
export { ANCHOR_TYPES, type AnchorType } from "../core/anchorTypes.js";
export {
  BEDS,
  holdingMatrix,
  holdingSources,
  type Bed,
  type HoldingCell,
  type HoldingRating,
  type HoldingSource,
} from "./holding-matrix.js";
