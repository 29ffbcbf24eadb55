import { hours, knots } from "../core/units.js";
import type { SoundDue } from "../signals/types.js";
import type { CheckCause, CheckLook } from "../watch/checktimes.js";
import type { PickTransits, Transit } from "../watch/transits.js";
import type { Section } from "./brief.js";
import { COMFORT } from "./ladders.js";
import type { StayPlan } from "./planStay.js";
import { callDepthOf } from "./stageFigures.js";
import {
  bearingText,
  instantsText,
  knotsText,
  metresText,
  pointText,
  spansText,
  type Clock,
} from "./words.js";

/** Rows of wind told at the most. */
const WINDS = 6;

/** Gusts that have risen so much are told anew. */
const RISE = knots(5);

/** Hours at which the wind comes from another quarter or its gusts have risen, and the moment of the hardest gust. */
function windMoments(m: StayPlan["moments"]): number[] {
  const gust = (i: number): number => m.gustMps[i] ?? -1;
  const quarter = (i: number): string => pointText(m.windFromDeg[i]!);
  const peak = m.gustMps.reduce<number>((best, _, i) => (gust(i) > gust(best) ? i : best), 0);
  // An hour has come round since letting go, whatever the step.
  const hourOf = (i: number): number => Math.floor((m.timeMs[i]! - m.timeMs[0]!) / hours(1));
  const onTheHour = (i: number): boolean => i === 0 || hourOf(i) !== hourOf(i - 1);
  const told: number[] = [];
  m.timeMs.forEach((_, i) => {
    if (m.windMps[i] == null || (!onTheHour(i) && i !== peak)) return;
    const last = told.at(-1);
    const risen = last === undefined || gust(i) >= gust(last) + RISE;
    if (risen || i === peak || quarter(i) !== quarter(last)) told.push(i);
  });
  // The hardest gust stands for a turn to the same quarter within the hour.
  const near = (i: number): boolean => Math.abs(m.timeMs[i]! - m.timeMs[peak]!) < hours(1);
  const kept = told.filter((i) => i === peak || !near(i) || quarter(i) !== quarter(peak));
  while (kept.length > WINDS) kept.splice(leastNews(kept, peak, gust), 1);
  return kept;
}

/** Place of the line that tells least: whose gusts differ least from those of the line before. */
function leastNews(kept: readonly number[], peak: number, gust: (i: number) => number): number {
  const news = (k: number): number => Math.abs(gust(kept[k]!) - gust(kept[k - 1]!));
  const spare = kept.flatMap((i, k) => (k === 0 || k === kept.length - 1 || i === peak ? [] : [k]));
  return spare.reduce((best, k) => (news(k) < news(best) ? k : best), spare[0]!);
}

/** Wind at the hours that matter. */
function windLines(p: StayPlan, clock: Clock): string[] {
  const m = p.moments;
  const lines = windMoments(m).map((i) => {
    const sea = m.waveHeightM[i] == null ? "" : `, sea ${metresText(m.waveHeightM[i])}`;
    return `${clock.time(m.timeMs[i]!)}  ${pointText(m.windFromDeg[i]!)} ${knotsText(m.windMps[i]!)}, gusts ${knotsText(m.gustMps[i]!)}${sea}`;
  });
  return lines.length > 0 ? lines : ["No forecast."];
}

/** The winds that bring a bad sea: with much wind those over the near shore too. */
function opensText({ shelter }: StayPlan): string {
  const open = (shelter?.opensTo ?? []).map(({ fromDeg, toDeg }) =>
    (toDeg + 1) % 360 === fromDeg
      ? null
      : `${bearingText(fromDeg)} clockwise to ${bearingText(toDeg)}`,
  );
  if (open.length === 0) return "";
  return ` Bad in winds ${open.includes(null) ? "all round" : open.join(" and ")}.`;
}

/** The hour that is felt worst, where a lower sea on the beam is felt worse than the highest. */
function feltWorse({ shelter, limiting }: StayPlan, clock: Clock): string {
  const hours = shelter?.hours;
  const ranks = (hours?.comfort ?? []).map((c) => COMFORT.indexOf(c));
  const worst = Math.max(-1, ...ranks);
  return worst > COMFORT.indexOf(limiting.shelter.of ?? "")
    ? `; as she lies ${COMFORT[worst]!} about ${clock.time(hours!.timeMs[ranks.indexOf(worst)]!)}`
    : "";
}

/** The highest sea of the stay, as far as it can be reckoned, and how it is felt. */
function seaText(p: StayPlan, clock: Clock): string {
  const { atMs, value, of } = p.limiting.shelter;
  if (atMs === null)
    return `The sea at the berth cannot be reckoned: ${p.shelter === null ? "shore or forecast is missing" : "forecast or swell does not reach over it"}.`;
  const known = (p.shelter?.summary.unknownHours ?? 0) > 0 ? " in what is known of the stay:" : "";
  return `Sea${known} ${metresText(value!)} about ${clock.time(atMs)}: ${of ?? ""}${feltWorse(p, clock)}.`;
}

/** Wind and sea over the stay, at the hours that matter. */
export function weatherSection(p: StayPlan, clock: Clock): Section {
  return { title: "Weather", lines: [...windLines(p, clock), seaText(p, clock) + opensText(p)] };
}

