/** What becomes of the watch where it is told wrongly, or the receiver and the vessel are not as taken. */
import { type DragRow, dragRow, metre, percent, shareOf } from "./found.js";
import { type Drag, type Night, type Scenario, simulateNight } from "./night.js";
import { type Given, type Trace, traceNight } from "./trace.js";

/** One row of the sheet. */
interface Case {
  off: string;
  scenario?: Partial<Scenario>;
  given?: Partial<Given>;
  /** Only one fix in so many seconds is seen, and the watch is told so. */
  everyS?: number;
}

interface Sheet {
  name: string;
  given: Given;
  cases: Case[];
}

const DRAGS: Record<string, Drag> = {
  "0.5 m/min": { mPerMin: 0.5 },
  "1 kn": { mPerMin: 1852 / 60 },
};

const SHEETS: Sheet[] = [
  {
    name: "anchor known",
    given: { anchor: true },
    cases: [
      { off: "nothing" },
      { off: "rode told 3 m short", given: { rodeOffM: -3 } },
      { off: "the same, and a spread of 3 m told", given: { rodeOffM: -3, rodeSigmaM: 3 } },
      { off: "rode told 3 m long", given: { rodeOffM: 3 } },
      { off: "antenna told 3 m too near the bow", given: { antennaOffM: -3 } },
      { off: "antenna told at the bow, 9 m too near", given: { antennaOffM: -9 } },
      { off: "antenna told 3 m too far aft", given: { antennaOffM: 3 } },
      { off: "stated spread halved", given: { statedPart: 0.5 } },
      { off: "stated spread doubled", given: { statedPart: 2 } },
      { off: "error correlated over 60 s", scenario: { tauS: 60 } },
      { off: "over 300 s", scenario: { tauS: 300 } },
      { off: "over 600 s", scenario: { tauS: 600 } },
      { off: "yawing 40° to either side", scenario: { yawDeg: 40 } },
      { off: "a fix every second", scenario: { stepS: 1 } },
      { off: "every 15 s", everyS: 15 },
      { off: "every minute", everyS: 60 },
      { off: "every 3 min", everyS: 180 },
      { off: "tide told 1 m too high, soundings told", given: { depthOffM: 1, depth: true } },
      { off: "tide told 1 m too low, soundings told", given: { depthOffM: -1, depth: true } },
    ],
  },
  {
    name: "anchor known, heading and wind told",
    given: { anchor: true, heading: true },
    cases: [
      { off: "nothing" },
      { off: "magnetic heading told for true, 20° off", given: { headingOffDeg: 20 } },
    ],
  },
  {
    name: "anchor unknown, heading and wind told",
    given: { anchor: false, heading: true },
    cases: [
      { off: "nothing" },
      { off: "magnetic heading told for true, 10° off", given: { headingOffDeg: 10 } },
      { off: "the same, 20° off", given: { headingOffDeg: 20 } },
      { off: "yawing 40° to either side", scenario: { yawDeg: 40 } },
    ],
  },
];

/** The night with but one fix in so many seconds left. */
function thinned(night: Night, everyS: number): Night {
  const keep = everyS / night.stepS;
  const only = (column: Float64Array) => column.map((v, i) => (i % keep === 0 ? v : NaN));
  return { ...night, x: only(night.x), y: only(night.y) };
}

/** Nights of one case, each with what the watch made of it. */
function* nightsOf(
  sheet: Sheet,
  c: Case,
  from: number,
  count: number,
  more: Partial<Scenario>,
): Generator<{ night: Night; trace: Trace }> {
  const given: Given = {
    ...sheet.given,
    ...c.given,
    ...(c.everyS === undefined ? {} : { everyS: c.everyS }),
    ...(c.scenario?.stepS === undefined ? {} : { everyS: c.scenario.stepS }),
  };
  for (let n = 0; n < count; n++) {
    const whole = simulateNight(from + n, { receiver: "good", ...more, ...c.scenario });
    const night = c.everyS === undefined ? whole : thinned(whole, c.everyS);
    yield { night, trace: traceNight(night, given) };
  }
}

