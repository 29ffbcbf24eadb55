import { isGrave } from "../core/judgement.js";
import { byWeight, judged, spansBelow, weightiest, type PlanReason } from "./criteria.js";
import { laddersOf, type Ladder } from "./ladders.js";
import type { Study } from "./study.js";
import type { Verdict } from "./types.js";
import type { WayOut } from "./wayOut.js";

/** The expected height stands in the reason for the sea, in place of the number of its class. */
function withHeight(s: Study, r: PlanReason): PlanReason {
  const hours = s.sea.shelter?.hours;
  if (!r.code.startsWith("shelter.") || hours === undefined) return r;
  const value = hours.heightM.likely[hours.timeMs.indexOf(r.atMs!)] ?? null;
  return { ...r, value, limit: null };
}

/** What the chart says of anchoring, as reasons of the plan. */
function chartReasons(s: Study): PlanReason[] {
  const { anchoring } = s.ground;
  if (anchoring === null) return [];
  return anchoring.reasons
    .filter((r) => r.effect !== "none" && r.effect !== "unknown")
    .map((r) => ({
      code: r.code,
      severity: r.severity,
      value: r.attribute === null && r.feature !== null ? r.effect : r.meaning,
      limit: r.distanceM,
      basis: r.basis,
      ...(r.feature !== null && {
        of: r.feature.objectName ?? r.feature.className,
      }),
    }));
}

function rodeReasons(s: Study): PlanReason[] {
  const { rode, lie } = s;
  const out: PlanReason[] = [];
  const basis = rode.basis.join("; ");
  if (rode.greatestHeightM > 0 && !(rode.lengthOutM > rode.greatestHeightM))
    out.push({
      code: "rode.tooShort",
      severity: "stop",
      value: rode.lengthOutM,
      limit: rode.greatestHeightM,
      basis,
    });
  else if (rode.lengthOutM < rode.byRuleM)
    out.push({
      code: "rode.belowRule",
      severity: "caution",
      value: rode.lengthOutM,
      limit: rode.byRuleM,
      basis,
    });
  const lifted = weightiest(s.scene.timeMs, [
    {
      code: "rode.lifts",
      severity: "caution",
      values: lie.angleDeg.map((a) => -a),
      limit: -0.05,
      basis,
    },
  ]);
  if (lifted !== null) out.push({ ...lifted, value: -(lifted.value as number), limit: 0 });
  return out;
}

/** Cable that may foul something on the bottom within its reach. */
function foulReasons(s: Study): PlanReason[] {
  return s.hazards
    .filter((h) => h.fouls && h.within)
    .map((h) => ({
      code: "rode.mayFoul",
      severity: "caution",
      value: h.kind,
      limit: h.fromAnchorM,
      basis: "charted within the swing; common practice, no source",
      of: h.name,
    }));
}

/** Dangers that may lie within the swing for all that is known of where they are. */
function doubtfulReasons(s: Study): PlanReason[] {
  return s.hazards
    .filter((h) => !h.within)
    .map((h) => ({
      code: "room.hazardNear",
      severity: "caution",
      value: h.distanceM,
      limit: (s.ground.hazards?.positionErrorM ?? null) === null ? null : h.errorM,
      basis: "charted position good to the zone of confidence (CATZOC) only",
      of: h.name,
    }));
}

/** Things a judgement needs and the stay does not tell: with one of them no berth is called suitable. */
export function unknownsOf(s: Study): PlanReason[] {
  const { input, scene, ground } = s;
  const some = (values: Float64Array): boolean => values.some((v) => Number.isNaN(v));
  const missing: [string, boolean][] = [
    ["tide", some(scene.tideM)],
    [
      "depth",
      Number.isNaN(s.anchorDepth.chartedM) || (s.chart !== null && ground.depths?.leastM == null),
    ],
    ["wind", some(scene.windMps)],
    ["stream", some(scene.streamMps)],
    ["chart", s.chart === null],
    ["anchoring", ground.anchoring?.reasons.some((r) => r.effect === "unknown") === true],
    ["seabed", s.grip === null],
    // A bed it may be of which there is no figure leaves the lowest holding unknown.
    ["holding", s.grip !== null && Number.isNaN(s.grip.spreadN.likely + s.grip.spreadN.low)],
    ["neighbours", input.neighbours === undefined],
    ["shelter", s.sea.shelter === null || s.sea.shelter.summary.unknownHours > 0],
  ];
  return missing
    .filter(([, is]) => is)
    .map(([what]) => ({
      code: `unknown.${what}`,
      severity: "warning",
      value: null,
      limit: null,
      basis: "what is not known is not good news",
    }));
}

