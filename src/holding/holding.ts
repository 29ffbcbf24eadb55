import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { check } from "../core/check.js";
import type { Range3, Source } from "../core/judgement.js";
import { degrees, kilograms, newtons, share } from "../core/schema.js";
import { linearAt } from "../core/series.js";
import type { Newtons } from "../core/units.js";
import type { HoldingRating } from "../seabed/holding-matrix.js";
import {
  BED_FIGURES,
  BED_SOURCE,
  bedNames,
  PROTECTED,
  type BedFigures,
  type BedName,
} from "./beds.js";
import { holdingByMass, smallHoldingN } from "./kernel.js";
import { ratingOf } from "./ratings.js";
import {
  ANCHORS,
  EXPONENT_SOURCE,
  EXPONENTS,
  NAVAL_SOURCE,
  NAVAL_SPREAD,
  RATIO_SOURCE,
  TEST_SPREAD,
  UPLIFT,
  UPLIFT_SOURCE,
  UPLIFT_SPREAD,
} from "./tables.js";

/** An anchor: its type and its mass. */
export const anchor = z.strictObject({
  /** Type, by its generic word. */
  type: z.enum(ANCHOR_TYPES),
  /** Mass. */
  massKg: kilograms({ max: 5000 }),
});
/** An anchor: its type and its mass. */
export type Anchor = z.infer<typeof anchor>;

/** The bed, by its name in the holding matrix or the trade's plain word; or the beds it may be. */
export const bed = z.union([z.enum(bedNames), z.array(z.enum(bedNames)).check(z.minLength(1))]);

const upliftPoint = z.strictObject({
  /** Pull angle above the bed. */
  pullAngleDeg: degrees({ min: 0, max: 90 }),
  /** Share of the horizontal holding left. */
  share: share(),
});

export const holdingInput = z.strictObject({
  /** The anchor. */
  anchor,
  /** The bed, or the beds it may be: then the worst of them counts, and the lowest figure of any. */
  seabed: bed,
  /** Angle of the pull above the bed; 0 unless given, and a pull below the bed counts as 0. */
  pullAngleDeg: z._default(degrees({ min: -90, max: 90 }), 0),
  /** What has been shown of the set. */
  set: z.optional(
    z.strictObject({
      /** Pull along the bed that was held without moving, in the direction that counts. */
      provedN: newtons(),
    }),
  ),
  /** Holding left by pull angle, ascending from 0; beyond the last angle none counts. A curve from memory unless given. */
  uplift: z.optional(
    z.array(upliftPoint).check(
      z.minLength(2),
      z.refine(
        (points) =>
          points[0]!.pullAngleDeg === 0 &&
          points.every((p, i) => i === 0 || p.pullAngleDeg > points[i - 1]!.pullAngleDeg),
        "pull angles must ascend from 0",
      ),
    ),
  ),
});

/** Codes of the cautions of {@link Holding}. */
export type HoldingCaution =
  | "setUnproven"
  | "mayNotSet"
  | "bedUncertain"
  | "bedProtected"
  | "pullLifts"
  | "mayNotResetAfterVeer"
  | "mayCapsizeOnHardGround"
  | "clingsToMud"
  | "hooksOnly";

/** One way of reckoning the holding. */
export interface HoldingFigure {
  /** Holding, N. */
  ultimateN: Range3<Newtons>;
  /** Where it comes from. */
  basis: Source;
}

/** Holding of an anchor. */
export interface Holding {
  /** Greatest pull the anchor, well set, is held to stand, N: the spread is that between tests and sources. Null where no figure is honest. */
  ultimateN: Range3<Newtons> | null;
  /** Why there is no figure; null where there is one. */
  noFigure: string | null;
  /** Rating as commonly taught: 0 do not rely on it, 1 poor, 2 fair, 3 good, 4 very good. */
  rating: HoldingRating;
  /** The ways of reckoning that `ultimateN` puts together. */
  figures: HoldingFigure[];
  /** Share of the horizontal holding left at the pull angle. */
  upliftShare: Range3;
  /** Spread of pull tests that no figure here is better than, as shares: between runs, and between sizes. */
  testSpread: {
    /** From pull to pull with one anchor. */
    runToRun: number;
    /** From the anchors tested to this one. */
    scaleUp: number;
  };
  /** The bed that decided. */
  bed: BedName;
  /** Sources. */
  basis: Source[];
  /** What to beware of. */
  cautions: HoldingCaution[];
}

