import { createReadStream, existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { parseArgs } from "node:util";
import { InputError, refuse } from "../core/errors.js";
import { eventsFromGpx } from "../feed/gpx.js";
import { readNmea0183 } from "../feed/nmea.js";
import type { NmeaState } from "../feed/state.js";
import { clockOf, metresText } from "../plan/words.js";
import type { WatchEvent } from "../watch/events.js";
import type { LimitTable } from "../watch/limits.js";
import type { WatchReport } from "../watch/report.js";
import { resumeWatch, saveWatch } from "../watch/savewatch.js";
import { startWatch } from "../watch/startwatch.js";
import type { WatchState } from "../watch/state.js";
import { stepWatch } from "../watch/stepwatch.js";
import { readInput } from "./readInput.js";
import type { Command, Terminal } from "./run.js";
import { writeAll } from "./writeAll.js";

const OPTIONS = {
  plan: { type: "string" },
  anchor: { type: "string" },
  reach: { type: "string" },
  state: { type: "string" },
  json: { type: "boolean" },
} as const;

/** Where the anchor lies and what the watch is held against. */
interface Held {
  position: { latDeg: number; lonDeg: number };
  limits: Pick<LimitTable, "rows" | "distanceSigmaM">;
  zoneOffsetMinutes: number;
}

/** Figures of `--anchor "LAT LON" --reach M`, for a log without a plan. */
function heldByHand(anchor: string | undefined, reach: string | undefined): Held {
  const [latDeg, lonDeg] = (anchor ?? "").split(/[\s,]+/).map(Number);
  const greatestDistanceM = Number(reach);
  if (!(Math.abs(latDeg ?? NaN) <= 90 && Math.abs(lonDeg ?? NaN) <= 360 && greatestDistanceM > 0))
    refuse("", "usage", 'expected --plan PLAN.json, or --anchor "LAT LON" and --reach METRES');
  const row = { timeMs: 0, greatestDistanceM, leastDepthM: null, greatestDepthM: null };
  return {
    position: { latDeg: latDeg!, lonDeg: lonDeg! },
    limits: { rows: [row], distanceSigmaM: 1 },
    zoneOffsetMinutes: 0,
  };
}

function heldByPlan(file: string): Held {
  const plan = readInput(file) as Partial<Held> & { limits?: Held["limits"] | null };
  if (plan.position === undefined || plan.limits == null)
    refuse(file, "no_limits", "holds no position and limits: write it with hawse plan --out");
  const { rows, distanceSigmaM } = plan.limits;
  return {
    position: plan.position,
    limits: { rows, distanceSigmaM },
    zoneOffsetMinutes: plan.zoneOffsetMinutes ?? 0,
  };
}

/** The watch as it was left, or none: begun at the first fix, since the watch knows no clock. */
function resumed(file: string | undefined): WatchState | null {
  if (file === undefined || !existsSync(file)) return null;
  return resumeWatch(readFileSync(file, "utf8"));
}

/** What of a report is worth a line: how she lies, and which alarms stand. */
const headline = (r: WatchReport): string =>
  [r.mode, ...r.alarms.map((a) => `${a.code}${a.acknowledged ? " acknowledged" : ""}`)].join("|");

function lineOf(r: WatchReport, zoneOffsetMinutes: number): string {
  const clock = clockOf(zoneOffsetMinutes);
  const distance = r.distanceM === null ? "" : `, ${metresText(r.distanceM)} from the anchor`;
  const alarms = r.alarms.map((a) => `  ALARM ${a.code}`).join("");
  return `${clock.day(r.atMs)} ${clock.time(r.atMs)}  ${r.mode}${distance} (most ${metresText(r.greatestDistanceM)})${alarms}\n`;
}

/** Takes events and tells every change of how she lies. */
interface Keeper {
  take: (events: readonly WatchEvent[]) => void;
  /** The watch as it stands; null before the first event. */
  state: () => WatchState | null;
}

function keeper(begun: WatchState | null, held: Held, tell: (r: WatchReport) => void): Keeper {
  let state = begun;
  let told = begun === null ? "" : headline(begun.report);
  const one = (event: WatchEvent): void => {
    // A watch knows no clock: it begins at the first instant it is told.
    state ??= startWatch({
      startMs: event.timeMs,
      anchor: { known: true, position: held.position },
      limits: held.limits,
    });
    const step = stepWatch(state, event);
    state = step.state;
    const now = headline(step.report);
    if (now !== told) tell(step.report);
    told = now;
  };
  return {
    take: (events) => {
      events.forEach(one);
    },
    state: () => state,
  };
}

/** Keep the watch where a crash cannot lose it: written whole, then renamed. */
function keep(file: string | undefined, state: WatchState | null): void {
  if (file !== undefined && state !== null)
    writeAll(path.dirname(file), { [path.basename(file)]: saveWatch(state) });
}

async function follow(
  source: AsyncIterable<string | Buffer>,
  watch: Keeper,
  stateFile: string | undefined,
): Promise<{ sentences: number; events: number }> {
  let state: NmeaState | undefined;
  let [sentences, events] = [0, 0];
  for await (const chunk of source) {
    const read = readNmea0183(String(chunk), state === undefined ? {} : { state });
    state = read.state;
    sentences += read.sentences;
    events += read.events.length;
    watch.take(read.events);
    keep(stateFile, watch.state());
  }
  return { sentences, events };
}

function replayGpx(log: string, watch: Keeper): { sentences: number; events: number } {
  const { events } = eventsFromGpx({ text: readFileSync(log, "utf8") });
  watch.take(events);
  return { sentences: 0, events: events.length };
}

function told(watch: Keeper, held: Held, count: { events: number }, terminal: Terminal): number {
  const state = watch.state();
  if (state === null) {
    terminal.err("hawse: no fix in the log: nothing can be said of how she lies\n");
    return 2;
  }
  terminal.err(
    `${count.events} events read; at the end: ${lineOf(state.report, held.zoneOffsetMinutes)}`,
  );
  return state.report.alarms.some((a) => a.code === "drag") ? 3 : 0;
}

/**
 * `hawse watch LOG|- --plan PLAN.json`: replay a log, or follow a live stream on standard input.
 * Exit code 3 where she dragged.
 */
export const watchCommand: Command = async (args, terminal) => {
  const { values, positionals } = parseArgs({ args, options: OPTIONS, allowPositionals: true });
  const log = positionals[0];
  if (log === undefined || positionals.length > 1)
    refuse("", "usage", "expected one log, or - for standard input");
  const held =
    values.plan === undefined ? heldByHand(values.anchor, values.reach) : heldByPlan(values.plan);
  if (log !== "-" && !existsSync(log))
    throw new InputError([{ path: log, code: "unreadable", message: "cannot be read" }]);
  const watch = keeper(resumed(values.state), held, (r) => {
    terminal.out(
      values.json === true ? `${JSON.stringify(r)}\n` : lineOf(r, held.zoneOffsetMinutes),
    );
  });
  const source = log === "-" ? process.stdin : createReadStream(log, "utf8");
  const count = log.endsWith(".gpx")
    ? replayGpx(log, watch)
    : await follow(source as AsyncIterable<string>, watch, values.state);
  keep(values.state, watch.state());
  return told(watch, held, count, terminal);
};
