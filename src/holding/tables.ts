import type { Range3, Source } from "../core/judgement.js";
import type { AnchorType } from "../core/anchorTypes.js";

/** What is known of an anchor type. */
export interface AnchorFigures {
  /** Ultimate holding over own weight of a 15 kg anchor, well set in firm sand, horizontal pull. */
  readonly sandRatio: Range3;
  /** High-holding-power type in the sense of the equipment rules. */
  readonly highHolding: boolean;
  /** Naval reference holding of a 4536 kg anchor, N, with its exponent, by soil. */
  readonly naval: Partial<Record<"soft" | "hard", NavalFigure>>;
  /** May turn or trip when the pull veers, and not set again. */
  readonly mayNotReset: boolean;
  /** May capsize on hard ground. */
  readonly mayCapsize: boolean;
  /** Hard to recover from mud. */
  readonly clingsToMud: boolean;
}

/** One row of the naval holding table. */
export interface NavalFigure {
  readonly referenceN: number;
  readonly exponent: number;
}

/** Mass of the anchors of small-craft pull tests that the ratios stand for, kg. */
export const TEST_MASS_KG = 15;
/** Mass of the reference anchor of the naval curves, kg (UFC 4-159-03, Eq. 26, read). */
export const NAVAL_MASS_KG = 4536;
/** Growth of holding with mass: 0.92 to 1.0 in soft beds ("Small versus large anchors", read); down to 0.8 in hard ones (UFC Table 5-4, from memory). */
export const EXPONENTS = {
  soft: { low: 0.92, likely: 0.92, high: 1 },
  hard: { low: 0.8, likely: 0.92, high: 1 },
} as const;
/** Spread of pull tests of small anchors (same source): runs of one anchor in one place, and carrying one size up to another. */
export const TEST_SPREAD = { runToRun: 0.5, scaleUp: 0.2 } as const;
/** The naval figures, carried down to small anchors, are good to a factor of two. */
export const NAVAL_SPREAD = 2;

const figures = (low: number, high: number, rest: Partial<AnchorFigures> = {}): AnchorFigures => ({
  sandRatio: { low, likely: Math.sqrt(low * high), high },
  highHolding: true,
  naval: {},
  mayNotReset: false,
  mayCapsize: false,
  clingsToMud: false,
  ...rest,
});

/** Anchor types. Ratios from memory of small-craft pull tests, good to a factor of two; naval figures as recalled from UFC 4-159-03 Table 5-4. */
export const ANCHORS: Record<AnchorType, AnchorFigures> = {
  fisherman: figures(3, 7, { highHolding: false }),
  stockless: figures(3, 6, {
    highHolding: false,
    mayNotReset: true,
    // Movable fluke; a fixed fluke is given 205 kN.
    naval: { soft: { referenceN: 107_000, exponent: 0.92 } },
  }),
  grapnel: figures(1, 3, { highHolding: false }),
  claw: figures(8, 15),
  hingedPlough: figures(8, 18, { mayCapsize: true }),
  fixedPlough: figures(12, 25, { mayCapsize: true }),
  rollBarScoop: figures(20, 40),
  pivotingFluke: figures(20, 50, {
    mayNotReset: true,
    clingsToMud: true,
    naval: {
      soft: { referenceN: 387_000, exponent: 0.92 },
      hard: { referenceN: 560_000, exponent: 0.8 },
    },
  }),
};

/** Where the ratios of small anchors come from. */
export const RATIO_SOURCE: Source = {
  title: "holding over weight of small anchors, well set in firm sand, factor 2 either way",
  provenance: "memory",
};
/** Where the growth with mass comes from. */
export const EXPONENT_SOURCE: Source = {
  title: "Small versus large anchors (Practical Sailor)",
  where: "exponent 0.92 to 1.0; runs differ by 50 % or more",
  provenance: "read",
};
/** Where the naval curve comes from. */
export const NAVAL_SOURCE: Source = {
  title: "UFC 4-159-03, Design: Moorings",
  where: "Eq. 26 (read); Table 5-4 (memory)",
  provenance: "memory",
};

/** Holding left at a pull angle above the bed: 5, 10 and 15 degrees from memory, the fall to nothing at 30 is ours. */
export const UPLIFT = [
  { pullAngleDeg: 0, share: 1 },
  { pullAngleDeg: 5, share: 0.75 },
  { pullAngleDeg: 10, share: 0.6 },
  { pullAngleDeg: 15, share: 0.5 },
  { pullAngleDeg: 30, share: 0 },
] as const;
/** The curve above is good to this much of the horizontal holding. */
export const UPLIFT_SPREAD = 0.2;
/** Where the curve comes from. */
export const UPLIFT_SOURCE: Source = {
  title: "old seamanship-manual rule for the pull angle, no source found",
  provenance: "memory",
};

/** Least quasi-static factors of safety (UFC 4-159-03, Table 3-7, p. 26, read): anchors on ultimate holding, lines on new breaking strength. */
export const SAFETY_FACTORS = {
  /** Stockless and balanced fluke anchors in a mooring. */
  stocklessAnchor: 1.5,
  /** High-efficiency drag anchors in a mooring. */
  highEfficiencyDragAnchor: 2,
  /** Any drag anchor of a ship lying to her own anchor. */
  shipAnchoring: 1,
  /** Piles and plates. */
  plateOrEmbeddedAnchor: 3,
  /** Chain in straight lengths. */
  chain: 3,
  /** Chain round a bend. */
  chainAroundBends: 4,
  /** Wire rope. */
  wireRope: 3,
  /** Synthetic rope; wet polyamide counts 15 % less. */
  syntheticRope: 3,
} as const;
