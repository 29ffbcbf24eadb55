// What is not known has another form than what is: a caller has to ask before the figure can be read.
import {
  fitSwing,
  holding,
  safeUntil,
  stayGeoJson,
  tideHeight,
  type DepthOverStay,
  type HeightOfTide,
  type Holding,
  type Lie,
  type Metres,
  type Newtons,
  type StayPlan,
  type StreamAt,
  type SwingCircle,
  type SwingEnvelope,
  type UnknownHeight,
  type Verdict,
} from "hawse";
import { claim, type Same } from "./same.js";

export function heightText(height: HeightOfTide): string {
  if (!height.known) {
    claim<Same<typeof height, UnknownHeight>>();
    // @ts-expect-error there is no figure where it is not known
    return String(height.heightM) + height.reason;
  }
  claim<Same<typeof height.heightM, Metres>>();
  return String(height.heightM);
}
// @ts-expect-error the figure cannot be read before it is known to be there
export const unasked = (height: HeightOfTide): unknown => height.heightM;
// @ts-expect-error the same for a depth over the stay
export const lowest = (depth: DepthOverStay): unknown => depth.low;
// @ts-expect-error and for a stream
export const rate = (stream: StreamAt): unknown => stream.rateMps;
claim<Same<ReturnType<typeof tideHeight>, HeightOfTide>>();

export function radius(fit: ReturnType<typeof fitSwing>): number | string {
  return fit.known ? fit.radiusM : fit.reason;
}

export function borderOf(room: SwingEnvelope | SwingCircle): unknown {
  // @ts-expect-error a circle has no border of sectors
  if (room.kind === "circle") return room.borderM;
  return room.borderM;
}

// Where no figure is honest there is none, and the type says so.
claim<Same<null extends Holding["ultimateN"] ? true : false, true>>();
claim<Same<null extends Lie["headingDeg"] ? true : false, true>>();
claim<Same<Lie["pullN"], Newtons>>();
// @ts-expect-error it may be null
export const likely = (h: ReturnType<typeof holding>): number => h.ultimateN.likely;

export function inWords(verdict: Verdict): string {
  switch (verdict) {
    case "suitable":
    case "withCare":
    case "unsuitable":
    case "cannotTell":
      return verdict;
    default:
      claim<Same<typeof verdict, never>>();
      return verdict;
  }
}
claim<Same<StayPlan["verdict"], Verdict>>();
claim<Same<null extends ReturnType<typeof safeUntil>["atMs"] ? true : false, true>>();

// The room of a stay fits where GeoJSON is asked for.
type Geo =
  { type: "Point"; coordinates: number[] } | { type: "Polygon"; coordinates: number[][][] };
export const drawn = (
  plan: StayPlan,
): { type: "FeatureCollection"; features: { geometry: Geo }[] } => stayGeoJson(plan);
