import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import type { Reason } from "../core/judgement.js";
import { degrees, instant, metres } from "../core/schema.js";
import type { Metres, Milliseconds } from "../core/units.js";
import { inTimeOrder } from "../core/series.js";
import { stayColumns } from "./stay.js";
import { LIMIT_ROWS } from "./tables.js";

/** Limits at one moment; the watch reads between rows along a straight line. */
export const limitRow = z.strictObject({
  /** When. */
  timeMs: instant(),
  /** Greatest distance from the anchor to the antenna while the anchor holds. */
  greatestDistanceM: metres({ min: 0 }),
  /** Least depth of water the tide and the swing explain, or the least allowed; null where unknown. */
  leastDepthM: z.nullable(metres()),
  /** Greatest depth of water they explain; null where unknown. */
  greatestDepthM: z.nullable(metres()),
});
/** Limits at one moment. */
export type LimitRow = z.infer<typeof limitRow>;

/** What a watch is held against. Not strict, so that the answer of {@link watchLimits} serves as it is. */
export const limitTable = z
  .object({
    /** Limits over the stay, ascending in time, at most 40 rows. */
    rows: z
      .array(limitRow)
      .check(
        z.minLength(1, "expected at least 1 row"),
        z.maxLength(LIMIT_ROWS, `expected at most ${LIMIT_ROWS} rows`),
      ),
    /** One sigma of the greatest distance: rode, depth and antenna. */
    distanceSigmaM: metres({ min: 0, max: 100 }),
  })
  .check(z.refine((t) => inTimeOrder(t.rows), "rows are not ascending in time"));
/** What a watch is held against. */
export type LimitTable = z.infer<typeof limitTable>;

/** Schema of {@link watchLimits}. */
export const watchLimitsInput = z.strictObject({
  /** The stay: moments, depth at the anchor, and reach under load. */
  stay: stayColumns,
  /** The rode as it lies. */
  rode: z.strictObject({
    /** Length veered, anchor to bow roller. */
    lengthM: metres({ above: 0 }),
    /** One sigma of that length; 3 % of it if left out. */
    sigmaM: z.optional(metres({ min: 0 })),
    /** Rode to veer beyond that length (negative to shorten in): the limits are those after it. None unless given. */
    veerM: z._default(metres(), 0),
  }),
  /** Height of the bow roller above the water. */
  bowHeightM: metres({ min: 0 }),
  /** Antenna of the position receiver, as the hull lies. */
  antenna: z.strictObject({
    /** Distance abaft the bow roller. */
    abaftBowM: metres({ min: 0 }),
    /** Distance off the centre line; 0 unless given. */
    athwartM: z._default(metres({ min: 0 }), 0),
    /** One sigma of both; 0.3 m unless given. */
    sigmaM: z._default(metres({ min: 0 }), 0.3),
  }),
  /** One sigma of the expected depth: chart, tide and weather together; 0.3 m unless given. */
  depthSigmaM: z._default(metres({ min: 0 }), 0.3),
  /** Slope of the bottom within the swinging circle; 2° unless given. */
  bottomSlopeDeg: z._default(degrees({ min: 0, max: 45 }), 2),
  /** Least depth the vessel may have: draught and clearance. */
  leastDepthM: z.optional(metres({ min: 0 })),
});
/** Input of {@link watchLimits}. */
export type WatchLimitsInput = Given<typeof watchLimitsInput>;
type Parsed = z.output<typeof watchLimitsInput>;

/** Answer of {@link watchLimits}; `rows` and `distanceSigmaM` are what `startWatch` takes. */
export interface WatchLimits {
  /** Limits over the stay. */
  rows: LimitRow[];
  /** One sigma of the greatest distance. */
  distanceSigmaM: Metres;
  /** Rode the limits are for. */
  rodeM: Metres;
  /** The greatest of the distances. */
  greatest: {
    /** Distance from the anchor to the antenna. */
    distanceM: Metres;
    /** When it is allowed. */
    atMs: Milliseconds;
  };
  /** What makes the limits weaker than they should be. */
  reasons: Reason[];
  /** Defaults used. */
  assumed: string[];
  /** Rules the limits rest on. */
  basis: string[];
}

/**
 * The distances from the anchor and the depths within which a vessel lies while her anchor holds.
 *
 * Distance is that of the rode drawn straight at the depth of the moment (or the reach under load,
 * where that is more), and the antenna's distance abaft the bow: from the anchor, never from where
 * the vessel happened to lie. Depths are the tide's, widened by their spread and by the slope of the
 * bottom over the swing. Leaves out a second anchor and a rode foul of the bottom.
 * *Valid*: one anchor. *Accuracy*: geometry exact; the spread is one
 * sigma from the stated spreads, linear.
 *
 * @throws InputError when columns differ in length or figures cannot be.
 * @source geometry; the margins are common practice, no source
 * @example
 * ```ts
 * import { watchLimits } from "hawse/watch";
 * const limits = watchLimits({
 *   stay: { timeMs: [0, 3600000], depthM: [5, 7] },
 *   rode: { lengthM: 35 },
 *   bowHeightM: 1,
 *   antenna: { abaftBowM: 9 },
 * });
 * console.log(limits.rows.map((r) => r.greatestDistanceM.toFixed(2)).join(" "));
 * // 43.48 43.07
 * ```
 */
