import type { Section } from "./brief.js";
import { checklist, stages, type StageId } from "./checklist.js";
import { goneByText } from "./goneBy.js";
import type { StayPlan } from "./planStay.js";
import {
  callText,
  lightsSection,
  looksSection,
  marksLines,
  rotaSection,
  weatherSection,
} from "./briefWatch.js";
import { knotsText, metresText, type Clock } from "./words.js";
import { hardestGustOf } from "./stageFigures.js";

/** Steps of a stage, numbered where they are done in turn. */
function stepsSection(p: StayPlan, id: StageId, title: string, only?: readonly string[]): Section {
  const steps = checklist(id, p).filter((s) => only?.includes(s.id) ?? true);
  const inTurn = stages.find((s) => s.id === id)!.when === "inTurn" && id !== "signals";
  return { title, lines: steps.map((s, i) => (inTurn ? `${i + 1}  ${s.text}` : s.text)) };
}

const JOBS = [
  "Helm: steers, has the engine, gives the order to let go, and looks at the foredeck before every touch of the throttle.",
  "Foredeck: anchor and cable, points where the cable leads, sings out each mark of cable as it goes. Gloves and shoes on; never in line with the cable.",
  "Marks and depth: calls the depth, picks marks abeam, notes the place as the anchor goes. With two aboard the helm does this as well.",
];

function when(p: StayPlan, clock: Clock): string {
  const { fromMs, toMs } = p.stay;
  const gone = goneByText(p, clock);
  const down = `Anchor down about ${clock.time(fromMs)}`;
  return gone === null
    ? `${down}, away about ${clock.time(toMs)}.`
    : `${down}. ${gone} The stay was meant until ${clock.time(toMs)}.`;
}

/** For the crew: who does what, the signals, and the work in order. */
export const crewSections = (p: StayPlan, clock: Clock): Section[] => [
  { title: "Jobs", lines: [when(p, clock), ...JOBS] },
  stepsSection(p, "signals", "Signs"),
  stepsSection(p, "preparing", "Ready", ["anchorReady", "cableClear", "cableMarked", "shapeReady"]),
  stepsSection(p, "laying", "Laying"),
  stepsSection(p, "setting", "Proving", [
    "takeMarks",
    "asternSlow",
    "asternHeld",
    "holds",
    "drags",
  ]),
  rotaSection(p, clock),
  {
    title: "Call",
    lines: [callText(p), "And call when in doubt: nobody was ever blamed for that."],
  },
  stepsSection(p, "weighing", "Weighing"),
  stepsSection(p, "washing", "Washing"),
];

/** When the berth stops being safe, as a sentence for the watch. */
function dangerLine(p: StayPlan, clock: Clock): string[] {
  const gone = goneByText(p, clock);
  if (gone !== null) return [`${gone} Call the skipper in good time before.`];
  return p.danger.known
    ? []
    : ["Not everything is known of this berth: look more often than is written here."];
}

function callLines(p: StayPlan, clock: Clock): string[] {
  const i = hardestGustOf(p);
  const gust = p.moments.gustMps[i];
  const at = p.moments.timeMs[i];
  return [
    ...dangerLine(p, clock),
    callText(p),
    ...(gust == null || at === undefined
      ? ["Call if the wind gets up: there is no forecast to go by."]
      : [
          `Call if gusts go over ${knotsText(gust)} (the hardest forecast, ${clock.time(at)}), or the wind blows 5 kn harder than written below for the hour, or comes from elsewhere.`,
        ]),
    "Call if a neighbour comes near, a vessel comes in, the cable grumbles, it closes in thick, or you are in doubt.",
  ];
}

const veerText = ({ rode }: StayPlan): string =>
  !(rode.given || rode.greatestHeightM > 0)
    ? `${metresText(rode.aboardM)} is aboard in all; look astern first`
    : rode.aboardM > rode.lengthOutM
      ? `up to ${metresText(rode.aboardM - rode.lengthOutM)} more is aboard; look astern first`
      : "there is no more aboard";

/** For the watch-keeper: limits, marks, hours, when to call, and what to do until the skipper is there. */
export const keeperSections = (p: StayPlan, clock: Clock): Section[] => [
  { title: "Call", lines: callLines(p, clock) },
  { title: "Marks", lines: marksLines(p, 2) },
  looksSection(p, clock),
  weatherSection(p, clock),
  lightsSection(p, clock),
  rotaSection(p, clock),
  {
    title: "If she",
    lines: [
      `drags: call, start the engine, ease out cable (${veerText(p)}), steer up to it; do not weigh alone.`,
      "swings by more than her marks allow: take new marks, watch them ten minutes, and call if they move.",
      "lies to new cable: new limits, new marks; the old ones tell nothing.",
    ],
  },
];
