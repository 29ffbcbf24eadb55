import { isGrave } from "../core/judgement.js";
import { fromPlan } from "./asPlan.js";
import { GOING, type Advice } from "./adviceTypes.js";
import type { PlanReason } from "./criteria.js";
import type { StayPlan } from "./planStay.js";
import { clockOf, reasonText, type Clock } from "./words.js";

/** When, and why, a berth stops being safe. */
export interface SafeUntil {
  /** First instant at which it is not safe; null where none is known. */
  atMs: number | null;
  /** Whether everything the judgement needs is known throughout; if not, `atMs` of null says nothing. */
  known: boolean;
  /** The answer in a sentence, on the vessel's own clock. */
  text: string;
  /** The reason of that instant, with its figure, limit and basis; null where there is none. */
  reason: PlanReason | null;
  /** Every warning and stop of the stay in the order of their hours, that one among them. */
  then: PlanReason[];
  /** What to do about it and by when; null where nothing is advised. */
  advice: Advice | null;
}

/** The hour from which the berth is not safe, and why, in a sentence. */
export function dangerText({ danger, stay, reasons }: StayPlan, clock: Clock): string {
  const { atMs, reason } = danger;
  if (atMs === null || reason === null) {
    // The chart warns of a place, not of an hour.
    const stands = reasons.find((r) => isDanger(r) && r.fromMs === undefined);
    if (stands !== undefined)
      return `A warning stands at every hour: ${reasonText(stands)}.${danger.known ? "" : " Not everything is known."}`;
    return danger.known
      ? "No hour of the stay is known to be unsafe."
      : "No hour is known to be unsafe, but not everything is known.";
  }
  const why = reasonText(reason);
  return atMs <= stay.fromMs
    ? `It is not safe from letting go on: ${why}.`
    : `It stops being safe at ${clock.hour(atMs)} on ${clock.day(atMs)}: ${why}.`;
}

/** Whether a reason is known to make the berth unsafe. */
const isDanger = (r: PlanReason): boolean => isGrave(r.severity) && !r.code.startsWith("unknown.");

/**
 * At what hour a planned berth stops being safe, and why, with all that makes it unsafe after that.
 *
 * Read from the plan alone, so that it may be asked again at any time. An hour is unsafe where a warning or a stop
 * begins; cautions do not count. Leaves out everything the plan could not judge: `known` tells whether there is any.
 *
 * *Valid* for any plan. *Accuracy*: that of the plan; instants between its steps by straight line.
 *
 * @throws InputError for anything that is no plan.
 * @source see `basis` of each reason
 */
export function safeUntil(plan: StayPlan): SafeUntil {
  return fromPlan(plan, untilOf);
}

function untilOf(plan: StayPlan): SafeUntil {
  const { danger, reasons, advice, zoneOffsetMinutes } = plan;
  const { atMs, known, reason } = danger;
  return {
    atMs,
    known,
    text: dangerText(plan, clockOf(zoneOffsetMinutes)),
    reason,
    then: reasons
      .filter(isDanger)
      .sort((a, b) => (a.fromMs ?? -Infinity) - (b.fromMs ?? -Infinity)),
    advice: atMs === null ? null : (advice.find((a) => GOING.has(a.code)) ?? null),
  };
}
