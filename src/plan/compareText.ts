import type { Because, BerthComparison, RankedBerth } from "./compareBerths.js";
import { clockOf, fold, spareText, type Clock } from "./words.js";

const VERDICT = {
  suitable: "suitable",
  withCare: "with care",
  unsuitable: "unsuitable",
  cannotTell: "cannot tell",
} as const;

const hours = (x: number): string => `${(Math.round(x * 10) / 10).toFixed(1)} h`;

/** A figure of a reason in words, by what it is the figure of. */
function told(code: string, value: Because["value"]): string {
  if (code === "compare.danger")
    return typeof value === "number" ? `safe for ${hours(value)}` : "safe throughout";
  if (value === null) return "not known";
  if (typeof value === "string") return VERDICT[value as keyof typeof VERDICT];
  switch (code) {
    case "compare.shelter":
      return `place ${value} by shelter`;
    case "compare.holding":
      return `holding ${value.toFixed(1)} times the pull`;
    case "compare.room":
      return `${spareText(value)} of room`;
    case "compare.depth":
      return `${spareText(value)} under the keel`;
    default:
      return `way out open ${Math.round(100 * value)} % of the time`;
  }
}

function becauseText({ other, stands, code, value, against }: Because): string {
  if (stands === "level")
    return `Level with ${other}: nothing differs by more than it is good for.`;
  return `${stands === "before" ? "Before" : "After"} ${other}: ${told(code, value)} against ${told(code, against)}.`;
}

function berthLines(b: RankedBerth, clock: Clock): string[] {
  const danger =
    b.danger.atMs === null
      ? ""
      : `, not safe from ${clock.time(b.danger.atMs)} on ${clock.day(b.danger.atMs)}`;
  return [
    `${b.rank}${b.tied ? " =" : "  "} ${b.name}: ${VERDICT[b.verdict]}${danger}.`,
    ...b.because.map((r) => `    ${becauseText(r)}`),
  ];
}

/** Berths in order, told in lines of 80 columns, times on a clock some minutes ahead of UTC. */
export function compareText(c: BerthComparison, zoneOffsetMinutes: number): string {
  const clock = clockOf(zoneOffsetMinutes);
  const { fromMs, toMs } = c.stay;
  const title = `Berths for a ${c.purpose === "night" ? "night" : "lunch stop"}, ${clock.day(fromMs)} ${clock.time(fromMs)} to ${clock.day(toMs)} ${clock.time(toMs)}, clock ${clock.zone}`;
  const body = c.berths.flatMap((b) => berthLines(b, clock).map(folded));
  return `${fold(title, 80)}\n\n${body.join("\n")}\n`;
}

/** A line folded, its own indent kept. */
function folded(line: string): string {
  const indent = /^ */.exec(line)![0];
  return fold(line.trimStart(), 80 - indent.length, "    ").replace(/^/gm, indent);
}
