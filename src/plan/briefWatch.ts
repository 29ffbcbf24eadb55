import type { CheckCause, CheckLook } from "../watch/checktimes.js";
import type { PickTransits } from "../watch/transits.js";
import type { Section } from "./brief.js";
import type { StayPlan } from "./planStay.js";
import { bearingText, knotsText, metresText, pointText, type Clock } from "./words.js";

/** Wind and sea over the stay, at the hours that matter. */
export function weatherSection(p: StayPlan, clock: Clock): Section {
  const m = p.moments;
  const lines: string[] = [];
  let last = "";
  m.timeMs.forEach((t, i) => {
    if (m.windMps[i] == null || i % 6 !== 0) return;
    const now = pointText(m.windFromDeg[i]!);
    if (now === last) return;
    const sea = m.waveHeightM[i] == null ? "" : `, sea ${metresText(m.waveHeightM[i])}`;
    lines.push(
      `${clock.time(t)}  ${now} ${knotsText(m.windMps[i])}, gusts ${knotsText(m.gustMps[i]!)}${sea}`,
    );
    last = now;
  });
  const open =
    p.shelter?.opensTo.map((s) => `${bearingText(s.fromDeg)} to ${bearingText(s.toDeg)}`) ?? [];
  const worst = p.limiting.shelter;
  return {
    title: "Wind and sea",
    lines: [
      ...(lines.length > 0 ? lines : ["No forecast."]),
      ...(open.length > 0
        ? [
            `Open to winds from ${open.join(" and ")} (clockwise) at the strongest wind of the stay.`,
          ]
        : []),
      ...(worst.atMs === null
        ? ["The sea at the berth cannot be reckoned: shore or forecast is missing."]
        : [
            `Highest sea ${metresText(worst.value!)} about ${clock.time(worst.atMs)}: ${worst.of ?? ""}.`,
          ]),
    ],
  };
}

/** Lights, shapes and sounds, by the clock. */
export function lightsSection(p: StayPlan, clock: Clock): Section {
  const lines = p.signals.changes.map((c) => {
    const parts = [
      ...(c.begin.length > 0 ? [`show ${c.begin.join(", ")}`] : []),
      ...(c.end.length > 0 ? [`take in ${c.end.join(", ")}`] : []),
    ];
    return `${clock.time(c.atMs)}  ${parts.length > 0 ? parts.join("; ") : "nothing is owed"}`;
  });
  return { title: "Lights and shapes", lines };
}

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
  distanceFromAnchor: "distance from the anchor",
  bearings: "bearings",
  depth: "depth",
  rodeLead: "lead of the rode",
  neighbours: "neighbours",
  lights: "lights",
  chafe: "chafe",
};

const nameOf = (id: string): string => id.replace(/^\d+:/, "");

function transitLines(what: string, picked: PickTransits | null): string[] {
  return (picked?.transits ?? [])
    .slice(0, 2)
    .map(
      (t) =>
        `Marks ${what}: ${nameOf(t.frontId)} with ${nameOf(t.backId)}, about ${bearingText(t.bearingDeg)}; ` +
        `they open ${Math.round(t.swingOpenDeg)}° as she swings, more than that is drag.`,
    );
}

/** Limits, marks, checks and rota. */
export function watchSections(p: StayPlan, clock: Clock): Section[] {
  const { limits } = p;
  const least = limits?.rows.reduce<number | null>(
    (a, r) => (r.leastDepthM === null ? a : Math.min(a ?? Infinity, r.leastDepthM)),
    null,
  );
  const keep = [
    ...(limits === null
      ? ["No limits: the depth is not known."]
      : [
          `Call if the aerial is more than ${metresText(limits.greatest.distanceM)} from the ANCHOR, not from where she lay.`,
          ...(least == null ? [] : [`Call if the depth is less than ${metresText(least)}.`]),
        ]),
    ...transitLines("by day", p.transitsByDay),
    ...transitLines("by night", p.transitsByNight),
  ];
  const checks = p.checks.map(
    (c) =>
      `${clock.time(c.timeMs)}  ${c.causes.map((k) => CAUSE[k]).join(", ")}: ${c.look.map((l) => LOOK[l]).join(", ")}`,
  );
  const rota = (p.rota?.watches ?? []).map(
    (w) => `${clock.time(w.fromMs)} to ${clock.time(w.toMs)}  ${w.who}`,
  );
  return [
    { title: "Watch", lines: keep },
    { title: "Look how she lies", lines: checks },
    { title: "Rota", lines: rota },
  ];
}

/** What every plan must say, and what it rests on. */
export const cautionSection = (p: StayPlan): Section => ({
  title: "Cautions",
  lines: [
    ...p.cautions,
    ...(p.assumed.length > 0 ? [`Taken for granted: ${p.assumed.join("; ")}.`] : []),
  ],
});
