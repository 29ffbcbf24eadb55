// An anchor watch in the shape of a plugin of a Signal K server: the host hands deltas in and takes deltas out. Nothing of
// the host is imported; its interface is told below, as far as it is used. The watch outlives the process: after every
// delta that moved it, it stands on the disk.
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import path from "node:path";
// In a project of your own these come from "hawse", "hawse/feed" and "hawse/watch".
import type { Position } from "../../src/core/index.js";
import { eventsFromDelta, signalKDelta } from "../../src/feed/index.js";
import {
  resumeWatch,
  saveWatch,
  startWatch,
  stepWatch,
  type WatchState,
} from "../../src/watch/index.js";

/** What the plugin asks of its host. */
export interface Host {
  getDataDirPath: () => string;
  handleMessage: (pluginId: string, delta: unknown) => void;
  setPluginStatus: (text: string) => void;
  setPluginError: (text: string) => void;
  subscriptionmanager: {
    subscribe: (
      command: unknown,
      unsubscribes: (() => void)[],
      onError: (error: unknown) => void,
      onDelta: (delta: unknown) => void,
    ) => void;
  };
}

/** What the skipper sets. */
export interface Settings {
  /** Where the anchor was let go; a watch saved for another place is not taken up again. */
  anchor: Position;
  /** Greatest distance of the antenna from the anchor while it holds. */
  greatestDistanceM: number;
}

const ID = "anchor-watch-example";
const CLOCK_MS = 5000;
const PATHS = [
  "navigation.position",
  "navigation.speedOverGround",
  "navigation.courseOverGroundTrue",
  "navigation.headingTrue",
  "environment.depth.belowSurface",
  "environment.wind.speedOverGround",
  "environment.wind.directionTrue",
];

/** The plugin, as the host makes it. */
export default function plugin(host: Host) {
  let state: WatchState | undefined;
  let clock: ReturnType<typeof setInterval> | undefined;
  const unsubscribes: (() => void)[] = [];
  const file = () => path.join(host.getDataDirPath(), "watch.txt");

  /** Written beside the old one and put in its place, so that there is always a whole one. */
  function keep(next: WatchState, settings: Settings): void {
    state = next;
    writeFileSync(`${file()}.new`, `${JSON.stringify(settings)}\n${saveWatch(next)}\n`);
    renameSync(`${file()}.new`, file());
  }

  /** The watch that was being kept, if it was for these settings. */
  function saved(settings: Settings): WatchState | undefined {
    try {
      const [kept, watch] = readFileSync(file(), "utf8").split("\n");
      return kept === JSON.stringify(settings) ? resumeWatch(watch!) : undefined;
    } catch {
      return undefined;
    }
  }

  function begin(settings: Settings, nowMs: number): WatchState {
    return startWatch({
      startMs: nowMs,
      anchor: { known: true, position: settings.anchor },
      limits: {
        rows: [
          {
            timeMs: nowMs,
            greatestDistanceM: settings.greatestDistanceM,
            leastDepthM: null,
            greatestDepthM: null,
          },
        ],
        distanceSigmaM: 1,
      },
    });
  }

  function tell(settings: Settings): void {
    const { report } = state!;
    host.handleMessage(ID, signalKDelta({ report, source: ID }));
    const alarms = report.alarms.filter((a) => !a.acknowledged).map((a) => a.code);
    const text = alarms.length > 0 ? `ALARM ${alarms.join(", ")}` : report.mode;
    const far = report.distanceM === null ? "?" : report.distanceM.toFixed(0);
    host.setPluginStatus(`${text}: ${far} m of ${settings.greatestDistanceM} m`);
  }

  function take(delta: unknown, settings: Settings): void {
    const { events, refused } = eventsFromDelta(delta, { receivedMs: Date.now() });
    if (refused > 0) host.setPluginError(`${refused} values could not be read`);
    for (const event of events) {
      state ??= saved(settings) ?? begin(settings, event.timeMs);
      keep(stepWatch(state, event).state, settings);
    }
    if (events.length > 0) tell(settings);
  }

  return {
    id: ID,
    name: "Anchor watch",
    schema: {
      type: "object",
      required: ["anchor", "greatestDistanceM"],
      properties: {
        anchor: {
          type: "object",
          properties: { latDeg: { type: "number" }, lonDeg: { type: "number" } },
        },
        greatestDistanceM: { type: "number", title: "Greatest distance, metres" },
      },
    },
    start(settings: Settings): void {
      mkdirSync(host.getDataDirPath(), { recursive: true });
      state = saved(settings);
      host.subscriptionmanager.subscribe(
        { context: "vessels.self", subscribe: PATHS.map((p) => ({ path: p, policy: "instant" })) },
        unsubscribes,
        (error) => {
          host.setPluginError(String(error));
        },
        (delta) => {
          take(delta, settings);
        },
      );
      // Silence is an event: without it a dead receiver would look like a quiet night.
      clock = setInterval(() => {
        if (state === undefined) return;
        keep(stepWatch(state, { kind: "clock", timeMs: Date.now() }).state, settings);
        tell(settings);
      }, CLOCK_MS);
    },
    stop(): void {
      clearInterval(clock);
      for (const end of unsubscribes.splice(0)) end();
    },
  };
}
