import type { Reason } from "../core/judgement.js";
import type { WayDepth, WayHazard } from "./wayDepth.js";
import type { WayMark } from "./wayMarks.js";
import type { CheckedWay } from "./wayOut.js";
import { isOnTrack, type Way } from "./wayShut.js";
import type { Passage } from "./wayWeather.js";

const DEPTH = "charted depth less its error, tide and surge on the low side";
const PRACTICE = "common practice, no source";
/** Mean wind from which a way to windward is told; ours. */
const HARD_MPS = 8;

/** A danger with less water over it than is wanted at the height of tide that leaves `underM` at the shoalest place. */
function short(h: WayHazard, way: Way, meant: Passage): boolean {
  if (h.stands || !h.passable || h.depthM === null || way.curve === null) return true;
  const heightM =
    way.curve.heightAt(meant.departMs) + way.curve.errorLowAt(meant.departMs) + way.surgeLowM;
  return !(h.depthM + heightM - way.draughtM >= way.needM);
}

function waterReasons(way: Way, meant: Passage): Reason[] {
  const blocked = way.blockedBy.map((h): Reason => ({
    code: "wayOut.blocked",
    severity: "stop",
    value: h.name,
    limit: h.offM,
    basis: "charted on the track; no depth can be counted on over it",
  }));
  if (blocked.length > 0 || meant.state === "open") return blocked;
  const shut = meant.state === "shut";
  return [
    {
      code: shut ? "wayOut.shut" : "wayOut.unknown",
      severity: "warning",
      atMs: meant.leastAtMs ?? meant.departMs,
      value: meant.underKeelLeastM,
      limit: way.needM,
      basis: shut ? DEPTH : "what is not known is not good news",
    },
  ];
}

function lookoutReasons(
  input: CheckedWay,
  way: Way,
  hazards: readonly WayHazard[],
  marks: readonly WayMark[] | null,
  meant: Passage,
): Reason[] {
  const beside = hazards.filter((h) => !way.blockedBy.includes(h) && short(h, way, meant));
  const unlit = (marks ?? []).filter((m) => m.lit !== true && m.offM <= input.corridorM);
  return [
    ...beside.map((h): Reason => ({
      code: isOnTrack(h, input.asideM) ? "wayOut.steerClear" : "wayOut.beside",
      severity: "caution",
      value: h.name,
      limit: h.offM,
      basis: "charted in the corridor of the track",
    })),
    ...(meant.light === "night" ? unlit : []).map((m): Reason => ({
      code: "wayOut.unlit",
      severity: "caution",
      value: m.name,
      limit: m.offM,
      basis: "charted in the corridor of the track without a light",
    })),
    ...(meant.light === "night"
      ? [
          {
            code: "wayOut.dark",
            severity: "caution" as const,
            atMs: meant.departMs,
            value: null,
            limit: null,
            basis: "sun more than 6° below the horizon on the way",
          },
        ]
      : []),
  ];
}

const weatherReasons = (meant: Passage): Reason[] => [
  ...meant.legs
    .filter((l) => l.windOn === "nose" && l.windMps !== null && l.windMps >= HARD_MPS)
    .slice(0, 1)
    .map((l): Reason => ({
      code: "wayOut.windOnNose",
      severity: "note",
      atMs: l.fromMs,
      value: l.windMps,
      limit: HARD_MPS,
      basis: PRACTICE,
    })),
  ...meant.legs
    .filter((l) => l.windAgainstStream === true)
    .slice(0, 1)
    .map((l): Reason => ({
      code: "wayOut.windAgainstStream",
      severity: "note",
      atMs: l.fromMs,
      value: l.windMps,
      limit: null,
      basis: PRACTICE,
    })),
];

/** What speaks against a departure, or is to be minded on it, the weightiest first. */
export const reasonsOf = (
  input: CheckedWay,
  way: Way,
  hazards: readonly WayHazard[],
  marks: readonly WayMark[] | null,
  meant: Passage,
): Reason[] => [
  ...waterReasons(way, meant),
  ...lookoutReasons(input, way, hazards, marks, meant),
  ...weatherReasons(meant),
];

/** What is not known of a way, as codes. */
export function unknownsOfWay(
  { chart, tide, forecast, stream }: CheckedWay,
  way: Way,
  depths: readonly WayDepth[],
  passages: readonly Passage[],
): string[] {
  const legs = passages.flatMap((p) => p.legs);
  const asked = way.places.length > 0 && way.blockedBy.length === 0;
  const missing: [string, boolean][] = [
    ["chart", chart === undefined],
    ["depth", depths.some((d) => d.chartedLeastM === null)],
    ["dangerPlace", way.mayBlock],
    ["depthError", depths.some((d) => d.errorM === null)],
    ["tide", tide === undefined || (asked && passages.some((p) => p.underKeelLeastM === null))],
    ["wind", forecast === undefined || legs.some((l) => l.windMps === null)],
    ["stream", stream === undefined || legs.some((l) => l.streamWithMps === null)],
  ];
  return missing.filter(([, is]) => is).map(([what]) => `unknown.${what}`);
}
