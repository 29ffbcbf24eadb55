import type { Study } from "./study.js";

/** What every plan says, whatever its verdict. */
const ALWAYS = [
  "This plan advises. The chart, local rules, and what you see from the deck come first, and the decision is the skipper's.",
  "Figures of holding are good to a factor of two. Prove the anchor astern before you trust it.",
  "Forecast, chart and tide table are taken as given; look again when any of them changes.",
];

/** Cautions of a stay. */
export function cautionsOf(s: Study): string[] {
  const { bed, grip, anchorDepth } = s;
  const shelter = s.sea.shelter?.reasons ?? [];
  return [
    ...ALWAYS,
    ...(bed.from === "chart" && bed.sampleM !== null
      ? [
          `The bed is charted from a sample ${Math.round(bed.sampleM)} m away: feel what the anchor brings up.`,
        ]
      : []),
    ...(bed.ratings?.protectedBed === true
      ? ["Beds of this kind are often protected: keep off them."]
      : []),
    ...(grip?.flat.cautions.includes("mayNotResetAfterVeer") === true
      ? ["This type of anchor may not set again after the pull has turned."]
      : []),
    ...(anchorDepth.from === "caller"
      ? ["The depth at the anchor is as you gave it, reduced to datum."]
      : []),
    ...(shelter.some((r) => /edge/i.test(r.code))
      ? ["The chart ends before the open water does: the sea may be higher than reckoned."]
      : []),
  ];
}
