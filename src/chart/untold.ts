import type { Severity } from "../core/judgement.js";
import type { AnchoringReason } from "./anchoring-at.js";
import type { PlaneArea } from "./area.js";
import type { Chart, NotUsed } from "./chart.js";
import { CLASS_OF, type ClassUse } from "./classes.js";
import { coverageIn, skinIsWhole } from "./ground.js";
import type { AnchoringPolicy, Effect } from "./policy.js";
import type { QualityZone } from "./quality.js";

/** How grave an effect is. */
export const SEVERITY: Readonly<Record<Effect, Severity>> = {
  prohibited: "stop",
  restricted: "warning",
  unwise: "warning",
  unknown: "warning",
  caution: "caution",
  none: "note",
};

const gap = (code: string, value: string, meaning: string): AnchoringReason => ({
  code: `chart.${code}`,
  severity: SEVERITY.unknown,
  value,
  limit: null,
  basis: "what the chart does not tell is not good news",
  effect: "unknown",
  feature: null,
  attribute: null,
  meaning,
  distanceM: 0,
  whole: false,
  during: "yes",
  limits: null,
  inform: null,
  textFile: null,
});

/** What the chart leaves untold in the area. */
export function gapsIn(chart: Chart, area: PlaneArea): AnchoringReason[] {
  const covered = coverageIn(chart, area);
  if (covered !== "whole")
    return [
      gap(
        "notCovered",
        covered,
        covered === "none"
          ? "outside the coverage of the chart"
          : "the area reaches beyond the coverage of the chart",
      ),
    ];
  return skinIsWhole(chart, area)
    ? []
    : [gap("notCharted", "part", "neither depth nor land is charted in some part of the area")];
}

/** Uses of a class that bear on anchoring, on dangers, or on how far the rest can be relied on. */
const BEARING: ReadonlySet<ClassUse> = new Set(["anchoring", "hazard", "quality", "datum"]);

/** Whether a feature set aside might bear on anchoring: one of a class with no use was taken up for its RESTRN alone. */
function mayBear({ layer, reason }: NotUsed, { classes }: AnchoringPolicy): boolean {
  const uses = CLASS_OF.get(layer)?.uses ?? [];
  if (reason === "badGeometry" && uses.length === 0) return true;
  return Object.hasOwn(classes, layer) || uses.some((use) => BEARING.has(use));
}

/** What was set aside because its place cannot be read, or is not given, and might stand anywhere. */
export const unreadable = ({ report }: Chart, policy: AnchoringPolicy): AnchoringReason[] =>
  report.notUsed
    .filter((n) => n.reason === "badGeometry" || n.reason === "noGeometry")
    .filter((n) => mayBear(n, policy))
    .map(({ layer }) => gap("unreadable", layer, `a ${layer} whose place cannot be read`));

/** A gap that is no more than a reason to look. */
const lookAt = (code: string, value: string, meaning: string): AnchoringReason => ({
  ...gap(code, value, meaning),
  effect: "caution",
  severity: SEVERITY.caution,
});

/** Names that are told of many. */
const NAMED = 3;

/** What was set aside because its class is in no list here: it may say anything, anywhere on the chart. */
export function unlisted({ report }: Chart): AnchoringReason[] {
  const strange = report.notUsed.filter((n) => n.reason === "unknownClass").map((n) => n.layer);
  if (strange.length === 0) return [];
  const more = strange.length > NAMED ? ` and ${strange.length - NAMED} more` : "";
  const names = `${strange.slice(0, NAMED).join(", ")}${more}`;
  return [
    lookAt("unknownClass", names, `things of a class not known here (${names}) on the chart: look`),
  ];
}

/** What the charted quality has to say: where its error cannot be stated nothing can be widened. */
export function qualityReasons(quality: readonly QualityZone[]): AnchoringReason[] {
  const out: AnchoringReason[] = [];
  if (quality.some((q) => q.zone === "U"))
    out.push(gap("CATZOC.6", "U", "the quality of the chart is not assessed"));
  if (quality.some((q) => q.zone === "D" && q.positionErrorM === null))
    out.push(gap("CATZOC.5", "D", "positions may be off by more than 500 m"));
  if (quality.length === 0)
    out.push(lookAt("noQuality", "none", "the chart does not tell its quality here"));
  return out;
}