/**
 * Ultimate holding of an anchor by type, mass, bed and pull angle, as a spread and a rating.
 *
 * Holding over weight from small-craft pull tests in firm sand, grown with mass by the published
 * exponents, times the bed's relative holding and the share left at the pull angle; beside it the naval
 * holding curve where there is one for the type. The spread covers both. Leaves out how the anchor was
 * set, which decides more than all of these: a pull it has stood counts as the least.
 *
 * *Valid*: anchors of 2 to 100 kg. *Accuracy*: a factor of two either way; runs of one anchor in one place
 * differ by half. No figure for weed, rock, coral and other beds where the tables have none.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source UFC 4-159-03, Design: Moorings (2005), Eq. 26; Crenshaw, Naval Shiphandling, bed coefficients
 * @example
 * ```ts
 * import { holding } from "hawse";
 * const anchor = { type: "fixedPlough", massKg: 20 } as const;
 * const sand = holding({ anchor, seabed: "sand, firm" });
 * console.log(sand.rating, Math.round(sand.ultimateN?.likely ?? NaN));
 * // 3 3320
 * const rock = holding({ anchor, seabed: "rock" });
 * console.log(rock.rating, rock.ultimateN);
 * // 0 null
 * ```
 */
export const holding = (input: Given<typeof holdingInput>): Holding =>
  holdingOf(check(holdingInput, input));

type Parsed = z.output<typeof holdingInput>;

/** {@link holding} without the check. */
export function holdingOf(input: Parsed): Holding {
  const beds = Array.isArray(input.seabed) ? input.seabed : [input.seabed];
  const worst = worstOf(beds.map((name) => onBed(input, name)));
  const rating = Math.min(
    ...beds.map((name) => ratingOf(input.anchor.type, name)),
  ) as HoldingRating;
  const { set } = input;
  const cautions = cautionsOf(input, beds, rating);
  if (beds.length > 1) cautions.unshift("bedUncertain");
  return {
    ...worst,
    ultimateN:
      set === undefined || worst.ultimateN === null
        ? worst.ultimateN
        : atLeast(worst.ultimateN, set.provedN, worst.upliftShare),
    rating,
    cautions,
  };
}

/** No figure is worse than any figure. */
const isWorse = (a: OneBed, b: OneBed): boolean =>
  b.ultimateN !== null && (a.ultimateN === null || a.ultimateN.likely < b.ultimateN.likely);

/** The bed that is likely to hold least decides; the lowest that may be is that of any. */
function worstOf(all: readonly OneBed[]): OneBed {
  const worst = all.reduce((a, b) => (isWorse(b, a) ? b : a));
  if (worst.ultimateN === null) return worst;
  const low = Math.min(...all.map((one) => one.ultimateN?.low ?? 0));
  return { ...worst, ultimateN: { ...worst.ultimateN, low } };
}

/** What was proved along the bed is the least; of a lifted pull, the share that is left. */
const atLeast = (r: Range3, provedN: number, left: Range3): Range3 => ({
  low: Math.max(r.low, provedN * left.low),
  likely: Math.max(r.likely, provedN * left.likely),
  high: Math.max(r.high, provedN * left.high),
});

type OneBed = Omit<Holding, "rating" | "cautions">;

function onBed(input: Parsed, name: BedName): OneBed {
  const upliftShare = upliftAt(input.pullAngleDeg, input.uplift ?? UPLIFT);
  const figures = horizontalFigures(input.anchor, name).map((f) => ({
    ...f,
    ultimateN: times(f.ultimateN, upliftShare),
  }));
  const { relative, from } = BED_FIGURES[name];
  const mayNotSet = ratingOf(input.anchor.type, name) <= 1;
  return {
    ultimateN: figures.length === 0 ? null : together(figures, mayNotSet),
    noFigure: relative === null ? from : null,
    figures,
    upliftShare,
    testSpread: TEST_SPREAD,
    bed: name,
    basis: [
      ...figures.map((f) => f.basis),
      ...(figures.length > 0 ? [BED_SOURCE, EXPONENT_SOURCE] : []),
      ...(input.pullAngleDeg > 0 ? [UPLIFT_SOURCE] : []),
    ],
  };
}

