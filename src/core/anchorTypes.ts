/** Anchor types, by generic words. */
export const ANCHOR_TYPES = [
  "fisherman",
  "hingedPlough",
  "fixedPlough",
  "claw",
  "pivotingFluke",
  "rollBarScoop",
  "grapnel",
  "stockless",
] as const;
/** Type of an anchor, by its generic word. */
export type AnchorType = (typeof ANCHOR_TYPES)[number];