/** When a stay first stops being safe. */
export interface Danger {
  /** First instant at which a warning or a stop begins; null where none does in what is known of the stay. */
  atMs: number | null;
  /** What begins then. */
  code: string | null;
  /** What it is about, e.g. a neighbour; null where that is plain. */
  of: string | null;
  /** The reason that begins then, in full; null where none does. */
  reason: PlanReason | null;
  /** Whether everything the judgement needs is known throughout; if not, `atMs` of null says nothing. */
  known: boolean;
}

/** A stay judged. */
export interface Judgement {
  verdict: Verdict;
  /** The weightiest first. */
  reasons: PlanReason[];
  /** What is not known, as codes. */
  unknown: string[];
  danger: Danger;
}

/** What shuts the way out at the hour meant to leave: to be minded, though it does not speak against lying here till then. */
const wayOutReasons = (wayOut: WayOut | null): PlanReason[] =>
  (wayOut?.reasons ?? [])
    .filter((r) => isGrave(r.severity))
    .map((r) => ({ ...r, severity: "caution" }));

/** All reasons of a stay, its verdict, and the hour from which it is not safe; the way out where it has been worked out. */
export function judge(s: Study, wayOut: WayOut | null = null): Judgement {
  const ladders = laddersOf(s);
  const found = ladders.flatMap(({ timeMs, ladder }) => {
    const r = weightiest(timeMs, ladder);
    return r === null ? [] : [withHeight(s, r)];
  });
  const unknown = unknownsOf(s);
  const all = [
    ...found,
    ...chartReasons(s),
    ...rodeReasons(s),
    ...foulReasons(s),
    ...doubtfulReasons(s),
    ...wayOutReasons(wayOut),
  ].sort(byWeight);
  const danger = firstDanger(s, ladders, all, unknown.length === 0);
  return {
    verdict: verdictOf(s, all, unknown, danger),
    reasons: [...all, ...unknown],
    unknown: unknown.map((u) => u.code),
    danger,
  };
}

/** A berth that is not safe from letting go on is unsuitable; one that stops being safe later is for care until then. */
function verdictOf(
  s: Study,
  reasons: readonly PlanReason[],
  unknown: readonly PlanReason[],
  { atMs }: Danger,
): Verdict {
  if (reasons.some((r) => r.severity === "stop")) return "unsuitable";
  if (unknown.length > 0) return "cannotTell";
  if (atMs !== null && atMs <= s.input.stay.fromMs) return "unsuitable";
  return reasons.some((r) => r.severity !== "note") ? "withCare" : "suitable";
}

function firstDanger(
  s: Study,
  ladders: readonly Ladder[],
  reasons: readonly PlanReason[],
  known: boolean,
): Danger {
  // A stop that hangs on no hour stands from letting go on.
  const standing = reasons.find((r) => r.severity === "stop" && r.fromMs === undefined);
  if (standing !== undefined)
    return {
      atMs: s.input.stay.fromMs,
      code: standing.code,
      of: standing.of ?? null,
      reason: standing,
      known,
    };
  const first: Danger = { atMs: null, code: null, of: null, reason: null, known };
  for (const { timeMs, ladder } of ladders)
    for (const c of ladder) {
      if (!isGrave(c.severity)) continue;
      const at = spansBelow(timeMs, c.values, c.limit)[0]?.fromMs;
      if (at === undefined || (first.atMs !== null && at > first.atMs)) continue;
      // Of what begins at one instant the weightiest, else the first, is told.
      if (at === first.atMs && !(c.severity === "stop" && first.reason!.severity !== "stop"))
        continue;
      const reason = withHeight(s, judged(timeMs, c)!);
      Object.assign(first, { atMs: at, code: c.code, of: c.of ?? null, reason });
    }
  return first;
}
