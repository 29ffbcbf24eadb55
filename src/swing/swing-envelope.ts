import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { bearingOf } from "../core/angles.js";
import { check } from "../core/check.js";
import { plain, type Position } from "../core/schema.js";
import { planeAt } from "../geo/plane.js";
import { ringArea } from "../geo/polygon.js";
import { columnsOf, greatestReach } from "./columns.js";
import { outlineOf } from "./outline.js";
import {
  type Body,
  cornersOf,
  farthestFrom,
  hullWithBorder,
  sectorRadii,
  sweepBody,
} from "./sweep.js";
import { EITHER_WAY_DEG } from "./tables.js";
import {
  type Anchored,
  anchoredFields,
  hullOf,
  inOrder,
  type SwingMoment,
  type SwingVessel,
} from "./vessel.js";

/** Input of {@link swingEnvelope}. */
export const swingEnvelopeInput = z
  .strictObject({
    ...anchoredFields,
    /** Whether the way from one moment to the next is taken in; `moments` takes the moments alone; `swept` unless given. */
    between: z._default(z.enum(["swept", "moments"]), "swept"),
    /** Number of sectors the greatest radius is given for, from north clockwise; 36 unless given. */
    sectors: z._default(plain({ min: 4, max: 360 }).check(z.int()), 36),
  })
  .check(...inOrder());
/** Input of {@link swingEnvelope}. */
export type SwingEnvelopeInput = Given<typeof swingEnvelopeInput>;

/** Greatest distance of any part of a vessel from the anchor in one sector. */
export interface SwingSector {
  /** Where the sector starts. */
  fromDeg: number;
  /** Where it ends, clockwise. */
  toDeg: number;
  /** Greatest distance from the anchor in it; 0 where no part of the vessel comes there. */
  radiusM: number;
}

/** Everywhere a vessel may come over her stay. */
export interface SwingEnvelope {
  /** A swinging envelope. */
  kind: "envelope";
  /** Where the anchor lies. */
  anchor: Position;
  /** Convex polygon that holds every part of the vessel over the stay, anticlockwise, not closed. */
  polygon: Position[];
  /** Area of the polygon. */
  areaM2: number;
  /** Greatest distance of any part from the anchor. */
  radiusM: number;
  /** Direction from the anchor of that farthest part. */
  radiusTowardsDeg: number;
  /** Greatest distance from the anchor by sector, from north clockwise. */
  sectors: SwingSector[];
  /** Greatest distance of any part from the anchor at each moment, without the error of the anchor's place: grows as the water falls and the rode stretches out. */
  radiusByMomentM: number[];
  /** Greatest distance of the aerial from the anchor, without that error; null where no aerial was given. */
  antennaRadiusM: number | null;
  /** By how much the polygon is widened beyond the hulls themselves: error of the anchor's place and sag of the chords of a turn. */
  borderM: number;
  /** The vessel and moments the envelope is made of. */
  from: {
    /** The vessel. */
    vessel: SwingVessel;
    /** How far off the anchor's place may be. */
    anchorErrorM: number;
    /** How she lies, in order of time. */
    moments: SwingMoment[];
    /** Greatest reach at other times. */
    reachM: number;
  };
  /** What was assumed for want of better knowledge. */
  assumed: string[];
}

/**
 * The room a vessel takes over her stay, from how she lies hour by hour: a polygon that holds every
 * part of her, and the greatest radius by sector.
 *
 * At each moment the hull is a rectangle about her bow roller, at the reach and heading given, swung
 * through the sheer and yaw given. From one moment to the next she goes the shorter way round; where
 * the lie turns by more than 90° between two moments, or is not known, she may go all the way round.
 * The polygon is convex, so it also holds the room between the lies; it leaves out dragging, and any
 * sheer, yaw or gust that the moments do not carry. *Valid*: one anchor. *Accuracy*: never inside
 * the hulls by more than rounding; outside by `borderM` and 0.4 % of the anchor's error.
 *
 * @throws InputError when a figure is missing, out of range, or the moments are out of order.
 * @source geometry; the 90° is our own choice
 * @example
 * ```ts
 * import { swingEnvelope } from "hawse/swing";
 * const room = swingEnvelope({
 *   anchor: { latDeg: 50, lonDeg: -4 },
 *   vessel: { lengthM: 12, beamM: 4 },
 *   moments: [
 *     { timeMs: Date.UTC(2026, 5, 1, 20), reachM: 25, pullTowardsDeg: 80, headingDeg: 260 },
 *     { timeMs: Date.UTC(2026, 5, 1, 23), reachM: 30, pullTowardsDeg: 120, headingDeg: 300 },
 *   ],
 * });
 * console.log(room.radiusM.toFixed(1), room.radiusByMomentM.map((r) => r.toFixed(1)).join(" "));
 * // 42.1 37.1 42.0
 * ```
 */
