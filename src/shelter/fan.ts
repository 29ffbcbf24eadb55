import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import type { Reason } from "../core/judgement.js";
import { direction, instant, metres, plain, position, type Position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";

/** How a ray ended: at a shore, at the greatest length looked at, or where the coast or chart ends. */
export type RayEnd = "coast" | "limit" | "edge";

/** Open water seen from a berth along each of many true bearings. */
export interface FetchFan {
  /** Berth the rays start from; null where it was not given. */
  position: Position | null;
  /** True bearing of each ray, ascending: the direction a wind along it blows from. */
  bearingsDeg: Degrees[];
  /** Open water along each ray. At least that much where the ray did not end at a coast. */
  fetchM: Metres[];
  /** How each ray ended. */
  ends: RayEnd[];
  /** Greatest length looked at. */
  limitM: Metres;
  /** What lies between bearings more than 30° apart: `open` to the limit, or `land`. */
  gaps: "open" | "land";
  /** Shortest ray that ended at a coast; null where none did. */
  nearestShoreM: Metres | null;
  /** Median length of the shore's segments met nearby; null where no coast was met. */
  vertexSpacingM: Metres | null;
  /** Height of tide above chart datum the fan was cast at; null where banks were taken as covered. */
  heightAboveDatumM: Metres | null;
  /** Who made the coast; null where that is not known. */
  source: string | null;
  /** Scale of the coast, the figure after `1:`; null where that is not known. */
  scaleDenominator: number | null;
  /** What limits the trust in it. */
  reasons: Reason[];
}

const figure = z.union([plain(), z.string(), z.null()]);

/** Schema of a {@link Reason} handed back in. */
const reasonSchema = z.strictObject({
  /** Stable machine code. */
  code: z.string(),
  /** How much it weighs. */
  severity: z.enum(["note", "caution", "warning", "stop"]),
  /** When it applies. */
  atMs: z.exactOptional(instant()),
  /** The figure found. */
  value: figure,
  /** The limit it was held against. */
  limit: figure,
  /** The rule that sets the limit. */
  basis: z.string(),
});

/** Schema of a fan, measured by `fetchFan` or read off a paper chart. */
export const fanSchema = z
  .strictObject({
    /** Berth the rays start from. */
    position: z._default(z.nullable(position), null),
    /** True bearing of each ray, ascending: the direction a wind along it blows from. */
    bearingsDeg: z.array(direction({ max: 359.999_999 })).check(z.minLength(1)),
    /** Open water along each ray. */
    fetchM: z.array(metres({ min: 0 })),
    /** How each ray ended. */
    ends: z.array(z.enum(["coast", "limit", "edge"])),
    /** Greatest length looked at, and taken for a ray that ended at the edge of what is known; 100 km unless given. */
    limitM: z._default(metres({ above: 0 }), 100_000),
    /** What lies between bearings more than 30° apart: `open` to the limit, the unsafe side, or `land`; `open` unless given. */
    gaps: z._default(z.enum(["open", "land"]), "open"),
    /** Shortest ray that ended at a coast. */
    nearestShoreM: z._default(z.nullable(metres({ min: 0 })), null),
    /** Median length of the shore's segments met nearby. */
    vertexSpacingM: z._default(z.nullable(metres({ min: 0 })), null),
    /** Height of tide above chart datum the fan holds for; leave out where it holds for every height. */
    heightAboveDatumM: z._default(z.nullable(metres()), null),
    /** Who made the coast. */
    source: z._default(z.nullable(z.string()), null),
    /** Scale of the coast, the figure after `1:`. */
    scaleDenominator: z._default(z.nullable(plain({ above: 0 })), null),
    /** What limits the trust in it. */
    reasons: z._default(z.array(reasonSchema), []),
  })
  .check(
    z.refine(
      (f) => f.fetchM.length === f.bearingsDeg.length && f.ends.length === f.bearingsDeg.length,
      "expected one length and one end for each bearing",
    ),
    z.refine(
      (f) => f.bearingsDeg.every((b, i, all) => i === 0 || b > all[i - 1]!),
      "bearings not ascending",
    ),
  );

/** A fan as a caller may write it. */
export type FanInput = Given<typeof fanSchema>;
