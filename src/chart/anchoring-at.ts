import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Interval, Reason } from "../core/judgement.js";
import { interval } from "../core/schema.js";
import type { Metres } from "../core/units.js";
import { areaSchema, layArea, type Area, type PlaneArea } from "./area.js";
import { textOf } from "./attributes.js";
import type { Chart, ChartFeature } from "./chart.js";
import { worstOf } from "./coverage-of.js";
import { findingsOf, mayBear, weighedBy, weighs, type Finding } from "./effects.js";
import { inForce, type InForce } from "./in-force.js";
import { anchoringPolicy, policySchema, type AnchoringPolicy, type Effect } from "./policy.js";
import { qualityIn, type QualityZone } from "./quality.js";
import { apart, boxesMeet, chartSchema, holdsAll, near, refOf, type FeatureRef } from "./query.js";
import { gapsIn, qualityReasons, SEVERITY, unlisted, unreadable } from "./untold.js";
import { errorAt, unwidened, wideningOf, type Widening } from "./widening.js";

/** Schema of the options of {@link anchoringAt}. */
export const anchoringOptionsSchema = z.strictObject({
  /** When the vessel lies there; without it, limits of season and date are taken as in force. */
  stay: z.optional(interval),
  /** What chart objects mean for anchoring; by default {@link anchoringPolicy}. */
  policy: z.optional(policySchema),
  /** Whether dangers on the bed are looked for over the charted error of position too; by default they are. */
  widen: z._default(z.boolean(), true),
});
/** Options of {@link anchoringAt}. */
export type AnchoringOptions = Given<typeof anchoringOptionsSchema>;

/** One reason of the judgement on a place. */
export interface AnchoringReason extends Reason {
  /** What it means for anchoring there. */
  effect: Effect;
  /** The feature; null where the reason is what the chart does not tell. */
  feature: FeatureRef | null;
  /** Attribute that decides; null where the class does. */
  attribute: string | null;
  /** What the deciding code means. */
  meaning: string;
  /** Distance from the area to the feature; 0 where they meet. */
  distanceM: Metres;
  /** Whether the feature takes in the whole area. */
  whole: boolean;
  /** Whether it is in force during the stay. */
  during: InForce["during"];
  /** Its limits of season and date as charted. */
  limits: string | null;
  /** What the chart says in words (INFORM). */
  inform: string | null;
  /** File the chart refers to (TXTDSC). */
  textFile: string | null;
}

/** Answer of {@link anchoringAt}. */
export interface Anchoring {
  /** What the chart says of anchoring in the area. */
  verdict: "prohibited" | "restricted" | "unwise" | "clear" | "unknown";
  /** Why, the weightiest first; every reason names the deciding code. */
  reasons: AnchoringReason[];
  /** Charted anchorages and berths that meet the area. */
  anchorages: FeatureRef[];
  /** What the verdict takes for granted. */
  assumed: string[];
}

/** Classes whose charted position rests on a survey, so that its error counts. */
const SURVEYED: ReadonlySet<string> = new Set([
  "WRECKS",
  "OBSTRN",
  "CBLSUB",
  "PIPSOL",
  "WEDKLP",
  "SNDWAV",
  "SPRING",
]);

const reasonOf = (
  chart: Chart,
  index: number,
  finding: Finding,
  at: { distanceM: number; marginM: number; whole: boolean; force: InForce },
): AnchoringReason => {
  const { attributes } = chart.features[index]!;
  return {
    code: `chart.${finding.attribute === null ? finding.code : `${finding.attribute}.${finding.code}`}`,
    severity: SEVERITY[finding.effect],
    value: finding.code,
    limit: at.marginM > 0 ? at.marginM : null,
    basis: finding.basis,
    effect: finding.effect,
    feature: refOf(chart, index),
    attribute: finding.attribute,
    meaning: finding.meaning,
    distanceM: at.distanceM,
    whole: at.whole,
    during: at.force.during,
    limits: at.force.limits,
    inform: textOf(attributes["INFORM"]),
    textFile: textOf(attributes["TXTDSC"]),
  };
};

interface Setting {
  area: PlaneArea;
  policy: AnchoringPolicy;
  stay: Interval | null;
  widening: Widening;
}

/** Reasons that one feature gives. */
function reasonsOf(
  chart: Chart,
  index: number,
  { area, policy, stay, widening }: Setting,
): AnchoringReason[] {
  const feature = chart.features[index]!;
  const marginM = policy.classes[feature.acronym]?.marginM ?? 0;
  const surveyed = SURVEYED.has(feature.acronym);
  const mostM = marginM + (surveyed ? widening.mostM : 0);
  if (!boxesMeet(chart, index, area, mostM)) return [];
  const distanceM = apart(chart, index, area, mostM);
  if (distanceM === Infinity) return [];
  const errorM = surveyed ? errorAt(chart, index, area, widening, marginM) : 0;
  if (distanceM > marginM + errorM) return [];
  const findings = findingsOf(feature, policy);
  const force = inForce(feature.attributes, stay);
  if (force.during === "no") return [];
  const at = {
    distanceM,
    marginM,
    whole: holdsAll(chart, index, area),
    force,
  };
  return findings.map((f) => reasonOf(chart, index, f, at));
}

