/**
 * The watch on unseen nights: writes `bench/watch-results.json` and `docs/watch-accuracy.md`.
 * Bundle with esbuild and run from the root of the repository; arguments: null nights, drags a scenario.
 */
import { writeFileSync } from "node:fs";
import { type DragRow, type Rule, dragRow, metre, percent, shareOf } from "./found.js";
import { type Drag, type Night, RAMP_S, type Scenario, simulateNight } from "./night.js";
import { pullTable } from "./pulls.js";
import { replayPage, replayReport } from "./replay.js";
import { sensitivityPage, sensitivityReport } from "./sensitivity.js";
import { tradePage, tradeReport } from "./trade.js";
import { type Given, type Trace, persistence, traceNight } from "./trace.js";

/** Nights for tuning begin here; the report never looks at them but to set the margins of the plain rules. */
export const TUNING = 1_000_000;
/** Nights for the report begin here. */
export const REPORTING = 31_000_000;
/** Nights for the sheet of what an error in what is told does begin here. */
export const SENSITIVITY = 41_000_000;
/** Nights with the error of a real receiver begin here. */
export const REPLAY = 47_000_000;

const SCENARIOS: Record<string, Drag> = {
  "0.5 m/min": { mPerMin: 0.5 },
  "1.5 m/min": { mPerMin: 1.5 },
  "0.1 kn": { mPerMin: 1852 / 600 },
  "0.3 kn": { mPerMin: (3 * 1852) / 600 },
  "1 kn": { mPerMin: 1852 / 60 },
  "0.5 m/min, wind shift 90°": { mPerMin: 0.5, shiftDeg: 90 },
  "0.1 kn, wind shift 90°": { mPerMin: 1852 / 600, shiftDeg: 90 },
  "1 kn, wind shift 120°": { mPerMin: 1852 / 60, shiftDeg: 120 },
  "hops of 3 m, mean 0.5 m/min": { mPerMin: 0.5, hopM: 3 },
};
/** Drags half an hour into the watch, while it still presumes a poor receiver. */
const EARLY: Record<string, Drag> = {
  "0.5 m/min": { mPerMin: 0.5, onsetS: 1800 },
  "0.1 kn": { mPerMin: 1852 / 600, onsetS: 1800 },
  "0.3 kn": { mPerMin: (3 * 1852) / 600, onsetS: 1800 },
  "1 kn": { mPerMin: 1852 / 60, onsetS: 1800 },
};
/** Silences after which a watch might be blind, and after which it might ring, s. */
const SILENCES = [
  { silentS: 60, ringSilentS: 60 },
  { silentS: 120, ringSilentS: 120 },
  { silentS: 120, ringSilentS: 180 },
  { silentS: 120, ringSilentS: 300 },
  { silentS: 120, ringSilentS: 600 },
];

/** Times something came on. */
const turned = (on: Uint8Array): number =>
  on.reduce((n, b, i) => n + (b === 1 && on[i - 1] !== 1 ? 1 : 0), 0);

const KNOWN: Given = { anchor: true };

function nullNights(
  from: number,
  count: number,
  scenario: Scenario,
  given: Given,
  each: (trace: Trace, night: Night) => void,
): void {
  for (let n = 0; n < count; n++) {
    const night = simulateNight(from + n, scenario);
    each(traceNight(night, given), night);
  }
}

/** Margin at which a plain rule rings on as large a share of the tuning nights as the watch does. */
function marginFor(traces: readonly Trace[], forS: number, share: number) {
  const rings = (margin: number) =>
    traces.filter((t) => persistence(t.excess, margin, forS, 5) >= 0).length / traces.length;
  let [low, high] = [0, 200];
  for (let i = 0; i < 30; i++) {
    const mid = (low + high) / 2;
    if (rings(mid) > share) low = mid;
    else high = mid;
  }
  return high;
}

interface Family {
  name: string;
  receiver: Scenario["receiver"];
  given: Given;
}

