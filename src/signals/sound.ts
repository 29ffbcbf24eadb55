import { LENGTH, SOUND } from "./tables.js";
import type { SoundDue } from "./types.js";
import { named, type Vessel } from "./vessel.js";

/** Sound signal in or near restricted visibility, Rule 35(g) to (j). */
export function soundDue(v: Vessel): SoundDue {
  const aground = v.situation === "aground";
  const owed = v.lengthM >= LENGTH.bellM;
  const paragraph = owed
    ? aground
      ? "35(h)"
      : "35(g)"
    : v.lengthM >= LENGTH.smallM
      ? "35(i)"
      : "35(j)";
  return {
    bell: {
      owed,
      ringS: SOUND.ringS,
      mostIntervalS: SOUND.bellIntervalS,
      strokesBeforeAndAfter: aground ? SOUND.strokesAground : 0,
    },
    gong: v.lengthM >= LENGTH.gongM ? { ringS: SOUND.ringS } : null,
    alternative: owed
      ? null
      : {
          signal: "other efficient sound signal",
          mostIntervalS: SOUND.otherIntervalS,
        },
    whistle: aground ? "appropriate" : "shortProlongedShort",
    rule: named(v, paragraph),
  };
}
