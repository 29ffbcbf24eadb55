import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { wrap180 } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, instant, metres } from "../core/schema.js";
import { MODES } from "../watch/memory.js";

const point = z.looseObject({
  latDeg: degrees({ min: -90, max: 90 }),
  lonDeg: degrees({ min: -360, max: 360 }),
});

/** The parts of a watch report that go out; others are passed over. */
const report = z.looseObject({
  atMs: instant(),
  mode: z.enum(MODES),
  alarms: z.array(
    z.looseObject({
      code: z.enum(["drag", "blind", "shoal"]),
      acknowledged: z.boolean(),
    }),
  ),
  distanceM: z.nullable(metres({ min: 0 })),
  greatestDistanceM: metres({ min: 0 }),
  anchor: z.nullable(z.looseObject({ position: point })),
});

const input = z.strictObject({
  /** What the watch says: the report of `stepWatch`. */
  report,
  /** Whose data it is; `vessels.self` unless given. */
  context: z._default(z.string().check(z.minLength(1)), "vessels.self"),
  /** Name of the sender in the delta; `hawse.watch` unless given. */
  source: z._default(z.string().check(z.minLength(1)), "hawse.watch"),
  /** How far the antenna lies abaft the middle of the vessel; the specification measures from there; 0 unless given. */
  antennaAbaftMiddleM: z._default(metres({ min: -200, max: 200 }), 0),
});
/** Input of {@link signalKDelta}. */
export type SignalKDeltaInput = Given<typeof input>;

/** One value of a delta. */
export interface SignalKValue {
  /** Path by the specification. */
  path: string;
  /** Value in the units of the specification. */
  value: unknown;
}

/** A Signal K delta. */
export interface SignalKDelta {
  /** Whose data. */
  context: string;
  /** One update. */
  updates: {
    /** Name of the sender. */
    $source: string;
    /** RFC 3339, UTC. */
    timestamp: string;
    /** Values. */
    values: SignalKValue[];
  }[];
}

/** A notification as the specification has it: state, method and message, all three. */
interface Notification {
  state: "normal" | "warn" | "alarm";
  method: ("visual" | "sound")[];
  message: string;
}

/**
 * A report of the watch as a Signal K delta.
 *
 * Anchor position, distance and greatest distance, state of the vessel, and a notification each for anchor,
 * position and depth; an alarm that no longer stands goes back to `normal`, never to null. Only what the
 * schema knows goes out: speeds, reasons and probabilities stay in the report. What is unknown is left out.
 * The schema has no value for an anchor that is none: once it is aweigh nothing goes out for it, and a server keeps
 * the position, radii and state it was told last until the caller clears them there.
 *
 * *Valid*: Signal K 1.x. *Accuracy*: the full document made of the delta passes the published schema.
 * @throws InputError for a report that cannot be.
 * @source Signal K specification 1.5, schemas of navigation, notifications and deltas
 * @example
 * ```ts
 * import { signalKDelta } from "hawse/feed";
 *
 * const delta = signalKDelta({
 *   report: {
 *     atMs: 1780300800000,
 *     mode: "lying",
 *     alarms: [],
 *     distanceM: 24,
 *     greatestDistanceM: 38,
 *     anchor: { position: { latDeg: 50.1, lonDeg: -5.2 } },
 *   },
 * });
 * for (const { path } of delta.updates[0]!.values.slice(0, 3)) console.log(path);
 * // navigation.anchor.position
 * // navigation.anchor.maxRadius
 * // navigation.anchor.currentRadius
 * ```
 */
export function signalKDelta(given: SignalKDeltaInput): SignalKDelta {
  const { report: r, context, source, antennaAbaftMiddleM } = check(input, given);
  const values = anchorValues(r, antennaAbaftMiddleM);
  // A vessel that drags is under way; how, the watch does not know.
  if (r.mode !== "aweigh" && r.mode !== "dragging")
    values.push({ path: "navigation.state", value: "anchored" });
  values.push(
    { path: "notifications.navigation.anchor", value: anchorNotice(r) },
    {
      path: "notifications.navigation.position",
      value: notice(r, "blind", "the watch has no usable position"),
    },
    {
      path: "notifications.environment.depth.belowSurface",
      value: notice(r, "shoal", "depth is outside what tide and swing explain"),
    },
  );
  const timestamp = new Date(r.atMs).toISOString();
  return { context, updates: [{ $source: source, timestamp, values }] };
}

type Report = z.output<typeof report>;

/** Where the anchor lies and how far from it she may and does lie; nothing once it is aweigh or unknown. */
function anchorValues(r: Report, antennaAbaftMiddleM: number): SignalKValue[] {
  const radius = (m: number) => Math.max(0, m - antennaAbaftMiddleM);
  if (r.mode === "aweigh" || r.anchor === null) return [];
  const { latDeg: latitude, lonDeg } = r.anchor.position;
  const longitude = wrap180(lonDeg);
  const values: SignalKValue[] = [
    { path: "navigation.anchor.position", value: { latitude, longitude } },
    {
      path: "navigation.anchor.maxRadius",
      value: radius(r.greatestDistanceM),
    },
  ];
  if (r.distanceM !== null)
    values.push({
      path: "navigation.anchor.currentRadius",
      value: radius(r.distanceM),
    });
  return values;
}

/** Notification of one alarm: standing, acknowledged (seen, no longer heard), or gone. */
function notice(r: Report, code: Report["alarms"][number]["code"], message: string): Notification {
  const alarm = r.alarms.find((a) => a.code === code);
  if (!alarm) return { state: "normal", method: [], message: "" };
  const method = alarm.acknowledged ? (["visual"] as const) : (["visual", "sound"] as const);
  return { state: "alarm", method: [...method], message };
}

function anchorNotice(r: Report): Notification {
  const where =
    r.distanceM === null
      ? "distance from the anchor unknown"
      : `${r.distanceM.toFixed(0)} m from the anchor, greatest while it holds ${r.greatestDistanceM.toFixed(0)} m`;
  const drag = notice(r, "drag", `the anchor drags: ${where}`);
  if (drag.state !== "normal") return drag;
  if (r.mode === "dragging")
    return {
      state: "alarm",
      method: ["visual", "sound"],
      message: `the anchor drags: ${where}`,
    };
  const doubt = DOUBTS.get(r.mode);
  return doubt === undefined
    ? { ...drag, message: where }
    : { state: "warn", method: ["visual"], message: `${doubt}: ${where}` };
}

/** Modes that are not good news. */
const DOUBTS = new Map<Report["mode"], string>([
  ["uneasy", "the anchor may be dragging"],
  ["blind", "the watch cannot see"],
  ["cannotTell", "the watch cannot tell whether the anchor holds"],
]);