const FAMILIES: Family[] = [
  { name: "good reception", receiver: "good", given: KNOWN },
  {
    name: "good reception, Doppler speed told",
    receiver: "good",
    given: { anchor: true, doppler: true },
  },
  { name: "four good to one poor", receiver: "mixed", given: KNOWN },
  { name: "obstructed reception", receiver: "obstructed", given: KNOWN },
  {
    name: "good reception, anchor unknown, heading and wind told",
    receiver: "good",
    given: { anchor: false, heading: true },
  },
  {
    name: "good reception, anchor unknown, positions only",
    receiver: "good",
    given: { anchor: false },
  },
];

function family(f: Family, nulls: number, drags: number) {
  const plain = f.given.anchor && f.given.doppler !== true;
  const watch: Rule = (t) => t.alarmStep;
  const base = { receiver: f.receiver };
  const tuning: Trace[] = [];
  const rules: { name: string; marginM: number | null; rule: Rule }[] = [
    { name: "watch", marginM: null, rule: watch },
  ];
  if (plain) {
    nullNights(TUNING, Math.min(nulls, 1000), base, f.given, (t) =>
      tuning.push({ ...t, windows: [] }),
    );
    const share = tuning.filter((t) => t.alarmStep >= 0).length / tuning.length;
    for (const forS of [60, 300]) {
      const marginM = marginFor(tuning, forS, share);
      rules.push({
        name: `${forS} s beyond a margin`,
        marginM,
        rule: (t) => persistence(t.excess, marginM, forS, 5),
      });
    }
  }
  const hits = rules.map(() => 0);
  const windyHits = rules.map(() => 0);
  let cannotTell = 0;
  let blindNights = 0;
  let blindAlarms = 0;
  let steps = 0;
  nullNights(REPORTING, nulls, base, f.given, (t, night) => {
    rules.forEach((r, i) => (hits[i]! += r.rule(t, night) >= 0 ? 1 : 0));
    cannotTell += t.cannotTell.reduce((s, v) => s + v, 0);
    steps += t.cannotTell.length;
    if (t.blind.some((b) => b === 1)) blindNights++;
    blindAlarms += turned(t.blind);
  });
  const windy = Math.max(1, Math.round(nulls / 4));
  nullNights(REPORTING, windy, { ...base, windy: true }, f.given, (t, night) => {
    rules.forEach((r, i) => (windyHits[i]! += r.rule(t, night) >= 0 ? 1 : 0));
  });
  const found = rules.map(() => [] as DragRow[]);
  const early: DragRow[] = [];
  const tryDrags = (name: string, drag: Drag, each: (n: Night[], t: Trace[]) => void) => {
    const nights: Night[] = [];
    const traces: Trace[] = [];
    nullNights(REPORTING, drags, { ...base, drag }, f.given, (t, night) => {
      traces.push({ ...t, windows: [] });
      nights.push(night);
    });
    each(nights, traces);
  };
  for (const [name, drag] of Object.entries(SCENARIOS))
    tryDrags(name, drag, (nights, traces) => {
      rules.forEach((r, i) => found[i]!.push(dragRow(name, nights, traces, r.rule)));
    });
  if (plain)
    for (const [name, drag] of Object.entries(EARLY))
      tryDrags(name, drag, (nights, traces) => early.push(dragRow(name, nights, traces, watch)));
  let ramped = 0;
  if (plain)
    nullNights(REPORTING, windy, { ...base, rampS: RAMP_S }, f.given, (t) => {
      if (t.alarmStep >= 0) ramped++;
    });
  return {
    name: f.name,
    early,
    ramped: plain ? shareOf(ramped, windy) : null,
    blindAlarmsANight: blindAlarms / nulls,
    cannotTellShare: cannotTell / steps,
    blindNights: shareOf(blindNights, nulls),
    rules: rules.map((r, i) => ({
      name: r.name,
      marginM: r.marginM,
      falseAlarms: shareOf(hits[i]!, nulls),
      falseAlarmsWindy: shareOf(windyHits[i]!, windy),
      drags: found[i]!,
    })),
  };
}

