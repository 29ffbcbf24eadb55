import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { bedNames } from "../holding/beds.js";
import { MASS_BOUNDS } from "./holdingTable.js";
import { inputRow, wordRow, type Output, type Parameter } from "./model.js";

/** Places of the inputs of the statics model. An enumeration, for the builder writes its numbers where they are used. */
export enum IN {
  windMps = 0,
  windFromDeg = 1,
  streamMps = 2,
  streamTowardsDeg = 3,
  yawDeg = 4,
  depthM = 5,
  bowHeightM = 6,
  lengthOutM = 7,
  scope = 8,
  chainM = 9,
  chainWeightNPerM = 10,
  chainStiffnessN = 11,
  ropeWeightNPerM = 12,
  ropeStiffnessN = 13,
  breakingN = 14,
  anchorMassKg = 15,
  anchorType = 16,
  seabed = 17,
}

/** Figures that the vessel and her rode bring with them. */
export interface StaticsFigures {
  bowHeightM: number;
  chainWeightNPerM: number;
  chainStiffnessN: number;
  ropeWeightNPerM: number;
  ropeStiffnessN: number;
  breakingN: number;
}

const weatherRows = (f: StaticsFigures): Parameter[] => [
  inputRow(
    "windMps",
    "m/s",
    "wind that pulls: a gust where it is the gust that counts",
    0,
    90,
    null,
  ),
  inputRow("windFromDeg", "deg", "direction the wind comes from", 0, 360, 0, true),
  inputRow("streamMps", "m/s", "rate of the stream", 0, 12, 0),
  inputRow("streamTowardsDeg", "deg", "direction the stream runs towards", 0, 360, 0, true),
  inputRow(
    "yawDeg",
    "deg",
    "yawing off the heading, which shows more of her side to the wind",
    0,
    90,
    0,
  ),
  inputRow("depthM", "m", "depth of water at the anchor", 0.1, 500, null),
  inputRow("bowHeightM", "m", "height of the bow roller above the water", 0, 30, f.bowHeightM),
];

const tackleRows = (f: StaticsFigures): Parameter[] => [
  inputRow(
    "lengthOutM",
    "m",
    "length of rode out, from the bow roller; this, or scope",
    0.5,
    4000,
    NaN,
  ),
  inputRow("scope", "1", "length of rode out over the depth of water", 1, 100, NaN),
  inputRow(
    "chainM",
    "m",
    "length of chain next to the anchor, rope above it; all chain unless there is rope",
    0,
    4000,
    NaN,
  ),
  inputRow("chainWeightNPerM", "N/m", "weight of the chain in water", 0.1, 1e4, f.chainWeightNPerM),
  inputRow(
    "chainStiffnessN",
    "N",
    "load per unit strain of the chain",
    1e3,
    1e12,
    f.chainStiffnessN,
  ),
  inputRow("ropeWeightNPerM", "N/m", "weight of the rope in water", 1e-3, 1e4, f.ropeWeightNPerM),
  inputRow("ropeStiffnessN", "N", "load per unit strain of the rope", 1e3, 1e12, f.ropeStiffnessN),
  inputRow("breakingN", "N", "breaking load of the weakest of the rode", 1, 1e9, f.breakingN),
  inputRow("anchorMassKg", "kg", "mass of the anchor", MASS_BOUNDS.min, MASS_BOUNDS.max, NaN),
  wordRow("anchorType", "type of the anchor", ANCHOR_TYPES),
  wordRow("seabed", "the bed", bedNames),
];

/** Inputs of the statics model, in the order of {@link IN}. */
export const staticsParameters = (f: StaticsFigures): Parameter[] => [
  ...weatherRows(f),
  ...tackleRows(f),
];

const output = (name: string, unit: string, what: string): Output => ({ name, unit, what });

/** Places of the outputs of the statics model. */
export enum OUT {
  pullN = 0,
  rodeOutM = 1,
  scopeOverBow = 2,
  reachM = 3,
  swingRadiusM = 4,
  bowTensionN = 5,
  pullAngleDeg = 6,
  onBottomM = 7,
  leadsAlongBed = 8,
  holdingN = 9,
  holdingLowN = 10,
  holdingUsed = 11,
  holdingUsedWorst = 12,
  strengthUsed = 13,
}

/** Outputs that need the anchor and the bed. */
export const HOLDING_OUTPUTS: readonly number[] = [
  OUT.holdingN,
  OUT.holdingLowN,
  OUT.holdingUsed,
  OUT.holdingUsedWorst,
];

/** Outputs of the statics model, in the order of {@link OUT}. */
export const STATICS_OUTPUTS: Output[] = [
  output("pullN", "N", "horizontal pull on the rode"),
  output("rodeOutM", "m", "length of rode out"),
  output("scopeOverBow", "1", "length out over depth and height of the bow together"),
  output("reachM", "m", "horizontal distance from the anchor to the bow"),
  output("swingRadiusM", "m", "reach and length of the vessel together"),
  output("bowTensionN", "N", "tension at the bow"),
  output("pullAngleDeg", "deg", "angle of the pull at the anchor above the bed"),
  output("onBottomM", "m", "length of rode on the bottom"),
  output(
    "leadsAlongBed",
    "1",
    "1 where the pull leads along the bed at the anchor, 0 where it lifts",
  ),
  output(
    "holdingN",
    "N",
    "likely holding at that angle; none where no figure is honest for the bed",
  ),
  output(
    "holdingLowN",
    "N",
    "lowest credible holding at that angle; none where no figure is honest",
  ),
  output(
    "holdingUsed",
    "1",
    "pull over likely holding: above 1 she drags; none where nothing is left or known of the holding",
  ),
  output(
    "holdingUsedWorst",
    "1",
    "pull over the lowest credible holding; none where nothing is left or known of it",
  ),
  output(
    "strengthUsed",
    "1",
    "tension at the bow over the breaking load of the weakest of the rode",
  ),
];
