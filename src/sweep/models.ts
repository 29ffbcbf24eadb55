import type { CheckedSweep } from "./input.js";
import type { Model } from "./model.js";
import { checkStatics, staticsModel } from "./statics.js";
import { stayModel } from "./stay.js";

/** The model of a sweep, and what refuses a choice of inputs and outputs that does not fit it. */
export function modelOf({ statics, stay }: CheckedSweep): {
  model: Model;
  check: (given: ReadonlySet<number>, wanted: ReadonlySet<number>) => void;
} {
  if (statics === undefined) return { model: stayModel(stay!), check: () => undefined };
  return {
    model: staticsModel(statics),
    check: (given, wanted) => {
      checkStatics(statics, given, wanted);
    },
  };
}