/** Lights, shapes and sounds, each with the hours it is shown. */
export function lightsSection(p: StayPlan, clock: Clock): Section {
  const spans = new Map<string, { fromMs: number; toMs: number }[]>();
  for (const { atMs, begin, end } of p.signals.changes) {
    for (const what of begin)
      spans.set(what, [...(spans.get(what) ?? []), { fromMs: atMs, toMs: p.stay.toMs }]);
    for (const what of end) {
      const open = spans.get(what)?.at(-1);
      if (open !== undefined) open.toMs = atMs;
    }
  }
  const lines = [...spans].map(
    ([what, hours]) => `${what.replace(/^1 /, "")} ${spansText(hours, clock)}`,
  );
  return {
    title: "Lights",
    lines: [lines.length > 0 ? `${lines.join("; ")}.` : "None is owed.", fogText(p.inFog)],
  };
}

/** What to sound in fog. */
function fogText(due: SoundDue | null): string {
  if (due === null) return "In fog: no sound signal is owed.";
  const { bell, gong, alternative } = due;
  const rung = `bell ${bell.ringS} s every ${minutesText(bell.mostIntervalS)}`;
  const after = gong === null ? "" : `, gong aft after it, ${gong.ringS} s`;
  const other =
    alternative === null
      ? ""
      : `, or another loud signal every ${minutesText(alternative.mostIntervalS)}`;
  return `In fog: ${rung}${after}${other}.`;
}

const minutesText = (s: number): string => (s === 60 ? "minute" : `${s / 60} minutes`);

const CAUSE: Readonly<Record<CheckCause, string>> = {
  afterSetting: "half an hour after letting go",
  highWater: "high water",
  lowWater: "low water",
  leastDepth: "least depth",
  slack: "slack or turn of the stream",
  greatestStream: "stream at its strongest",
  windShift: "wind shift",
  windRise: "wind rising",
  nightfall: "nightfall",
  daybreak: "daybreak",
  turningIn: "before turning in",
};

const LOOK: Readonly<Record<CheckLook, string>> = {
  distanceFromAnchor: "distance",
  bearings: "bearings",
  depth: "depth",
  rodeLead: "lead of the cable",
  neighbours: "neighbours",
  lights: "lights",
  chafe: "chafe",
};

/** Hours at which to look how she lies, why then, and at what. */
export const looksSection = (p: StayPlan, clock: Clock): Section => ({
  title: "Look at",
  lines: p.checks.map(
    (c) =>
      `${clock.time(c.timeMs)}  ${c.causes.map((k) => CAUSE[k]).join(", ")}: ${c.look.map((l) => LOOK[l]).join(", ")}`,
  ),
});

/** Who watches when. */
export const rotaSection = (p: StayPlan, clock: Clock): Section => ({
  title: "Rota",
  lines: (p.rota?.watches ?? []).map((w) => `${spansText([w], clock)}  ${w.who}`),
});

const nameOf = (id: string): string => id.replace(/^\d+:/, "");

const lineText = (openDeg: number): string =>
  Math.abs(openDeg) < 1 ? "in line with" : `nearly in line (${Math.abs(openDeg).toFixed(0)}°) with`;

/** The two marks in words; where both go by one name, by which is the nearer and how far off they are. */
function pairText({ frontId, backId, frontM, backM, openDeg }: Transit): string {
  const [front, back] = [nameOf(frontId), nameOf(backId)];
  if (front !== back) return `${front} ${lineText(openDeg)} ${back}`;
  return `${front} ${metresText(frontM)} off ${lineText(openDeg)} ${back} behind it, ${metresText(backM)} off`;
}

const revealedText = (revealsM: number | null): string =>
  revealsM === null
    ? "they show no drag down the line of the cable: go by the distance"
    : `more is drag, which shows from ${metresText(revealsM)} on`;

function transitLines(what: string, picked: PickTransits | null, most: number): string[] {
  return (picked?.transits ?? [])
    .slice(0, most)
    .map(
      (t) =>
        `Marks ${what}: ${pairText(t)}, about ${bearingText(t.bearingDeg)} true. ` +
        `As she swings they open up to ${Math.round(t.swingOpenDeg)}°; ${revealedText(t.revealsM)}.`,
    );
}

/** Marks to line up by day and by night. */
export const marksLines = (p: StayPlan, most: number): string[] => [
  ...transitLines("by day", p.transitsByDay, most),
  ...transitLines("by night", p.transitsByNight, most),
];

/** When to call, as a sentence. */
export function callText(p: StayPlan): string {
  if (p.limits === null) return "No limits can be set: the depth is not known.";
  const depthM = callDepthOf(p);
  const depth =
    depthM === null ? "" : `, or the water, surface to bottom, under ${metresText(depthM)}`;
  return `Call if the aerial is over ${metresText(p.limits.greatest.distanceM)} from the ANCHOR (not from where she lay)${depth}.`;
}

/** Limits, marks and hours of looking, for the skipper. */
export const watchSection = (p: StayPlan, clock: Clock): Section => ({
  title: "Watch",
  lines: [
    callText(p),
    ...(p.transitsByDay?.cautions.includes("noneReveals") === true
      ? ["No marks ashore would show a drag: go by the distance."]
      : marksLines(p, 1)),
    ...(p.checks.length === 0
      ? []
      : [
          `Look how she lies at ${instantsText(
            p.checks.map((c) => c.timeMs),
            clock,
          )}.`,
        ]),
  ],
});

/** What is taken for granted of the vessel and the place; the rest of it, of how seas grow, stands in the plan. */
function assumedText({ assumed, shelter }: StayPlan): string[] {
  const ofSea = shelter?.assumed ?? [];
  const own = assumed
    .filter((a) => !ofSea.includes(a))
    .map((a) => a.replace(/ \([^)]*\)|: none .*$/g, ""));
  return own.length === 0 ? [] : [`Taken for granted: ${own.join("; ")}.`];
}

/** What every plan must say, and what it rests on. */
export const cautionSection = (p: StayPlan): Section => ({
  title: "Cautions",
  lines: [...p.cautions, ...assumedText(p)],
});
