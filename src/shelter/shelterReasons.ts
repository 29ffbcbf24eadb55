import type { Reason } from "../core/judgement.js";
import { FETCH_BASIS } from "./effectiveFetch.js";
import { hazardReasons } from "./hazardReasons.js";
import type { PreparedStay } from "./prepareStay.js";
import { PROPOSED, reason } from "./reason.js";
import type { Step } from "./run.js";
import type { CheckedShelter } from "./shelterInput.js";

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
    ...hazardReasons(input, steps),
  ];
}

/** A ray that ended at the edge of what is known was taken to go on. */
function fanReasons({ input, levels }: PreparedStay): Reason[] {
  const { ends, limitM, reasons } = levels[levels.length - 1]!.fan;
  const edges = ends.filter((e) => e === "edge").length;
  if (edges === 0 || reasons.some((r) => r.code === "fetch.edge")) return [];
  const taken = input.pastEdgeM ?? limitM;
  return [
    reason(
      "fetch.edge",
      "caution",
      edges,
      0,
      `rays that ended where the chart or coast does, taken to go on for ${taken} m at most`,
    ),
  ];
}

function unknownReasons(steps: readonly Step[]): Reason[] {
  const unknown = steps.filter((s) => s.sea.comfort === "unknown");
  const first = unknown[0];
  if (first === undefined) return [];
  const noWind = unknown.filter((s) => Number.isNaN(s.wind.windMps)).length;
  const out: Reason[] = [];
  if (noWind > 0)
    out.push(
      reason(
        "shelter.noForecast",
        "warning",
        noWind,
        0,
        "hours of the stay without a wind forecast: unknown, and counted as untenable",
        first.timeMs,
      ),
    );
  if (unknown.length > noWind)
    out.push(
      reason(
        "shelter.noSwell",
        "warning",
        unknown.length - noWind,
        0,
        "hours of the stay for which the swell given does not reach: unknown, and counted as untenable",
        first.timeMs,
      ),
    );
  return out;
}

/** The first hour of the worst class met, and the likeliest hour to be untenable. */
function classReasons(steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  const bad = (["untenable", "poor"] as const).find((c) => steps.some((s) => s.sea.comfort === c));
  const first = steps.find((s) => s.sea.comfort === bad);
  if (bad !== undefined && first !== undefined)
    out.push(
      reason(
        `shelter.${bad}`,
        bad === "poor" ? "warning" : "stop",
        first.sea.heightM,
        bad === "poor" ? 0.3 : 0.6,
        `expected sea, head-on limit of the class below in m: ${PROPOSED}`,
        first.timeMs,
      ),
    );
  const risky = steps.reduce((a, b) => (b.sea.untenable > a.sea.untenable ? b : a));
  if (risky.sea.untenable >= AT_RISK && bad !== "untenable")
    out.push(
      reason(
        "shelter.mayBeUntenable",
        "warning",
        risky.sea.untenable,
        AT_RISK,
        `probability of an untenable hour: ${PROPOSED}`,
        risky.timeMs,
      ),
    );
  return out;
}

/** Probability of an untenable hour that is warned of. */
const AT_RISK = 0.05;

function swellReasons({ input, levels }: PreparedStay, steps: readonly Step[]): Reason[] {
  const { gaps, swell } = levels[levels.length - 1]!;
  const inside = swell.find((s) => s !== undefined);
  const out = (inside?.reasons ?? []).slice();
  if (input.swell === undefined && gaps.length > 0)
    out.push(
      reason(
        "shelter.swellNotGiven",
        "caution",
        gaps.length,
        0,
        "gaps to the open sea, but no swell was given: it is not counted",
      ),
    );
  const old = steps.find(
    (s) => !(s.moment.swellM <= s.swell.hm0M + 0.05) && s.sea.comfort !== "unknown",
  );
  if (old !== undefined)
    out.push(
      reason(
        "shelter.oldSea",
        "note",
        old.moment.swellM,
        null,
        `what is left of the sea before a shift of wind, on the beam: ${PROPOSED}`,
        old.timeMs,
      ),
    );
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
