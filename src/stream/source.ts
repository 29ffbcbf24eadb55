import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { degrees, direction, duration, instant, metres, plain, speed } from "../core/schema.js";

/** Refuses rows whose times do not rise strictly: an unsorted or doubled row is a caller's mistake. */
export const rising = <T>(of: (row: T) => number) =>
  z.refine<readonly T[]>(
    (rows) => rows.every((row, i) => i === 0 || of(row) > of(rows[i - 1]!)),
    "expected strictly rising, without duplicates",
  );

const hourlyRow = z.strictObject({
  /** Whole hours after (before: negative) high water at the reference port. */
  hour: z.int().check(z.gte(-13), z.lte(13)),
  /** Set of the stream in this hour; null only where both rates are nil. */
  towardsDeg: z.nullable(direction()),
  /** Rate at mean springs. */
  springMps: speed(),
  /** Rate at mean neaps. */
  neapMps: speed(),
});

/** A tidal diamond or one point of a stream atlas: rows by the hour from high water. */
const hourlySource = z
  .strictObject({
    /** Form of the source. */
    kind: z.literal("hourly"),
    /** One row an hour, without a missing hour. */
    rows: z.array(hourlyRow).check(
      z.minLength(2),
      z.refine(
        (rows) => rows.every((r, i) => i === 0 || r.hour === rows[i - 1]!.hour + 1),
        "expected one row for every hour, in order",
      ),
      z.refine(
        (rows) => rows.every((r) => r.towardsDeg !== null || r.springMps + r.neapMps === 0),
        "expected a set wherever there is a rate",
      ),
    ),
    /** High waters of the reference port, in order, covering the stay and six hours each side. */
    highWaters: z
      .array(
        z.strictObject({
          /** Time of high water. */
          timeMs: instant(),
          /** Range of this tide: the mean of the fall after and the rise before. */
          rangeM: metres({ min: 0 }),
        }),
      )
      .check(
        z.minLength(1),
        rising((h) => h.timeMs),
      ),
    /** Mean spring range at the reference port. */
    springRangeM: metres({ above: 0 }),
    /** Mean neap range at the reference port. */
    neapRangeM: metres({ min: 0 }),
    /**
     * Between the hours: `vector` (default) takes the vector between two rows; `step` holds each
     * row for half an hour either side, as examination answers do.
     */
    between: z._default(z.enum(["vector", "step"]), "vector"),
  })
  .check(
    z.refine((s) => s.springRangeM > s.neapRangeM, "springRangeM must be more than neapRangeM"),
  );

/** A turn of the stream: what tables of slack and greatest rate print. */
export const streamTurn = z.discriminatedUnion("kind", [
  z.strictObject({
    /** The stream has no rate. */
    kind: z.literal("slack"),
    /** When. */
    timeMs: instant(),
  }),
  z.strictObject({
    /** The rate is at its least without ceasing, or at its greatest. */
    kind: z.enum(["least", "greatest"]),
    /** When. */
    timeMs: instant(),
    /** Rate at that time. */
    rateMps: speed(),
    /** Set at that time. */
    towardsDeg: direction(),
  }),
]);

/** A table of slack and greatest rate. */
const turnsSource = z.strictObject({
  /** Form of the source. */
  kind: z.literal("turns"),
  /** Turns in order of time. Two slacks, or two greatest rates, in a row leave the time between unknown. */
  turns: z.array(streamTurn).check(
    z.minLength(2),
    rising((t) => t.timeMs),
  ),
  /** From slack to greatest: `sine` (default), or the `fiftyNinety` rule of 0, 50, 90 and 100 % at thirds. */
  rule: z._default(z.enum(["sine", "fiftyNinety"]), "sine"),
});

const ellipseConstituent = z.strictObject({
  /** Speed of the constituent, degrees an hour (28.9841042 for the principal lunar). */
  speedDegPerHour: degrees({ above: 0, max: 360 }),
  /** Rate at its greatest, half the long axis of the ellipse. */
  semiMajorMps: speed(),
  /** Rate at its least, half the short axis: positive where the set turns anticlockwise, negative clockwise. */
  semiMinorMps: plain(),
  /** Set at the greatest rate. */
  majorTowardsDeg: direction(),
  /** An instant at which the constituent runs at its greatest towards `majorTowardsDeg`. */
  greatestAtMs: instant(),
});

/** Tidal ellipses added to a mean flow. */
const ellipseSource = z.strictObject({
  /** Form of the source. */
  kind: z.literal("ellipse"),
  /** One ellipse a constituent. */
  constituents: z.array(ellipseConstituent).check(z.minLength(1)),
  /** Mean flow towards east; none unless given. */
  meanEastMps: z._default(plain(), 0),
  /** Mean flow towards north; none unless given. */
  meanNorthMps: z._default(plain(), 0),
});

/** The same stream at all times: a river, or none. */
const steadySource = z.strictObject({
  /** Form of the source. */
  kind: z.literal("steady"),
  /** Rate. */
  rateMps: speed(),
  /** Set. */
  towardsDeg: direction(),
});

/** Rates and sets at given instants, forecast or observed. */
const seriesSource = z.strictObject({
  /** Form of the source. */
  kind: z.literal("series"),
  /** Rows in order of time; the vector is taken between them. */
  rows: z
    .array(
      z.strictObject({
        /** When. */
        timeMs: instant(),
        /** Rate. */
        rateMps: speed(),
        /** Set. */
        towardsDeg: direction(),
      }),
    )
    .check(
      z.minLength(1),
      rising((r) => r.timeMs),
    ),
  /** Rows further apart than this leave the time between unknown; three hours unless given. */
  longestGapMs: z._default(duration(), 10_800_000),
});

/** What is known of the stream. */
export const streamSource = z.discriminatedUnion("kind", [
  hourlySource,
  turnsSource,
  ellipseSource,
  steadySource,
  seriesSource,
]);

/** What is known of the stream, as a caller writes it. */
export type StreamSource = Given<typeof streamSource>;
/** What is known of the stream, checked and with its defaults. */
export type CheckedStream = z.output<typeof streamSource>;
/** A source of hourly rows, checked. */
export type HourlyStream = z.output<typeof hourlySource>;
/** A table of turns, checked. */
export type TurnsStream = z.output<typeof turnsSource>;
/** Ellipses, checked. */
export type EllipseStream = z.output<typeof ellipseSource>;
/** One row of a table of slack and greatest rate. */
export type StreamTurnRow = z.infer<typeof streamTurn>;
