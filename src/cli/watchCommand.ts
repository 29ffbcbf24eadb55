import { createReadStream, existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { parseArgs } from "node:util";
import { refuse } from "../core/errors.js";
import { eventsFromGpx } from "../feed/gpx.js";
import { resumeWatch, saveWatch } from "../watch/savewatch.js";
import { startWatch } from "../watch/startwatch.js";
import type { WatchState } from "../watch/state.js";
import { toldOf, unreadable } from "./readInput.js";
import type { Command, Terminal } from "./run.js";
import { follow, MACHINE, type Machine, replay } from "./watchFollow.js";
import { type Held, heldBy } from "./watchHeld.js";
import { type Keeper, keeper } from "./watchKeeper.js";
import { lineOf } from "./watchLines.js";
import { writeAll } from "./writeAll.js";

const OPTIONS = {
  plan: { type: "string" },
  anchor: { type: "string" },
  reach: { type: "string" },
  state: { type: "string" },
  json: { type: "boolean" },
} as const;

/** Exit codes of a watch, by what stands at its end. */
const EXIT = { holds: 0, noFix: 2, drags: 3, unknown: 4 } as const;

/** What a watch is held against, to be compared: the anchor's place and the limits. */
const heldIn = ({ plane, limits }: WatchState): string =>
  JSON.stringify([plane.latDeg, plane.lonDeg, limits]);

/**
 * The watch as it was left, or none: begun at the first fix, since the watch knows no clock. One left
 * from another berth or other limits would be held against those, not against what the call says.
 */
function resumed(file: string | undefined, { position, limits }: Held): WatchState | null {
  if (file === undefined || !existsSync(file)) return null;
  const left = toldOf(file, () => resumeWatch(readFileSync(file, "utf8")));
  const asked = startWatch({
    startMs: left.report.atMs,
    anchor: { known: true, position },
    limits,
  });
  if (heldIn(left) !== heldIn(asked))
    refuse(
      file,
      "other_watch",
      "holds a watch of another anchor or other limits than the call: name another file, or take this one away",
    );
  return left;
}

/** Keep the watch where a crash cannot lose it: written whole, then renamed. */
function keep(file: string | undefined, state: WatchState | null): void {
  if (file !== undefined && state !== null)
    writeAll(path.dirname(file), { [path.basename(file)]: saveWatch(state) });
}

/** What is said at the end, and the exit code. */
function told(watch: Keeper, zoneOffsetMinutes: number, count: number, terminal: Terminal): number {
  const report = watch.state()?.report;
  if (report === undefined || report.quality.fixes === 0) {
    terminal.err("hawse: no fix in the log: nothing can be said of how she lies\n");
    return EXIT.noFix;
  }
  terminal.err(
    `${count} events read; at the end: ${lineOf(report, zoneOffsetMinutes, watch.around())}`,
  );
  if (report.alarms.some((a) => a.code === "drag")) return EXIT.drags;
  return report.mode === "blind" || report.mode === "cannotTell" ? EXIT.unknown : EXIT.holds;
}

/** Events of a log file; what hinders the reading is told of the file. */
async function ofFile(log: string, watch: Keeper, keepIt: () => void): Promise<number> {
  try {
    if (!log.endsWith(".gpx"))
      return await replay({ source: createReadStream(log, "utf8"), watch, keep: keepIt });
    const { events } = eventsFromGpx({ text: readFileSync(log, "utf8") });
    watch.take(events);
    return events.length;
  } catch (error) {
    // Only reading is a call of the system here, but for the keeping of the watch, which names its file.
    const { syscall, path: of = log } = error as NodeJS.ErrnoException;
    throw syscall !== undefined && of === log ? unreadable(log, error) : error;
  }
}

async function ofStream(
  machine: Machine,
  watch: Keeper,
  keepIt: () => void,
  terminal: Terminal,
): Promise<number> {
  const count = await follow({ source: machine.stdin(), watch, keep: keepIt }, machine, () => {
    terminal.err("hawse: no position has come for two minutes: nobody is watching\n");
  });
  terminal.err("hawse: the stream ended: nobody is watching\n");
  return count;
}

/** South is written with a minus, which a reader of options takes for another option. */
const southToo = (args: readonly string[]): string[] =>
  args.flatMap((arg, i) =>
    arg === "--anchor" && /^-\d/.test(args[i + 1] ?? "")
      ? `--anchor=${args[i + 1]!}`
      : args[i - 1] === "--anchor" && /^-\d/.test(arg)
        ? []
        : arg,
  );

/** {@link watchCommand} on a machine, or on what a test puts in its place. */
export const watchOn =
  (machine: Machine): Command =>
  async (args, terminal) => {
    const { values, positionals } = parseArgs({
      args: southToo(args),
      options: OPTIONS,
      allowPositionals: true,
    });
    const log = positionals[0];
    if (log === undefined || positionals.length > 1)
      refuse("", "usage", "expected one log, or - for standard input");
    const held = heldBy(values);
    const watch = keeper(resumed(values.state, held), held, (r, around) => {
      terminal.out(
        values.json === true ? `${JSON.stringify(r)}\n` : lineOf(r, held.zoneOffsetMinutes, around),
      );
    });
    const keepIt = (): void => {
      keep(values.state, watch.state());
    };
    const count =
      log === "-"
        ? await ofStream(machine, watch, keepIt, terminal)
        : await ofFile(log, watch, keepIt);
    watch.settle();
    keepIt();
    return told(watch, held.zoneOffsetMinutes, count, terminal);
  };

/**
 * `hawse watch LOG|- --plan PLAN.json`: replay a log, or follow a live stream on standard input.
 * Exit code 3 where she dragged, 4 where the watch at its end was blind or could not tell.
 */
export const watchCommand: Command = watchOn(MACHINE);
