import { ANCHOR_TYPES, type AnchorType } from "../core/anchorTypes.js";
import { check } from "../core/check.js";
import type { Reason } from "../core/judgement.js";
import { cautionsOf, isProtected } from "./cautions.js";
import { bedsOf, isHard, isSoft, type BedReading } from "./beds.js";
import { QUALITIES, type Quality } from "./codes.js";
import {
  BEDS,
  holdingMatrix,
  holdingSources,
  type Bed,
  type HoldingRating,
} from "./holding-matrix.js";
import { seabedSchema, type Seabed, type SeabedLayer } from "./seabed.js";
import { TAUGHT_POOR, taughtBasis } from "./taught.js";

/** How one anchor type is to be relied on at a seabed. */
export interface AnchorRating {
  /** 0 do not rely on it, 1 poor, 2 fair, 3 good, 4 very good. */
  rating: HoldingRating;
  /** Rating on the worst bed that the chart's words may mean; judge by this where it matters. */
  low: HoldingRating;
  /** Bed of the matrix that decided the rating. */
  bed: Bed;
  /** What the sources say of it, in short; empty where the rating goes by analogy. */
  statement: string;
  /** The sources of the rating. */
  sources: string[];
}

/** Answer of {@link rateAnchors}. */
export interface AnchorRatings {
  /** One rating per anchor type. */
  ratings: Record<AnchorType, AnchorRating>;
  /** False where the chart tells nothing of some constituent: it is then rated as the worst of all beds. */
  known: boolean;
  /** Whether the bed is of a kind that is often protected (coral, seagrass): keep off. */
  protectedBed: boolean;
  /** Beds of the matrix the seabed may be, surface first. */
  beds: Bed[];
  /** What to mind. */
  cautions: Reason[];
  /** Rules by which mixtures, layers and weed were rated. */
  basis: string[];
}

interface Score {
  rating: HoldingRating;
  low: HoldingRating;
  bed: Bed;
}

/** Rating of a bed by bed and anchor type. */
const MATRIX: ReadonlyMap<string, (typeof holdingMatrix)[number]> = /* @__PURE__ */ new Map(
  holdingMatrix.map((cell) => [`${cell.bed}|${cell.anchor}`, cell]),
);
const cellOf = (bed: Bed, anchor: AnchorType) => MATRIX.get(`${bed}|${anchor}`)!;

/** Where common teaching calls an anchor poor on a bed and the matrix is kinder, the teaching stands. */
const ratingOf = (bed: Bed, anchor: AnchorType): HoldingRating => {
  const { rating } = cellOf(bed, anchor);
  return TAUGHT_POOR[anchor]?.includes(bed) === true
    ? (Math.min(1, rating) as HoldingRating)
    : rating;
};

function worstOf(beds: readonly Bed[], anchor: AnchorType): Bed {
  let worst = beds[0]!;
  for (const bed of beds) if (ratingOf(bed, anchor) < ratingOf(worst, anchor)) worst = bed;
  return worst;
}

function scoreOf(reading: BedReading, anchor: AnchorType): Score {
  const bed = worstOf(reading.judged, anchor);
  return {
    bed,
    rating: ratingOf(bed, anchor),
    low: ratingOf(worstOf(reading.possible, anchor), anchor),
  };
}

const lesser = (a: Score, b: Score): Score => ({
  ...(b.rating < a.rating ? b : a),
  low: Math.min(a.low, b.low) as HoldingRating,
});

type Doubt = Pick<Seabed, "pairing" | "unknown">;

/** Whether some quality (NATQUA) or growth (CATWED) is a code that is not in the list, and may be any. */
const hasUnlisted = ({ unknown }: Doubt, attribute: "NATQUA" | "CATWED"): boolean =>
  unknown.some((u) => u.attribute === attribute);

/**
 * Qualities a constituent may carry: its own; after lost slots, any of the layer's or none; where some quality is a
 * code that is not in the list, any there is.
 */
const qualitiesOf = (
  layer: SeabedLayer,
  index: number,
  doubt: Doubt,
): readonly (readonly Quality[])[] => {
  const own = layer.qualities[index]!;
  if (hasUnlisted(doubt, "NATQUA")) return [own, [], ...QUALITIES.map((q) => [q])];
  return doubt.pairing === "certain" ? [own] : [[], ...layer.qualities.flat().map((q) => [q])];
};

function constituent(layer: SeabedLayer, index: number, anchor: AnchorType, doubt: Doubt): Score {
  return qualitiesOf(layer, index, doubt)
    .map((q) => scoreOf(bedsOf(layer.materials[index]!, q), anchor))
    .reduce(lesser);
}

function at(bed: Bed, anchor: AnchorType): Score {
  const rating = ratingOf(bed, anchor);
  return { bed, rating, low: rating };
}

/** Sand and mud in either order, nothing more said of them, is a bed of the matrix by itself. */
const isSandAndMud = ({ materials, qualities }: SeabedLayer): boolean =>
  materials.length === 2 &&
  materials.includes("sand") &&
  materials.includes("mud") &&
  qualities.every((q) => q.length === 0);