export const swingEnvelope = (input: SwingEnvelopeInput): SwingEnvelope =>
  envelopeOf(check(swingEnvelopeInput, input));

/** Polygon about the anchor on its plane, and how far it is widened. */
export interface EnvelopeRing {
  ring: Float64Array;
  borderM: number;
}

/** Convex ring about the anchor, metres east and north, of everywhere a body of the vessel comes. */
export function envelopeRing(
  v: Anchored,
  between: boolean,
  body: Body = cornersOf(hullOf(v.vessel)),
): EnvelopeRing {
  const columns =
    v.moments.length > 0
      ? columnsOf(v.moments)
      : columnsOf([
          {
            timeMs: 0,
            reachM: greatestReach(v),
            pullTowardsDeg: null,
            headingDeg: null,
            sheerDeg: 0,
          },
        ]);
  const swept = sweepBody(body, columns, between);
  const borderM = v.anchorErrorM + swept.sagM;
  return { ring: hullWithBorder(swept.points, borderM), borderM };
}

/** {@link swingEnvelope} without the check. */
export function envelopeOf(input: z.output<typeof swingEnvelopeInput>): SwingEnvelope {
  const swept = input.between === "swept";
  const { ring, borderM } = envelopeRing(input, swept);
  const radii = sectorRadii(ring, input.sectors);
  const width = 360 / input.sectors;
  const far = farthestVertex(ring);
  return {
    kind: "envelope",
    anchor: input.anchor,
    polygon: outlineOf(planeAt(input.anchor), ring),
    areaM2: ringArea(ring),
    radiusM: far.radiusM,
    radiusTowardsDeg: far.towardsDeg,
    sectors: Array.from(radii, (radiusM, i) => ({
      fromDeg: i * width,
      toDeg: (i + 1) * width,
      radiusM,
    })),
    radiusByMomentM: radiusByMoment(input),
    antennaRadiusM: antennaRadius(input, swept),
    borderM,
    from: {
      vessel: input.vessel,
      anchorErrorM: input.anchorErrorM,
      moments: input.moments,
      reachM: greatestReach(input),
    },
    assumed: assumptions(input),
  };
}

function farthestVertex(ring: Float64Array): {
  radiusM: number;
  towardsDeg: number;
} {
  const radiusM = farthestFrom(ring);
  for (let i = 0; i < ring.length; i += 2)
    if (farthestFrom(ring.subarray(i, i + 2)) === radiusM)
      return { radiusM, towardsDeg: bearingOf(ring[i]!, ring[i + 1]!) };
  return { radiusM, towardsDeg: 0 };
}

function radiusByMoment(v: Anchored): number[] {
  const body = cornersOf(hullOf(v.vessel));
  return v.moments.map((m) => {
    const { points, sagM } = sweepBody(body, columnsOf([m]), false);
    return farthestFrom(points) + sagM;
  });
}

function antennaRadius(v: Anchored, swept: boolean): number | null {
  const aerial =
    "bowToAntenna" in v.vessel
      ? (v.vessel.bowToAntenna as { aftM: number; starboardM: number } | undefined)
      : undefined;
  if (aerial === undefined) return null;
  const body = [-aerial.aftM, aerial.starboardM];
  const { ring } = envelopeRing({ ...v, anchorErrorM: 0 }, swept, body);
  return farthestFrom(ring);
}

function assumptions(v: z.output<typeof swingEnvelopeInput>): string[] {
  const out: string[] = [];
  if (v.vessel.beamM === undefined) out.push("beam: 0.4 of the length");
  if (v.moments.every((m) => m.sheerDeg === 0 && (m.yawDeg ?? 0) === 0))
    out.push("no sheer and no yaw: she lies steady at each moment");
  if (v.moments.some((m) => m.pullTowardsDeg === null))
    out.push("lie not known at some moments: all round at their reach");
  if (v.moments.length === 0) out.push("no moments given: all round at the greatest reach");
  if (v.between === "swept" && v.moments.length > 1)
    out.push(`between moments the shorter way round, all round beyond ${EITHER_WAY_DEG} degrees`);
  return out;
}
