import type { CheckedSweep } from "./input.js";
import type { Model } from "./model.js";
import { checkStatics, staticsModel } from "./statics.js";

/** The model of a sweep, and what refuses a choice of inputs and outputs that does not fit it. */
export function modelOf(spec: CheckedSweep): {
  model: Model;
  check: (given: ReadonlySet<number>, wanted: ReadonlySet<number>) => void;
} {
  const { statics } = spec;
  if (statics === undefined) throw new Error("whole stays are not laid out here");
  return {
    model: staticsModel(statics),
    check: (given, wanted) => {
      checkStatics(statics, given, wanted);
    },
  };
}
