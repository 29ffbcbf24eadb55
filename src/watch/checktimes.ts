import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { turnDeg } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, duration, instant, interval, speed } from "../core/schema.js";
import { inTimeOrder, MOST_ROWS } from "../core/series.js";
import type { Milliseconds } from "../core/units.js";
import { darkSpans, stayColumns, streamTurn, tideTurn, windRow } from "./stay.js";

/** Schema of {@link checkTimes}. */
export const checkTimesInput = z.strictObject({
  /** The stay. */
  stay: interval,
  /** Depth of water over the stay, for its least. */
  columns: z.optional(stayColumns),
  /** High and low waters. */
  tideTurns: z._default(z.array(tideTurn), []),
  /** Slacks and greatest rates of the stream. */
  streamTurns: z._default(z.array(streamTurn), []),
  /** Wind forecast, ascending in time; at most 10 080 rows. */
  wind: z._default(
    z
      .array(windRow)
      .check(z.maxLength(MOST_ROWS), z.refine(inTimeOrder, "wind is not ascending in time")),
    [],
  ),
  /** Spans of darkness. */
  dark: z._default(darkSpans, []),
  /** When the crew means to turn in. */
  turningInMs: z.optional(instant()),
  /** Moments nearer to each other than this are one check; 20 minutes unless given. */
  togetherMs: z._default(duration(), 20 * 60_000),
  /** Change of direction within three hours that counts as a shift; 30° unless given. */
  windShiftDeg: z._default(degrees({ min: 5, max: 180 }), 30),
  /** Rise of the wind within three hours that counts; 4 m/s unless given. */
  windRiseMps: z._default(speed(), 4),
});
/** Input of {@link checkTimes}. */
export type CheckTimesInput = Given<typeof checkTimesInput>;
type Parsed = z.output<typeof checkTimesInput>;

/** Why a check falls where it does. */
export type CheckCause =
  | "afterSetting"
  | "highWater"
  | "lowWater"
  | "leastDepth"
  | "slack"
  | "greatestStream"
  | "windShift"
  | "windRise"
  | "nightfall"
  | "daybreak"
  | "turningIn";

/** What to look at. */
export type CheckLook =
  "distanceFromAnchor" | "bearings" | "depth" | "rodeLead" | "neighbours" | "lights" | "chafe";

/** One check of how the vessel lies. */
export interface CheckTime {
  /** When to look. */
  timeMs: Milliseconds;
  /** Why then. */
  causes: CheckCause[];
  /** What to look at. */
  look: CheckLook[];
}

/** What each cause asks to be looked at (common practice, no source). */
const LOOK: Record<CheckCause, readonly CheckLook[]> = {
  afterSetting: ["distanceFromAnchor", "bearings"],
  highWater: ["depth", "distanceFromAnchor", "rodeLead"],
  lowWater: ["depth", "neighbours"],
  leastDepth: ["depth"],
  slack: ["rodeLead", "neighbours", "distanceFromAnchor"],
  greatestStream: ["distanceFromAnchor", "rodeLead"],
  windShift: ["distanceFromAnchor", "bearings", "rodeLead", "neighbours"],
  windRise: ["distanceFromAnchor", "bearings", "chafe"],
  nightfall: ["lights", "bearings"],
  daybreak: ["lights", "bearings", "chafe"],
  turningIn: ["distanceFromAnchor", "bearings", "depth", "lights", "chafe"],
};

/** Time after letting go at which she is looked at again. */
const SETTLED_MS = 30 * 60_000;
const LOOK_BACK_MS = 3 * 3_600_000;
/** Below this the direction of the wind decides nothing. */
const AIRS_MPS = 3;

interface Cause {
  timeMs: number;
  cause: CheckCause;
}

/**
 * When to look how the vessel lies, and at what.
 *
 * Moments at which something changes that an anchor feels: turns of tide and stream, wind shifts and
 * rises, least depth, nightfall, before turning in. Near ones become one check at the earliest. Between rows of
 * wind up to a day apart it is taken to turn and rise evenly.
 * Leaves out what no forecast tells. *Valid*: the stay given. *Accuracy*: that of the inputs.
 *
 * @throws InputError when the wind is not ascending in time or a figure is out of range.
 * @source common practice, no source
 * @example
 * ```ts
 * import { checkTimes } from "hawse/watch";
 * const t = Date.UTC(2026, 5, 1, 18);
 * const checks = checkTimes({
 *   stay: { fromMs: t, toMs: t + 14 * 3600000 },
 *   tideTurns: [{ timeMs: t + 3 * 3600000, heightM: 0.8, kind: "low" }],
 *   dark: [{ fromMs: t + 2.9 * 3600000, toMs: t + 10 * 3600000 }],
 * });
 * console.log(checks.map((c) => c.causes.join("+")).join(", "));
 * // afterSetting, nightfall+lowWater, daybreak
 * ```
 */
export function checkTimes(input: CheckTimesInput): CheckTime[] {
  return checksOver(check(checkTimesInput, input));
}

