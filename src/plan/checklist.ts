import * as z from "zod/mini";
import { check } from "../core/check.js";
import { figuresOf, type FigureTexts } from "./stageFigures.js";
import type { StepText } from "./stageSteps.js";
import { BEFORE_ARRIVAL, LAYING, PREPARING, SETTING, SIGNALS } from "./stagesArriving.js";
import { BEFORE_LEAVING, WASHING, WEIGHING } from "./stagesLeaving.js";
import { ENGINE_FAILURE, LYING, VEERING, WATCH } from "./stagesLying.js";
import type { StayPlan } from "./planStay.js";

const STEPS = {
  beforeArrival: BEFORE_ARRIVAL,
  preparing: PREPARING,
  laying: LAYING,
  signals: SIGNALS,
  setting: SETTING,
  lying: LYING,
  watch: WATCH,
  veering: VEERING,
  engineFailure: ENGINE_FAILURE,
  beforeLeaving: BEFORE_LEAVING,
  weighing: WEIGHING,
  washing: WASHING,
} as const;

/** One stage of a stay at anchor. */
export type StageId = keyof typeof STEPS;

/** A stage, for a list to choose from. */
export interface Stage {
  /** Its name in code. */
  id: StageId;
  /** Its name on the page. */
  title: string;
  /** Whether it comes in its turn, or whenever it is needed. */
  when: "inTurn" | "whenNeeded";
}

/** The stages of a stay at anchor, in the order they come. */
export const stages: readonly Stage[] = [
  { id: "beforeArrival", title: "Before arrival", when: "inTurn" },
  { id: "preparing", title: "Preparing the tackle", when: "inTurn" },
  { id: "signals", title: "Signals between foredeck and helm", when: "inTurn" },
  { id: "laying", title: "Laying the anchor", when: "inTurn" },
  { id: "setting", title: "Setting and proving it", when: "inTurn" },
  { id: "lying", title: "Lying at anchor", when: "inTurn" },
  { id: "watch", title: "Keeping watch", when: "inTurn" },
  { id: "veering", title: "Veering more cable", when: "whenNeeded" },
  { id: "engineFailure", title: "If the engine fails", when: "whenNeeded" },
  { id: "beforeLeaving", title: "Before leaving", when: "inTurn" },
  { id: "weighing", title: "Weighing", when: "inTurn" },
  { id: "washing", title: "Washing and stowing", when: "inTurn" },
];

/** One step, to be shown and ticked. */
export interface Step {
  /** Name of the step within its stage; it does not change with the plan. */
  id: string;
  /** What to do, with the figures of the plan where one is given. */
  text: string;
  /** Why. */
  why: string;
  /** Figures that stand in the text, by name; those that are not known are left out. */
  figures?: Record<string, number>;
}

const stageId = z.enum(Object.keys(STEPS) as StageId[]);

/**
 * The steps of one stage of a stay at anchor, in order, each with its reason, to be shown and ticked.
 *
 * With a plan its figures stand in the text: lengths, limits, hours on the vessel's clock. Without one, or where a
 * figure is not known, the text says in words what belongs there. It leaves out what hangs on one vessel's gear alone.
 *
 * *Valid* for any plan. *Accuracy*: that of the plan; lengths are shown to the decimetre.
 *
 * @throws InputError for a stage that is none.
 * @source common practice, no source
 * @example
 * ```ts
 * import { checklist } from "hawse/plan";
 * console.log(checklist("weighing").map((s) => s.id).join(", "));
 * // motorUp, upAndDown, makeFast, breakOut, ifFast, takeIn, shapeDown
 * console.log(checklist("laying")[2].text);
 * // Let go and run out as much as the depth, no more.
 * ```
 */
export function checklist(stage: StageId, plan?: StayPlan): Step[] {
  const known = plan === undefined ? {} : figuresOf(plan);
  return STEPS[check(stageId, stage)].map((s) => filled(s, known));
}

const PLACE = /\{(\w+)\|([^}]*)\}/g;

function filled({ id, text, why }: StepText, known: FigureTexts): Step {
  const figures: Record<string, number> = {};
  const told = text.replace(PLACE, (_, name: string, words: string) => {
    const figure = known[name];
    if (figure === undefined) return words;
    Object.assign(figures, figure.values);
    return figure.text;
  });
  return { id, text: told, why, ...(Object.keys(figures).length > 0 && { figures }) };
}
