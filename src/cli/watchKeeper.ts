import type { WatchEvent } from "../watch/events.js";
import type { WatchReport } from "../watch/report.js";
import { startWatch } from "../watch/startwatch.js";
import type { WatchState } from "../watch/state.js";
import { stepWatch } from "../watch/stepwatch.js";
import type { Held } from "./watchHeld.js";
import { type Around, headline, isPast } from "./watchLines.js";

/** Time between two looks at the clock while nothing comes. */
export const LOOK_MS = 5000;
/** Looks at the clock in one hole: by the last of them the watch is long blind, and stays so until something comes. */
const LOOKS = 720;

/** Takes events and tells every change of how she lies. */
export interface Keeper {
  /** Take events; the clock goes on through the holes between them. */
  take: (events: readonly WatchEvent[]) => void;
  /** The clock has come so far, and nothing else. Before the first event that means nothing. */
  clock: (timeMs: number) => void;
  /** Bring what the watch says up to its latest instant. */
  settle: () => void;
  /** The watch as it stands; null before the first event. */
  state: () => WatchState | null;
  /** What stands beside the report as it is. */
  around: () => Around;
}

/** The same watch with a report of its latest instant: between blocks it goes on saying what it last said. */
const upToDate = (state: WatchState): WatchState =>
  stepWatch(state, { kind: "clock", timeMs: state.report.atMs }).state;

type Tell = (r: WatchReport, around: Around) => void;

/** A watch that tells its changes, one event at a time, and how far its clock has come. */
function stepper(begun: WatchState | null, held: Held, tell: Tell) {
  let state = begun;
  let past = begun !== null && isPast(begun.report, false);
  let told = begun === null ? "" : headline(begun.report, past);
  let nowMs = begun?.report.atMs ?? NaN;
  const one = (event: WatchEvent): void => {
    const before = state?.report.mode ?? null;
    // A watch knows no clock: it begins at the first instant it is told.
    state ??= startWatch({
      startMs: event.timeMs,
      anchor: { known: true, position: held.position },
      limits: held.limits,
    });
    state = stepWatch(state, event).state;
    past = isPast(state.report, past);
    const now = headline(state.report, past);
    if (now !== told) tell(state.report, { before, past });
    told = now;
    nowMs = nowMs > event.timeMs ? nowMs : event.timeMs;
  };
  return { one, state: () => state, past: () => past, nowMs: () => nowMs };
}

/** A watch begun anew, or taken up where it was left. */
export function keeper(begun: WatchState | null, held: Held, tell: Tell): Keeper {
  const watch = stepper(begun === null ? null : upToDate(begun), held, tell);
  const through = (timeMs: number): void => {
    const from = watch.nowMs();
    for (let i = 1; i <= LOOKS && from + i * LOOK_MS < timeMs; i++)
      watch.one({ kind: "clock", timeMs: from + i * LOOK_MS });
  };
  const clock = (timeMs: number): void => {
    if (watch.state() !== null) watch.one({ kind: "clock", timeMs });
  };
  return {
    take: (events) => {
      for (const event of events) {
        through(event.timeMs);
        watch.one(event);
      }
    },
    clock: (timeMs) => {
      if (!(timeMs > watch.nowMs())) return;
      through(timeMs);
      clock(timeMs);
    },
    settle: () => {
      clock(watch.nowMs());
    },
    state: watch.state,
    around: () => ({ before: null, past: watch.past() }),
  };
}
