import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { BELL, LENGTH } from "./tables.js";
import { lengthOverall } from "./vessel.js";

/** Input of `soundEquipment`. */
export const input = z.strictObject({
  /** Length overall. */
  lengthM: lengthOverall,
});
/** Input of {@link soundEquipment}. */
export type SoundEquipmentInput = Given<typeof input>;

/** What a vessel must carry to make sound signals. */
export interface SoundEquipment {
  /** Whether a whistle is owed. */
  whistle: boolean;
  /** Bell; null where none is owed. */
  bell: {
    /** Least diameter of the mouth, m. */
    leastMouthM: number;
    /** Least sound pressure level at 1 m, dB. */
    leastLevelDb: number;
    /** Least mass of the striker in parts of the bell's. */
    leastStrikerShare: number;
  } | null;
  /** Whether a gong is owed, of a tone not to be confused with the bell's. */
  gong: boolean;
  /** Whether some other means of an efficient sound signal will do. */
  otherMeansWillDo: boolean;
  /** Paragraphs used. */
  rules: string[];
}

/**
 * Sound-signalling equipment a vessel of a length must carry.
 *
 * Whistle from 12 m, bell from 20 m, gong from 100 m; under 12 m some means of an efficient
 * signal. Books from before the amendments in force in November 2003 ask for the bell from 12 m.
 *
 * *Valid*: international rules and US Inland. *Accuracy*: the text of the rule.
 * @throws InputError for a length that is not positive.
 * @source COLREGS 1972 as amended, Rule 33 and Annex III, 2
 * @example
 * ```ts
 * import { soundEquipment } from "hawse/signals";
 *
 * const { whistle, bell } = soundEquipment({ lengthM: 14 });
 * console.log(whistle, bell);
 * // true null
 * ```
 */
export function soundEquipment(given: SoundEquipmentInput): SoundEquipment {
  const { lengthM } = check(input, given);
  return {
    whistle: lengthM >= LENGTH.smallM,
    bell:
      lengthM >= LENGTH.bellM
        ? {
            leastMouthM: BELL.mouthM,
            leastLevelDb: BELL.levelDb,
            leastStrikerShare: BELL.strikerShare,
          }
        : null,
    gong: lengthM >= LENGTH.gongM,
    otherMeansWillDo: lengthM < LENGTH.smallM,
    rules: [
      lengthM < LENGTH.smallM ? "33(b)" : "33(a)",
      ...(lengthM >= LENGTH.bellM ? ["Annex III 2"] : []),
    ],
  };
}