/** The columns that only the watch has. */
const rest = (row: DragRow): string =>
  `${metre(row.greatestM)} | ${row.early} | ${row.lateButBlind} | ${row.late - row.lateButBlind} | ${row.late === 0 ? "–" : `${row.seenForS} s`} | ${(100 * row.falseClear).toFixed(1)} % |`;

/** Part of the time from break-out to 100 m, all drags of a table together, in which she was said to lie. */
function clearOverAll(rows: readonly DragRow[]): number {
  const perMetre = rows.map((r) => 1 / SCENARIOS[r.scenario]!.mPerMin);
  const clear = rows.reduce((sum, r, i) => sum + 70 * perMetre[i]! * r.falseClear, 0);
  return clear / (100 * perMetre.reduce((sum, v) => sum + v, 0));
}

const SLOW = ["0.5 m/min", "1.5 m/min", "0.1 kn"];

/** By how much later slow drags are found than in the first family, median and 90 %. */
function laterThan(first: readonly DragRow[], rows: readonly DragRow[]): string {
  const of = (all: readonly DragRow[], name: string) => all.find((r) => r.scenario === name)!;
  return SLOW.map((name) => {
    const [a, b] = [of(first, name), of(rows, name)];
    return `${name} ${metre(b.medianM - a.medianM)} / ${metre(b.ninetyM - a.ninetyM)} m`;
  }).join(", ");
}

function page(families: ReturnType<typeof familyReport>[], nulls: number, drags: number) {
  const out = [
    "# How well the watch tells swinging from dragging",
    "",
    "Written by `bench/simulator/accuracy.ts`; the figures behind it stand in `bench/watch-results.json`.",
    "",
    `Every figure is a property of a simulator (\`bench/simulator/night.ts\`): up to ${nulls} nights of 8 hours without a drag and ${drags} drags a scenario, numbered from ${REPORTING} on, none of them used to set a limit. Motion, tide, wind shifts, yawing and the receiver's error, excursions, jumps, gaps and freezes are assumed; **no series of a receiver known to lie still was at hand**, so no figure here has been tried against one; what could be is under *Real receivers*. Drags begin three hours into the watch unless it is said otherwise.`,
    "",
    "A false alarm is a night on which the watch said at least once that the anchor drags; intervals are exact, 95 %. Windy nights have a mean wind of 9 to 16 m/s. The plain rules ring when every fix for 60 or 300 s lies beyond the greatest distance by a margin; their margins give them, on the tuning nights, the watch's own share of false alarms.",
    "",
    "Cells are metres dragged at the alarm, median / 90 %. *Before*: drags already ringing when the drag began, left out of the metres. *Silent*: no drag alarm before 100 m, but the watch had rung blind by then because the receiver was silent: someone was called, for another reason. *Missed*: neither rang before 100 m. *Seen*: of drags not found before 100 m, the longest time from the first fix that showed her there to the drag alarm. *False all-clear*: share of the time while the anchor had come 30 to 100 m in which the watch said that she lies.",
  ];
  for (const f of families) {
    out.push("", `## ${f.name[0]!.toUpperCase()}${f.name.slice(1)}`, "");
    out.push("| rule | margin | nights with a false alarm | windy nights |", "|---|---|---|---|");
    for (const r of f.rules)
      out.push(
        `| ${r.name} | ${r.marginM === null ? "–" : `${r.marginM.toFixed(1)} m`} | ${percent(r.falseAlarms)} | ${percent(r.falseAlarmsWindy)} |`,
      );
    out.push(
      "",
      `${f.nights} nights, a quarter as many windy ones. Nights on which the watch rang blind at least once: ${percent(f.blindNights)}; ${f.blindAlarmsANight.toFixed(1)} times a night. Time in which it said that it cannot tell: ${(100 * f.cannotTellShare).toFixed(1)} %.`,
      "",
    );
    if (f.ramped !== null)
      out.push(
        `With excursions that grow and die with a time constant of ${RAMP_S} s instead of leaping (${f.ramped.of} nights): ${percent(f.ramped)} with a false alarm.`,
        "",
      );
    out.push(
      `| drag | ${f.rules.map((r) => r.name).join(" | ")} | watch: greatest | before | silent | missed | seen | false all-clear |`,
      `|---|${f.rules.map(() => "---|").join("")}---|---|---|---|---|---|`,
    );
    for (const [i, row] of f.rules[0]!.drags.entries())
      out.push(
        `| ${row.scenario} | ${f.rules.map((r) => `${metre(r.drags[i]!.medianM)} / ${metre(r.drags[i]!.ninetyM)}`).join(" | ")} | ${rest(row)}`,
      );
    out.push(
      "",
      `Over all drags of the table, from break-out to 100 m: ${(100 * clearOverAll(f.rules[0]!.drags)).toFixed(2)} % of the time a false all-clear; slow drags make up most of that time.`,
    );
    if (f.name === "obstructed reception")
      out.push(
        "",
        `Later than in good reception, median / 90 %: ${laterThan(families[0]!.rules[0]!.drags, f.rules[0]!.drags)}.`,
      );
    if (f.early.length > 0)
      out.push(
        "",
        "Drags that begin half an hour into the watch:",
        "",
        "| drag | watch | watch: greatest | before | silent | missed | seen | false all-clear |",
        "|---|---|---|---|---|---|---|---|",
        ...f.early.map(
          (row) =>
            `| ${row.scenario} | ${metre(row.medianM)} / ${metre(row.ninetyM)} | ${rest(row)}`,
        ),
      );
  }
  return out;
}