export function watchLimits(input: WatchLimitsInput): WatchLimits {
  return limitsOf(check(watchLimitsInput, input));
}

/** {@link watchLimits} of an input already checked. */
export function limitsOf(q: Parsed): WatchLimits {
  const rodeM = Math.max(0, q.rode.lengthM + q.rode.veerM);
  const rows = thin(q.stay.timeMs.map((_, i) => rowAt(q, rodeM, i)));
  const far = rows.reduce((a, b) => (b.greatestDistanceM > a.greatestDistanceM ? b : a));
  return {
    rows,
    distanceSigmaM: spreadOf(q, rodeM),
    rodeM,
    greatest: { distanceM: far.greatestDistanceM, atMs: far.timeMs },
    reasons: reasonsOf(q, rodeM, rows),
    assumed: [
      ...(q.rode.sigmaM === undefined ? ["rode.sigmaM: 3 % of the length"] : []),
      ...(q.stay.reachM === undefined ? ["stay.reachM: rode drawn straight"] : []),
    ],
    basis: [
      "distance: straight rode at the depth of the moment, and the antenna's own from the bow",
      "depth: tide with two sigma, and the bottom's slope over the swing; common practice, no source",
    ],
  };
}

/** Horizontal distance a straight rode spans from anchor to roller. */
function tautReach(rodeM: number, heightM: number): number {
  return rodeM > heightM ? Math.sqrt(rodeM * rodeM - heightM * heightM) : 0;
}

function rowAt(q: Parsed, rodeM: number, i: number): LimitRow {
  const depth = q.stay.depthM[i] ?? null;
  const height = depth === null ? 0 : Math.max(0, depth) + q.bowHeightM;
  const loaded = q.stay.reachM?.[i] ?? 0;
  // A reach worked out for the old length says nothing about a new one.
  const reach = Math.max(tautReach(rodeM, height), Math.abs(q.rode.veerM) > 0 ? 0 : loaded);
  const { abaftBowM: abaft, athwartM: athwart } = q.antenna;
  const swing = (reach + abaft) * Math.tan(q.bottomSlopeDeg * RAD);
  const margin = 2 * q.depthSigmaM + swing;
  const least = depth === null ? null : depth - margin;
  const allowed = q.leastDepthM;
  return {
    timeMs: q.stay.timeMs[i]!,
    // As she yaws the antenna comes into line with the rode, be it ever so far off the centre line.
    greatestDistanceM: reach + Math.sqrt(abaft * abaft + athwart * athwart),
    leastDepthM: allowed === undefined ? least : Math.max(least ?? allowed, allowed),
    greatestDepthM: depth === null ? null : depth + margin,
  };
}

/** Spread of the greatest distance, at the depth where it is most. */
function spreadOf(q: Parsed, rodeM: number): number {
  const known = q.stay.depthM.filter((d) => d !== null);
  const height = Math.max(0, ...known) + q.bowHeightM;
  const reach = Math.max(tautReach(rodeM, height), rodeM / 10);
  const rode = ((q.rode.sigmaM ?? 0.03 * rodeM) * rodeM) / reach;
  const depth = (q.depthSigmaM * height) / reach;
  const antenna = q.antenna.sigmaM;
  return Math.sqrt(rode * rode + depth * depth + antenna * antenna);
}

function reasonsOf(q: Parsed, rodeM: number, rows: LimitRow[]): Reason[] {
  const out: Reason[] = [];
  const deep = Math.max(...q.stay.depthM.map((d) => d ?? -Infinity));
  if (!(rodeM > deep + q.bowHeightM))
    out.push({
      code: "rode.short",
      severity: "stop",
      value: rodeM,
      limit: deep + q.bowHeightM,
      basis: "a rode shorter than the height from bottom to roller holds nothing",
    });
  const unknown = rows.find((r) => r.greatestDepthM === null);
  if (unknown !== undefined)
    out.push({
      code: "depth.unknown",
      severity: "caution",
      atMs: unknown.timeMs,
      value: null,
      limit: null,
      basis: "distance from the whole rode; no depth limits there",
    });
  return out;
}

/** At most as many rows as a watch holds; what is dropped widens what stays, never narrows it. */
function thin(rows: LimitRow[]): LimitRow[] {
  if (rows.length <= LIMIT_ROWS) return rows;
  const last = rows.length - 1;
  const knots = Array.from({ length: LIMIT_ROWS }, (_, k) =>
    Math.round((k * last) / (LIMIT_ROWS - 1)),
  );
  return knots.map((at, k) => {
    const from = knots[k - 1] ?? at;
    const to = knots[k + 1] ?? at;
    const near = rows.slice(from, to + 1);
    return {
      timeMs: rows[at]!.timeMs,
      greatestDistanceM: Math.max(...near.map((r) => r.greatestDistanceM)),
      leastDepthM: widest(near, (r) => r.leastDepthM, Math.min),
      greatestDepthM: widest(near, (r) => r.greatestDepthM, Math.max),
    };
  });
}

function widest(
  rows: LimitRow[],
  pick: (row: LimitRow) => number | null,
  of: (...values: number[]) => number,
): number | null {
  const values = rows.map(pick);
  return values.some((v) => v === null) ? null : of(...(values as number[]));
}
