import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import {
  duration,
  hectopascals,
  instant,
  interval,
  metres,
  newtons,
  plain,
  position,
  range3,
  speed,
} from "../core/schema.js";
import { InputError } from "../core/errors.js";
import { bedNames, isBed } from "../holding/beds.js";
import { anchor, bed } from "../holding/holding.js";
import { MOST_ROWS } from "../core/series.js";
import { vesselSketch } from "../lie/vessel.js";
import { segmentSchema } from "../rode/input.js";
import { chainSize, ropeSize } from "../rode/sizes.js";
import { FIBRE_NAMES } from "../rode/tables.js";
import { parseSeabed } from "../seabed/parse-seabed.js";
import { coastSchema } from "../shelter/coast.js";
import { forecastSchema, timedRows } from "../shelter/forecast.js";
import { baySchema, swellSchema } from "../shelter/swellTypes.js";
import { streamSource } from "../stream/source.js";
import { tideSource } from "../tide/source.js";
import { chartLayers } from "./chartInput.js";

const text = () => z.string().check(z.minLength(1), z.maxLength(200));

/** Text of a bed that is neither a name of the holding table nor to be read as a chart has it. */
function readableBed({ value, issues }: { value: unknown; issues: object[] }): void {
  if (typeof value !== "string" || isBed(value)) return;
  try {
    parseSeabed(value);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const message = `${error.message}; nor is it one of the beds ${bedNames.join("; ")}`;
    issues.push({ code: "custom", input: value, message });
  }
}

/** A length of chain by its size. */
const chainPiece = z.strictObject({
  kind: z.literal("chain"),
  /** Nominal diameter of the link steel in millimetres; a size of the chain table. */
  diameterMm: chainSize(),
  /** Length. */
  lengthM: metres({ above: 0, max: 2000 }),
});

/** A length of rope by its fibre and size. */
const ropePiece = z
  .strictObject({
    kind: z.literal("rope"),
    /** What it is made of. */
    fibre: z.enum(FIBRE_NAMES),
    /** Diameter in millimetres; a size of the rope table. */
    diameterMm: plain({ above: 0, max: 100 }),
    /** Length. */
    lengthM: metres({ above: 0, max: 2000 }),
  })
  .check(ropeSize());

/** A length of anything else, by its own figures. */
const customPiece = z.extend(segmentSchema, { kind: z.literal("custom") });

const rodePieces = z
  .array(z.discriminatedUnion("kind", [chainPiece, ropePiece, customPiece]))
  .check(z.minLength(1), z.maxLength(10));
/** Pieces of rode aboard, from the anchor inboard. */
export type RodePieces = z.infer<typeof rodePieces>;

const tackle = z.strictObject({
  /** The bower. */
  anchor,
  /** All the rode aboard for it, from the anchor inboard. */
  rode: rodePieces,
  /** Length out, from the bow roller; what to veer is worked out where this is not given. */
  lengthOutM: z.optional(metres({ above: 0, max: 4000 })),
  /** One sigma of the length out; 3 % of it unless given. */
  lengthSigmaM: z.optional(metres({ min: 0, max: 100 })),
  /** A stretching line between the rode and the bow. */
  snubber: z.optional(
    z
      .strictObject({
        /** What it is made of. */
        fibre: z.enum(FIBRE_NAMES),
        /** Diameter in millimetres; a size of the rope table. */
        diameterMm: plain({ above: 0, max: 60 }),
        /** Length worked. */
        lengthM: metres({ above: 0, max: 50 }),
      })
      .check(ropeSize()),
  ),
  /** Pull the anchor was held to astern after letting go, shown not to move her. */
  provedN: z.optional(newtons()),
  /** A second anchor with its own rode. */
  kedge: z.optional(z.strictObject({ anchor, rode: rodePieces })),
});

const neighbour = z.strictObject({
  /** What you call her; `a neighbour` unless given. */
  name: z._default(text(), "a neighbour"),
  /** What she is, with any figures known of her. */
  vessel: vesselSketch,
  /** Her rode, as far as can be seen; chain unless given. */
  make: z._default(z.enum(["chain", "chainAndRope"]), "chain"),
  /** Where her anchor lies. */
  position,
  /** How far off that may be; one of her own lengths unless given. */
  positionErrorM: z.optional(metres({ min: 0, max: 1000 })),
  /** Length she has out; by rule of thumb unless given. */
  lengthOutM: z.optional(metres({ above: 0, max: 2000 })),
});

const limits = z.strictObject({
  /** Water wanted under the keel at the worst; 0.5 m unless given (common practice, no source). */
  underKeelM: z._default(metres({ min: 0, max: 20 }), 0.5),
  /** Room wanted to anything at the worst; 5 m unless given (common practice, no source). */
  roomM: z._default(metres({ min: 0, max: 500 }), 5),
});

