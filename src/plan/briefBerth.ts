import type { Section } from "./brief.js";
import type { StayPlan } from "./planStay.js";
import { bearingText, forceText, knotsText, metresText, type Clock } from "./words.js";

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

/** Where, on what, and whether it is allowed. */
export function placeSection(p: StayPlan): Section {
  const { latDeg, lonDeg } = p.position;
  const grip = p.holding?.ultimateN;
  const bed =
    p.bed.from === "chart"
      ? `charted ${p.bed.words}, ${Math.round(p.bed.sampleM ?? 0)} m away`
      : p.bed.words;
  return {
    title: "Where",
    lines: [
      `Anchor at ${degreesMinutes(latDeg, ["N", "S"], 2)} ${degreesMinutes(lonDeg, ["E", "W"], 3)}.`,
      p.anchoring === null
        ? "No chart: nothing is known of what forbids anchoring."
        : FORBIDS[p.anchoring.verdict]!,
      `Bottom: ${bed}.${p.holding === null ? "" : ` Holding of this anchor in it: ${["not to be relied on", "poor", "fair", "good", "very good"][p.holding.rating]!}.`}`,
      ...(grip == null
        ? []
        : [
            `It is likely to hold ${forceText(grip.likely)}; between ${forceText(grip.low)} and ${forceText(grip.high)} by the sources.`,
          ]),
    ],
  };
}

/** How much rode, and how to prove the anchor. */
export function rodeSection(p: StayPlan, clock: Clock): Section {
  const { rode } = p;
  if (!(rode.greatestHeightM > 0))
    return {
      title: "Cable",
      lines: ["Depth or tide is not known: no length can be told."],
    };
  const pull =
    rode.forPullM === null
      ? "The pull is not known: the rule of thumb stands alone."
      : `For the pull to lead along the bottom: ${metresText(rode.forPullM)}, at ${clock.time(rode.forPullAtMs!)} in gusts pulling ${forceText(rode.forPullN!)}.`;
  return {
    title: "Cable",
    lines: [
      rode.given
        ? `${metresText(rode.lengthOutM)} out${rode.toVeerM > 0 ? `; veer ${metresText(rode.toVeerM)} more.` : "; enough."}`
        : `Veer ${metresText(rode.lengthOutM)} of the ${metresText(rode.aboardM)} aboard, counted from the bow roller.`,
      `Rule of thumb, ${Math.round(rode.ruleRatio * 10) / 10} times the greatest depth with the bow's height (${metresText(rode.greatestHeightM)}): ${metresText(rode.byRuleM)}.`,
      pull,
      ...(rode.enough ? [] : ["What is aboard is shorter than these ask for."]),
      ...(rode.firstLengthM === null
        ? []
        : [
            `Let go and run out ${metresText(rode.firstLengthM)}, then pay out going slowly astern; never in a heap. Mark the anchor's place as it goes.`,
          ]),
      "Prove it: engine astern some 20 s, speed over the ground to nothing, marks abeam steady. A cable that goes tight and slack and grumbles is dragging.",
    ],
  };
}

/** Least and greatest water. */
export function depthSection(p: StayPlan, clock: Clock): Section {
  const { depth, limiting } = p;
  if (depth?.known !== true)
    return {
      title: "Depth",
      lines: ["The depth cannot be told for the whole stay."],
    };
  const under = limiting.depth;
  return {
    title: "Depth",
    lines: [
      `At the anchor ${metresText(p.moments.depthM[0] ?? 0)} at letting go; least ${metresText(depth.least.depthM)} at ${clock.time(depth.least.timeMs)}, greatest ${metresText(depth.greatest.depthM)} at ${clock.time(depth.greatest.timeMs)}.`,
      ...(under.value === null || under.atMs === null
        ? []
        : [
            `At the worst ${under.value > 0 ? `${metresText(under.value)} under the keel` : `${metresText(-under.value)} SHORT of water`} about ${clock.time(under.atMs)}: shoalest charted ground in the swing, low surge, error of tide and chart.`,
          ]),
      ...depth.low.below.map(
        (b) =>
          `Less than wanted, on the low side, ${clock.time(b.fromMs)} to ${clock.time(b.toMs)}.`,
      ),
    ],
  };
}

/** Room to swing. */
export function swingSection(p: StayPlan, clock: Clock): Section {
  const { room } = p;
  const neighbours = room.neighbours?.map((n) => {
    const heading =
      n.thenHeadingDeg === null
        ? "not settled how she lies"
        : `she heads ${bearingText(n.thenHeadingDeg)}`;
    if (n.leastGapM === null) return `${n.name}: not known.`;
    const forecast =
      n.leastForecastGapM === null
        ? ""
        : `; ${metresText(n.leastForecastGapM)} if the wind blows as forecast`;
    return `${n.name}: ${metresText(n.leastGapM)} at the worst, ${clock.time(n.atMs!)} (${heading})${forecast}.`;
  });
  return {
    title: "Room",
    lines: [
      `She takes a circle of ${metresText(room.radiusM)} about the anchor; it grows as the water falls.`,
      ...(neighbours ?? ["Nothing was said of other vessels."]),
      ...(room.shoreM === null
        ? []
        : [`Shore: ${metresText(room.shoreM)} at the worst, ${clock.time(room.shoreAtMs!)}.`]),
    ],
  };
}

/** How she lies and pulls. */
export function boatSections(p: StayPlan, clock: Clock): Section[] {
  const m = p.moments;
  const peak = m.gustPullN.reduce<number>(
    (best, v, i) => (v !== null && (best < 0 || v > m.gustPullN[best]!) ? i : best),
    -1,
  );
  if (peak < 0) return [];
  const against = m.headingDeg.findIndex((h, i) => {
    const from = m.windFromDeg[i];
    return h !== null && from != null && Math.cos(((h - from) * Math.PI) / 180) < -0.5;
  });
  return [
    {
      title: "How she lies",
      lines: [
        `Hardest pull ${forceText(m.gustPullN[peak]!)} at ${clock.time(m.timeMs[peak]!)}, gusts of ${knotsText(m.gustMps[peak]!)}.`,
        ...(against < 0
          ? []
          : [
              `From about ${clock.time(m.timeMs[against]!)} she lies to the stream with the wind astern, and may ride over her anchor; lighter boats lie to the wind.`,
            ]),
      ],
    },
  ];
}
