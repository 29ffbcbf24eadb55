import { check } from "../core/check.js";
import { basisOf, assumedOf, reasonsOf } from "./shelterReasons.js";
import { columnsOf } from "./columns.js";
import { opensTo } from "./opens.js";
import { prepareStay } from "./prepareStay.js";
import { runStay } from "./run.js";
import { type CheckedShelter, shelterInput, type ShelterInput } from "./shelterInput.js";
import type { Shelter } from "./shelterTypes.js";
import { riskiestOf, summaryOf } from "./summary.js";
import { tippingOf } from "./tipping.js";

/**
 * How sheltered a berth is over a stay: from what, until when, and how sure that is.
 *
 * For every hour the sea of each direction the forecast wind may take, over its fetch and the time it has blown,
 * together with the swell that finds its way in; expected and worst height, how likely it passes a limit, and a
 * class of comfort. An hour without forecast is unknown and counts as the worst. Leaves out wind shadow, which is
 * never credited, and current refraction, set-up, weed, boat wakes, land and fall winds, and surge.
 *
 * *Valid* for wind waves over fetch below 120 km. *Accuracy*: plan on ±30 % in height for the right wind, and a
 * factor of two for swell; heights of one direction differ from those over the spread by up to two.
 *
 * @throws InputError for a forecast out of order, or a fan or stay that is not one.
 * @source ACES v1.07 Technical Reference, 1992; classes of comfort and the spread of the forecast are proposed, not published
 * @example
 * ```ts
 * import { shelter } from "hawse/shelter";
 *
 * const bearingsDeg = Array.from({ length: 36 }, (_, i) => 10 * i);
 * const fan = {
 *   bearingsDeg,
 *   fetchM: bearingsDeg.map((b) => (b < 180 ? 250 : 6000)),
 *   ends: bearingsDeg.map(() => "coast" as const),
 * };
 * const at = (n: number) => Date.UTC(2026, 5, 1, 12 + n);
 * const { hours, riskiestHour } = shelter({
 *   fan,
 *   stay: { fromMs: at(0), toMs: at(6) },
 *   stepMs: 2 * 3_600_000,
 *   forecast: {
 *     rows: [
 *       { timeMs: at(0), windMps: 6, windFromDeg: 90 },
 *       { timeMs: at(6), windMps: 9, windFromDeg: 240 },
 *     ],
 *   },
 * });
 * console.log(hours.comfort.join(", "));
 * // comfortable, tolerable, poor, poor
 * console.log(hours.heightM.likely.map((h) => h?.toFixed(2)).join(" "), riskiestHour.timeMs === at(6));
 * // 0.08 0.21 0.36 0.47 true
 * ```
 */
export function shelter(input: ShelterInput): Shelter {
  return shelterChecked(check(shelterInput, input));
}

/** {@link shelter} for input that has been checked. */
export function shelterChecked(input: CheckedShelter): Shelter {
  const stay = prepareStay(input);
  const steps = runStay(stay);
  return {
    hours: columnsOf(steps),
    limitM: input.limitM,
    opensTo: opensTo(stay, steps),
    riskiestHour: riskiestOf(steps),
    toUntenable: tippingOf(stay, steps),
    summary: summaryOf(steps, input.stepMs),
    reasons: reasonsOf(stay, steps),
    assumed: assumedOf(input),
    basis: basisOf(input),
  };
}
