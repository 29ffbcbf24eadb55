import type { Interval } from "../core/judgement.js";
import { hours, toKnots } from "../core/units.js";
import type { PlanReason } from "./criteria.js";

/** Clock and date of an instant as the vessel keeps them. */
export interface Clock {
  /** `hh:mm`; with its day where the stay is longer than a day: `Thu 04:15`, or `Thu 18 Jun 04:15` beyond six. */
  time: (timeMs: number) => string;
  /** `hh:mm`, for where the day stands beside it. */
  hour: (timeMs: number) => string;
  /** `Tue 16 Jun`. */
  day: (timeMs: number) => string;
  /** Name of the zone: `UT+1`. */
  zone: string;
}

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

const DAY_MS = hours(24);

/** Clock of a zone given as minutes ahead of UTC, for a stay over which an hour may come more than once. Times are rounded to the minute. */
export function clockOf(zoneOffsetMinutes: number, stay?: Interval): Clock {
  const at = (t: number): Date =>
    new Date(Math.round(t / 60_000) * 60_000 + zoneOffsetMinutes * 60_000);
  const zoneHours = Math.abs(zoneOffsetMinutes) / 60;
  const whole = Math.floor(zoneHours);
  const rest = Math.round((zoneHours - whole) * 60);
  const sign = zoneOffsetMinutes < 0 ? "-" : "+";
  const hour = (t: number): string => at(t).toISOString().slice(11, 16);
  const day = (t: number): string => {
    const d = at(t);
    return `${DAYS[d.getUTCDay()]!} ${d.getUTCDate()} ${MONTHS[d.getUTCMonth()]!}`;
  };
  const longMs = stay === undefined ? 0 : stay.toMs - stay.fromMs;
  const dayOf = (t: number): string =>
    longMs > 6 * DAY_MS ? `${day(t)} ` : longMs > DAY_MS ? `${day(t).slice(0, 3)} ` : "";
  return {
    time: (t) => dayOf(t) + hour(t),
    hour,
    day,
    zone:
      zoneOffsetMinutes === 0
        ? "UT"
        : `UT${sign}${whole}${rest === 0 ? "" : `:${String(rest).padStart(2, "0")}`}`,
  };
}

/** Metres to the decimetre, to the metre from 20 m on. */
export const metresText = (m: number): string =>
  `${Math.abs(m) < 20 ? (Math.round(m * 10) / 10 + 0).toFixed(1) : Math.round(m)} m`;
/** Rounded up to a step: an asking is never less than what is wanted. */
export const upTo = (x: number, step: number): number => Math.ceil(x / step - 1e-9) * step;
/** To what metres are rounded as {@link metresText} tells them. */
const stepOf = (m: number): number => (Math.abs(m) < 20 ? 0.1 : 1);
/** Metres that are to be had, rounded down: a figure short of its limit never reads as the limit. */
export const spareText = (m: number): string => metresText(-upTo(-m, stepOf(m)));
/** Metres that are short, or that are wanted, rounded up. */
export const lackText = (m: number): string => metresText(upTo(m, stepOf(m)));
/** Whole knots of a speed, half a knot below five; to the nearest unless rounded otherwise. */
export function knotsText(mps: number, round: (x: number) => number = Math.round): string {
  const kn = toKnots(mps);
  return `${kn < 5 ? round(kn * 2) / 2 : round(kn)} kn`;
}
/** A force in kilonewtons, newtons below half a kilonewton. */
export const forceText = (n: number): string =>
  n < 500 ? `${Math.round(n / 10) * 10} N` : `${(n / 1000).toFixed(1)} kN`;
/** Degrees, three figures. */
export const bearingText = (deg: number): string =>
  `${String(Math.round(deg) % 360).padStart(3, "0")}°`;

const POINTS = [
  "north",
  "north-east",
  "east",
  "south-east",
  "south",
  "south-west",
  "west",
  "north-west",
];
/** The nearest of the eight winds. */
export const pointText = (deg: number): string => POINTS[Math.round(deg / 45) % 8]!;

/** What is missing, in words. */
export const MISSING: Readonly<Record<string, string>> = {
  "unknown.tide": "the height of tide is not known for the whole stay",
  "unknown.depth": "the depth is not known everywhere she may swing",
  "unknown.wind": "the forecast does not cover the whole stay",
  "unknown.stream": "the stream is not known for the whole stay (say so if there is none)",
  "unknown.chart":
    "there is no chart: nothing is known of hazards, shore or where anchoring is forbidden",
  "unknown.anchoring": "the chart does not tell whether anchoring is allowed in all of the swing",
  "unknown.seabed": "the bed is not known",
  "unknown.holding": "no honest figure exists for this anchor in this bed",
  "unknown.neighbours": "nothing was said of other vessels (say so if there are none)",
  "unknown.shelter": "the sea cannot be reckoned for the whole stay",
};

type Tell = (r: PlanReason, value: number) => string;

/** Rounded down, so that a figure short of its limit never reads as the limit. */
const ratio = (value: number): string => (Math.floor(value * 100) / 100).toFixed(2);
const room = (r: PlanReason, value: number): string => {
  const who = r.of ?? "something";
  if (r.severity === "stop") return `she comes against ${who}`;
  return value > 0 ? `only ${spareText(value)} of room to ${who}` : `she may come against ${who}`;
};