const verdictOf = (reasons: readonly AnchoringReason[]): Anchoring["verdict"] => {
  const worst = reasons[0]?.effect ?? "none";
  return worst === "caution" || worst === "none" ? "clear" : worst;
};

/** Farthest that a policy and the error of position reach from any feature of the chart. */
function reachOf({ report }: Chart, { classes }: AnchoringPolicy, errorM: number): number {
  let reachM = 0;
  for (const acronym in report.usedByClass)
    reachM = Math.max(reachM, classes[acronym]?.marginM ?? 0);
  return reachM + errorM;
}

const isAnchorage = (f: ChartFeature): boolean => f.acronym === "ACHARE" || f.acronym === "ACHBRT";

/**
 * Whether the chart lets a vessel anchor in some water, and the code that decides.
 *
 * Every feature that carries RESTRN is tried, whatever its class; then the class itself by a policy
 * that is yours to change (cables, pipelines, spoil, fairways, traffic schemes, wrecks, foul
 * ground). Prohibited outweighs restricted, then unwise, then unknown; `clear` is said only where
 * the chart covers the whole area, charts its depths, nothing worse than a caution stands there, and
 * nothing that may bear on it was set aside because its place cannot be read. Seasons and dates are held against the stay, a day wider each way; words (INFORM, TXTDSC)
 * are passed on. It leaves out rules that no chart carries, depth, holding and shelter; rocks, piles
 * and marks are told by `hazardsIn`.
 *
 * *Valid*: areas up to 50 km. *Accuracy*: that of the chart; dangers on the bed are looked for over
 * the error of position charted in the area and where they lie besides, 500 m where a zone cannot state one.
 *
 * @throws InputError where the chart, area or options are none.
 * @source IHO S-57 edition 3.1: RESTRN, CATREA, PERSTA, DATSTA; the effects are this library's judgement ({@link anchoringPolicy})
 * @example
 * ```ts
 * import { anchoringAt, readChart } from "hawse/chart";
 * const ring = [[-30, 40], [-29.9, 40], [-29.9, 40.1], [-30, 40.1], [-30, 40]];
 * const area = (properties: object) => ({ type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } });
 * const layer = (...features: object[]) => ({ type: "FeatureCollection", features });
 * const chart = readChart({
 *   M_COVR: layer(area({ CATCOV: 1 })),
 *   DEPARE: layer(area({ DRVAL1: 5, DRVAL2: 10 })),
 *   CBLARE: layer(area({ RESTRN: "2,6,24" })),
 * }, { soundingDatum: 23 });
 * const { verdict, reasons } = anchoringAt(chart, { centre: { latDeg: 40.05, lonDeg: -29.95 }, radiusM: 60 });
 * console.log(verdict, reasons[0].code, reasons[0].meaning);
 * // restricted chart.RESTRN.2 anchoring restricted
 * ```
 */
export function anchoringAt(chart: Chart, area: Area, options: AnchoringOptions = {}): Anchoring {
  return anchoringIn(
    check(chartSchema, chart),
    check(areaSchema, area),
    check(anchoringOptionsSchema, options),
  );
}

/** {@link anchoringAt} of an input that is already checked. */
export function anchoringIn(
  chart: Chart,
  area: Area,
  { stay, policy: own, widen }: z.output<typeof anchoringOptionsSchema>,
): Anchoring {
  const policy = own ?? anchoringPolicy;
  const laid = layArea(chart.plane, area);
  const quality = qualityIn(chart, laid, null);
  const setting = {
    area: laid,
    policy,
    stay: stay ?? null,
    widening: widen ? wideningOf(chart, laid, quality) : unwidened,
  };
  const reasons = [...gapsIn(chart, laid), ...unreadable(chart, policy), ...unlisted(chart)];
  const weighed = weighedBy(policy);
  const reachM = reachOf(chart, policy, setting.widening.mostM);
  const bears = (f: ChartFeature) => mayBear(f, policy, weighed);
  for (const i of near(chart, laid, reachM, bears)) reasons.push(...reasonsOf(chart, i, setting));
  const anchorages = near(chart, laid, 0, isAnchorage)
    .filter((i) => apart(chart, i, laid, 0) === 0)
    .map((i) => refOf(chart, i));
  reasons.push(...qualityReasons(quality));
  reasons.sort((a, b) => weighs(b.effect) - weighs(a.effect) || a.distanceM - b.distanceM);
  return {
    verdict: verdictOf(reasons),
    reasons,
    anchorages,
    assumed: assumedOf(setting, quality),
  };
}

function assumedOf({ policy, stay }: Setting, quality: readonly QualityZone[]): string[] {
  const out: string[] = [];
  if (policy === anchoringPolicy) out.push("the default anchoring policy");
  if (stay === null) out.push("limits of season and date are in force");
  if (worstOf(quality.map((q) => q.positionErrorM)) === null)
    out.push(
      quality.length > 0
        ? "a charted error of position that is not stated is taken as 500 m"
        : "no error of position is charted: dangers are taken where charted",
    );
  return out;
}
