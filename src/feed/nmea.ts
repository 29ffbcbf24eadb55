import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import { instant, metres } from "../core/schema.js";
import type { WatchEvent } from "../watch/events.js";
import { decodeSentence } from "./decode.js";
import { eventsOf, type Sender } from "./events.js";
import { blankSentence, nextSentence } from "./scan.js";
import { freshState, isState, type NmeaState } from "./state.js";

const options = z.strictObject({
  /** What the reading before this one left; the first begins afresh. */
  state: z.optional(z.custom<NmeaState>(isState)),
  /** When the text came, by the caller's clock: dates a receiver that tells no date, and carries time on between fixes. */
  receivedMs: z.optional(instant()),
  /** First or second receiver; one reader, with its own state, a receiver; the first, 0, unless given. */
  receiver: z._default(z.literal([0, 1]), 0),
  /** Depth of the transducer below the waterline; without it, depth is taken only where the sounder tells its offset. */
  transducerDepthM: z.optional(metres({ min: 0, max: 30 })),
  /**
   * Range error of one satellite: the spread of one axis of a fix is the horizontal dilution of
   * precision times this over √2. 4 m unless given (2 to 5 m is usual; common practice, no source).
   */
  rangeErrorM: z._default(metres({ above: 0, max: 100 }), 4),
});
/** Options of {@link readNmea0183}. */
export type ReadNmea0183Options = Given<typeof options>;

/** What a piece of text held. */
export interface NmeaRead {
  /** Events for the watch, in the order of the text. */
  events: WatchEvent[];
  /** To be handed to the next reading. */
  state: NmeaState;
  /** Sentences with a right checksum. */
  sentences: number;
  /** Of these, sentences of a type that is not read. */
  ignored: number;
  /** Sentences with a wrong checksum, left out whole. */
  badChecksums: number;
  /** Beginnings of a sentence that broke off: no checksum, a character that does not belong, too long. */
  malformed: number;
  /** Single fields refused in sentences otherwise read. */
  faults: number;
}

/**
 * Events for the watch from NMEA 0183: a line, a chunk of a stream, or a whole log.
 *
 * Sentences are found by dollar sign and checksum, whatever the lines; one broken off by the end of
 * a chunk is kept for the next. Each field is held against grammar and range and dropped singly. One fix an
 * instant; its spread from the dilution of precision, its speed from RMC or VTG. Positions that are estimated, typed in or
 * simulated never pass. Wind over the ground is the relative wind with the vessel's way taken off, where heading
 * and speed are known, else the compass wind of the instruments. Depth is from the surface, where the transducer's
 * depth is known. Leaves out AIS.
 *
 * *Valid*: sentences as in `readNmea0183Line`; a sentence without time is dated by the receiver's latest.
 * *Accuracy*: text to number without loss.
 * @throws InputError for what is not a text, or options that cannot be.
 * @source gpsd documentation, "NMEA Revealed" (NMEA.adoc)
 * @example
 * ```ts
 * import { readNmea0183 } from "hawse/feed";
 *
 * const { events } = readNmea0183(
 *   "$GPRMC,085411.000,A,5222.3215,N,00454.5778,E,0.58,251.34,030414,,,A*63\r\n",
 * );
 * console.log(events.map((e) => e.kind), new Date(events[0]!.timeMs).toISOString());
 * // [ 'fix' ] 2014-04-03T08:54:11.000Z
 * ```
 */
export function readNmea0183(text: string, given: ReadNmea0183Options = {}): NmeaRead {
  // A text needs no schema, and the readers of single lines feel one.
  if (typeof (text as unknown) !== "string") refuse("text", "invalid_type", "expected string");
  const o = check(options, given);
  return readUnchecked(text, o.state ?? freshState(), {
    receiver: o.receiver,
    transducerDepthM: o.transducerDepthM ?? null,
    rangeErrorM: o.rangeErrorM,
    receivedMs: o.receivedMs ?? null,
  });
}

/** {@link readNmea0183} for input already checked; the state given is left as it is. */
export function readUnchecked(piece: string, before: NmeaState, by: Sender): NmeaRead {
  const text = before.partial + piece;
  const state = { ...before };
  const events: WatchEvent[] = [];
  const sentence = blankSentence(text);
  const scan = { next: 0, open: 0 };
  const n = {
    sentences: 0,
    ignored: 0,
    badChecksums: 0,
    malformed: 0,
    faults: 0,
  };
  for (;;) {
    const found = nextSentence(sentence, scan);
    if (found === "end") break;
    if (found === "malformed") n.malformed++;
    else if (found === "badChecksum") n.badChecksums++;
    else {
      n.sentences++;
      const content = decodeSentence(sentence);
      if (content === null) n.ignored++;
      else eventsOf(content, state, by, events);
      n.faults += sentence.faults;
    }
  }
  state.partial = text.slice(scan.open);
  return { events, state, ...n };
}
