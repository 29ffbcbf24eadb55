import { clockOf, metresText } from "../plan/words.js";
import type { WatchReport } from "../watch/report.js";

/** How she lies, in words. */
const MODES: Readonly<Record<WatchReport["mode"], string>> = {
  bringingUp: "bringing up",
  lying: "lying",
  uneasy: "uneasy",
  dragging: "dragging",
  blind: "blind",
  cannotTell: "cannot tell yet",
  aweigh: "aweigh",
};

/** Part of the limit she must come back within before passing it is told again. */
const BACK = 0.95;

/** Whether she lies past the limit; out of sight she is taken to lie where she was seen last. */
export function isPast(r: WatchReport, before: boolean): boolean {
  if (r.mode === "blind" || r.distanceM === null) return before;
  return r.distanceM > (before ? BACK : 1) * r.greatestDistanceM;
}

/** What of a report is worth a line: how she lies, which alarms stand, and whether she is past the limit. */
export const headline = (r: WatchReport, past: boolean): string =>
  [r.mode, past, ...r.alarms.map((a) => `${a.code}${a.acknowledged ? " acknowledged" : ""}`)].join(
    "|",
  );

/** What stands in a line beside the report itself. */
export interface Around {
  /** How she lay in the report before. */
  before: WatchReport["mode"] | null;
  /** Whether she lies past the limit. */
  past: boolean;
}

/** A line of a report. */
export function lineOf(r: WatchReport, zoneOffsetMinutes: number, around: Around): string {
  const clock = clockOf(zoneOffsetMinutes);
  const blind = r.mode === "blind";
  const again = !blind && around.before === "blind" ? "seeing again: " : "";
  const distance =
    r.distanceM === null
      ? ""
      : `, ${blind ? "last seen " : ""}${metresText(r.distanceM)} from the anchor`;
  // A drag says it all; before it she may be past the limit for minutes.
  const past = around.past && r.mode !== "dragging" ? "  past the limit" : "";
  const alarms = r.alarms
    .map((a) => (a.code === "blind" && !blind ? "  was blind" : `  ALARM ${a.code}`))
    .join("");
  return `${clock.day(r.atMs)} ${clock.time(r.atMs)}  ${again}${MODES[r.mode]}${distance} (limit ${metresText(r.greatestDistanceM)})${past}${alarms}\n`;
}