/** A stay at anchor, as a caller describes it. */
export const stayInput = z.strictObject({
  /** Version of this form. */
  version: z._default(z.literal(1), 1),
  /** What you call the stay. */
  name: z.optional(text()),
  /** Where the anchor is to lie. */
  position,
  /** How far off the anchor may come to lie; 5 m unless given. */
  positionErrorM: z._default(metres({ min: 0, max: 500 }), 5),
  /** From letting go to weighing; where both are one instant, that alone is judged. */
  stay: interval,
  /** Step of the plan; ten minutes unless given. Rows of the forecast and turns of tide and stream between the steps are looked at besides. */
  stepMs: z._default(duration({ min: 60_000, max: 3_600_000 }), 600_000),
  /** Clock aboard, minutes ahead of UTC; for the brief and the figures only; UTC unless given. */
  zoneOffsetMinutes: z._default(plain({ min: -840, max: 840 }), 0),
  /** The vessel, as far as her figures are known. */
  vessel: vesselSketch,
  /** Anchor and rode. */
  tackle,
  /** Charted depth at the anchor, drying heights negative; from the chart unless given. */
  chartedDepthM: z.optional(metres({ min: -15, max: 500 })),
  /** The bed: chart text such as `"S.M"`, or beds of the holding table; from the chart unless given. */
  seabed: z.optional(z.union([bed, text()]).check(z.check(readableBed))),
  /** Tide at the place. */
  tide: z.optional(tideSource),
  /** Surge over the stay. */
  surgeM: z.optional(range3),
  /** Pressure over the stay, for the surge it makes, where no surge is given. */
  pressureHpa: z.optional(hectopascals()),
  /** Tidal stream at the place. */
  stream: z.optional(streamSource),
  /** Wind forecast. */
  forecast: z.optional(
    forecastSchema.check(
      z.refine(({ rows }) => rows.length <= MOST_ROWS, {
        path: ["rows"],
        error: `expected at most ${MOST_ROWS} rows`,
      }),
    ),
  ),
  /** How the wind comes at the place; near land unless given. */
  exposure: z._default(z.enum(["openSea", "nearLand", "underHighLand"]), "nearLand"),
  /** Swell outside the bay at given times, ascending; an empty sea is `hm0M: 0`. */
  swell: z.optional(
    timedRows(z.extend(swellSchema, { timeMs: instant() })).check(z.maxLength(MOST_ROWS)),
  ),
  /** The berth's place in its bay, for swell. */
  bay: z._default(baySchema, {}),
  /** Shoreline for the fetch where the chart reaches less far, as GeoJSON lines or polygons. */
  coast: z.optional(coastSchema),
  /** Chart objects round the place. */
  chart: z.optional(chartLayers),
  /** Other vessels at anchor; an empty list says that there are none. */
  neighbours: z.optional(z.array(neighbour).check(z.maxLength(200))),
  /** The way out, from the berth to open water. */
  route: z.optional(z.array(position).check(z.minLength(2), z.maxLength(200))),
  /** Speed on the way out; 2 m/s unless given. */
  routeSpeedMps: z._default(speed({ max: 20 }), 2),
  /** The crew, for the rota. */
  crew: z.optional(
    z
      .array(
        z.strictObject({
          /** Who. */
          name: text(),
        }),
      )
      .check(z.maxLength(50)),
  ),
  /** When the crew means to turn in. */
  turningInMs: z.optional(instant()),
  /** What decides the signals. */
  signals: z._default(
    z.strictObject({
      /** Rules in force; `colregs` unless given. */
      regime: z._default(z.enum(["colregs", "usInland"]), "colregs"),
      /** In or near a channel, fairway, anchorage, or where other vessels normally pass; yes unless given. */
      nearTraffic: z._default(z.boolean(), true),
      /** In a designated special anchorage area; no unless given. */
      specialAnchorage: z._default(z.boolean(), false),
    }),
    { regime: "colregs", nearTraffic: true, specialAnchorage: false },
  ),
  /** Cases to draw for the doubt of the plan: none unless given. */
  draws: z.optional(
    z.strictObject({
      /** How many cases; 2,000 tell a probability to a point or so; 2,000 unless given. */
      count: z._default(z.int().check(z.gte(100), z.lte(100_000)), 2000),
      /** What the draws start from: the same number gives the same draws; 1 unless given. */
      seed: z._default(z.int().check(z.gte(0), z.lte(4_294_967_295)), 1),
    }),
  ),
  /** What the skipper asks for. */
  limits: z._default(limits, { underKeelM: 0.5, roomM: 5 }),
});
/** A stay at anchor, as a caller describes it. */
export type StayInput = Given<typeof stayInput>;
/** A stay with its defaults filled in. */
export type CheckedStay = z.output<typeof stayInput>;
/** The stay without what was told of one place alone: the depth there, and the pull that the anchor was proved to. */
export function withoutPlace<S extends Pick<CheckedStay, "chartedDepthM" | "tackle">>(stay: S): S {
  const bare = { ...stay, tackle: { ...stay.tackle } };
  delete bare.chartedDepthM;
  delete bare.tackle.provedN;
  return bare;
}

/** A neighbour with defaults filled in. */
export type Neighbour = z.output<typeof neighbour>;