/** Figures for a horizontal pull; none where the bed has no figure. */
function horizontalFigures(a: Anchor, name: BedName): HoldingFigure[] {
  const { relative, soil } = BED_FIGURES[name];
  if (relative === null) return [];
  const { sandRatio, naval } = ANCHORS[a.type];
  const grown = growth(a.massKg, EXPONENTS[soil === "soft" ? "soft" : "hard"]);
  const small = times(times(sandRatio, relative), grown);
  const figures = [{ ultimateN: small, basis: RATIO_SOURCE }];
  const curve = soil === null ? undefined : naval[soil];
  if (curve !== undefined) {
    const likely = holdingByMass(curve.referenceN, a.massKg, curve.exponent);
    figures.push({
      ultimateN: {
        low: likely / NAVAL_SPREAD,
        likely,
        high: likely * NAVAL_SPREAD,
      },
      basis: NAVAL_SOURCE,
    });
  }
  return figures;
}

/** Holding of an anchor of ratio 1 by its mass, over the spread of exponents. */
function growth(massKg: number, exponents: { low: number; likely: number; high: number }): Range3 {
  const a = smallHoldingN(1, massKg, exponents.low);
  const b = smallHoldingN(1, massKg, exponents.high);
  return {
    low: Math.min(a, b),
    likely: smallHoldingN(1, massKg, exponents.likely),
    high: Math.max(a, b),
  };
}

const times = (a: Range3, b: Range3): Range3 => ({
  low: a.low * b.low,
  likely: a.likely * b.likely,
  high: a.high * b.high,
});

/** The widest spread, the lowest likely figure; nothing at all at worst where the anchor may not set. */
const together = (figures: HoldingFigure[], mayNotSet: boolean): Range3 => ({
  low: mayNotSet ? 0 : Math.min(...figures.map((f) => f.ultimateN.low)),
  likely: Math.min(...figures.map((f) => f.ultimateN.likely)),
  high: Math.max(...figures.map((f) => f.ultimateN.high)),
});

/** Share of the horizontal holding left at a pull angle, the same for every anchor and bed; beyond the curve nothing is known to be left. */
export function upliftAt(
  pullAngleDeg: number,
  curve: readonly { pullAngleDeg: number; share: number }[] = UPLIFT,
): Range3 {
  const angle = Math.max(0, pullAngleDeg);
  const last = curve[curve.length - 1]!;
  const likely =
    angle > last.pullAngleDeg
      ? 0
      : linearAt(
          curve.map((p) => p.pullAngleDeg),
          curve.map((p) => p.share),
          angle,
        );
  if (angle === 0) return { low: likely, likely, high: likely };
  return {
    low: Math.max(0, likely - UPLIFT_SPREAD),
    likely,
    high: Math.min(1, likely + UPLIFT_SPREAD),
  };
}

function cautionsOf(input: Parsed, beds: BedName[], rating: HoldingRating): HoldingCaution[] {
  const a = ANCHORS[input.anchor.type];
  const any = (of: (figures: BedFigures, name: BedName) => boolean): boolean =>
    beds.some((name) => of(BED_FIGURES[name], name));
  const cautions: [HoldingCaution, boolean][] = [
    ["setUnproven", input.set === undefined],
    ["mayNotSet", rating <= 1],
    ["bedProtected", any((_, name) => PROTECTED.has(name))],
    ["hooksOnly", any((_, name) => name === "rock" || name === "stones, cobbles, boulders")],
    ["pullLifts", input.pullAngleDeg > 0],
    ["mayNotResetAfterVeer", a.mayNotReset],
    [
      "mayCapsizeOnHardGround",
      a.mayCapsize && any(({ soil, relative }) => soil === "hard" || relative === null),
    ],
    ["clingsToMud", a.clingsToMud && any(({ cohesive }) => cohesive)],
  ];
  return cautions.flatMap(([code, applies]) => (applies ? [code] : []));
}
