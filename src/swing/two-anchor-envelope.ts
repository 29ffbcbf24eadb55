import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres, position, type Position } from "../core/schema.js";
import { lensAround } from "../geo/circle.js";
import { planeAt, toPlane } from "../geo/plane.js";
import { ringArea } from "../geo/polygon.js";
import { outlineOf } from "./outline.js";
import { farthestFrom, hullWithBorder } from "./sweep.js";
import { hullOf, swingVessel } from "./vessel.js";

const leg = z.strictObject({
  /** Where the anchor lies. */
  anchor: position,
  /** How far off that may be; nothing unless given. */
  anchorErrorM: z._default(metres({ min: 0, max: 5000 }), 0),
  /** Greatest horizontal distance from this anchor to where its rode comes aboard. */
  reachM: metres({ min: 0, max: 2000 }),
});

/** Input of {@link twoAnchorEnvelope}. */
export const twoAnchorEnvelopeInput = z.strictObject({
  /** `vee` and `openMoor`: both rodes at the bow. `foreAndAft`: the second, a kedge, at the stern. */
  kind: z.enum(["vee", "openMoor", "foreAndAft"]),
  /** The bower. */
  first: leg,
  /** The second anchor; the kedge over the stern where she lies fore and aft. */
  second: leg,
  /** Room the hull takes. */
  vessel: swingVessel,
});
/** Input of {@link twoAnchorEnvelope}. */
export type TwoAnchorEnvelopeInput = Given<typeof twoAnchorEnvelopeInput>;

/** Everywhere a vessel on two anchors may come. */
export interface TwoAnchorEnvelope {
  /** How the two anchors are laid, as given. */
  kind: "vee" | "openMoor" | "foreAndAft";
  /** The bower's place. */
  anchor: Position;
  /** Whether both rodes can be fast at once; if not, there is no polygon. */
  reaches: boolean;
  /** What the two rodes and, fore and aft, the hull can span beyond the distance between the anchors; less than zero where they fall short. */
  slackM: number;
  /** Convex polygon that holds every part of the vessel, not closed; null where the rodes fall short. */
  polygon: Position[] | null;
  /** Area of the polygon; null where there is none. */
  areaM2: number | null;
  /** Greatest distance of any part from the bower; null where there is no polygon. */
  radiusM: number | null;
  /** The same on the bower alone. */
  radiusAloneM: number;
}

/**
 * The room a vessel takes on two anchors: both over the bow, or one over the bow and a kedge over the stern.
 *
 * Over the bow, the roller keeps within both reaches, the part common to two discs, and the hull lies any
 * way round it. Fore and aft, bow and stern each keep within their own reach, and within the other's
 * reach and the length of the hull. Leaves out the stretch of the rodes, dragging, and a rode let go: then she swings on
 * the other. *Valid*: rodes that hold. *Accuracy*: holds all of it; outside by at most 0.2 % of the reach.
 *
 * @throws InputError when a figure is missing or out of range.
 * @source geometry
 * @example
 * ```ts
 * import { twoAnchorEnvelope } from "hawse/swing";
 * const room = twoAnchorEnvelope({
 *   kind: "foreAndAft",
 *   first: { anchor: { latDeg: 0, lonDeg: 0 }, reachM: 30 },
 *   second: { anchor: { latDeg: 0, lonDeg: -0.0006 }, reachM: 26 },
 *   vessel: { lengthM: 12, beamM: 4 },
 * });
 * console.log(room.reaches, room.slackM.toFixed(1), room.radiusAloneM.toFixed(1));
 * // true 1.2 42.2
 * ```
 */
export const twoAnchorEnvelope = (input: TwoAnchorEnvelopeInput): TwoAnchorEnvelope =>
  twoAnchorsOf(check(twoAnchorEnvelopeInput, input));

/** {@link twoAnchorEnvelope} without the check. */
export function twoAnchorsOf({
  kind,
  first,
  second,
  vessel,
}: z.output<typeof twoAnchorEnvelopeInput>): TwoAnchorEnvelope {
  const plane = planeAt(first.anchor);
  const at = new Float64Array(2);
  toPlane(plane, second.anchor.latDeg, second.anchor.lonDeg, at, 0);
  const hull = hullOf(vessel);
  const r1 = first.reachM + first.anchorErrorM;
  const r2 = second.reachM + second.anchorErrorM;
  const span = kind === "foreAndAft" ? vessel.lengthM : 0;
  const slackM = r1 + r2 + span - farthestFrom(at);
  const radiusAloneM = r1 + hull.farthestM;
  const base = { kind, anchor: first.anchor, slackM, radiusAloneM };
  const none = { reaches: false, polygon: null, areaM2: null, radiusM: null };
  if (!(slackM >= 0)) return { ...base, ...none };
  const [x, y] = [at[0]!, at[1]!];
  const bow = lensAround(0, 0, r1, x, y, r2 + span);
  const stern = lensAround(0, 0, r1 + span, x, y, r2);
  const beyond = Math.max(hull.aheadM, hull.asternM - vessel.lengthM);
  const ring =
    kind === "foreAndAft"
      ? hullWithBorder([...bow, ...stern], farthestFrom([beyond, hull.halfBeamM]))
      : hullWithBorder(bow, hull.farthestM);
  return {
    ...base,
    reaches: true,
    polygon: outlineOf(plane, ring),
    areaM2: ringArea(ring),
    radiusM: farthestFrom(ring),
  };
}
