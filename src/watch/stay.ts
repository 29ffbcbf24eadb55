import * as z from "zod/mini";
import { isAscending } from "../core/series.js";
import { direction, instant, interval, metres, speed } from "../core/schema.js";

/** The stay hour by hour, as columns of equal length; null where a figure is not known. */
export const stayColumns = z
  .strictObject({
    /** Moments, ascending. */
    timeMs: z.array(instant()).check(z.minLength(1, "expected at least 1 moment")),
    /** Depth of water to expect at the anchor. */
    depthM: z.array(z.nullable(metres())),
    /** Greatest horizontal distance from anchor to bow that load and stretch allow; the taut rode if left out. */
    reachM: z.optional(z.array(z.nullable(metres({ min: 0 })))),
  })
  .check(
    z.refine(
      (c) =>
        c.depthM.length === c.timeMs.length &&
        (c.reachM === undefined || c.reachM.length === c.timeMs.length),
      "columns differ in length",
    ),
    z.refine((c) => isAscending(c.timeMs), "timeMs is not ascending"),
  );
/** The stay hour by hour, as columns of equal length. */
export type StayColumns = z.infer<typeof stayColumns>;

/** A high or low water. */
export const tideTurn = z.strictObject({
  /** When. */
  timeMs: instant(),
  /** Height above datum. */
  heightM: metres(),
  /** High or low water. */
  kind: z.enum(["high", "low"]),
});
/** A high or low water. */
export type TideTurn = z.infer<typeof tideTurn>;

/** Slack water, or the greatest rate of a tide. */
export const streamTurn = z.strictObject({
  /** When. */
  timeMs: instant(),
  /** Slack or least rate, or the greatest. */
  kind: z.enum(["slack", "least", "greatest"]),
  /** Rate. */
  rateMps: z.optional(speed()),
  /** Direction it sets towards. */
  towardsDeg: z.optional(direction()),
});
/** Slack water, or the greatest rate of a tide. */
export type StreamTurn = z.infer<typeof streamTurn>;

/** One row of the wind forecast. */
export const windRow = z.strictObject({
  /** When. */
  timeMs: instant(),
  /** Mean speed. */
  windMps: speed(),
  /** Direction it blows from. */
  windFromDeg: direction(),
});
/** One row of the wind forecast. */
export type WindRow = z.infer<typeof windRow>;

/** Spans of darkness. */
export const darkSpans = z.array(interval);
