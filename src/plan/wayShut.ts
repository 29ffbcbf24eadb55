import type { Interval } from "../core/judgement.js";
import { timeSteps } from "../core/series.js";
import { overSpan, type At } from "../tide/span.js";
import type { TideCurve } from "../tide/curve.js";
import type { WayDepth, WayHazard } from "./wayDepth.js";

/** A place of the track with the depth to reckon with there: the charted one less its error, below datum. */
export interface Place {
  fromM: number;
  toM: number;
  /** NaN where not known. */
  depthM: number;
  /** What it is, where it is a danger. */
  of: string | null;
}

/** Everything the water on a track hangs on. */
export interface Way {
  /** Places whose depth is known and that may be the shoalest at some height of tide. */
  places: Place[];
  /** Whether the depth, with its error, is known all along the track. */
  whole: boolean;
  /** Whether a danger over which no depth can be counted on may lie on the track, by the error of its charted place. */
  mayBlock: boolean;
  /** Dangers on the track over which no depth can be counted on. */
  blockedBy: WayHazard[];
  curve: TideCurve | null;
  /** Lower end of the surge. */
  surgeLowM: number;
  draughtM: number;
  speedMps: number;
  lengthM: number;
  /** Water wanted under the keel. */
  needM: number;
}

/** Whether a danger lies in the strip that is run, its charted error of position and `asideM` allowed for. */
export const isOnTrack = (h: WayHazard, asideM: number): boolean =>
  !(h.offM > asideM + h.positionErrorM);

/** No depth can be counted on over it: it may stand above any water, or is not to be passed over. */
const blocks = (h: WayHazard): boolean => !h.stands && (h.depthM === null || !h.passable);

/** Places of a track, shoal ones first, and what blocks it. */
export function placesOf(
  depths: readonly WayDepth[],
  hazards: readonly WayHazard[],
  asideM: number,
): Pick<Way, "places" | "whole" | "mayBlock" | "blockedBy"> {
  const on = hazards.filter((h) => isOnTrack(h, asideM));
  const errorAt = (m: number): number | null =>
    depths.find((d) => m >= d.fromM && m <= d.toM)?.errorM ?? null;
  const blocking = on.filter(blocks);
  // Only the error of its charted place brings it on to the track: it may shut the way, or not.
  const mayBlock = blocking.some((h) => h.offM > asideM);
  const places = [
    ...depths.flatMap((d): Place[] => {
      const depthM = d.knownLeastM === null ? NaN : d.knownLeastM - (d.errorM ?? 0);
      return Number.isNaN(depthM) ? [] : [{ fromM: d.fromM, toM: d.toM, depthM, of: null }];
    }),
    ...on.flatMap((h): Place[] =>
      blocks(h) || h.depthM === null
        ? []
        : [
            {
              fromM: h.alongM,
              toM: h.alongM,
              depthM: h.depthM - (errorAt(h.alongM) ?? 0),
              of: h.name,
            },
          ],
    ),
  ].sort((a, b) => a.depthM - b.depthM);
  return {
    places,
    whole:
      depths.length > 0 &&
      !mayBlock &&
      depths.every((d) => d.chartedLeastM !== null && d.errorM !== null),
    mayBlock,
    blockedBy: blocking.filter((h) => !(h.offM > asideM)),
  };
}

/** Least height of tide while a place is passed by a vessel that left at `t`. */
function tideOver(way: Way, place: Place, t: number): number {
  const at = (alongM: number): number => {
    const when = t + (alongM / way.speedMps) * 1000;
    const { heightAt, errorLowAt } = way.curve!;
    return heightAt(when) + errorLowAt(when) + way.surgeLowM;
  };
  const first = at(place.fromM);
  return place.toM === place.fromM ? first : least(first, at(place.toM));
}

const least = (a: number, b: number): number => (b < a || Number.isNaN(b) ? b : a);

/** Least water under the keel for a departure, in what is known of the track, and where; NaN where the tide is not known. */
export function underKeelAt(way: Way, t: number): { valueM: number; place: Place | null } {
  let valueM = way.curve === null || way.places.length === 0 ? NaN : Infinity;
  let place: Place | null = null;
  if (way.curve === null) return { valueM, place };
  for (const p of way.places) {
    const under = p.depthM + tideOver(way, p, t) - way.draughtM;
    if (under >= valueM) continue;
    valueM = under;
    place = p;
    if (Number.isNaN(under)) break;
  }
  return { valueM, place };
}

