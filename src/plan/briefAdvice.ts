import type { Section } from "./brief.js";
import type { Advice } from "./advice.js";
import { GOING } from "./adviceTypes.js";
import type { Uncertain } from "./doubtSpread.js";
import type { StayPlan } from "./planStay.js";
import type { Tipping } from "./tipping.js";
import { isGrave } from "../core/judgement.js";
import { knots } from "../core/units.js";
import {
  bearingText,
  chanceText,
  forceText,
  knotsText,
  lackText,
  metresText,
  spareText,
  type Clock,
  upTo,
} from "./words.js";

const figure = (a: Advice): number => (typeof a.value === "number" ? a.value : 0);
const ratio = (x: number | null | undefined): string => (x == null ? "?" : x.toFixed(1));
const force = (x: number | null | undefined): string => (x == null ? "?" : forceText(x));

const TELL: Readonly<Record<Advice["code"], (a: Advice) => string>> = {
  "veer.more": (a) => {
    const [from, to] = [ratio(a.buys?.from), ratio(a.buys?.to)];
    return `Veer ${metresText(figure(a))} more: the anchor is then likely to hold ${to} times the hardest pull, ${from === to ? "no more than" : from} as it is`;
  },
  "prove.astern": (a) =>
    `Prove the anchor astern, to ${forceText(upTo(figure(a), 100))} if the engine can: so much holds`,
  "kedge.vee": (a) =>
    `Lay the second anchor off the bow, ${Math.round(figure(a))}° from the first: the bower then holds ${ratio(a.buys?.to)} times its share of the hardest pull, ${ratio(a.buys?.from)} alone`,
  "snubber.fit": (a) =>
    `Fit a stretching line of ${metresText(figure(a))}: should she fall back freely in the hardest gust, the jerk is ${force(a.buys?.to)} and not ${force(a.buys?.from)}`,
  "lie.deeper": (a) =>
    `Lie in ${lackText(figure(a))} more water to have what is wanted under the keel`,
  "lie.clear": (a) =>
    `Or let go ${metresText(figure(a))} off to ${bearingText(a.towardsDeg ?? NaN)}, ${spareText(a.buys?.to ?? NaN)} clear of all: but plan that anew`,
  "lie.elsewhere": (a) =>
    a.against === null
      ? "Lie elsewhere: here it is not safe from letting go on"
      : "Lie elsewhere: before it stops being safe here the way out is shut",
  "move.by": () => "Be gone before it stops being safe",
  "move.byNightfall": () => "Be gone before nightfall: it stops being safe in the dark",
};

const AGAINST: Readonly<Record<string, string>> = {
  "way.shut": "after that the way out is shut when it would be needed",
  "kedge.creeps": "it may creep: its leg can bear more than it holds",
};

function adviceLine(a: Advice, clock: Clock): string {
  if (a.code === "lie.elsewhere") return `${TELL[a.code](a)}.`;
  const when = a.atMs === undefined ? "" : `, by ${clock.time(a.atMs)}`;
  const mind =
    a.against === null
      ? ""
      : ` (mind: ${AGAINST[a.against] ?? a.against.replace(/^.*: /, "room to ")})`;
  return `${TELL[a.code](a)}${when}${mind}.`;
}

const NAME: Readonly<Record<Tipping["code"], string>> = {
  "holding.less": "The gusts pull harder than the anchor is likely to hold",
  "holding.thin": "Holding falls to one and a half times the pull",
  "depth.aground": "She takes the ground",
  "room.neighbour": "She comes against",
  "room.shore": "She comes to the shore or a danger",
};

const KNOT = knots(1);

/** Limits worth a line: those that some credible change passes, or undoes. */
function tippingLine(t: Tipping): string | null {
  const wind = t.windRiseMps;
  const shift = t.windShiftDeg;
  // What is in hand is rounded down, what is wanting up.
  const [round, metres] = t.passed ? [Math.ceil, lackText] : [Math.floor, spareText];
  const parts = [
    ...(wind === null
      ? []
      : [
          `the wind ${Math.abs(wind) < KNOT / 2 ? "any" : knotsText(Math.abs(wind), round)} ${wind > 0 ? "stronger" : "lighter"}`,
        ]),
    ...(shift === null
      ? []
      : [`a shift of ${round(Math.abs(shift))}° ${shift > 0 ? "clockwise" : "anticlockwise"}`]),
    ...(t.leastRodeM === null
      ? []
      : [`${t.passed ? "" : "less than "}${lackText(t.leastRodeM)} of rode`]),
    ...(t.mostRodeM === null
      ? []
      : [`${t.passed ? "" : "more than "}${spareText(t.mostRodeM)} of rode`]),
    ...(t.waterFallM === null
      ? []
      : [`${metres(Math.abs(t.waterFallM))} ${t.waterFallM > 0 ? "less" : "more"} water`]),
  ];
  if (parts.length === 0) return null;
  const name = `${NAME[t.code]}${t.of === null ? "" : ` ${t.of}`}`;
  // Its hours stand in the verdict, for shifts of the wind and errors as well: others here would gainsay them.
  return t.passed
    ? `${name}; not with ${parts.join(", or ")}.`
    : `${name} with ${parts.join(", or ")}.`;
}

