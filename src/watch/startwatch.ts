import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { instant, metres, position, seconds } from "../core/schema.js";
import { planeAt } from "../geo/plane.js";
import { presume, windows } from "./block.js";
import { limitTable } from "./limits.js";
import { MODES, OPEN_SIZE, RING_SIZE, Slot as m } from "./memory.js";
import { type WatchState, limitColumns, stateOf, takeLimits } from "./state.js";
import { UNSTATED_SIGMA_M } from "./statistics.js";
import { AIS_AT_ANCHOR, BASE, BLIND } from "./tables.js";

/** Schema of {@link startWatch}. */
export const startWatchInput = z.strictObject({
  /** When the watch begins. */
  startMs: instant(),
  /** Where the anchor lies, or roughly where the vessel is when nobody knows. */
  anchor: z.discriminatedUnion("known", [
    z.strictObject({
      known: z.literal(true),
      /** Where it was let go. */
      position,
      /** Spread of that position, one axis; 3 m unless given. */
      sigmaM: z._default(metres({ min: 0, max: 1000 }), 3),
    }),
    z.strictObject({
      known: z.literal(false),
      /** Any position nearby. */
      near: position,
    }),
  ]),
  /** Limits, as `watchLimits` gives them. */
  limits: limitTable,
  /** Usual time between fixes; a class A transponder at anchor reports every 180 s; 5 s unless given. */
  fixEveryS: z._default(seconds({ min: 0.05, max: 3 * AIS_AT_ANCHOR.intervalS }), 5),
  /** Without a usable fix for so long the watch is blind; where fixes come more seldom, without one for two and a half times as long as is usual; 120 s unless given. */
  silentS: z._default(seconds({ min: 10, max: 3600 }), BLIND.afterS),
  /** The same in wind over 8 m/s, or while a receiver repeats itself; never longer than `silentS`; 60 s unless given. */
  silentInWindS: z._default(seconds({ min: 10, max: 3600 }), BLIND.inWindS),
  /**
   * Silence after which the blind alarm rings; until then only the mode says that the watch is blind.
   * As soon as it is blind if left out, and in any case in wind over 8 m/s or when the last fix lay outside.
   */
  ringSilentS: z.optional(seconds({ min: 10, max: 3600 })),
  /** `letGo` while she is still being brought up: no drag alarm until `broughtUp` is told; `broughtUp` unless given. */
  stage: z._default(z.enum(["letGo", "broughtUp"]), "broughtUp"),
});
/** Input of {@link startWatch}. */
export type StartWatchInput = Given<typeof startWatchInput>;

/**
 * Begin to watch a vessel at anchor.
 *
 * The watch compares the middle distance from the anchor over 10 and 30 minutes, and fixes on end
 * over ten seconds to five minutes, with the greatest distance the rode allows, each in units of its
 * own spread; a steady run outward is a drag however little the receiver is trusted. It knows no clock: tell it the time. *Valid*: one anchor. *Accuracy*: false alarms and metres dragged before
 * the alarm stand in `docs/watch-accuracy.md`, from simulated nights.
 *
 * @throws InputError when an option is malformed.
 * @source design of our own; spread of a mean of correlated errors in closed form
 * @example
 * ```ts
 * import { startWatch, stepWatch } from "hawse/watch";
 * const startMs = Date.UTC(2026, 5, 1, 20);
 * let state = startWatch({
 *   startMs,
 *   anchor: { known: true, position: { latDeg: 50, lonDeg: -4 } },
 *   limits: {
 *     rows: [{ timeMs: startMs, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null }],
 *     distanceSigmaM: 1,
 *   },
 * });
 * for (let s = 0; s <= 300; s += 5)
 *   state = stepWatch(state, {
 *     kind: "fix",
 *     timeMs: startMs + s * 1000,
 *     latDeg: 50.0002 + s * 1e-9,
 *     lonDeg: -4,
 *     sigmaM: 1.5,
 *   }).state;
 * console.log(state.report.mode, state.report.distanceM?.toFixed(1));
 * // lying 22.3
 * ```
 */
export function startWatch(input: StartWatchInput): WatchState {
  const q = check(startWatchInput, input);
  const open = Array.from({ length: OPEN_SIZE }, () => 0);
  open[m.NOW] = q.startMs;
  open[m.STARTED] = q.startMs;
  open[m.SIGMA] = UNSTATED_SIGMA_M;
  open[m.BASE_UNTIL] = q.startMs + BASE.forMs;
  presume(open);
  open[m.CADENCE] = q.fixEveryS;
  open[m.SILENT_S] = q.silentS;
  open[m.SILENT_WINDY_S] = Math.min(q.silentS, q.silentInWindS);
  open[m.RING_SILENT_S] = q.ringSilentS ?? 0;
  open[m.WIND_MPS] = -1;
  open[m.STAGE] = q.stage === "letGo" ? 0 : 1;
  open[m.MODE] = MODES.indexOf(q.stage === "letGo" ? "bringingUp" : "cannotTell");
  open[m.MODE_SINCE] = q.startMs;
  if (q.anchor.known) {
    open[m.ANCHOR_KIND] = 1;
    open[m.ANCHOR_SIGMA] = q.anchor.sigmaM;
  }
  const plane = planeAt(q.anchor.known ? q.anchor.position : q.anchor.near);
  const ring = Array.from({ length: RING_SIZE }, () => 0);
  const mem = { open, ring, limits: limitColumns(q.limits) };
  takeLimits(mem, q.limits, q.startMs);
  windows(mem, Infinity);
  return stateOf(mem, plane);
}
