import type { ShelterHours } from "./shelterTypes.js";
import type { Step } from "./run.js";

const known = (x: number): number | null => (Number.isNaN(x) ? null : x);

/** Steps of a stay as columns. */
export function columnsOf(steps: readonly Step[]): ShelterHours {
  const column = (pick: (step: Step) => number): (number | null)[] =>
    steps.map((step) => known(pick(step)));
  const ofSwell = ({ sea, moment }: Step): boolean => moment.swellM > sea.windSeaM;
  return {
    timeMs: steps.map((s) => s.timeMs),
    heightM: {
      low: column((s) => s.sea.lowM),
      likely: column((s) => s.sea.heightM),
      high: column((s) => s.sea.highM),
    },
    worstM: column((s) => s.sea.worstM),
    worstFromDeg: column((s) => s.sea.worstFromDeg),
    windSeaM: column((s) => s.sea.windSeaM),
    swellM: column((s) => s.moment.swellM),
    periodS: column((s) => (ofSwell(s) && s.swell.periodS > 0 ? s.swell.periodS : s.sea.periodS)),
    fromDeg: column((s) => (ofSwell(s) ? s.moment.swellFromDeg : s.sea.fromDeg)),
    overLimit: column((s) => s.sea.overLimit),
    poor: column((s) => s.sea.poor),
    untenable: column((s) => s.sea.untenable),
    comfort: steps.map((s) => s.sea.comfort),
    windMps: column((s) => s.wind.windMps),
    windFromDeg: column((s) => s.wind.windFromDeg),
    gustMps: column((s) => s.wind.gustMps),
  };
}