/** Greatest step between departures that are looked at. */
const STEP_MS = 600_000;

/** Height of tide on the low side over a span. */
function tideRange(way: Way, span: Interval): number {
  const heights = timeSteps(span.fromMs, span.toMs, STEP_MS)
    .map((t) => way.curve!.heightAt(t))
    .filter((h) => Number.isFinite(h));
  return heights.length === 0 ? Infinity : Math.max(...heights) - Math.min(...heights);
}

/** What the samples of the tide and the change of its error may leave out, m. */
const SLACK_M = 1;

/** The same way without places that are too deep ever to be the shoalest. */
export function pruned(way: Way, span: Interval): Way {
  if (way.curve === null || way.places.length === 0) return way;
  const end = { fromMs: span.fromMs, toMs: span.toMs + (way.lengthM / way.speedMps) * 1000 };
  const mostM = way.places[0]!.depthM + tideRange(way, end) + SLACK_M;
  return { ...way, places: way.places.filter((p) => p.depthM <= mostM) };
}

/** When a way is shut, open, or not known to be either. */
export interface WayHours {
  /** Departures for which the water is known to fall short of what is wanted. */
  shut: Interval[];
  /** Departures for which it is known to be enough all along the track. */
  open: Interval[];
  /** Departures for which something needed is not known. */
  unknown: Interval[];
  /** Least water of all departures, and the departure; null where no tide or depth is known. */
  least: At | null;
  /** Most water of all departures, and the departure. */
  greatest: At | null;
}

/** Parts of a span not covered by others, which are in order. */
function restOf(span: Interval, taken: readonly Interval[]): Interval[] {
  const rest: Interval[] = [];
  let from = span.fromMs;
  for (const t of taken) {
    if (t.fromMs > from) rest.push({ fromMs: from, toMs: t.fromMs });
    from = Math.max(from, t.toMs);
  }
  if (from < span.toMs || taken.length === 0) rest.push({ fromMs: from, toMs: span.toMs });
  return rest;
}

/** Departures for which the tide is not known at some moment of the passage. */
function tideGaps(way: Way, span: Interval): Interval[] {
  if (way.curve === null) return [span];
  const passMs = (way.lengthM / way.speedMps) * 1000;
  return way.curve
    .gaps(span.fromMs, span.toMs + passMs)
    .map((g) => ({
      fromMs: Math.max(span.fromMs, g.fromMs - passMs),
      toMs: Math.min(span.toMs, g.toMs),
    }))
    .filter((g) => g.toMs >= g.fromMs)
    .sort((a, b) => a.fromMs - b.fromMs);
}

/** Departures between which the water only rises or only falls, or nearly so. */
function knotsOf(way: Way, span: Interval): number[] {
  const passMs = (way.lengthM / way.speedMps) * 1000;
  const breaks = way.curve!.breaks(span.fromMs, span.toMs + passMs);
  const shifted = breaks.flatMap((b) => [b, b - passMs]);
  return timeSteps(span.fromMs, span.toMs, STEP_MS, shifted);
}

/** Put spans in order, to the millisecond. */
function tidy(spans: Interval[]): void {
  spans.sort((a, b) => a.fromMs - b.fromMs);
  spans.forEach(({ fromMs, toMs }, i) => {
    spans[i] = { fromMs: Math.round(fromMs), toMs: Math.round(toMs) };
  });
}

/** Hours of a span at which a way is shut, by root-finding on the water under the keel. */
export function hoursShut(given: Way, span: Interval): WayHours {
  const out: WayHours = { shut: [], open: [], unknown: [], least: null, greatest: null };
  if (given.blockedBy.length > 0) return { ...out, shut: [span] };
  if (given.places.length === 0) return { ...out, unknown: [span] };
  const way = pruned(given, span);
  const gaps = tideGaps(way, span);
  out.unknown.push(...gaps);
  for (const part of restOf(span, gaps)) {
    const found = overSpan((t) => underKeelAt(way, t).valueM, knotsOf(way, part), way.needM);
    out.shut.push(...found.below);
    (way.whole ? out.open : out.unknown).push(...restOf(part, found.below));
    if (!(found.least.value >= (out.least?.value ?? Infinity))) out.least = found.least;
    if (found.greatest.value > (out.greatest?.value ?? -Infinity)) out.greatest = found.greatest;
  }
  for (const spans of [out.shut, out.open, out.unknown]) tidy(spans);
  return out;
}
