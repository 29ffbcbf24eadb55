import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { degrees, direction, instant, metres, position, speed } from "../core/schema.js";
import { limitTable } from "./limits.js";

const timeMs = instant();

/** A position from a receiver. */
export const fixEvent = z.strictObject({
  kind: z.literal("fix"),
  /** When the position held, by the receiver. */
  timeMs,
  /** Latitude of the antenna. */
  latDeg: degrees({ min: -90, max: 90 }),
  /** Longitude of the antenna. */
  lonDeg: degrees({ min: -360, max: 360 }),
  /** Spread of one axis the receiver states; see `sigmaFromAccuracy`. */
  sigmaM: z.optional(metres({ above: 0, max: 1000 })),
  /** Speed over the ground, by Doppler. */
  sogMps: z.optional(speed({ min: 0, max: 100 })),
  /** Course over the ground. */
  cogDeg: z.optional(direction()),
  /** First or second receiver; 0 if left out. */
  receiver: z.optional(z.literal([0, 1])),
});

const headingEvent = z.strictObject({
  kind: z.literal("heading"),
  timeMs,
  /** Heading, true. */
  headingDeg: direction(),
});
const windEvent = z.strictObject({
  kind: z.literal("wind"),
  timeMs,
  /** Wind over the ground. */
  windMps: speed({ min: 0, max: 100 }),
  /** Direction it blows from, true. */
  windFromDeg: direction(),
});
const depthEvent = z.strictObject({
  kind: z.literal("depth"),
  timeMs,
  /** Depth of water, surface to bottom. */
  depthM: metres({ min: 0, max: 12000 }),
});
const transitEvent = z.strictObject({
  kind: z.literal("transit"),
  timeMs,
  /** Change of the angle between two marks since the anchor was set. */
  openedDeg: degrees({ min: -180, max: 180 }),
  /** Most that swinging opens them; from `pickTransits`. */
  swingOpenDeg: degrees({ min: 0, max: 180 }),
  /** Movement square to the transit that opens it by one degree; from `pickTransits`. */
  metresPerDegree: metres({ above: 0 }),
  /** Spread of the observed angle. */
  sigmaDeg: z.optional(degrees({ above: 0, max: 20 })),
});
const engineEvent = z.strictObject({
  kind: z.literal("engine"),
  timeMs,
  /** What the engine does. */
  engine: z.enum(["stopped", "ahead", "astern"]),
});
const veeredEvent = z.strictObject({
  kind: z.literal("veered"),
  timeMs,
  /** Rode veered; negative if shortened in. All distance limits move by it. */
  byM: metres({ min: -500, max: 500 }),
});
const limitsEvent = z.strictObject({
  kind: z.literal("limits"),
  timeMs,
  /** New limits in place of the old. */
  limits: limitTable,
});
const anchorEvent = z.strictObject({
  kind: z.literal("anchor"),
  timeMs,
  /** Where the anchor is now known to lie. */
  position,
  /** Spread of that position, one axis. */
  sigmaM: metres({ min: 0, max: 1000 }),
});
const stageEvent = z.strictObject({
  kind: z.literal("stage"),
  timeMs,
  /** Anchor let go, vessel brought up to it, or anchor being weighed. */
  stage: z.enum(["letGo", "broughtUp", "weighing"]),
});
const acknowledgeEvent = z.strictObject({
  kind: z.literal("acknowledge"),
  timeMs,
});
const clockEvent = z.strictObject({
  kind: z.literal("clock"),
  timeMs,
});

/** Whatever a watch is told. Everything but the clock is optional; silence is judged by the clock. */
export const watchEvent = z.discriminatedUnion("kind", [
  fixEvent,
  headingEvent,
  windEvent,
  depthEvent,
  transitEvent,
  engineEvent,
  veeredEvent,
  limitsEvent,
  anchorEvent,
  stageEvent,
  acknowledgeEvent,
  clockEvent,
]);
/** Whatever a watch is told. */
export type WatchEvent = Given<typeof watchEvent>;
/** A position from a receiver. */
export type FixEvent = z.output<typeof fixEvent>;
/** Whatever a watch is told beside fixes. */
export type ToldEvent = Exclude<z.output<typeof watchEvent>, FixEvent>;
