import { RAD } from "../core/angles.js";
import type { Interval } from "../core/judgement.js";
import type { Section } from "./brief.js";
import type { StayPlan } from "./planStay.js";
import { hardestPullOf, pullsKnown } from "./stageFigures.js";
import {
  forceText,
  knotsText,
  lackText,
  metresText,
  spansText,
  spareText,
  type Clock,
} from "./words.js";

const degreesMinutes = (deg: number, letters: readonly [string, string], width: number): string => {
  const all = Math.round(Math.abs(deg) * 60_000) / 1000;
  const whole = Math.floor(all / 60);
  return `${String(whole).padStart(width, "0")}°${(all - 60 * whole).toFixed(3).padStart(6, "0")}'${deg < 0 ? letters[1] : letters[0]}`;
};

const FORBIDS: Readonly<Record<string, string>> = {
  prohibited: "The chart FORBIDS anchoring here.",
  restricted: "The chart RESTRICTS anchoring here: find out the rule first.",
  unwise: "The chart marks something here that makes anchoring unwise.",
  clear: "The chart forbids nothing in the swing.",
  unknown: "The chart does not tell everything about the swing.",
};

const HOLDS = ["not to be relied on", "poor", "fair", "good", "very good"];

function holdingText({ holding, bed, unknown }: StayPlan): string {
  if (holding === null) return "";
  const n = holding.ultimateN;
  const rated = ` Rated ${HOLDS[holding.rating]!}`;
  if (n == null) return `${rated}, no figure to be had of what it holds.`;
  const by = holding.cautions.includes("setUnproven")
    ? "the sources"
    : "the sources and the pull it has stood";
  const holds = `likely holds ${forceText(n.likely)}, between ${forceText(n.low)} and ${forceText(n.high)} by ${by}`;
  return unknown.includes("unknown.holding")
    ? `${rated}; in ${bed.beds.join(" or ")} yours ${holds}, but it may be ${bed.possible.join(" or ")}.`
    : `${rated}; yours ${holds}.`;
}

/** Where, on what, and whether it is allowed. */
export function placeSection(p: StayPlan): Section {
  const { latDeg, lonDeg } = p.position;
  const bed =
    p.bed.from === "chart"
      ? `charted ${p.bed.words}, ${Math.round(p.bed.sampleM ?? 0)} m away`
      : p.bed.words;
  return {
    title: "Where",
    lines: [
      `Anchor at ${degreesMinutes(latDeg, ["N", "S"], 2)} ${degreesMinutes(lonDeg, ["E", "W"], 3)} (WGS 84). Bearings here are true.`,
      p.anchoring === null
        ? "No chart: nothing is known of what forbids anchoring."
        : FORBIDS[p.anchoring.verdict]!,
      `Bottom: ${bed}.${holdingText(p)}`,
    ],
  };
}

/** Whether what is aboard is shorter than the rules ask for, as far as the pull is known. */
const shortAboard = ({ forPullM, byRuleM, aboardM }: StayPlan["rode"]): boolean =>
  Math.max(byRuleM, forPullM ?? 0) > aboardM;

/** How much rode, and how to lay it. */
export function rodeSection(p: StayPlan, clock: Clock): Section {
  const { rode } = p;
  if (!(rode.greatestHeightM > 0))
    return { title: "Cable", lines: ["Depth or tide is not known: no length can be told."] };
  const pull =
    rode.forPullM === null
      ? "The pull is not known: the rule of thumb stands alone."
      : `To lead along the bottom in the gusts of ${clock.time(rode.forPullAtMs!)} (${forceText(rode.forPullN!)}): ${metresText(rode.forPullM)}.${pullsKnown(p) ? "" : " Not for all of the stay is the pull known."}`;
  return {
    title: "Cable",
    lines: [
      rode.given
        ? `${metresText(rode.lengthOutM)} out${rode.toVeerM > 0 ? `; veer ${metresText(rode.toVeerM)} more.` : pullsKnown(p) ? "; enough." : "; enough by what is known."}`
        : `Veer ${metresText(rode.lengthOutM)} of the ${metresText(rode.aboardM)} aboard, counted from the bow roller.`,
      `Rule of thumb, ${Number(rode.ruleRatio.toFixed(2))} times depth and bow height (${metresText(rode.greatestHeightM)}): ${metresText(rode.byRuleM)}. ${pull}`,
      ...(shortAboard(rode) ? ["What is aboard is shorter than these ask for."] : []),
      ...(rode.firstLengthM === null
        ? []
        : [
            `Let go, run out ${metresText(rode.firstLengthM)}, then pay out going slowly astern. Prove it: astern some 20 s, speed to nothing, marks abeam steady.`,
          ]),
    ],
  };
}

