import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { instant, metres } from "../core/schema.js";
import { noteTrack, passFix, tick, type Sender } from "./events.js";
import { instantOfText } from "./instant.js";
import { readInstruments, taker, type DeltaRead, type Found } from "./signalkinstruments.js";
import { freshState, isState, type NmeaState } from "./state.js";

const options = z.strictObject({
  /** What the reading before this one left; the first begins afresh. */
  state: z.optional(z.custom<NmeaState>(isState)),
  /** When the delta came, for updates that carry no time. */
  receivedMs: z.optional(instant()),
  /** Identity of the vessel that keeps the watch, such as `vessels.urn:mrn:imo:mmsi:230099999`; `vessels.self` always counts as hers. */
  self: z.optional(z.string()),
  /** First or second receiver; the first, 0, unless given. */
  receiver: z._default(z.literal([0, 1]), 0),
  /** Depth of the transducer below the waterline, where the delta does not say. */
  transducerDepthM: z.optional(metres({ min: 0, max: 30 })),
  /** Range error of one satellite, as in `readNmea0183`; 4 m unless given. */
  rangeErrorM: z._default(metres({ above: 0, max: 100 }), 4),
});
/** Options of {@link eventsFromDelta}. */
export type EventsFromDeltaOptions = Given<typeof options>;

/**
 * Events for the watch from a Signal K delta.
 *
 * Position, course and speed over the ground, headings, variation, wind, depth and the engine's
 * gear. Deltas about other vessels are passed over whole: their positions must never reach a
 * watch. Values of null, and values marked as timed out, are missing.
 *
 * *Valid*: Signal K 1.x deltas, decoded from JSON; radians and metres per second.
 * *Accuracy*: units only.
 * @throws InputError for options that cannot be; a malformed delta is counted, not thrown.
 * @source Signal K specification 1.5, delta format and vessel paths
 * @example
 * ```ts
 * import { eventsFromDelta } from "hawse/feed";
 *
 * const { events } = eventsFromDelta({
 *   updates: [
 *     {
 *       timestamp: "2026-06-01T08:00:00Z",
 *       values: [{ path: "navigation.position", value: { latitude: 50.1, longitude: -5.2 } }],
 *     },
 *   ],
 * });
 * console.log(events);
 * // [ { kind: 'fix', timeMs: 1780300800000, latDeg: 50.1, lonDeg: -5.2 } ]
 * ```
 */
export function eventsFromDelta(delta: unknown, given: EventsFromDeltaOptions = {}): DeltaRead {
  const o = check(options, given);
  const by: Sender = {
    receiver: o.receiver,
    transducerDepthM: o.transducerDepthM ?? null,
    rangeErrorM: o.rangeErrorM,
    receivedMs: o.receivedMs ?? null,
  };
  const out: DeltaRead = {
    events: [],
    state: { ...(o.state ?? freshState()) },
    refused: 0,
  };
  const { context, updates } = record(delta);
  const own = context === undefined || context === "vessels.self" || context === o.self;
  if (!Array.isArray(updates)) out.refused++;
  else if (own) for (const update of updates) readUpdate(record(update), by, out);
  return out;
}

/** Fields of a thing from outside; none where it is not an object. */
const record = (x: unknown): Partial<Record<string, unknown>> =>
  typeof x === "object" && x !== null ? x : {};

function readUpdate(update: Partial<Record<string, unknown>>, by: Sender, out: DeltaRead): void {
  const { values, timestamp } = update;
  // Descriptions of paths come in updates of their own.
  if (values === undefined && update["meta"] !== undefined) return;
  const told = instantOfText(timestamp);
  const timeMs = Number.isNaN(told) ? (by.receivedMs ?? NaN) : told;
  if (!Array.isArray(values) || Number.isNaN(timeMs)) {
    out.refused++;
    return;
  }
  const found = new Map<string, unknown>();
  for (const item of values) {
    const { path, value, state } = record(item);
    const stale = record(state)["timedOut"];
    if (typeof path !== "string") out.refused++;
    else if (value !== null && stale !== true) found.set(path, value);
  }
  tick(out.state, by, timeMs);
  readValues(found, timeMs, by, out);
}

function readValues(found: Found, timeMs: number, by: Sender, out: DeltaRead): void {
  const { state: st, events } = out;
  const { number, angle } = taker(found, out);
  const variationDeg = angle("navigation.magneticVariation");
  if (variationDeg !== null) st.variationDeg = ((variationDeg + 180) % 360) - 180;
  const sogMps = number("navigation.speedOverGround", 0, 100);
  const cogDeg = angle("navigation.courseOverGroundTrue");
  noteTrack(st, timeMs, sogMps, cogDeg);
  const hdop = number("navigation.gnss.horizontalDilution", 0, 100);
  if ((hdop ?? 0) > 0) {
    st.hdop = hdop;
    st.hdopMs = timeMs;
  }
  const quality = found.get("navigation.gnss.methodQuality");
  if (typeof quality === "string" && POOR.test(quality)) st.poorMs = timeMs;
  readInstruments(out, by, found);
  const { latitude, longitude } = record(found.get("navigation.position"));
  if (
    typeof latitude === "number" &&
    typeof longitude === "number" &&
    Math.abs(latitude) <= 90 &&
    Math.abs(longitude) <= 180
  )
    passFix(latitude, longitude, st, by, timeMs, events);
  else if (found.has("navigation.position")) out.refused++;
}

/** Methods that are not measured, in the words of the specification. */
const POOR = /^(no gps|estimated|manual|simulator|error)/i;