const NOTES = [
  "",
  "## What to make of it",
  "",
  "- A plain rule can be set for slow drags or for fast ones, not for both: five minutes beyond a small margin do as well as the watch on the slowest drags, in obstructed reception a little better, and let a fast one run 160 m and more; a minute beyond a large margin is later than the watch, and by most on slow ones.",
  "- A receiver that falls silent as the anchor breaks out hides the drag from any rule on positions; what rings then is that the watch is blind. Such drags are counted apart, as silent. With the wind told, silence in a breeze rings after 60 s; these nights tell no wind to a watch that knows its anchor.",
  "- A steady run outward is a drag however little the receiver is trusted. It is told from an excursion by the leap with which the simulated ones begin and end, or by flagging as it fills, which a receiver of wide spread is given longer for. Where excursions are large and grow slowly, in obstructed reception, that still fails on some nights: the line on excursions that grow and the table of what ringing sooner costs show by how much, and that fewer such nights are to be had only for metres. Receivers that smooth heavily under trees or cliffs may behave so.",
  "- After a silence the fixes must agree for 20 s, for receivers leap; what they then show far outside rings within seconds. The column *seen* is that. No rule on positions does more while nothing is heard, and the watch says that it is blind.",
  "- The false all-clear of fast drags is the silence before the watch is blind, and the metres between 30 and the alarm.",
  "- But for the sheet of what an error does, the greatest distance was exact but for the chain's sag; rode and antenna were told with the library's default spreads.",
  "- What is told of the gear matters more than anything about the receiver: metres by which rode or antenna are told short are metres she seems to lie outside. Doubt that is told as a spread costs a metre or two on slow drags and takes most of that back; told too long, they cost about as many metres as they are too long. A spread stated twice too large, and yawing far to either side, cost some metres on slow drags; a spread stated too small, how long the errors last, and a fix every second or every quarter of a minute hardly matter.",
  "- A fix a minute, or every three as a transponder sends at anchor, is enough for slow drags and not for fast ones: such a watch is told of a drag of a knot when she is far gone.",
  "- A tide wrong by a metre hardly moves the greatest distance, and lies within the band of depths.",
  "- A compass error does nothing to a watch that knows its anchor. One that has to place it from the heading puts it aside by as much of the rode: some degrees of variation left out cost false alarms and metres, and sharp yawing keeps it from placing it at all, so that it says that it cannot tell and finds drags late.",
  "- The watch begins by presuming a receiver worse than most, and half of that fades in an hour: hence the middling drags found later half an hour into the watch than three hours in. In good reception a fast one is found as soon.",
  "- With an unknown anchor and no heading the watch says that it cannot tell until she has left a circle of twice the greatest distance.",
  "- An obstructed receiver is here one that states a spread of about 3.5 m while its error is 4 to 7 m with excursions of mean 15 m. The watch learns both, and pays with distance, but never more than a bound in metres that such a receiver keeps to on most nights; a worse one has the bound grow with its spread. The recorded place of the anchor is off by as much (4 to 7 m along each axis), which no later fix mends, and its error wanders back inside too often for a test of minutes without a break: what is left to gain is in the table of what ringing sooner costs.",
  "- An unknown anchor is placed from the heading in wind of 4 m/s and more, where the rode is taken to be taut; in less the watch goes on saying that it cannot tell. Yawing scatters the placings widely, so it is the spread of their mean that must be small.",
  "- A silent receiver is common in this simulator, so nearly every night has a blind alarm; those are not counted as false, the receiver was silent.",
  "- Heading does not enter the decision about a known anchor, but for lying across the line to it, which only makes the watch uneasy.",
  "",
];

