import { MEAN_INTERVAL_MS, SUSPECT } from "./error.js";
import type { Turn } from "./kinds.js";
import type { TideType } from "./source.js";

const HOUR_MS = 3_600_000;
/** Two high (or low) waters this close are the two ends of a stand. */
const STAND_MS = 4 * HOUR_MS;

/** Median of a list; NaN for an empty one. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const mid = sorted.length >>> 1;
  if (sorted.length % 2 === 1) return sorted[mid]!;
  return (sorted[mid - 1]! + sorted[mid]!) / 2;
}

/**
 * Longest interval between turns that the kind of tide allows, hours: the longest in years of made-up constants, with
 * a margin. Up to a form number of 0.4 no turn vanishes (longest 9.2 h), from there to 1.5 a pair may (17.1 h); a pair
 * left out of a table makes 18.6 h.
 */
const LONGEST_HOURS: readonly (readonly [number, number])[] = [
  [0.4, SUSPECT * 6.2103],
  [1.5, 17.5],
  [Infinity, 32],
];

/**
 * Usual interval of a table above which it is no longer one of a once-daily tide: halfway from 12.4 h to the 18.6 h of
 * a pair left out.
 */
const MOST_USUAL_MS = 2.5 * MEAN_INTERVAL_MS;

/** Usual interval of a table: the middle one, of two the shorter; where that is none of a real tide, the mean one. */
function usualMs(intervals: readonly number[]): number {
  const usual = [...intervals].sort((a, b) => a - b)[(intervals.length - 1) >>> 1]!;
  return usual > MEAN_INTERVAL_MS && usual < MOST_USUAL_MS ? usual : MEAN_INTERVAL_MS;
}

interface Table {
  turns: readonly { kind?: "high" | "low" | undefined }[];
  type?: TideType | undefined;
  complete: boolean;
}

/** Longest interval that is taken for a real one: by the kind of tide where it is told, else by the table itself. */
function longestMs(table: Table, intervals: readonly number[]): number {
  if (table.complete) return Infinity;
  const type = table.type;
  if (type !== undefined)
    return LONGEST_HOURS.find(([form]) => type.formNumber < form)![1] * HOUR_MS;
  const told = table.turns.every((t) => t.kind !== undefined);
  return SUSPECT * (told ? usualMs(intervals) : MEAN_INTERVAL_MS);
}

/**
 * Pieces between turns in which a turn seems to be missing: too long, or not from a high to a low water.
 * A curve drawn across such a piece may be wrong by the whole range.
 */
export function suspectPieces(table: Table, turns: readonly Turn[]): boolean[] {
  const intervals = turns.slice(1).map((t, i) => t.timeMs - turns[i]!.timeMs);
  const longest = longestMs(table, intervals);
  return intervals.map((d, i) => {
    const a = turns[i]!;
    const b = turns[i + 1]!;
    const stand = d <= STAND_MS;
    if (!(d <= longest)) return true;
    if (a.kind === b.kind) return !stand;
    return b.kind === "high" ? !(b.heightM >= a.heightM) : !(b.heightM <= a.heightM);
  });
}
