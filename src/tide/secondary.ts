import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { applyDifferences, type SecondaryTurn } from "./differences.js";
import { withKinds } from "./kinds.js";
import { differences, type Differences } from "./difference-table.js";
import { ascending, turn } from "./source.js";

const turnRows = z.array(turn).check(z.minLength(1), z.check(ascending));
/** Turns of a standard port as a caller writes them. */
export type TurnRows = Given<typeof turnRows>;
/** Differences as a caller writes them. */
export type DifferencesInput = Given<typeof differences>;

/**
 * High and low waters of a secondary port from those of its standard port.
 *
 * Time differences are read at the hour of the day in the zone of the table, linear between the tabulated hours
 * and round midnight; height differences at the standard port's height, linear between the tabulated heights, or
 * a ratio. A seasonal change is taken off first and the secondary port's own added last. The differences are mean
 * ones: the day's own departure from them is left out.
 *
 * *Valid*: heights beyond the tabulated ones are extrapolated and flagged.
 *
 * *Accuracy*: against published subordinate stations 1 to 3 min and 0.3 to 4 cm.
 *
 * @throws InputError when turns or differences are not well formed.
 * @source NOAA Tide Tables, table 2 (ratio and time differences); Admiralty-style differences: common practice
 * @example
 * ```ts
 * import { minutes, utc } from "hawse";
 * import { secondaryTurns } from "hawse/tide";
 *
 * const [high] = secondaryTurns(
 *   [{ timeMs: utc("2026-06-01T18:46Z"), heightM: 6.1, kind: "high" }],
 *   {
 *     tableZoneHours: 0,
 *     highTime: [
 *       { hourOfDay: 15, differenceMs: minutes(51) },
 *       { hourOfDay: 21, differenceMs: minutes(44) },
 *     ],
 *     lowTime: [{ hourOfDay: 0, differenceMs: 0 }],
 *     highHeight: { ratio: 0.9 },
 *     lowHeight: { ratio: 0.9 },
 *   },
 * );
 * console.log(new Date(high!.timeMs).toISOString().slice(11, 16), high!.heightM.toFixed(2));
 * // 19:32 5.49
 * ```
 */
export function secondaryTurns(standardTurns: TurnRows, of: DifferencesInput): SecondaryTurn[] {
  return secondaryTurnsOf(check(turnRows, standardTurns), check(differences, of));
}

/** Turns of a secondary port from checked input. */
export const secondaryTurnsOf = (
  rows: z.output<typeof turnRows>,
  of: Differences,
): SecondaryTurn[] => {
  if (rows.length === 1 && rows[0]!.kind === undefined)
    refuse("[0].kind", "unknown_kind", "a lone turn must say whether it is high or low water");
  return withKinds(rows).map((t) => applyDifferences(t, of));
};
