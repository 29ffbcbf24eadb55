import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { wrap360 } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, direction, metres } from "../core/schema.js";
import { fanSchema } from "./fan.js";
import { swellThrough } from "./swellThrough.js";
import { baySchema, type SwellAt, swellSchema } from "./swellTypes.js";
import { type Gap, gapsOf, UNKNOWN_WEDGE_DEG } from "./window.js";

const headlandSchema = z.strictObject({
  /** True bearing of its tip from the berth. */
  bearingDeg: direction(),
  /** Distance of its tip from the berth. */
  distanceM: metres({ above: 0 }),
  /** Side of the tip on which the water is open, seen from the berth. */
  opens: z.enum(["clockwise", "anticlockwise"]),
  /** Interior angle of the land at the tip: 0 for a spit or wall; 90 where left out. */
  wedgeAngleDeg: z._default(degrees({ min: 0, max: 170 }), UNKNOWN_WEDGE_DEG),
});

/** Input of {@link swellAt}. */
export const swellAtInput = z
  .strictObject({
    /** Swell outside. */
    swell: swellSchema,
    /** Open water round the berth; its gaps to the open sea and their headlands are read from it. */
    fan: z.optional(fanSchema),
    /** The gap through which the berth sees the open sea, in place of a fan. */
    window: z.optional(
      z.strictObject({
        /** Edge from which the water is open clockwise. */
        fromDeg: direction(),
        /** Edge to which it is open; equal edges mean open all round. */
        toDeg: direction(),
      }),
    ),
    /** Headlands at the edges of the gap, in place of a fan. */
    headlands: z.optional(z.array(headlandSchema).check(z.maxLength(2))),
    /** Depth of water at the berth, tide included. */
    depthM: metres({ above: 0 }),
    /** The berth's place in its bay. */
    bay: z._default(baySchema, {}),
    /** A ray of the fan that is open this far sees the open sea, although it ends at a coast; 50 km where left out. */
    openM: z._default(metres({ above: 0 }), 50_000),
  })
  .check(
    z.refine(
      (i) =>
        i.headlands === undefined ||
        new Set(i.headlands.map((h) => h.opens)).size === i.headlands.length,
      "two headlands must open to different sides",
    ),
  );

/** Input of {@link swellAt}. */
export type SwellAtInput = Given<typeof swellAtInput>;

/**
 * Swell that finds its way into a berth.
 *
 * The part of a spread swell that comes straight in through the open window, and the part that bends round the
 * headlands (Sommerfeld's thin wall or a reflecting wedge), whichever is larger; then shoaling, refraction over
 * straight contours and a reflecting shore. Long swell is never scored nil. Leaves out shoals that focus it, the
 * stream, bends round more than one headland in turn, and surge, which is only cautioned of. A gap narrower than a
 * few wavelengths is overrated.
 *
 * *Valid* for constant depth between headland and berth; a wedge to ten wavelengths. *Accuracy*: ACES examples of
 * diffraction to their printed digits; at a real berth plan on a factor of two.
 *
 * @throws InputError for a swell, window or headland that is not one.
 * @source ACES v1.07 Technical Reference, 1992, 3-1 to 3-3; Coastal Engineering Manual II-3 and II-7
 * @example
 * ```ts
 * import { swellAt } from "hawse/shelter";
 *
 * const inside = swellAt({
 *   swell: { hm0M: 1.5, periodS: 10, fromDeg: 270 },
 *   window: { fromDeg: 180, toDeg: 240 },
 *   headlands: [{ bearingDeg: 240, distanceM: 600, opens: "anticlockwise" }],
 *   depthM: 8,
 * });
 * console.log(inside.hm0M.toFixed(2), Math.round(inside.fromDeg));
 * // 0.42 238
 * ```
 */
export function swellAt(input: SwellAtInput): SwellAt {
  const checked = check(swellAtInput, input);
  const gaps = checked.fan !== undefined ? gapsOf(checked.fan, checked.openM) : [gapGiven(checked)];
  return swellThrough(gaps, checked.swell, checked.depthM, checked.bay);
}

/** The gap a caller describes; without a word on it the berth is open all round. */
function gapGiven({ window, headlands = [] }: z.output<typeof swellAtInput>): Gap {
  const first = headlands.find((h) => h.opens === "clockwise") ?? null;
  const last = headlands.find((h) => h.opens === "anticlockwise") ?? null;
  const fromDeg =
    first?.bearingDeg ?? window?.fromDeg ?? (last === null ? 0 : last.bearingDeg + 180);
  const toDeg = last?.bearingDeg ?? window?.toDeg ?? (first === null ? 0 : first.bearingDeg + 180);
  return {
    fromDeg: wrap360(fromDeg),
    widthDeg: wrap360(toDeg - fromDeg) || 360,
    first,
    last,
  };
}
