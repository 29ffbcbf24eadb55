import type { Study } from "./study.js";

/** What every plan says, whatever its verdict. */
const ALWAYS = [
  "Advice only. Chart, rules and what you see come first; you decide.",
  "No figure is less certain than the holding: prove the anchor.",
  "Look again when forecast, chart or tide table change.",
];

/** Cautions of a stay. */
export function cautionsOf(s: Study): string[] {
  const { bed, grip, anchorDepth } = s;
  const shelter = s.sea.shelter?.reasons ?? [];
  return [
    ...ALWAYS,
    ...(bed.from === "chart" && bed.sampleM !== null
      ? [`The bed was sampled ${Math.round(bed.sampleM)} m away: see what the anchor brings up.`]
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
