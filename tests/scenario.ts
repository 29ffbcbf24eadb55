import { readInput } from "../src/cli/readInput.js";
import type { StayInput } from "../src/plan/input.js";

/** The demo stay, fresh each time. */
export const demo = (): StayInput => readInput("shared/scenarios/gannick-bay.json") as StayInput;

/** A deep copy with some fields replaced. */
export const demoWith = (change: Partial<StayInput>): StayInput => ({ ...demo(), ...change });