/** {@link checkTimes} of an input already checked. */
export function checksOver(q: Parsed): CheckTime[] {
  const { fromMs, toMs } = q.stay;
  const causes = [...clockCauses(q), ...waterCauses(q), ...windCauses(q)].filter(
    (c) => c.timeMs >= fromMs && c.timeMs <= toMs,
  );
  causes.sort((a, b) => a.timeMs - b.timeMs || order(a.cause) - order(b.cause));
  const out: CheckTime[] = [];
  for (const { timeMs, cause } of causes) {
    const last = out[out.length - 1];
    if (last !== undefined && timeMs - last.timeMs <= q.togetherMs) {
      if (!last.causes.includes(cause)) last.causes.push(cause);
    } else out.push({ timeMs, causes: [cause], look: [] });
  }
  for (const one of out) one.look = [...new Set(one.causes.flatMap((c) => LOOK[c]))];
  return out;
}

const CAUSES = Object.keys(LOOK);
const order = (cause: CheckCause): number => CAUSES.indexOf(cause);

function clockCauses(q: Parsed): Cause[] {
  const out: Cause[] = [{ timeMs: q.stay.fromMs + SETTLED_MS, cause: "afterSetting" }];
  for (const { fromMs, toMs } of q.dark) {
    out.push({ timeMs: fromMs, cause: "nightfall" });
    out.push({ timeMs: toMs, cause: "daybreak" });
  }
  if (q.turningInMs !== undefined) out.push({ timeMs: q.turningInMs, cause: "turningIn" });
  return out;
}

function waterCauses(q: Parsed): Cause[] {
  const out: Cause[] = q.tideTurns.map((t) => ({
    timeMs: t.timeMs,
    cause: t.kind === "high" ? "highWater" : "lowWater",
  }));
  for (const s of q.streamTurns)
    out.push({
      timeMs: s.timeMs,
      cause: s.kind === "greatest" ? "greatestStream" : "slack",
    });
  let least: Cause | undefined;
  let depth = Infinity;
  q.columns?.timeMs.forEach((timeMs, i) => {
    const d = q.columns!.depthM[i] ?? Infinity;
    if (d < depth && timeMs >= q.stay.fromMs && timeMs <= q.stay.toMs) {
      depth = d;
      least = { timeMs, cause: "leastDepth" };
    }
  });
  if (least !== undefined) out.push(least);
  return out;
}

/** Shifts and rises against any row of the three hours before; counted anew from each. */
const windCauses = (q: Parsed, wind = hourly(q.wind)): Cause[] => [
  ...changes(
    wind,
    "windShift",
    (row) => row.windFromDeg,
    (from, row) =>
      row.windMps >= AIRS_MPS && Math.abs(turnDeg(from, row.windFromDeg)) >= q.windShiftDeg,
  ),
  ...changes(
    wind,
    "windRise",
    (row) => row.windMps,
    (from, row) => row.windMps - from >= q.windRiseMps,
  ),
];

type WindRow = Parsed["wind"][number];

const HOUR_MS = 3_600_000;
/** Rows further apart than this say nothing of what lies between them. */
const FARTHEST_MS = 24 * HOUR_MS;

/** Rows further apart than is looked back, filled up by the hour: the wind is taken to turn and rise evenly between them. */
const hourly = (rows: readonly WindRow[]): WindRow[] =>
  rows.flatMap((row, i) => {
    const next = rows[i + 1];
    const apartMs = (next?.timeMs ?? row.timeMs) - row.timeMs;
    if (next === undefined || !(apartMs > LOOK_BACK_MS && apartMs <= FARTHEST_MS)) return [row];
    const turn = turnDeg(row.windFromDeg, next.windFromDeg);
    return Array.from({ length: Math.ceil(apartMs / HOUR_MS) }, (_, k) => {
      const part = (k * HOUR_MS) / apartMs;
      return {
        timeMs: row.timeMs + k * HOUR_MS,
        windMps: row.windMps + part * (next.windMps - row.windMps),
        windFromDeg: row.windFromDeg + part * turn,
      };
    });
  });

/** Rows that differ from a figure of the three hours before. A figure told again stands once, by its last time. */
function changes(
  rows: readonly WindRow[],
  cause: CheckCause,
  figureOf: (row: WindRow) => number,
  differs: (from: number, row: WindRow) => boolean,
): Cause[] {
  const out: Cause[] = [];
  const lastMs = new Map<number, number>();
  for (const row of rows) {
    for (const [figure, timeMs] of lastMs) {
      if (row.timeMs - timeMs <= LOOK_BACK_MS) break;
      lastMs.delete(figure);
    }
    for (const from of lastMs.keys())
      if (differs(from, row)) {
        out.push({ timeMs: row.timeMs, cause });
        lastMs.clear();
        break;
      }
    const figure = figureOf(row);
    lastMs.delete(figure);
    lastMs.set(figure, row.timeMs);
  }
  return out;
}