const DRIVES: Readonly<Record<Uncertain, string>> = {
  holding: "how well such an anchor holds in such a bed",
  windSpeed: "the strength of the wind",
  set: "how the anchor has set",
  yaw: "how far she yaws",
  gusts: "the gusts",
  windDirection: "the direction of the wind",
  surge: "the surge",
  tide: "the tide table",
  chartedDepth: "the charted depth",
  rodeOut: "the rode really out",
  ownPlace: "where the anchor really lies",
  lift: "what a lifted pull leaves of the holding",
  lieAtSlack: "how she lies at slack water",
  neighbours: "where the neighbours really lie, and to how much rode",
};

/** Why dragging reads so probable where the anchor has not been proved, and what takes it away. */
function unprovedLines({ doubt, holding, advice }: StayPlan): string[] {
  const prove = advice.find((a) => a.code === "prove.astern");
  const n = holding?.ultimateN;
  if (prove === undefined || n == null || !((doubt?.drag.atLeast ?? 0) > 0)) return [];
  return [
    `That is for an anchor not proved: of twenty laid alike one is taken to hold less than ${forceText(n.low)}, half of them ${forceText(n.likely)} or more. Once it has stood ${forceText(upTo(figure(prove), 100))} astern, what holds less is ruled out.`,
  ];
}

/** Probabilities in a line, and what they hang on most. */
function doubtLines(plan: StayPlan): string[] {
  const { doubt } = plan;
  if (doubt === null) return [];
  const told = (
    [
      ["she drags", doubt.drag],
      ["she touches", doubt.touch],
      ["she meets a neighbour", doubt.neighbour],
      ["she meets the shore or a danger", doubt.shore],
    ] as const
  ).map(([what, c]) =>
    c.overall === null
      ? `${what}: cannot be told`
      : `${what}: ${chanceText(c.overall, doubt.count)}`,
  );
  const first = doubt.verdictDrivenBy?.shares[0];
  return [
    `Out of ${doubt.count} such nights, all that is uncertain taken by chance: ${told.join("; ")}.`,
    ...(first === undefined ? [] : [`Most of that hangs on ${DRIVES[first.of]}.`]),
    ...unprovedLines(plan),
  ];
}

/** What would change the answer, from the wind as forecast. */
function tippingLines(p: StayPlan): string[] {
  // A room that the fan of winds has passed already is told as a reason: clear in the forecast wind is no news beside it.
  const passed = (t: Tipping): boolean =>
    !t.passed &&
    t.code.startsWith("room.") &&
    p.reasons.some((r) => isGrave(r.severity) && r.of === (t.of ?? undefined));
  const lines = p.tipping.filter((t) => !passed(t)).flatMap((t) => tippingLine(t) ?? []);
  return lines.length === 0
    ? []
    : ["As forecast, with likely figures; the verdict allows for worse:", ...lines];
}

/** What to do: first to be gone, where it comes to that, then what helps if she lies there all the same. */
function doLines({ advice }: StayPlan, clock: Clock): string[] {
  const told = (of: readonly Advice[]): string[] => of.map((a) => adviceLine(a, clock));
  const away = (a: Advice): boolean => GOING.has(a.code) || a.code === "lie.clear";
  const [going, staying] = [advice.filter(away), advice.filter((a) => !away(a))];
  return going.length === 0 || staying.length === 0
    ? told(advice)
    : [...told(going), "If she lies here all the same:", ...told(staying)];
}

/** What to do, what would change the answer, and how probable things are. */
export const adviceSections = (p: StayPlan, clock: Clock): Section[] => [
  { title: "Do", lines: doLines(p, clock) },
  {
    title: "Margins",
    lines: [...doubtLines(p), ...tippingLines(p)],
  },
];
