/**
 * One step of a stage as it is written down. In `text`, `{name|words}` stands for a figure of the plan;
 * without a plan, or where the figure is not known, the words stand instead.
 */
export interface StepText {
  id: string;
  text: string;
  why: string;
}

/** A step as it is written down. */
export const step = (id: string, text: string, why: string): StepText => ({ id, text, why });
