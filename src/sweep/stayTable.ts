import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { bedNames } from "../holding/beds.js";
import { MASS_BOUNDS } from "./holdingTable.js";
import { inputRow, wordRow, type Output, type Parameter } from "./model.js";

/** Places of the inputs of a whole stay. */
export const STAY_IN = {
  windFactor: 0,
  windTurnDeg: 1,
  surgeM: 2,
  streamFactor: 3,
  chartedDepthM: 4,
  lengthOutM: 5,
  draughtM: 6,
  anchorMassKg: 7,
  anchorType: 8,
  seabed: 9,
  eastM: 10,
  northM: 11,
} as const;

/** Inputs of a whole stay, in the order of {@link STAY_IN}: each changes one thing of the stay that is given. */
export const STAY_PARAMETERS: Parameter[] = [
  inputRow("windFactor", "1", "wind and gusts of the forecast, multiplied by this", 0, 5, 1),
  inputRow(
    "windTurnDeg",
    "deg",
    "directions of the forecast, turned clockwise by this",
    -180,
    180,
    0,
  ),
  inputRow("surgeM", "m", "added to the height of tide and its surge", -5, 5, 0),
  inputRow("streamFactor", "1", "rates of the stream, multiplied by this", 0, 5, 1),
  inputRow(
    "chartedDepthM",
    "m",
    "charted depth at the anchor, in place of that of the stay",
    -15,
    500,
    NaN,
  ),
  inputRow("lengthOutM", "m", "length of rode out, in place of that of the stay", 0.5, 4000, NaN),
  inputRow("draughtM", "m", "draught of the vessel", 0.1, 20, NaN),
  inputRow("anchorMassKg", "kg", "mass of the anchor", MASS_BOUNDS.min, MASS_BOUNDS.max, NaN),
  wordRow("anchorType", "type of the anchor", ANCHOR_TYPES),
  wordRow("seabed", "the bed", bedNames),
  inputRow(
    "eastM",
    "m",
    "the anchor, moved east by this, where the chart and not the stay tells depth and bed",
    -20_000,
    20_000,
    0,
  ),
  inputRow(
    "northM",
    "m",
    "the anchor, moved north by this, where the chart and not the stay tells depth and bed",
    -20_000,
    20_000,
    0,
  ),
];

/** Words of the verdict, the best first. */
export const VERDICTS = ["suitable", "withCare", "unsuitable", "cannotTell"] as const;

/** Places of the outputs of a whole stay. */
export const STAY_OUT = {
  leastDepthM: 0,
  greatestDepthM: 1,
  underKeelM: 2,
  underKeelLowM: 3,
  pullN: 4,
  gustPullN: 5,
  gustPullHighN: 6,
  reachM: 7,
  pullAngleDeg: 8,
  rodeOutM: 9,
  lengthForPullM: 10,
  holdingRatio: 11,
  holdingRatioWorst: 12,
  verdict: 13,
  stops: 14,
  warnings: 15,
  unknowns: 16,
  underKeelSwingM: 17,
  roomM: 18,
  waveHeightM: 19,
  safeForH: 20,
} as const;

/** The first output that needs the whole plan, chart and sea included. */
export const FIRST_WHOLE = STAY_OUT.verdict;

const row = (name: string, unit: string, what: string, words?: readonly string[]): Output => ({
  name,
  unit,
  what,
  ...(words !== undefined && { words }),
});

/** Outputs of a whole stay, in the order of {@link STAY_OUT}; none where a moment of the stay is not known. */
export const STAY_OUTPUTS: Output[] = [
  row("leastDepthM", "m", "least likely depth at the anchor"),
  row("greatestDepthM", "m", "greatest likely depth at the anchor"),
  row("underKeelM", "m", "least likely water under the keel at the anchor"),
  row("underKeelLowM", "m", "the same with the errors of tide and surge on the low side"),
  row("pullN", "N", "greatest mean pull"),
  row("gustPullN", "N", "greatest pull in a gust over the fan of winds, yawing as usual"),
  row("gustPullHighN", "N", "the same, yawing as far as is reported"),
  row("reachM", "m", "greatest distance from the anchor to the bow, in the gust"),
  row("pullAngleDeg", "deg", "greatest angle of the pull at the anchor above the bed, in the gust"),
  row("rodeOutM", "m", "length of rode out: as given, else what the plan would veer"),
  row("lengthForPullM", "m", "length for the pull to lead along the bed in the worst gust"),
  row("holdingRatio", "1", "least of likely holding over pull in a gust; 1e9 where nothing pulls"),
  row(
    "holdingRatioWorst",
    "1",
    "least of lowest credible holding over the pull when yawing as far as is reported; 1e9 where nothing pulls",
  ),
  row("verdict", "word", "what the plan says of the berth", VERDICTS),
  row("stops", "1", "number of reasons that rule the berth out"),
  row("warnings", "1", "number of reasons that warn"),
  row("unknowns", "1", "number of things the judgement needs and does not know"),
  row("underKeelSwingM", "m", "least water under the keel anywhere she may swing, at the worst"),
  row(
    "roomM",
    "m",
    "least room to neighbours, shore and hazards over the fan of winds; none where nothing is near or known",
  ),
  row("waveHeightM", "m", "greatest expected wave height"),
  row(
    "safeForH",
    "h",
    "hours until the berth first stops being safe; the whole stay where it does not and all is known",
  ),
];
