import type { Range3 } from "../core/judgement.js";
import type { Milliseconds } from "../core/units.js";
import { lesser } from "./criteria.js";
import { modelOf, type Model } from "./doubtModel.js";
import { emptyCase, runCase, runOf, type CaseMargins } from "./doubtRun.js";
import { sharesOf, type DoubtShare } from "./doubtShares.js";
import { drawsOf, type Draws } from "./doubtSpread.js";
import type { Study } from "./study.js";

/** How probable something is over the stay. */
export interface Chance {
  /** Probability that it is so at each of `timeMs`; null where something needed is not known then. */
  byMoment: (number | null)[];
  /** Probability that it happens at some moment of the stay; null where something needed is not known at any of them. */
  overall: number | null;
  /** The same over the moments of which everything is known: it cannot be less. */
  atLeast: number;
  /** The least margin of the stay, five cases in a hundred lower and five higher than the ends: holding over pull less one, or metres. Null where not known. */
  margin: Range3 | null;
  /** What the spread of that margin comes from, the greatest share first. */
  drivenBy: DoubtShare[];
}

/** Events of which the probability is told. */
export type DoubtEvent = "drag" | "touch" | "neighbour" | "shore";

/** A stay run through many times, with all that is not known to the figure drawn anew each time. */
export interface Doubt {
  /** Cases run. */
  count: number;
  /** What the draws start from: the same number gives the same draws. */
  seed: number;
  /** Moments looked at. */
  timeMs: Milliseconds[];
  /** The gusts pull harder than the anchor holds. */
  drag: Chance;
  /** The keel touches the shoalest ground within the swing. */
  touch: Chance;
  /** She meets a neighbour; null chances where nothing was told of neighbours. */
  neighbour: Chance;
  /** She meets the shore or a danger; null chances where there is no chart. */
  shore: Chance;
  /** Any of these. */
  any: {
    /** Probability that any happens; null where one of them is not known. */
    overall: number | null;
    /** It cannot be less than this. */
    atLeast: number;
  };
  /** Each neighbour that can be met at all. */
  neighbours: {
    /** The neighbour. */
    name: string;
    /** Probability of meeting her at some moment; null where not known. */
    overall: number | null;
  }[];
  /** The likeliest of these, and what the spread of its margin comes from; null where nothing happened in any case. */
  verdictDrivenBy: {
    /** The likeliest event. */
    event: DoubtEvent;
    /** What the spread of its margin comes from. */
    shares: DoubtShare[];
  } | null;
  /** What the draws rest on. */
  assumed: string[];
}

/** Vessels laid in one case at the most, before moments are left out. */
const MOST_LAID = 130;

const EVENTS: readonly DoubtEvent[] = ["drag", "touch", "neighbour", "shore"];

/** Which moments each event can be judged at. */
export function knownMoments(s: Study, m: Model): Record<DoubtEvent, boolean[]> {
  const deep = m.timeMs.map((_, i) => !Number.isNaN(m.tideM[i]! + m.chartedM));
  const lies = m.timeMs.map(
    (_, i) =>
      deep[i]! &&
      !Number.isNaN(m.windMps[i]! + m.gustMps[i]! + m.windFromDeg[i]!) &&
      !Number.isNaN(m.streamMps[i]!),
  );
  const hazards = s.ground.hazards !== null && s.ground.coverage?.covered === "whole";
  return {
    drag: lies.map((is) => is && m.grip !== null),
    touch: deep.map((is) => is && !Number.isNaN(m.leastM)),
    neighbour: lies.map((is) => is && s.neighbours !== null),
    shore: lies.map((is) => is && hazards),
  };
}

/** Counts of one event over all cases. */
interface Tally {
  at: Float64Array;
  worst: Float64Array;
  cases: number;
}

const emptyTally = (moments: number, count: number): Tally => ({
  at: new Float64Array(moments),
  worst: new Float64Array(count),
  cases: 0,
});

/** Take in one case; whether the thing happened at some known moment. Margins that are not numbers have happened. */
function take(t: Tally, c: number, known: readonly boolean[], margin: Float64Array): boolean {
  let worst = Infinity;
  let happened = false;
  for (let i = 0; i < margin.length; i++) {
    if (!known[i]!) continue;
    const v = margin[i]!;
    if (!(v > 0)) {
      t.at[i]! += 1;
      happened = true;
    }
    worst = v < worst ? v : Number.isNaN(v) ? -Infinity : worst;
  }
  t.worst[c] = worst;
  if (happened) t.cases += 1;
  return happened;
}