/** One family of nights: the number of it, nights without a drag, drags a scenario. */
export function familyReport(index: number, nulls: number, drags: number) {
  const f = FAMILIES[index]!;
  // The full number is for a known anchor and positions alone; a quarter serves the rest.
  const plain = f.given.anchor && f.given.doppler !== true;
  const count = plain ? nulls : Math.max(1, Math.round(nulls / 4));
  return { nights: count, ...family(f, count, drags) };
}
export const FAMILY_COUNT = FAMILIES.length;

/** What the silence after which a watch is blind costs and saves, with no wind told. */
export function silenceReport(nights: number) {
  return SILENCES.map((silences) => ({
    ...silences,
    nights,
    good: silenceIn("good", silences, nights),
    obstructed: silenceIn("obstructed", silences, nights),
  }));
}

/** Blind alarms a night without a drag; and of as many drags of a knot, those of which nothing had rung by 100 m. */
function silenceIn(receiver: Scenario["receiver"], silences: Partial<Given>, nights: number) {
  const given = { anchor: true, ...silences };
  let alarms = 0;
  let blind = 0;
  nullNights(REPORTING, nights, { receiver }, given, (t) => {
    alarms += turned(t.rang);
    blind += turned(t.blind);
  });
  let unheard = 0;
  nullNights(REPORTING, nights, { receiver, drag: SCENARIOS["1 kn"]! }, given, (t, night) => {
    const from = night.draggedM.findIndex((d) => d > 0);
    const to = night.draggedM.findIndex((d) => d > 100);
    const rang = t.alarmStep >= 0 && t.alarmStep < to;
    if (!rang && !t.rang.subarray(from, to).includes(1)) unheard++;
  });
  return { turnedBlindANight: blind / nights, alarmsANight: alarms / nights, unheard };
}

function silencePage(rows: ReturnType<typeof silenceReport>): string[] {
  return [
    "",
    "## When the receiver is silent",
    "",
    `The watch is blind after \`silentS\` without a usable fix (120 s unless told otherwise; \`silentInWindS\`, 60 s, in wind over 8 m/s or while the receiver repeats itself; 30 s when the last fix lay outside). It rings for that at once, or after \`ringSilentS\` where it is told to bear more: until then only its mode says that it is blind. The simulated receiver, in good reception as in obstructed, falls silent every two hours on average, for 30 s and more, 3 min in the mean, and freezes every eight hours for 1 to 5 min; so it is blind ${rows[1]!.good.turnedBlindANight.toFixed(1)} times a night in good reception, ${rows[1]!.obstructed.turnedBlindANight.toFixed(1)} in obstructed. A receiver that never falls silent never rings so. ${rows[0]!.nights} nights without a drag and as many drags of 1 kn in each reception, no wind told. *Unheard*: drags of which nothing had rung by 100 m.`,
    "",
    "| blind after | rings after | blind alarms a night, good | obstructed | a drag of 1 kn goes meanwhile | unheard, good | obstructed |",
    "|---|---|---|---|---|---|---|",
    ...rows.map(
      (r) =>
        `| ${r.silentS} s | ${r.ringSilentS} s | ${r.good.alarmsANight.toFixed(1)} | ${r.obstructed.alarmsANight.toFixed(1)} | ${((r.ringSilentS * 1852) / 3600).toFixed(0)} m | ${r.good.unheard} of ${r.nights} | ${r.obstructed.unheard} of ${r.nights} |`,
    ),
    "",
    "What a longer silence spares in sleep it costs in drags that nothing tells of while they can still be stopped; so the watch rings at once unless the skipper decides otherwise, and in a breeze that is told it rings at once in any case.",
  ];
}

