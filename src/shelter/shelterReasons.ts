import { turnDeg } from "../core/angles.js";
import type { Reason, Severity } from "../core/judgement.js";
import { beamPart } from "./comfort.js";
import { FETCH_BASIS } from "./effectiveFetch.js";
import type { PreparedStay } from "./prepareStay.js";
import type { Step } from "./run.js";
import type { CheckedShelter } from "./shelterInput.js";

const PROPOSED = "proposed, not published";

/** Wind reaches this many heights out from the foot of high land in gusts and eddies: about ten, common practice, no source. */
const HEIGHTS_OUT = 10;
/** Waves whose period lies within this part of the roll period rock a hull in step; common practice, no source. */
const IN_STEP = 0.25;
/** Below this height a sea in step with the roll is not felt; proposed, not published. */
const FELT_M = 0.05;

/** Every reason of a stay, its fans' first. */
export function reasonsOf(stay: PreparedStay, steps: readonly Step[]): Reason[] {
  const { input, levels } = stay;
  const most = levels[levels.length - 1]!;
  return [
    ...most.fan.reasons,
    ...fanReasons(stay),
    ...unknownReasons(steps),
    ...classReasons(steps),
    ...swellReasons(stay, steps),
    ...gustReasons(input, steps),
    ...highLandReasons(input, steps),
    ...rollReasons(input, steps),
    ...streamReasons(input, steps),
  ];
}

const reason = (
  code: string,
  severity: Severity,
  value: Reason["value"],
  limit: Reason["limit"],
  basis: string,
  atMs?: number,
): Reason => ({
  code,
  severity,
  ...(atMs === undefined ? {} : { atMs }),
  value,
  limit,
  basis,
});

/** A ray that ended at the edge of what is known was taken to go on. */
function fanReasons({ input, levels }: PreparedStay): Reason[] {
  const { ends, limitM, reasons } = levels[levels.length - 1]!.fan;
  const edges = ends.filter((e) => e === "edge").length;
  if (edges === 0 || reasons.some((r) => r.code === "fetch.edge")) return [];
  const taken = input.pastEdgeM ?? limitM;
  return [reason("fetch.edge", "caution", edges, 0, `rays that ended where the chart or coast does, taken to go on for ${taken} m at most`)];
}

function unknownReasons(steps: readonly Step[]): Reason[] {
  const unknown = steps.filter((s) => s.sea.comfort === "unknown");
  const first = unknown[0];
  if (first === undefined) return [];
  const noWind = unknown.filter((s) => Number.isNaN(s.wind.windMps)).length;
  const out: Reason[] = [];
  if (noWind > 0)
    out.push(reason("shelter.noForecast", "warning", noWind, 0, "hours of the stay without a wind forecast: unknown, and counted as untenable", first.timeMs));
  if (unknown.length > noWind)
    out.push(reason("shelter.noSwell", "warning", unknown.length - noWind, 0, "hours of the stay for which the swell given does not reach: unknown, and counted as untenable", first.timeMs));
  return out;
}

/** The first hour of the worst class met, and the likeliest hour to be untenable. */
function classReasons(steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  const bad = (["untenable", "poor"] as const).find((c) => steps.some((s) => s.sea.comfort === c));
  const first = steps.find((s) => s.sea.comfort === bad);
  if (bad !== undefined && first !== undefined)
    out.push(reason(`shelter.${bad}`, bad === "poor" ? "warning" : "stop", first.sea.heightM, bad === "poor" ? 0.3 : 0.6, `expected sea, head-on limit of the class below in m: ${PROPOSED}`, first.timeMs));
  const risky = steps.reduce((a, b) => (b.sea.untenable > a.sea.untenable ? b : a));
  if (risky.sea.untenable >= AT_RISK && bad !== "untenable")
    out.push(reason("shelter.mayBeUntenable", "warning", risky.sea.untenable, AT_RISK, `probability of an untenable hour: ${PROPOSED}`, risky.timeMs));
  return out;
}

/** Probability of an untenable hour that is warned of. */
const AT_RISK = 0.05;

function swellReasons({ input, levels }: PreparedStay, steps: readonly Step[]): Reason[] {
  const { gaps, swell } = levels[levels.length - 1]!;
  const inside = swell.find((s) => s !== undefined);
  const out = (inside?.reasons ?? []).slice();
  if (input.swell === undefined && gaps.length > 0)
    out.push(reason("shelter.swellNotGiven", "caution", gaps.length, 0, "gaps to the open sea, but no swell was given: it is not counted"));
  const old = steps.find((s) => !(s.moment.swellM <= s.swell.hm0M + 0.05) && s.sea.comfort !== "unknown");
  if (old !== undefined)
    out.push(reason("shelter.oldSea", "note", old.moment.swellM, null, `what is left of the sea before a shift of wind, on the beam: ${PROPOSED}`, old.timeMs));
  return out;
}

function gustReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const limit = input.gustLimitMps;
  const worst = steps.reduce((a, b) => (b.wind.gustMps > (a.wind.gustMps || 0) ? b : a));
  if (limit === undefined || worst.wind.gustMps <= limit) return [];
  if (Number.isNaN(worst.wind.gustMps))
    return [reason("shelter.gustsUnknown", "warning", null, limit, "a limit for gusts was given, but the forecast has none")];
  return [reason("shelter.gust", "stop", worst.wind.gustMps, limit, "limit for gusts as given", worst.timeMs)];
}

function highLandReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  for (const land of input.highLand) {
    if (!(land.distanceM <= HEIGHTS_OUT * land.heightM)) continue;
    const under = steps.find((s) => !(Math.abs(turnDeg(land.bearingDeg, s.wind.windFromDeg)) > land.halfWidthDeg + s.wind.sigmaDeg));
    if (under !== undefined)
      out.push(reason("shelter.highLand", "caution", land.heightM, land.distanceM / HEIGHTS_OUT, "high land within ten of its heights upwind: gusts off it may pass the free wind; no shelter from wind is credited; common practice, no source", under.timeMs));
  }
  return out;
}

function rollReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const own = input.rollPeriodS;
  if (own === undefined) return [];
  const inStep = (periodS: number): boolean => Math.abs(periodS - own) <= IN_STEP * own;
  const rocked = steps.find(
    ({ sea, swell, moment }) =>
      (swell.hm0M >= FELT_M && inStep(swell.periodS)) ||
      (sea.windSeaM >= FELT_M &&
        inStep(sea.periodS) &&
        !(beamPart(turnDeg(Number.isNaN(moment.headingDeg) ? moment.windFromDeg : moment.headingDeg, sea.fromDeg)) <= 0)),
  );
  return rocked === undefined
    ? []
    : [reason("shelter.rollsInStep", "caution", own, null, "waves within a quarter of the roll period, off the bow: she will roll; common practice, no source", rocked.timeMs)];
}

function streamReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  const blocked = steps.find((s) => s.blocked);
  if (blocked !== undefined)
    out.push(reason("shelter.breakingOnStream", "warning", Number.isNaN(blocked.streamMps) ? null : blocked.streamMps, null, "wind waves meet a stream that stops them, or one that is not known: steep and breaking, twice the height taken; Longuet-Higgins & Stewart 1961, from memory", blocked.timeMs));
  const steep = steps.find((s) => !s.blocked && s.moment.streamFactor > 1.1);
  if (steep !== undefined)
    out.push(reason("shelter.windAgainstStream", "caution", steep.moment.streamFactor, 1.1, "factor of a contrary stream on the height of wind waves; Longuet-Higgins & Stewart 1961, from memory", steep.timeMs));
  if (input.stream !== undefined && input.lying === undefined)
    out.push(reason("shelter.headingUnknown", "note", null, null, "a stream was given but no heading: where it runs at 0.5 m/s or more she is taken to lie across the wind"));
  return out;
}

/** Defaults that a stay's shelter was reckoned with. */
export function assumedOf(input: CheckedShelter): string[] {
  const out = [
    "the wind has blown long enough for the whole fetch before the forecast starts",
    "no shelter from wind by high land or trees",
  ];
  if (input.fetchDepthM === undefined) out.push("deep water along the fetch");
  if (input.forecast.directionSigmaDeg === undefined)
    out.push("spread of direction by wind and lead time: common practice");
  if (input.lying === undefined && input.stream === undefined) out.push("she lies to the wind");
  if (input.swell !== undefined && input.bay.seawardDeg === undefined)
    out.push("no refraction of swell but its spread");
  return out;
}

/** Rules and sources behind a stay's shelter. */
export const basisOf = (input: CheckedShelter): string[] => [
  FETCH_BASIS[input.fetchMethod],
  "growth of wind waves: ACES Technical Reference (1992) 1-1",
  ...(input.swell === undefined
    ? []
    : ["swell: Sommerfeld, Penney & Price 1952; ACES Technical Reference (1992) 3-1 to 3-3"]),
  `classes of comfort 0.15/0.30/0.60 m head-on, 0.10/0.15/0.30 m on the beam: ${PROPOSED}`,
];