/** Least and greatest water. */
export function depthSection(p: StayPlan, clock: Clock): Section {
  const { depth, limiting } = p;
  if (depth?.known !== true)
    return { title: "Depth", lines: ["The depth cannot be told for the whole stay."] };
  const under = limiting.depth;
  return {
    title: "Depth",
    lines: [
      `${metresText(p.moments.depthM[0] ?? 0)} at letting go, least ${metresText(depth.least.depthM)} at ${clock.time(depth.least.timeMs)}, greatest ${metresText(depth.greatest.depthM)} at ${clock.time(depth.greatest.timeMs)}.`,
      ...(under.value === null || under.atMs === null
        ? []
        : [
            `At the worst ${under.value > 0 ? `${spareText(under.value)} under the keel` : `${lackText(-under.value)} SHORT of water`} about ${clock.time(under.atMs)}, all errors against you.`,
          ]),
      ...(depth.low.below.length === 0
        ? []
        : [`Less than wanted at the anchor itself: ${spansText(depth.low.below, clock)}.`]),
    ],
  };
}

/** Neighbours told by name; those farther off are counted. */
const NAMED = 3;

const gapText = (m: number): string => (m < 0.1 ? "may touch" : spareText(m));

/** A name at the head of a line. */
const headed = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

/** Room to swing. */
export function swingSection(p: StayPlan, clock: Clock): Section {
  const { room } = p;
  const all = room.neighbours ?? [];
  const neighbours = all.slice(0, NAMED).map((n) => {
    const name = headed(n.name);
    if (n.leastGapM === null) return `${name}: not known.`;
    const forecast =
      n.leastForecastGapM === null ? "" : `, ${gapText(n.leastForecastGapM)} otherwise`;
    return `${name}: ${gapText(n.leastGapM)} at ${clock.time(n.atMs!)} in a shift${forecast}.`;
  });
  const unknown = p.anchoring !== null && !pullsKnown(p) ? "; room to the shore not known" : "";
  const shore =
    room.shoreM === null ? unknown : `; shore ${spareText(room.shoreM)} clear at the worst`;
  return {
    title: "Room",
    lines: [
      `Swing ${metresText(room.radiusM)} all round the anchor${shore}.`,
      ...(room.neighbours === null ? ["Nothing was said of other vessels."] : neighbours),
      ...(all.length > NAMED ? [`${all.length - NAMED} more, farther off.`] : []),
    ],
  };
}

/** Her pull when she yaws as far as is reported, and the lowest credible holding, where that is less. */
function lowestText({ limiting, moments: m }: StayPlan, peak: number, clock: Clock): string {
  const { value, atMs } = limiting.holding;
  const i = m.timeMs.findIndex((t) => t === atMs);
  const low = m.holdingLowN[i];
  if (value === null || !(value < 1) || low == null) return "";
  const pull = value > 0 ? `, ${forceText(low / value)} yawing wide` : "";
  const when = i === peak ? "" : ` at ${clock.time(m.timeMs[i]!)}`;
  return `${pull}${when}; may hold but ${forceText(low)}`;
}

/** Hours in which the wind comes from abaft as she lies to the stream. */
function asternSpans({ timeMs, headingDeg, windFromDeg }: StayPlan["moments"]): Interval[] {
  const spans: Interval[] = [];
  let open = false;
  headingDeg.forEach((h, i) => {
    const from = windFromDeg[i];
    const astern = h !== null && from != null && Math.cos((h - from) * RAD) < -0.5;
    const at = timeMs[i]!;
    if (astern && !open) spans.push({ fromMs: at, toMs: at });
    if (astern) spans.at(-1)!.toMs = timeMs[i + 1] ?? at;
    open = astern;
  });
  return spans;
}

/** How she lies and pulls. */
export function boatSections(p: StayPlan, clock: Clock): Section[] {
  const m = p.moments;
  const peak = hardestPullOf(p);
  if (peak < 0) return [];
  const against = asternSpans(m);
  return [
    {
      title: "Lying",
      lines: [
        `Hardest pull${pullsKnown(p) ? "" : " in what is known of the stay:"} ${forceText(m.gustPullN[peak]!)} at ${clock.time(m.timeMs[peak]!)}${lowestText(p, peak, clock) || `, gusts ${knotsText(m.gustMps[peak]!)}`}.`,
        ...(against.length === 0
          ? []
          : [
              `${spansText(against, clock)} wind astern, lying to stream: may ride over the anchor.`,
            ]),
      ],
    },
  ];
}
