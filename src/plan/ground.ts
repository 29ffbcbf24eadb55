import type { Metres } from "../core/units.js";
import { anchoringIn, type Anchoring } from "../chart/anchoring-at.js";
import type { Chart } from "../chart/chart.js";
import type { LayersInput } from "../chart/collect.js";
import { coverageOfArea, type Coverage } from "../chart/coverage-of.js";
import { plainName } from "../chart/datum.js";
import { depthsInArea, type Depths } from "../chart/depths-in.js";
import { hazardsInArea, type Hazards } from "../chart/hazards-in.js";
import { anchoringPolicy } from "../chart/policy.js";
import { readChart } from "../chart/read-chart.js";
import { seabedAround, type SeabedSample } from "../chart/seabed-near.js";
import { shoreFrom, type ShoreNear } from "../chart/shore-near.js";
import { refuse } from "../core/errors.js";
import { isBed, type BedName } from "../holding/beds.js";
import { parseSeabed } from "../seabed/parse-seabed.js";
import { ratingsOf, type AnchorRatings } from "../seabed/rate-anchors.js";
import { seabedFromCodes } from "../seabed/seabed-from-codes.js";
import type { CheckedStay } from "./input.js";

/** The chart of a stay, read and held against the tide's datum. */
export function chartOf(input: CheckedStay): Chart | null {
  if (input.chart === undefined) return null;
  const { soundingDatum, layers } = input.chart;
  const chart = readChart(
    layers as LayersInput,
    soundingDatum === undefined ? {} : { soundingDatum },
  );
  const tideDatum = input.tide?.toDatum?.datum ?? input.tide?.datum;
  if (tideDatum !== undefined && !sameDatum(chart.soundingDatum.name, tideDatum))
    refuse(
      "tide.datum",
      "datum",
      `the chart's depths are below ${chart.soundingDatum.name}, the tide above ${tideDatum}: give the shift as tide.toDatum`,
    );
  return chart;
}

/** Whether two names mean one datum, letter case and common short names aside. */
export const sameDatum = (a: string, b: string): boolean => plainName(a) === plainName(b);

/** Depth charted, or given, where the anchor is to lie; NaN where not known. */
export interface AnchorDepth {
  /** Depth to reckon with. */
  chartedM: number;
  /** The same on the deep side, for the rode. */
  deepM: number;
  /** Error of the charted depth; 0 for a depth the caller gave. */
  errorM: number;
  /** Who says so. */
  from: "caller" | "chart" | null;
}

/** Error of a charted depth that no zone of confidence states: that of the worst zone that states one, C (2 m and 5 %). */
const UNSTATED_M = 2;
const UNSTATED_SHARE = 0.05;

/** Error of the least depth charted in some water; NaN where no depth is. */
export const depthErrorOf = ({ errorM, leastM }: Depths): number =>
  errorM ?? UNSTATED_M + UNSTATED_SHARE * Math.max(0, leastM ?? NaN);

/** Depth where the anchor lies: as given, else the chart's bounds within the error of its place. */
export function anchorDepth(input: CheckedStay, chart: Chart | null): AnchorDepth {
  const given = input.chartedDepthM;
  if (given !== undefined) return { chartedM: given, deepM: given, errorM: 0, from: "caller" };
  if (chart === null) return { chartedM: NaN, deepM: NaN, errorM: NaN, from: null };
  const d = depthsInArea(chart, {
    centre: input.position,
    radiusM: input.positionErrorM,
  });
  const chartedM = d.leastM ?? NaN;
  const errorM = depthErrorOf(d);
  return {
    chartedM,
    deepM: (d.greatestM ?? NaN) + (Number.isNaN(errorM) ? 0 : errorM),
    errorM,
    from: "chart",
  };
}

/** What lies round the berth within a radius; every part null without a chart. */
export interface Ground {
  radiusM: Metres;
  depths: Depths | null;
  anchoring: Anchoring | null;
  hazards: Hazards | null;
  shore: ShoreNear | null;
  coverage: Coverage | null;
}