const TELL: Readonly<Record<string, Tell>> = {
  "depth.aground": (_, v) => `she takes the ground: ${lackText(-v)} short of water`,
  "depth.mayTouch": (_, v) => `she may touch: ${lackText(-v)} short of water at the worst`,
  "depth.tight": (_, v) => `little water: ${spareText(v)} under the keel at the worst`,
  "holding.less": (_, v) =>
    `the gusts pull harder than the anchor is likely to hold (${ratio(v)} of the pull)`,
  "holding.thin": (r, v) =>
    `little in hand: likely to hold ${ratio(v)} times the pull of the gusts, ${String(r.limit)} wanted`,
  "holding.worst": () =>
    "the lowest figure of holding is below the pull when she yaws wide: prove the anchor",
  "room.neighbour": room,
  "room.shore": room,
  "room.hazard": room,
  "room.hazardNear": (r, v) =>
    `${r.of ?? "a danger"} charted ${metresText(v)} outside the swing, its place good to ${metresText(Number(r.limit ?? 0))} only`,
  "shelter.untenable": (_, v) => `the sea makes it untenable, first at about ${metresText(v)}`,
  "shelter.poor": (_, v) => `an uneasy sea, about ${metresText(v)}`,
  "wayOut.blocked": (r) => `the way out is shut by ${String(r.value)}`,
  "wayOut.shut": (r, v) =>
    `the way out is shut when she is to leave: ${v > 0 ? `${spareText(v)} under the keel` : `${lackText(-v)} short of water`}, ${metresText(Number(r.limit))} wanted`,
  "wayOut.unknown": () => "whether the way out is open when she is to leave is not known",
  "rode.tooShort": (r) =>
    `${metresText(r.limit as number)} from bow to bottom and only ${metresText(r.value as number)} of rode out`,
  "rode.belowRule": (r) =>
    `${metresText(r.value as number)} of rode where the rule of thumb asks ${metresText(r.limit as number)}`,
  "rode.lifts": (_, v) =>
    `in the gusts the rode lifts at the anchor, ${Math.round(v)}° at the most`,
  "rode.mayFoul": (r) =>
    `the rode may foul ${r.of ?? "something"} on the bottom (${String(r.value)}, ${metresText(r.limit as number)} from the anchor)`,
};

/** A reason in a line of the trade's words, without its hours. */
export function reasonText(r: PlanReason): string {
  const missing = MISSING[r.code];
  if (missing !== undefined) return missing;
  const tell = TELL[r.code];
  if (tell !== undefined) return tell(r, typeof r.value === "number" ? r.value : 0);
  const value = String(r.value ?? r.code);
  return r.of === undefined ? value : `charted ${r.of}: ${value}`;
}

/** Hours of a reason: `from 20:40 to 00:50`, `from 04:30 on`, or nothing where it hangs on none. */
export function hoursText(r: PlanReason, clock: Clock, toMs: number, fromMs: number): string {
  if (r.fromMs === undefined || r.toMs === undefined) return "";
  const [from, to] = [r.fromMs <= fromMs, r.toMs >= toMs];
  if (r.times !== undefined) return `at times ${spanText(r.fromMs, r.toMs, clock)}`;
  if (from && to) return "throughout";
  if (to) return `from ${clock.time(r.fromMs)} on`;
  return from ? `until ${clock.time(r.toMs)}` : spanText(r.fromMs, r.toMs, clock);
}

/** An instant as text, its day left out where it is that of one told before. */
const timeAfter = (beforeMs: number | undefined, timeMs: number, clock: Clock): string =>
  beforeMs !== undefined && clock.day(beforeMs) === clock.day(timeMs)
    ? clock.hour(timeMs)
    : clock.time(timeMs);

/** A span of time as text, its day told once where it begins and ends on one. */
const spanText = (fromMs: number, toMs: number, clock: Clock): string =>
  `${clock.time(fromMs)} to ${timeAfter(fromMs, toMs, clock)}`;

/** Instants in order as text, each day told once. */
export const instantsText = (timesMs: readonly number[], clock: Clock): string =>
  timesMs.map((t, i) => timeAfter(timesMs[i - 1], t, clock)).join(", ");

/** Spans of time as text: `22:41 to 03:10, 11:02 to 15:20`. */
export const spansText = (
  spans: readonly { fromMs: number; toMs: number }[],
  clock: Clock,
): string => spans.map((s) => spanText(s.fromMs, s.toMs, clock)).join(", ");

/** Text folded at `width` columns, later lines indented. */
export function fold(text: string, width: number, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    const room = width - (lines.length > 0 ? indent.length : 0);
    if (line !== "" && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((l, i) => (i === 0 ? l : indent + l)).join("\n");
}

/** A chance found in so many cases; what came about in none of them may still come about. */
export const chanceText = (p: number, cases: number): string =>
  p === 0 ? `less than 1 in ${cases}` : `${p < 0.1 ? (100 * p).toFixed(1) : Math.round(100 * p)} %`;
