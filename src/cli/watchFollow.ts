import { readNmea0183 } from "../feed/nmea.js";
import type { NmeaState } from "../feed/state.js";
import { type Keeper, LOOK_MS } from "./watchKeeper.js";

/** What a live watch takes from the machine it runs on. */
export interface Machine {
  /** Standard input. */
  stdin: () => AsyncIterable<string | Buffer>;
  /** A clock that only ever goes forward, in milliseconds from anywhere. */
  nowMs: () => number;
  /** Call again and again, so many milliseconds apart; the answer puts an end to it. */
  every: (ms: number, call: () => void) => () => void;
}

/** The machine itself. Its timer keeps nothing alive: the stream does. */
export const MACHINE: Machine = {
  stdin: () => process.stdin,
  nowMs: () => performance.now(),
  every: (ms, call) => {
    const timer = setInterval(call, ms);
    timer.unref();
    return () => {
      clearInterval(timer);
    };
  },
};

/** How long a live stream may bring no position at all before that is told (common practice, no source). */
const DEAF_MS = 120_000;

/** A log or a stream being read. */
export interface Reading {
  source: AsyncIterable<string | Buffer>;
  watch: Keeper;
  /** Called after every piece and every look at the clock. */
  keep: () => void;
}

/** Replay a log; the answer is the number of events. */
export async function replay(
  { source, watch, keep }: Reading,
  came: (timeMs: number) => void = () => undefined,
): Promise<number> {
  let state: NmeaState | undefined;
  let count = 0;
  for await (const chunk of source) {
    const read = readNmea0183(String(chunk), state === undefined ? {} : { state });
    state = read.state;
    count += read.events.length;
    watch.take(read.events);
    const last = read.events.at(-1);
    if (last !== undefined) came(last.timeMs);
    keep();
  }
  return count;
}

/**
 * Follow a live stream. Where it brings nothing new the clock is told all the same: the time of the
 * last sentence, and what has gone by since it came.
 */
export async function follow(
  reading: Reading,
  machine: Machine,
  deaf: () => void,
): Promise<number> {
  const { watch, keep } = reading;
  let heard = { timeMs: watch.state()?.report.atMs ?? -Infinity, atMs: machine.nowMs() };
  let warned = false;
  const look = (): void => {
    const sinceMs = machine.nowMs() - heard.atMs;
    if (watch.state() !== null) {
      watch.clock(heard.timeMs + sinceMs);
      keep();
    } else if (sinceMs >= DEAF_MS && !warned) {
      warned = true;
      deaf();
    }
  };
  const stop = machine.every(LOOK_MS, look);
  try {
    return await replay(reading, (timeMs) => {
      // The same instant told again is silence too.
      if (timeMs > heard.timeMs) heard = { timeMs, atMs: machine.nowMs() };
    });
  } finally {
    stop();
    look();
  }
}