/** Nearest of all neighbours, moment by moment. */
function nearest(columns: readonly Float64Array[], out: Float64Array): Float64Array {
  out.fill(Infinity);
  for (const column of columns)
    for (let i = 0; i < out.length; i++) out[i] = lesser(out[i]!, column[i]!);
  return out;
}

const marginOf = (worst: Float64Array): Range3 | null => {
  const sorted = Float64Array.from(worst).sort();
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;
  const range = { low: at(0.05), likely: at(0.5), high: at(0.95) };
  return Object.values(range).every(Number.isFinite) ? range : null;
};

function chanceOf(t: Tally, known: readonly boolean[], draws: Draws): Chance {
  const any = known.some((is) => is);
  const atLeast = t.cases / draws.count;
  return {
    byMoment: known.map((is, i) => (is ? t.at[i]! / draws.count : null)),
    overall: known.every((is) => is) ? atLeast : null,
    atLeast,
    margin: any ? marginOf(t.worst) : null,
    drivenBy: any ? sharesOf(t.worst, draws) : [],
  };
}

/** All cases of a stay run through, and counted. */
function countAll(m: Model, draws: Draws, known: Record<DoubtEvent, boolean[]>) {
  const n = m.timeMs.length;
  const tallies = Object.fromEntries(EVENTS.map((e) => [e, emptyTally(n, draws.count)])) as Record<
    DoubtEvent,
    Tally
  >;
  const each = m.neighbours.map(() => emptyTally(n, draws.count));
  const margins: CaseMargins = emptyCase(m);
  const near = new Float64Array(n);
  const run = runOf(m);
  let cases = 0;
  for (let c = 0; c < draws.count; c++) {
    runCase(m, draws, c, run, margins);
    each.forEach((t, k) => take(t, c, known.neighbour, margins.neighbours[k]!));
    const happened = [
      take(tallies.drag, c, known.drag, margins.drag),
      take(tallies.touch, c, known.touch, margins.touch),
      take(tallies.neighbour, c, known.neighbour, nearest(margins.neighbours, near)),
      take(tallies.shore, c, known.shore, margins.shore),
    ];
    if (happened.includes(true)) cases += 1;
  }
  return { tallies, each, cases };
}

function assumedOf(s: Study): string[] {
  return [
    "ends of {low, likely, high} are passed one time in twenty each; errors of tide and charted depth hold 95 of 100",
    "holding, set, yaw, rode out, charted depth, places, surge and tide keep their error through the stay",
    "of the error of the forecast six tenths last through the stay; the rest comes and goes within a day (our own judgement)",
    "where neither wind nor stream settles how a vessel lies, she lies in any one direction",
    "holding from one set to the next differs by half, nineteen times in twenty",
    "gusts differ by a tenth, one sigma, from what is forecast or taken (our own judgement)",
    ...(s.input.forecast?.rows.some((r) => r.members !== undefined) === true
      ? [
          "winds of the ensemble are not drawn from: spread of speed and direction as for a single forecast",
        ]
      : []),
  ];
}

/** The stay run through with all that is uncertain drawn; null where no draws are asked for. */
export function doubtOf(s: Study): Doubt | null {
  const asked = s.input.draws;
  if (asked === undefined) return null;
  const m = modelOf(s, { mostLaid: MOST_LAID, drawn: true });
  const draws = drawsOf(asked.count, asked.seed, m.neighbours.length);
  const known = knownMoments(s, m);
  const { tallies, each, cases } = countAll(m, draws, known);
  const chances = Object.fromEntries(
    EVENTS.map((e) => [e, chanceOf(tallies[e], known[e], draws)]),
  ) as Record<DoubtEvent, Chance>;
  const atLeast = cases / draws.count;
  const likeliest = [...EVENTS].sort((a, b) => chances[b].atLeast - chances[a].atLeast)[0]!;
  return {
    ...asked,
    timeMs: m.timeMs,
    ...chances,
    any: { overall: EVENTS.every((e) => chances[e].overall !== null) ? atLeast : null, atLeast },
    neighbours: m.neighbours.map(({ name }, k) => ({
      name,
      overall: known.neighbour.every((is) => is) ? each[k]!.cases / draws.count : null,
    })),
    verdictDrivenBy:
      chances[likeliest].atLeast > 0
        ? { event: likeliest, shares: chances[likeliest].drivenBy }
        : null,
    assumed: assumedOf(s),
  };
}
