/** What sooner alarms would cost in obstructed reception, and later ones save. */
import { RUN, TESTS, WINDOWS } from "../../src/watch/tables.js";
import { type Drag, RAMP_S, type Scenario, simulateNight } from "./night.js";
import { traceNight } from "./trace.js";

/** Parts of the limits that ring. */
const PARTS = [0.8, 0.9, 1, 1.15, 1.3] as const;
const DRAGS: Record<string, Drag> = {
  "0.5 m/min": { mPerMin: 0.5 },
  "1.5 m/min": { mPerMin: 1.5 },
  "0.1 kn": { mPerMin: 1852 / 600 },
  "1 kn": { mPerMin: 1852 / 60 },
};

/** Every limit that rings, in part, while `run` runs: for this table alone. */
function withLimits<T>(part: number, run: () => T): T {
  const rows = [...TESTS, ...WINDOWS] as { alarm: number; mostM: number }[];
  const metres = RUN as { gainM: number; mostM: number; gainSpreads: number };
  const kept = rows.map((r) => ({ ...r }));
  const keptRun = { ...metres };
  for (const row of rows) {
    row.alarm *= part;
    row.mostM *= part;
  }
  metres.gainM *= part;
  metres.mostM *= part;
  metres.gainSpreads *= part;
  try {
    return run();
  } finally {
    rows.forEach((row, i) => Object.assign(row, kept[i]));
    Object.assign(metres, keptRun);
  }
}

const alarmStep = (number: number, scenario: Scenario) => {
  const night = simulateNight(number, scenario);
  return { night, at: traceNight(night, { anchor: true }).alarmStep };
};

function shareOfNights(from: number, count: number, scenario: Scenario): number {
  let rang = 0;
  for (let n = 0; n < count; n++) if (alarmStep(from + n, scenario).at >= 0) rang++;
  return rang / count;
}

function medianM(from: number, count: number, scenario: Scenario): number {
  const metres: number[] = [];
  for (let n = 0; n < count; n++) {
    const { night, at } = alarmStep(from + n, scenario);
    const dragged = at < 0 ? Infinity : night.draggedM[at]!;
    if (dragged > 0) metres.push(dragged);
  }
  return metres.sort((a, b) => a - b)[metres.length >> 1]!;
}

/** One row a part of the limits. */
export function tradeReport(from: number, nights: number, drags: number) {
  const receiver = "obstructed";
  return PARTS.map((part) =>
    withLimits(part, () => ({
      part,
      nights,
      falseAlarms: shareOfNights(from, nights, { receiver }),
      slowExcursions: shareOfNights(from, nights, { receiver, rampS: RAMP_S }),
      medianM: Object.fromEntries(
        Object.entries(DRAGS).map(([k, drag]) => [k, medianM(from, drags, { receiver, drag })]),
      ),
    })),
  );
}

export function tradePage(rows: ReturnType<typeof tradeReport>): string[] {
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  return [
    "",
    "## What it costs to ring sooner in obstructed reception",
    "",
    `All limits that ring, spreads and metres alike, taken in part; ${rows[0]!.nights} nights a row of the reporting numbers. *Slow excursions*: nights on which they grow and die with a time constant of ${RAMP_S} s instead of leaping. Metres dragged at the alarm, median.`,
    "",
    `| limits | nights with a false alarm | the same, slow excursions | ${Object.keys(DRAGS).join(" | ")} |`,
    `|---|---|---|${Object.keys(DRAGS)
      .map(() => "---|")
      .join("")}`,
    ...rows.map(
      (r) =>
        `| ${r.part} | ${percent(r.falseAlarms)} | ${percent(r.slowExcursions)} | ${Object.values(
          r.medianM,
        )
          .map((m) => m.toFixed(0))
          .join(" | ")} |`,
    ),
  ];
}
