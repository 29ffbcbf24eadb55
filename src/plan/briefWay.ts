import { toNauticalMiles } from "../core/units.js";
import type { Section } from "./brief.js";
import { goneByOf } from "./goneBy.js";
import type { StayPlan } from "./planStay.js";
import type { SteerBy } from "./wayMarks.js";
import type { WayOut } from "./wayOut.js";
import type { WayHazard } from "./wayDepth.js";
import {
  bearingText,
  knotsText,
  lackText,
  metresText,
  spansText,
  spareText,
  type Clock,
} from "./words.js";

const miles = (m: number): string =>
  m < 100 ? metresText(m) : `${toNauticalMiles(m).toFixed(m < 18_520 ? 2 : 1)} M`;

const LIGHT = { day: "by day", twilight: "in twilight", night: "by night" } as const;

/** Dangers told by name. */
const NAMED = 3;

const legsText = ({ legs, passageMs }: WayOut): string =>
  `${legs.map((l) => `${bearingText(l.courseDeg)} ${miles(l.lengthM)}`).join(", ")}; ${Math.round(passageMs / 60_000)} minutes.`;

/** Water at the departure meant. */
function waterText({ meant }: WayOut, clock: Clock): string {
  const at = `Leaving at ${clock.time(meant.departMs)}, ${LIGHT[meant.light]}`;
  if (meant.underKeelLeastM === null)
    return meant.state === "shut"
      ? `${at}: SHUT by a danger on the track.`
      : `${at}: the water on it is NOT KNOWN.`;
  const where =
    meant.leastOf ?? (meant.leastAlongM! < 1 ? "at the berth" : `${miles(meant.leastAlongM!)} out`);
  const m = meant.underKeelLeastM;
  const under = m > 0 ? `${spareText(m)} under the keel` : `${lackText(0 - m)} SHORT of water`;
  const known = meant.state === "unknown" ? " in what is known of it" : "";
  return `${at}: least ${under}${known}, ${where}.`;
}

function clearText({ name, offM, side, stands, depthM }: WayHazard): string {
  const over = stands || depthM === null ? "" : `, ${metresText(depthM)} over it at datum`;
  return side === "on" || offM < 1
    ? `${name} lies ON the track${over}`
    : `${name} to ${side}, ${metresText(offM)} off${over}`;
}

/** Water at the last departure shown before the hour she is told to be gone by, else before it stops being safe. */
function goneText({ departures: d }: WayOut, byMs: number | null, clock: Clock): string[] {
  const i = d.timeMs.findLastIndex((t) => byMs !== null && t <= byMs);
  if (i < 0) return [];
  const [state, m] = [d.state[i]!, d.underKeelLeastM[i] ?? null];
  const known = state === "unknown" ? " in what is known of it" : "";
  const water =
    m === null ? "the water on it is NOT KNOWN" : `least ${spareText(m)} under the keel${known}`;
  return [
    `To be gone, leaving at ${clock.time(d.timeMs[i]!)}, ${LIGHT[d.light[i]!]}: ${state === "shut" ? "SHUT" : water}.`,
  ];
}

/** Wind and stream at the departure meant, where they are worth a word. */
function weatherText({ meant }: WayOut): string[] {
  const nose = meant.legs.filter((l) => l.windOn === "nose" && l.windMps !== null);
  const foul = Math.max(0, ...meant.legs.map((l) => 0 - (l.streamWithMps ?? 0)));
  const parts = [
    ...(nose.length === 0
      ? []
      : [`wind on the nose ${knotsText(Math.max(...nose.map((l) => l.windMps!)))}`]),
    ...(foul >= 0.25 ? [`stream against her, ${knotsText(foul)}`] : []),
    ...(meant.legs.some((l) => l.windAgainstStream === true)
      ? ["wind against stream: a steep sea"]
      : []),
  ];
  return parts.length === 0 ? [] : [`${parts.join("; ")}.`.replace(/^./, (c) => c.toUpperCase())];
}

/** What there is to steer by, by day and in the dark. */
function steerText({ marks, steerBy }: WayOut): string[] {
  if (marks === null) return [];
  if (marks.length === 0) return ["No mark is charted to steer by."];
  const lit = marks.filter((m) => m.lit === true).length;
  const told = (of: readonly SteerBy[]): string =>
    of.map((s) => `${s.name} ${s.where} on leg ${s.leg + 1}`).join(", ");
  const [day, night] = [steerBy ?? [], (steerBy ?? []).filter((s) => s.lit === true)];
  return [
    ...(day.length === 0 ? [] : [`By day steer by ${told(day)}.`]),
    `By night ${lit} of ${marks.length} marks lit, ${night.length === 0 ? "none of them ahead or astern of a leg" : `steer by ${told(night)}`}.`,
  ];
}

const UNKNOWN: Readonly<Record<string, string>> = {
  "unknown.chart": "no chart",
  "unknown.depth": "the depth of some of it",
  "unknown.dangerPlace": "whether a danger lies on the track",
  "unknown.depthError": "how good the charted depths are",
  "unknown.tide": "the tide at some hours",
  "unknown.wind": "the wind at some hours",
  "unknown.stream": "the stream",
};

/** The way out: courses, water, hours shut, dangers, weather, and what is not known. */
export function waySection(plan: StayPlan, clock: Clock): Section {
  const { wayOut: w } = plan;
  if (w === null) return { title: "Way out", lines: [] };
  const shut = w.shut.length === 0 ? [] : [`Shut ${spansText(w.shut, clock)}: too little water.`];
  const dangers = w.hazards.slice(0, NAMED).map(clearText);
  const more = w.hazards.length - dangers.length;
  const pass =
    dangers.length === 0 ? [] : [`${dangers.join("; ")}${more > 0 ? `; ${more} more` : ""}.`];
  return {
    title: "Way out",
    lines: [
      [legsText(w), ...pass].join(" "),
      ...goneText(w, goneByOf(plan), clock),
      [waterText(w, clock), ...shut].join(" "),
      [...weatherText(w), ...steerText(w)].join(" "),
      ...(w.unknown.length === 0
        ? []
        : [`Not known: ${w.unknown.map((u) => UNKNOWN[u] ?? u).join(", ")}.`]),
    ].filter((line) => line !== ""),
  };
}