function falseNights(
  sheet: Sheet,
  c: Case,
  from: number,
  count: number,
  more: Partial<Scenario> = {},
) {
  let [rang, shoal, steps, uneasy, doubt] = [0, 0, 0, 0, 0];
  for (const { trace } of nightsOf(sheet, c, from, count, more)) {
    if (trace.alarmStep >= 0) rang++;
    if (trace.shoal) shoal++;
    steps += trace.uneasy.length;
    uneasy += trace.uneasy.reduce((sum, v) => sum + v, 0);
    doubt += trace.cannotTell.reduce((sum, v) => sum + v, 0);
  }
  return {
    alarms: shareOf(rang, count),
    shoal: shareOf(shoal, count),
    uneasyShare: uneasy / steps,
    cannotTellShare: doubt / steps,
  };
}

function dragsOf(sheet: Sheet, c: Case, from: number, count: number): DragRow[] {
  return Object.entries(DRAGS).map(([name, drag]) => {
    const all = [...nightsOf(sheet, c, from, count, { drag })];
    return dragRow(
      name,
      all.map((a) => a.night),
      all.map((a) => ({ ...a.trace, windows: [] })),
      (t) => t.alarmStep,
    );
  });
}

/** The sheet: the same numbers of nights in every row, a half as many windy ones, so many drags of a kind. */
export function sensitivityReport(from: number, nights: number, drags: number) {
  const windy = Math.max(1, Math.round(nights / 2));
  return {
    from,
    nights,
    windy,
    drags,
    sheets: SHEETS.map((sheet) => ({
      name: sheet.name,
      rows: sheet.cases.map((c) => ({
        off: c.off,
        all: falseNights(sheet, c, from, nights),
        windy: falseNights(sheet, c, from, windy, { windy: true }),
        drags: dragsOf(sheet, c, from, drags),
      })),
    })),
  };
}

type Report = ReturnType<typeof sensitivityReport>;
type Row = Report["sheets"][number]["rows"][number];

const cells = (d: DragRow): string =>
  `${metre(d.medianM)} / ${metre(d.ninetyM)} | ${d.early}, ${d.lateButBlind}, ${d.late - d.lateButBlind}, ${d.never}`;

const part = (share: number): string => `${(100 * share).toFixed(1)} %`;

function rowOf(r: Row): string {
  const drags = r.drags.map(cells).join(" | ");
  return `| ${r.off} | ${percent(r.all.alarms)} | ${percent(r.windy.alarms)} | ${part(r.windy.uneasyShare)} | ${drags} |`;
}

/** Nights with a depth alarm and time in doubt: told in words, for the rows where they can be. */
function besides(report: Report): string {
  const [known, , unknown] = report.sheets;
  const tide = known!.rows.filter((r) => r.off.startsWith("tide"));
  const shoal = tide.map((r) => `${r.all.shoal.hits} of ${r.all.shoal.of}`).join(" and ");
  const doubt = unknown!.rows.map((r) => `${r.off} ${part(r.all.cannotTellShare)}`).join("; ");
  return `Nights on which the depth alarm rang, tide too high and too low: ${shoal}; the bottom is flat here, and the band of depths has the bottom's slope and two spreads of the tide in it. Part of the time in which a watch without the anchor's place said that it cannot tell: ${doubt}.`;
}

/** The sheet, worded. */
export function sensitivityPage(report: Report): string[] {
  const heads = report.sheets[0]!.rows[0]!.drags.map((d) => `${d.scenario} | its counts`);
  return [
    "",
    "## What an error in what is told does",
    "",
    `Good reception. ${report.nights} nights without a drag a row, ${report.windy} windy ones, ${report.drags} drags of either speed, numbered from ${report.from} on: of no other table, and none used to set a limit. Every row has the same nights (a fix every second draws its errors anew), so rows differ by what is off and by nothing else; one thing is off at a time. The recorded place of the anchor is off by the receiver's error alone, not by a wrong place of the antenna. Intervals are exact, 95 %. Metres dragged at the alarm, median / 90 %; *counts*: rang before the drag; silent, and missed, before 100 m; never found. *Uneasy*: part of the time of the windy nights.`,
    ...report.sheets.flatMap((sheet) => [
      "",
      `### ${sheet.name[0]!.toUpperCase()}${sheet.name.slice(1)}`,
      "",
      `| what is off | nights with a false alarm | windy nights | uneasy | ${heads.join(" | ")} |`,
      `|---|---|---|---|${"---|".repeat(2 * heads.length)}`,
      ...sheet.rows.map(rowOf),
    ]),
    "",
    besides(report),
  ];
}
