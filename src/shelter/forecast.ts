import * as z from "zod/mini";
import { turnDeg, wrap360 } from "../core/angles.js";
import { degrees, direction, duration, instant, share, speed } from "../core/schema.js";
import { inTimeOrder } from "../core/series.js";
import { directionSigma } from "./spread.js";

/** Array of at least one row, ascending in time. */
export const timedRows = <S extends z.ZodMiniType<{ timeMs: number }>>(row: S) =>
  z.array(row).check(z.minLength(1), z.refine(inTimeOrder, "rows are not in order of time"));

const member = z.strictObject({
  /** Mean wind at 10 m. */
  windMps: speed({ max: 90 }),
  /** Direction it blows from. */
  windFromDeg: direction(),
});

/** Schema of a wind forecast; the one of a stay is also one of these. */
export const forecastSchema = z.strictObject({
  /** When the forecast was issued; its first row where left out. The spread of direction grows from here. */
  issuedMs: z.optional(instant()),
  /** Wind at given times, ascending. */
  rows: timedRows(
    z.strictObject({
      /** When. */
      timeMs: instant(),
      /** Mean wind at 10 m. */
      windMps: speed({ max: 90 }),
      /** Direction it blows from. */
      windFromDeg: direction(),
      /** Gusts, for what they do to the vessel; they raise no sea. */
      gustMps: z.optional(speed({ max: 120 })),
      /** Winds of an ensemble, in place of a spread of direction. */
      members: z.optional(z.array(member).check(z.minLength(2), z.maxLength(200))),
    }),
  ),
  /** One sigma of the direction; by wind and lead time where left out. */
  directionSigmaDeg: z.optional(degrees({ min: 0, max: 120 })),
  /** One sigma of the mean wind as a share of it; a fifth where left out. Ignored for an ensemble. */
  speedSigmaShare: z._default(share(), 0.2),
  /** Rows further apart than this leave the time between unknown; six hours where left out. */
  longestGapMs: z._default(duration(), 6 * 3_600_000),
});

/** A checked forecast. */
export type Forecast = z.output<typeof forecastSchema>;
/** One row of a forecast. */
type ForecastRow = Forecast["rows"][number];

/** Wind at one moment; NaN where the forecast does not reach. */
export interface Wind {
  windMps: number;
  windFromDeg: number;
  gustMps: number;
  /** Gusts of at least so much: the greatest told by a row beside, whatever the other says, and the mean wind itself. */
  leastGustMps: number;
  sigmaDeg: number;
  members: ForecastRow["members"] & object;
}

/** Nothing known of the wind. */
export const noWind = (): Wind => ({
  windMps: NaN,
  windFromDeg: NaN,
  gustMps: NaN,
  leastGustMps: NaN,
  sigmaDeg: NaN,
  members: [],
});

/** Index of the first row after an instant. */
function firstAfter(rows: readonly { timeMs: number }[], timeMs: number): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (rows[middle]!.timeMs <= timeMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Rows told for instants nearer to a step than to the steps beside it: what they tell counts at it. */
export function rowsAbout<R extends { timeMs: number }>(
  rows: readonly R[],
  timeMs: number,
  stepMs: number,
): R[] {
  const earliestMs = timeMs - stepMs / 2;
  const from = firstAfter(rows, earliestMs);
  const first = rows[from - 1]?.timeMs === earliestMs ? from - 1 : from;
  return rows.slice(first, firstAfter(rows, timeMs + stepMs / 2));
}

/** Rows beside an instant and the part of the way between them; null where there is none, or too wide a gap. */
export function between<R extends { timeMs: number }>(
  rows: readonly R[],
  timeMs: number,
  longestGapMs: number,
): { a: R; b: R; part: number } | null {
  const next = firstAfter(rows, timeMs);
  const a = rows[next - 1];
  if (a === undefined) return null;
  if (a.timeMs === timeMs) return { a, b: a, part: 0 };
  const b = rows[next];
  if (b === undefined || !(b.timeMs - a.timeMs <= longestGapMs)) return null;
  return { a, b, part: (timeMs - a.timeMs) / (b.timeMs - a.timeMs) };
}

/** Direction part of the way from one to another, the shorter way round. */
export const directionBetween = (a: number, b: number, part: number): number =>
  wrap360(a + part * turnDeg(a, b));

/** Wind of a forecast at an instant: speed along a straight line, direction the shorter way round. */
export function windAt(forecast: Forecast, timeMs: number, out: Wind): void {
  const found = between(forecast.rows, timeMs, forecast.longestGapMs);
  if (found === null) {
    Object.assign(out, noWind());
    return;
  }
  const { a, b, part } = found;
  const { rows, issuedMs = rows[0]!.timeMs } = forecast;
  out.windMps = a.windMps + part * (b.windMps - a.windMps);
  out.windFromDeg = directionBetween(a.windFromDeg, b.windFromDeg, part);
  out.gustMps = Math.max(a.gustMps ?? NaN, b.gustMps ?? NaN);
  out.leastGustMps = Math.max(out.windMps, a.gustMps ?? 0, b.gustMps ?? 0);
  out.sigmaDeg = forecast.directionSigmaDeg ?? directionSigma(out.windMps, timeMs - issuedMs);
  out.members = membersBetween(a, b, part);
}

/** Ensemble part of the way between two rows, member by member; of one row where the other has not as many. */
function membersBetween(
  { members: a = [] }: ForecastRow,
  { members: b = [] }: ForecastRow,
  part: number,
): Wind["members"] {
  if (a === b || b.length === 0) return a;
  if (a.length !== b.length) return part < 0.5 && a.length > 0 ? a : b;
  return a.map((m, i) => ({
    windMps: m.windMps + part * (b[i]!.windMps - m.windMps),
    windFromDeg: directionBetween(m.windFromDeg, b[i]!.windFromDeg, part),
  }));
}
