import * as z from "zod/mini";
import { metres, plain } from "../core/schema.js";

/** Name of the level heights are counted from; compared letter by letter, not by meaning. */
export const datumName = z.string().check(z.minLength(1), z.maxLength(60));

/** Time differences at hours of the day in the zone of the table. */
const timeDifferences = z
  .array(
    z.strictObject({
      /** Hour of the day of the standard port's turn, in the zone of the table; 24 is read as 0. Hours printed in pairs, 0000 and 1200, are two rows. */
      hourOfDay: plain({ min: 0, max: 24 }),
      /** Time at the secondary port less time at the standard port. */
      differenceMs: plain({ min: -43_200_000, max: 43_200_000 }),
    }),
  )
  .check(
    z.minLength(1),
    z.refine(
      (rows) => new Set(rows.map((r) => r.hourOfDay % 24)).size === rows.length,
      "the same hour of the day twice",
    ),
  );

/** Height differences at heights of the standard port, or a ratio. */
const heightDifferences = z.union([
  z.strictObject({
    /** One row: a constant; two or more: linear between. */
    rows: z
      .array(
        z.strictObject({
          /** Height at the standard port, e.g. its mean high water springs. */
          standardHeightM: metres({ min: -30, max: 30 }),
          /** Height at the secondary port less height at the standard port. */
          differenceM: metres({ min: -30, max: 30 }),
        }),
      )
      .check(
        z.minLength(1),
        z.refine(
          (rows) => new Set(rows.map((r) => r.standardHeightM)).size === rows.length,
          "the same standard height twice",
        ),
      ),
  }),
  z.strictObject({
    /** Height at the secondary port as a multiple of the height at the standard port. */
    ratio: plain({ above: 0, max: 20 }),
    /** Added after the ratio. Default 0. */
    addM: z._default(metres({ min: -30, max: 30 }), 0),
  }),
]);

/** Time and height differences of a secondary port. */
export const differences = z.strictObject({
  /** Hours the zone of the table is ahead of UTC; the hours of the day below are in that zone. */
  tableZoneHours: plain({ min: -14, max: 14 }),
  /** Time differences of high waters. */
  highTime: timeDifferences,
  /** Time differences of low waters. */
  lowTime: timeDifferences,
  /** Height differences of high waters. */
  highHeight: heightDifferences,
  /** Height differences of low waters. */
  lowHeight: heightDifferences,
  /** Beyond the tabulated heights the difference goes on along the line, or stays as it is. Both are flagged. `linear` unless given. */
  beyond: z._default(z.enum(["linear", "constant"]), "linear"),
  /** Seasonal change of mean level contained in the standard port's heights, and the secondary port's own. */
  seasonal: z.optional(
    z.strictObject({
      /** Taken off the standard port's heights before the differences. */
      standardM: metres({ min: -5, max: 5 }),
      /** Added to the secondary port's heights after them. */
      secondaryM: metres({ min: -5, max: 5 }),
    }),
  ),
  /** Datum the standard port's heights must be above for the differences to hold. */
  standardDatum: z.optional(datumName),
});
/** Time and height differences of a secondary port. */
export type Differences = z.infer<typeof differences>;
