import type * as z from "zod/mini";
import { check } from "../core/check.js";
import { type Plane, toPlane } from "../geo/plane.js";
import { type WatchEvent, type fixEvent, watchEvent } from "./events.js";
import { judge } from "./judge.js";
import { addFix, addSpeed, advance, closesBlock } from "./kernel.js";
import { Slot as m } from "./memory.js";
import { isPlainFix } from "./plainfix.js";
import type { Memory } from "./reach.js";
import type { WatchReport } from "./report.js";
import { asWatch, type WatchState, limitColumns, stateOf } from "./state.js";
import { UNSTATED_SIGMA_M } from "./statistics.js";
import { tell } from "./tell.js";

/** Answer of {@link stepWatch}. */
export interface WatchStep {
  /** State to hand to the next step. */
  state: WatchState;
  /** What the watch says. */
  report: WatchReport;
}

const REWRITES: ReadonlySet<WatchEvent["kind"]> = new Set(["anchor", "veered", "limits"] as const);

/**
 * Tell the watch one thing, and hear what it says.
 *
 * A pure step: the same state and event give the same answer to the bit, on any machine, also after
 * `saveWatch` and `resumeWatch`. The old state is left as it was. Events may come late, twice, or not
 * at all. A fix at exactly 0° N 0° E is that of a receiver without one: it counts as a jump, and tells
 * the hour alone.
 * *Valid*: any order. *Accuracy*: see `startWatch`.
 *
 * @throws InputError when the event is malformed.
 * @source design of our own
 * @example
 * ```ts
 * import { startWatch, stepWatch } from "hawse/watch";
 * const startMs = Date.UTC(2026, 5, 1, 20);
 * const state = startWatch({
 *   startMs,
 *   anchor: { known: false, near: { latDeg: 50, lonDeg: -4 } },
 *   limits: {
 *     rows: [{ timeMs: startMs, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null }],
 *     distanceSigmaM: 1,
 *   },
 * });
 * const { report } = stepWatch(state, { kind: "clock", timeMs: startMs + 180000 });
 * console.log(report.mode, report.alarms.map((a) => a.code).join());
 * // blind blind
 * ```
 */
export function stepWatch(state: WatchState, event: WatchEvent): WatchStep {
  const given = isPlainFix(event) ? event : check(watchEvent, event);
  const e = placed(given);
  const before = asWatch(state).open;
  const timeMs = e.kind === "clock" ? hostTime(before, e.timeMs) : e.timeMs;
  const closes = closesBlock(before, timeMs);
  const mem: { open: number[]; ring: number[]; limits: readonly number[] } = {
    open: before.slice(),
    // Closed blocks are written when one more closes, or when an order changes what they are held against.
    ring: closes || REWRITES.has(e.kind) ? state.ring.slice() : (state.ring as number[]),
    limits: state.limits,
  };
  if (e !== given) mem.open[m.JUMPS]!++;
  if (e.kind === "fix") takeFix(mem, state.plane, e);
  else {
    advance(mem, timeMs);
    if (e.kind === "limits") mem.limits = limitColumns(e.limits);
    tell(mem, state.plane, e);
    judge(mem);
  }
  if (e.kind === "clock") mem.open[m.CLOCK] = e.timeMs;
  else if (mem.open[m.NOW] !== before[m.NOW]) mem.open[m.CLOCK] = 0;
  const changed =
    closes ||
    e.kind !== "fix" ||
    mem.open[m.MODE] !== before[m.MODE] ||
    mem.open[m.LATCHED] !== before[m.LATCHED];
  const next: WatchState = changed
    ? stateOf(mem, state.plane)
    : {
        version: 1,
        plane: state.plane,
        limits: mem.limits,
        ring: mem.ring,
        open: mem.open,
        said: state.said,
        report: state.report,
      };
  return { state: next, report: next.report };
}

/** Of what a host's clock goes between two tellings, so much counts: a clock may be set right. */
const CLOCK_STEP_MS = 60_000;

/**
 * The time when a host's clock says so much. Where a receiver has told a later hour, as one whose
 * clock has leapt does, time goes on by what the host's has gone, so that the silence after it is heard.
 */
function hostTime(open: readonly number[], timeMs: number): number {
  const [now, before] = [open[m.NOW]!, open[m.CLOCK]!];
  if (timeMs >= now || before === 0) return timeMs;
  return now + Math.min(Math.max(0, timeMs - before), CLOCK_STEP_MS);
}

/** What was told; a fix at nought north and nought east, which receivers give that have none, tells the hour alone, and counts as a jump. */
const placed = (e: Told): Told =>
  e.kind === "fix" && e.latDeg === 0 && e.lonDeg === 0 ? { kind: "clock", timeMs: e.timeMs } : e;

type Told = z.output<typeof watchEvent>;
type Fix = z.output<typeof fixEvent>;

/** Room for one conversion; nothing in it outlives a call. */
const xy = new Float64Array(2);

function takeFix(mem: Memory, plane: Plane, e: Fix): void {
  toPlane(plane, e.latDeg, e.lonDeg, xy, 0);
  const x = xy[0]!;
  const y = xy[1]!;
  if (e.sogMps !== undefined && e.cogDeg !== undefined)
    addSpeed(mem.open, e.timeMs, x, y, e.sogMps, e.cogDeg);
  addFix(mem, e.receiver ?? 0, e.timeMs, x, y, e.latDeg, e.lonDeg, e.sigmaM ?? UNSTATED_SIGMA_M);
}