/** The main constituent, one step lower where a later one is two or more steps worse. */
function mixture(layer: SeabedLayer, anchor: AnchorType, doubt: Doubt): Score {
  if (isSandAndMud(layer) && !hasUnlisted(doubt, "NATQUA")) return at("mixed sand and mud", anchor);
  let score = constituent(layer, 0, anchor, doubt);
  const first = score;
  for (let i = 1; i < layer.materials.length; i++) {
    const other = constituent(layer, i, anchor, doubt);
    if (other.rating <= first.rating - 2)
      score = { ...score, rating: (first.rating - 1) as HoldingRating };
    score.low = Math.min(score.low, other.low) as HoldingRating;
  }
  return { ...score, low: Math.min(score.low, score.rating) as HoldingRating };
}

/** Whether a soft surface lies, to an unknown thickness, over ground no anchor enters. */
const thinOverHard = (seabed: Seabed): boolean => {
  const [surface, ...beneath] = seabed.layers;
  return (
    surface?.materials.some((m) => isSoft(m)) === true &&
    beneath.some(
      (l) =>
        hasUnlisted(seabed, "NATQUA") || l.materials.some((m, i) => isHard(m, l.qualities[i]!)),
    )
  );
};

const NOT_CHARTED: BedReading = { judged: BEDS, possible: BEDS, known: false };

function rate(seabed: Seabed, anchor: AnchorType): AnchorRating {
  const scores: Score[] = [];
  const surface = seabed.layers[0];
  if (surface !== undefined) scores.push(mixture(surface, anchor, seabed));
  if (thinOverHard(seabed)) scores.push(at("thin soft layer over hard", anchor));
  if (seabed.weed.includes("kelp") || hasUnlisted(seabed, "CATWED"))
    scores.push(at("kelp", anchor), at("rock", anchor));
  if (seabed.weed.some((w) => w !== "kelp")) scores.push(at("weed or seagrass", anchor));
  if (scores.length === 0 || (surface === undefined && hasUnlisted(seabed, "CATWED")))
    scores.push(scoreOf(NOT_CHARTED, anchor));
  const { bed, rating, low } = scores.reduce(lesser);
  const cell = cellOf(bed, anchor);
  const taught = ratingOf(bed, anchor) < cell.rating;
  return {
    rating,
    low:
      surface === undefined
        ? (Math.min(low, scoreOf(NOT_CHARTED, anchor).low) as HoldingRating)
        : low,
    bed,
    statement: cell.statement,
    sources: [...cell.sources.map(titleOf), ...(taught ? [taughtBasis] : [])],
  };
}

function titleOf(key: string): string {
  const { title, where } = holdingSources[key]!;
  return title.includes(where) ? title : `${title}, ${where}`;
}

const RULES = [
  "a mixture is rated by its main constituent, one step lower where a later one is two or more steps worse (judgement)",
  "a soft layer over hard ground is rated no better than a thin layer, since no chart gives its thickness (judgement)",
  "weed over a bed is rated as the worse of the two (judgement)",
];

/**
 * How far each type of anchor is to be relied on at a charted seabed, and who says so.
 *
 * The ratings are a reading of advice texts and handbook tables, bed by bed, kept no better than
 * common teaching has it. A quality or growth whose code is in no list may be any: the worst counts. Where only `hard`, `soft` or `sticky` is charted the worst of the beds it
 * may mean counts; a mixture goes by its main constituent; weed and kelp, and hard ground under a
 * soft layer, pull a rating down. It leaves out the anchor's weight, the skill of setting it and
 * how the bed differs from the sample: it orders types, it is no holding power.
 *
 * *Valid*: small-craft anchors set at a scope of 5 or more. *Accuracy*: ordinal words; sources
 * differ by one step on many beds. `low` tells what the rating falls to if the bed is the worst the
 * chart's words allow: plain mud is rated as taught for mud, and soft mud is its low end.
 *
 * @throws InputError where the seabed is not one.
 * @source {@link holdingMatrix} with the sources of each figure; common practice, no source
 * @example
 * ```ts
 * import { parseSeabed, rateAnchors } from "hawse/seabed";
 * const { ratings } = rateAnchors(parseSeabed("R"));
 * console.log(ratings.fisherman.rating, ratings.pivotingFluke.rating);
 * // 3 0
 * ```
 */
export function rateAnchors(seabed: Seabed): AnchorRatings {
  return ratingsOf(check(seabedSchema, seabed));
}

/** {@link rateAnchors} of a seabed that is already checked. */
export function ratingsOf(seabed: Seabed): AnchorRatings {
  const readings = seabed.layers.flatMap((layer) =>
    layer.materials.flatMap((m, i) => qualitiesOf(layer, i, seabed).map((q) => bedsOf(m, q))),
  );
  const weed = hasUnlisted(seabed, "CATWED") ? 0 : seabed.weed.length;
  const known = readings.every((r) => r.known) && readings.length + weed > 0;
  const ratings = Object.fromEntries(
    ANCHOR_TYPES.map((anchor) => [anchor, rate(seabed, anchor)]),
  ) as Record<AnchorType, AnchorRating>;
  return {
    ratings,
    known,
    protectedBed: isProtected(seabed),
    beds: [...new Set(readings.flatMap((r) => (r.known ? r.possible : [])))],
    cautions: cautionsOf(seabed, known),
    basis: [...RULES],
  };
}
