import type { AnchorType } from "../core/anchorTypes.js";
import type { Bed } from "./holding-matrix.js";

const SAND = ["sand, firm", "sand, hard packed", "sand, coarse or loose"] as const;
const MUD = ["mud, soft", "mud, firm", "mixed sand and mud"] as const;
const ROCK = ["rock"] as const;
const WEED = ["weed or seagrass", "kelp"] as const;

/** Basis of {@link TAUGHT_POOR}. */
export const taughtBasis = "commonly taught as poor here (common practice, no source)";

/** Beds on which common teaching calls an anchor type poor (common practice, no source). */
export const TAUGHT_POOR: Readonly<Partial<Record<AnchorType, readonly Bed[]>>> = {
  fisherman: [...SAND, ...MUD],
  hingedPlough: [...ROCK, ...WEED],
  pivotingFluke: ROCK,
  claw: ROCK,
  grapnel: [...SAND, ...MUD],
};
