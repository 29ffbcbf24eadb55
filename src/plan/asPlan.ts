import { readOr, refuse } from "../core/errors.js";
import type { StayPlan } from "./planStay.js";

/** Parts without which nothing of a plan can be told or drawn. */
const PARTS = ["stay", "moments", "limiting", "rode", "room", "reasons", "signals"] as const;

const isTimed = ({ stay, zoneOffsetMinutes }: StayPlan): boolean =>
  [stay.fromMs, stay.toMs, zoneOffsetMinutes].every(Number.isFinite);

/** The plan itself, or an InputError for anything that is no plan of this version. */
function asPlan(plan: StayPlan): StayPlan {
  const given: unknown = plan;
  const found =
    typeof given === "object" &&
    given !== null &&
    "version" in given &&
    given.version === 1 &&
    PARTS.every((part) => typeof (given as Record<string, unknown>)[part] === "object") &&
    isTimed(given as StayPlan);
  return found ? plan : refuse("", "not_a_plan", "expected a plan as planStay gives it");
}

/** What is told or drawn from a plan; a plan that was altered so that it cannot be read is refused as none. */
export const fromPlan = <T>(plan: StayPlan, read: (plan: StayPlan) => T): T =>
  readOr("", "not_a_plan", "not all parts of a plan are there", () => read(asPlan(plan)));
