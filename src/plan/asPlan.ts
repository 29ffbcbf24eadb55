import { refuse } from "../core/errors.js";
import type { StayPlan } from "./planStay.js";

/** Parts without which nothing of a plan can be told or drawn. */
const PARTS = ["stay", "moments", "limiting", "rode", "room", "reasons", "signals"] as const;

/** The plan itself, or an InputError for anything that is no plan of this version. */
export function asPlan(plan: StayPlan): StayPlan {
  const given: unknown = plan;
  const found =
    typeof given === "object" &&
    given !== null &&
    "version" in given &&
    given.version === 1 &&
    PARTS.every((part) => typeof (given as Record<string, unknown>)[part] === "object");
  return found ? plan : refuse("", "not_a_plan", "expected a plan as planStay gives it");
}
