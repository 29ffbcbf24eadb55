import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, position, type Position } from "../core/schema.js";
import { circleAround } from "../geo/circle.js";
import { planeAt } from "../geo/plane.js";
import { outlineOf } from "./outline.js";
import { bowToAntenna } from "./vessel.js";

/** Input of {@link swingCircle}. */
export const swingCircleInput = z.strictObject({
  /** Where the anchor lies. */
  anchor: position,
  /** How far off that may be; nothing unless given. */
  anchorErrorM: z._default(metres({ min: 0, max: 5000 }), 0),
  /** Greatest horizontal distance from anchor to bow roller. */
  reachM: metres({ min: 0, max: 2000 }),
  /** Length from the bow roller to the stern, and whatever trails beyond it. */
  lengthM: metres({ min: 0, max: 200 }),
  /** Aerial of the position receiver. */
  bowToAntenna: z.optional(bowToAntenna),
});
/** Input of {@link swingCircle}. */
export type SwingCircleInput = Given<typeof swingCircleInput>;

/** The swinging circle. */
export interface SwingCircle {
  /** A swinging circle. */
  kind: "circle";
  /** Middle: the anchor. */
  anchor: Position;
  /** Radius that holds every part of the vessel, the error of the anchor's place included. */
  radiusM: number;
  /** Radius the bow roller keeps within, without that error. */
  bowRadiusM: number;
  /** Radius the aerial keeps within while the vessel lies bow to her anchor, without that error; null where no aerial was given. */
  antennaRadiusM: number | null;
  /** Outline that holds the circle, clockwise from north, not closed. */
  polygon: Position[];
}

/**
 * The swinging circle: everywhere a vessel may come at the full reach of her rode, lying any way round.
 *
 * Reach and length added; the beam, which adds a few centimetres at the quarters, is left out, and
 * so is the sag of the rode that keeps her closer in light airs. *Valid*: one anchor.
 * *Accuracy*: exact; the outline lies outside the circle by less than 0.1 %.
 *
 * @throws InputError when a figure is missing or out of range.
 * @source common practice, no source
 * @example
 * ```ts
 * import { swingCircle } from "hawse/swing";
 * const circle = swingCircle({ anchor: { latDeg: 50, lonDeg: -4 }, reachM: 31, lengthM: 12, anchorErrorM: 5 });
 * console.log(circle.radiusM, circle.bowRadiusM);
 * // 48 31
 * ```
 */
export const swingCircle = (input: SwingCircleInput): SwingCircle =>
  circleOf(check(swingCircleInput, input));

/** {@link swingCircle} without the check. */
export function circleOf(input: z.output<typeof swingCircleInput>): SwingCircle {
  const { anchor, anchorErrorM, reachM, lengthM } = input;
  const radiusM = anchorErrorM + reachM + lengthM;
  const aerial = input.bowToAntenna;
  return {
    kind: "circle",
    anchor,
    radiusM,
    bowRadiusM: reachM,
    antennaRadiusM:
      aerial === undefined
        ? null
        : Math.sqrt(
            (reachM + aerial.aftM) * (reachM + aerial.aftM) + aerial.starboardM * aerial.starboardM,
          ),
    polygon: outlineOf(planeAt(anchor), circleAround(0, 0, radiusM)),
  };
}
