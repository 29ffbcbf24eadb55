import { chartOf } from "../plan/ground.js";
import type { CheckedStay } from "../plan/input.js";
import { judge } from "../plan/judge.js";
import { leastKnown } from "../plan/criteria.js";
import { sceneOf } from "../plan/scene.js";
import { studyOf, type Study } from "../plan/study.js";
import { oneByOne, type Model } from "./model.js";
import { changedStay } from "./stayChange.js";
import { fastStay } from "./stayFast.js";
import { FIRST_WHOLE, STAY_OUT, STAY_OUTPUTS, STAY_PARAMETERS, VERDICTS } from "./stayTable.js";

const HOUR_MS = 3_600_000;

/** What is given where no outputs are asked for: all that can be had in about a millisecond. */
const USUAL = STAY_OUTPUTS.map((_, i) => i).filter(
  (i) => i < FIRST_WHOLE && i !== STAY_OUT.lengthForPullM,
);

/** A whole stay, planned anew for every scenario; only what the outputs need. */
export function stayModel(stay: CheckedStay): Model {
  return {
    name: "stay",
    chunkRows: 64,
    parameters: STAY_PARAMETERS,
    outputs: STAY_OUTPUTS,
    sources: ["the plan of a stay at anchor: see the function planStay"],
    usual: () => USUAL,
    prepare: (_, wanted) => {
      const base = sceneOf(stay);
      const fast = fastStay(stay, base, chartOf(stay), wanted.has(STAY_OUT.lengthForPullM));
      const first = Math.min(...wanted);
      const last = Math.max(...wanted);
      const one = (p: Float64Array, out: Float64Array) => {
        if (first < FIRST_WHOLE) fast(p, out);
        if (last >= FIRST_WHOLE) whole(changedStay(stay, base, p), out);
      };
      return oneByOne(one, STAY_PARAMETERS.length, STAY_OUTPUTS.length);
    },
  };
}

/** Everything the plan judges by, chart and sea included. */
function whole(stay: CheckedStay, out: Float64Array): void {
  const s = studyOf(stay);
  const { verdict, reasons, unknown, danger } = judge(s);
  const count = (severity: string) =>
    reasons.filter((r) => r.severity === severity && !unknown.includes(r.code)).length;
  out[STAY_OUT.verdict] = VERDICTS.indexOf(verdict);
  out[STAY_OUT.stops] = count("stop");
  out[STAY_OUT.warnings] = count("warning");
  out[STAY_OUT.unknowns] = unknown.length;
  out[STAY_OUT.underKeelSwingM] = leastOf(s.underKeelLeastM);
  out[STAY_OUT.roomM] = roomOf(s);
  out[STAY_OUT.waveHeightM] = waveOf(s);
  const { fromMs, toMs } = stay.stay;
  const untilMs = danger.atMs ?? (danger.known ? toMs : NaN);
  out[STAY_OUT.safeForH] = (untilMs - fromMs) / HOUR_MS;
}

/** The least, NaN if one is not known. */
const leastOf = (values: Float64Array): number =>
  values.some((v) => Number.isNaN(v)) ? NaN : (values[leastKnown(values)] ?? NaN);

function roomOf(s: Study): number {
  const rooms = [
    ...(s.neighbours ?? []).map((n) => n.margin.fanM),
    ...(s.shore === null ? [] : [s.shore.fanM]),
    ...s.hazards.map((h) => h.margin.fanM),
  ].map(leastOf);
  const room = Math.min(...rooms);
  return Number.isFinite(room) ? room : NaN;
}

function waveOf(s: Study): number {
  const heights = s.sea.shelter?.hours.heightM.likely ?? [null];
  return heights.some((h) => h === null) ? NaN : Math.max(...heights.map((h) => h!));
}