/** Ask the chart everything about a circle round the anchor. */
export function groundOf(input: CheckedStay, chart: Chart | null, radiusM: number): Ground {
  if (chart === null || !(radiusM >= 0))
    return {
      radiusM,
      depths: null,
      anchoring: null,
      hazards: null,
      shore: null,
      coverage: null,
    };
  const area = { centre: input.position, radiusM };
  return {
    radiusM,
    depths: depthsInArea(chart, area),
    anchoring: anchoringIn(chart, area, {
      stay: input.stay,
      policy: anchoringPolicy,
      widen: true,
    }),
    hazards: hazardsInArea(chart, area, { widen: true }),
    shore: shoreFrom(chart, input.position),
    coverage: coverageOfArea(chart, area),
  };
}

/** The bed under the anchor. */
export interface BedFound {
  /** Bed to reckon with, in the words of the holding table, or beds of which the worst counts; empty where nothing is known. */
  beds: BedName[];
  /** Every bed it may be: the lowest credible holding is that of the worst of them. */
  possible: BedName[];
  /** As given or charted, in words. */
  words: string;
  /** Who says so. */
  from: "caller" | "chart" | null;
  /** How anchors are rated there; null where only the holding table's word was given. */
  ratings: AnchorRatings | null;
  /** Distance of the chart's sample; null where none was used. */
  sampleM: Metres | null;
  /** Whether all samples near say the same. */
  agree: boolean;
}

const NOT_KNOWN: BedFound = {
  beds: [],
  possible: [],
  words: "not known",
  from: null,
  ratings: null,
  sampleM: null,
  agree: false,
};

/** The bed as the caller gives it, or by the nearest samples of the chart. */
export function bedOf(input: CheckedStay, chart: Chart | null): BedFound {
  const given = input.seabed;
  if (Array.isArray(given) || (given !== undefined && isBed(given))) {
    const beds = Array.isArray(given) ? given : [given];
    return {
      ...NOT_KNOWN,
      beds,
      possible: beds,
      words: beds.join(" or "),
      from: "caller",
      agree: true,
    };
  }
  if (given !== undefined) {
    const ratings = ratingsOf(parseSeabed(given));
    return {
      ...NOT_KNOWN,
      ...bedsIn(ratings, input),
      words: given,
      from: "caller",
      ratings,
      agree: true,
    };
  }
  return chart === null ? NOT_KNOWN : charted(input, chart);
}

/** Bed that decides the rating of the anchor, and every bed the words may mean; none where the chart tells nothing of a constituent. */
function bedsIn(ratings: AnchorRatings, input: CheckedStay): Pick<BedFound, "beds" | "possible"> {
  if (!ratings.known) return { beds: [], possible: [] };
  const { bed } = ratings.ratings[input.tackle.anchor.type];
  // A mixture is a bed of its own, not each of its constituents.
  const possible = ratings.beds.includes(bed) ? ratings.beds : [bed];
  return { beds: [bed], possible };
}

function charted(input: CheckedStay, chart: Chart): BedFound {
  const around = seabedAround(chart, input.position, {
    radiusM: 500,
    atMs: input.stay.fromMs,
  });
  const sample = around.nearest;
  if (sample === null) return NOT_KNOWN;
  const weeds = around.samples.filter((s) => s.kind === "weed" && s.here);
  const ratings = ratingsOf(seabedFromCodes(codesOf(sample, weeds)));
  return {
    ...bedsIn(ratings, input),
    words: [sample.words, ...weeds.map((w) => `under ${w.words}`)].join(", "),
    from: "chart",
    ratings,
    sampleM: sample.distanceM,
    agree: around.agree,
  };
}

/** Codes of a bed and of all that grows there; growth whose kind is not charted is a code in no list, the worst it may be. */
const codesOf = (sample: SeabedSample, weeds: readonly SeabedSample[]) => ({
  natsur: sample.codes.natsur ?? "",
  natqua: sample.codes.natqua ?? "",
  catwed: weeds.flatMap((w) => w.codes.catwed ?? "not charted"),
});
