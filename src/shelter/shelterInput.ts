import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import {
  degrees,
  direction,
  duration,
  instant,
  interval,
  metres,
  plain,
  seconds,
  speed,
} from "../core/schema.js";
import { fanSchema } from "./fan.js";
import { forecastSchema, timedRows } from "./forecast.js";
import { baySchema, swellSchema } from "./swellTypes.js";

/** What is taken where nothing is said. */
export const shelterDefaults = {
  /** Depth of water at the berth, for swell. */
  depthM: 10,
  limitM: 0.3,
  fetchMethod: "restricted" as "restricted" | "straight",
  modelScatter: 0.3,
  openM: 50_000,
};

/** Schema of {@link shelter}'s input. */
export const shelterInput = z.strictObject({
  /** Open water round the berth, from `fetchFan`; or one fan for each of several heights of tide. */
  fan: z.union([fanSchema, z.array(fanSchema).check(z.minLength(1), z.maxLength(20))]),
  /** Wind forecast. */
  forecast: forecastSchema,
  /** From letting go to weighing. */
  stay: interval,
  /** Step of the answer; an hour where left out. */
  stepMs: z._default(duration({ min: 60_000, max: 6 * 3_600_000 }), 3_600_000),
  /** Swell outside the bay at given times, ascending; not counted where left out, and said so. */
  swell: z.optional(timedRows(z.extend(swellSchema, { timeMs: instant() }))),
  /** Depth of water at the berth, for swell; 10 m where left out. */
  depthM: z._default(metres({ above: 0 }), shelterDefaults.depthM),
  /** Mean depth along the fetch, for wind waves; deep where left out, the unsafe side. */
  fetchDepthM: z.optional(metres({ above: 0 })),
  /** The berth's place in its bay. */
  bay: z._default(baySchema, {}),
  /**
   * Height of tide above chart datum at given times, to choose among fans; the most open fan where left out. Between rows
   * the water may stand higher than at either: as high as the rise before and the fall after, carried on, allow.
   */
  tide: z.optional(
    timedRows(
      z.strictObject({
        /** When. */
        timeMs: instant(),
        /** Height above chart datum. */
        heightAboveDatumM: metres(),
      }),
    ),
  ),
  /** Tidal stream at the berth at given times, ascending. */
  stream: z.optional(
    timedRows(
      z.strictObject({
        /** When. */
        timeMs: instant(),
        /** Rate. */
        rateMps: speed({ max: 10 }),
        /** Direction it sets towards. */
        towardsDeg: direction(),
      }),
    ),
  ),
  /** Heading of the vessel at given times, ascending; she lies to the wind where left out and no stream runs. */
  lying: z.optional(
    timedRows(
      z.strictObject({
        /** When. */
        timeMs: instant(),
        /** True heading. */
        headingDeg: direction(),
      }),
    ),
  ),
  /** Significant wave height held against; 0.3 m where left out. */
  limitM: z._default(metres({ above: 0 }), shelterDefaults.limitM),
  /** Gust above which the berth is untenable whatever the sea. */
  gustLimitMps: z.optional(speed({ above: 0 })),
  /** Definition of fetch; restricted where left out. */
  fetchMethod: z._default(z.enum(["restricted", "straight"]), shelterDefaults.fetchMethod),
  /** Open water taken beyond the end of the chart or coast; up to the fan's limit where left out. */
  pastEdgeM: z.optional(metres({ min: 0 })),
  /** One sigma of the logarithm of the height for the right wind; 0.3 where left out. */
  modelScatter: z._default(plain({ min: 0.05, max: 2 }), shelterDefaults.modelScatter),
  /** A ray open this far sees the open sea, although it ends at a coast; 50 km where left out. */
  openM: z._default(metres({ above: 0 }), shelterDefaults.openM),
  /** Natural roll period of the vessel, to warn of waves that rock her in step. */
  rollPeriodS: z.optional(seconds({ above: 0, max: 30 })),
  /** High land near the berth: gusts fall off it. It never counts as shelter from wind. */
  highLand: z._default(
    z.array(
      z.strictObject({
        /** True bearing from the berth. */
        bearingDeg: direction(),
        /** Distance of the foot of it. */
        distanceM: metres({ min: 0 }),
        /** Height above the water. */
        heightM: metres({ above: 0 }),
        /** How wide it stands to each side of the bearing; 20° where left out. */
        halfWidthDeg: z._default(degrees({ min: 0, max: 180 }), 20),
      }),
    ),
    [],
  ),
});

/** Input of {@link shelter}. */
export type ShelterInput = Given<typeof shelterInput>;
/** The same with defaults filled in. */
export type CheckedShelter = z.output<typeof shelterInput>;