function pullPage(rows: ReturnType<typeof pullTable>, count: number): string[] {
  const share = (n: number) => `${((100 * n) / count).toFixed(0)} %`;
  return [
    "",
    "## The pull astern",
    "",
    `\`judgeSet\` with its defaults (no drag of 0.1 m/s or more may be left possible) on ${count} simulated pulls a row (\`bench/simulator/pulls.ts\`): a fix a second, error of the stated spread with a correlation time of 170 s, the rode giving 5 m with a time constant of 4 s, then a steady drag. Excursions are not simulated.`,
    "",
    "| spread | Doppler | astern | drag | holds | creeps | drags | cannot tell | slowest drag excluded, median |",
    "|---|---|---|---|---|---|---|---|---|",
    ...rows.map(
      (r) =>
        `| ${r.sigmaM} m | ${r.doppler ? "told" : "–"} | ${r.seconds} s | ${r.dragMps} m/s | ${share(r.verdicts.holds)} | ${share(r.verdicts.creeps)} | ${share(r.verdicts.drags)} | ${share(r.verdicts.cannotTell)} | ${r.medianExcludedMps.toFixed(2)} m/s |`,
    ),
  ];
}

/** All families and what goes with them. */
export function gather(result: {
  nulls: number;
  drags: number;
  families: ReturnType<typeof familyReport>[];
}) {
  return {
    reportingFrom: REPORTING,
    ...result,
    silences: silenceReport(Math.max(1, Math.round(result.nulls / 10))),
    trade: tradeReport(REPORTING, Math.round(result.nulls / 4), result.drags),
    sets: pullTable(REPORTING, pullsFor(result.drags)),
    sensitivity: sheetOf(result.nulls, result.drags),
    replay: replayOf(result.nulls, result.drags),
  };
}

/** The sheet of errors, on four tenths of the nights a row. */
export const sheetOf = (nulls: number, drags: number) =>
  sensitivityReport(SENSITIVITY, Math.max(1, Math.round(0.4 * nulls)), drags);

/** The error of a real receiver, on a quarter of the nights. */
export const replayOf = (nulls: number, drags: number) =>
  replayReport(REPLAY, Math.max(1, Math.round(nulls / 4)), drags);

/** Simulated pulls a row of the table of pulls astern. */
const pullsFor = (drags: number): number => Math.max(10, 3 * drags);

/** The results, kept. */
export const keep = (all: ReturnType<typeof gather>): void => {
  writeFileSync("bench/watch-results.json", `${JSON.stringify(all, null, 1)}\n`);
};

/** The page that the figures of `bench/watch-results.json` make. */
export function pageOf(all: ReturnType<typeof gather>): string {
  const lines = [
    ...page(all.families, all.nulls, all.drags),
    ...tradePage(all.trade),
    ...silencePage(all.silences),
    ...sensitivityPage(all.sensitivity),
    ...replayPage(all.replay),
    ...pullPage(all.sets, pullsFor(all.drags)),
  ];
  return [...lines, ...NOTES].join("\n");
}

/** The page, from the results. */
export const writePage = (all: ReturnType<typeof gather>): void => {
  writeFileSync("docs/watch-accuracy.md", pageOf(all));
};
