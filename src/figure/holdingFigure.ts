import { fromPlan } from "../plan/asPlan.js";
import type { StayPlan } from "../plan/planStay.js";
import { chanceText } from "../plan/words.js";
import { clock, valueAxis, scale, type Scale } from "./axes.js";
import { heading, legend, type Box, type Key } from "./layout.js";
import {
  across,
  band,
  clockKey,
  duskBands,
  duskKey,
  known,
  pointsOf,
  timeFrame,
  worstKey,
  worstRing,
} from "./overTime.js";
import {
  checkedOptions,
  el,
  figureSvg,
  label,
  px,
  stroke,
  widthOf,
  type FigureOptions,
} from "./svg.js";

type Point = [number, number];

/** Figures up the side of a margin: how many times the pull. */
const MARKS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50];
/** Margins past these are drawn at the edge. */
const [LEAST, MOST] = [0.1, 50];

const held = (v: number): number => Math.min(MOST, Math.max(LEAST, v));

/** Likely holding over the gust's pull, moment by moment. */
const likelyMargin = (plan: StayPlan): (number | null)[] =>
  plan.moments.holdingLikelyN.map((n, i) => {
    const pull = plan.moments.gustPullN[i];
    return n === null || pull == null || !(pull > 0) ? null : n / pull;
  });

function marginPart(plan: StayPlan, box: Box): string {
  const likely = likelyMargin(plan);
  const low = plan.moments.holdingMargin;
  const values = [1, 2, ...known(likely), ...known(low)].map(held);
  const line = scale(
    Math.log(Math.min(...values) * 0.9),
    Math.log(Math.max(...values) * 1.1),
    box.bottom,
    box.top,
  );
  const y = (v: number): number => line(Math.log(held(v)));
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const { timeMs } = plan.moments;
  const worst = plan.limiting.holding;
  const [lows, likelies] = [pointsOf(timeMs, low, x, y), pointsOf(timeMs, likely, x, y)];
  return [
    duskBands(plan, x, box),
    ...MARKS.filter((m) => y(m) <= box.bottom && y(m) >= box.top).map(
      (m) =>
        el("path", { d: `M${px(box.left)} ${px(y(m))}H${px(box.right)}`, class: "rule" }) +
        label(box.left - 6, y(m) + 4, `${m} ×`, { "text-anchor": "end" }),
    ),
    label(box.left - 34, box.top - 10, "holding ÷ hardest pull in the gusts, logarithmic", {
      class: "soft",
    }),
    band(lows, likelies, "veil"),
    timeFrame(x, box, plan.zoneOffsetMinutes),
    across(box, y(1), "line thick bad dots"),
    stroke(likelies),
    stroke(lows, "line warn dash"),
    worst.value === null || worst.atMs === null ? "" : worstRing(x(worst.atMs), y(worst.value)),
  ].join("");
}

/** Events in the order they are drawn, each with strokes of its own. */
const EVENTS = [
  ["drag", "the anchor drags", "line thick bad"],
  ["touch", "the keel touches", "line warn"],
  ["neighbour", "she meets a neighbour", "line good dots"],
  ["shore", "she meets the shore or a danger", "line thin"],
] as const;

type Doubt = NonNullable<StayPlan["doubt"]>;

/** Chances that are known at some moment. */
const told = (doubt: Doubt) => EVENTS.filter(([e]) => known(doubt[e].byMoment).length > 0);

function chancePart(plan: StayPlan, doubt: Doubt, box: Box): string {
  const chances = told(doubt);
  const most = Math.max(0.05, ...chances.flatMap(([e]) => known(doubt[e].byMoment)));
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const y: Scale = scale(0, Math.min(100, 105 * most), box.bottom, box.top);
  return [
    label(box.left - 34, box.top - 26, "How likely, moment by moment"),
    duskBands(plan, x, box),
    valueAxis(y, box, "%"),
    timeFrame(x, box, plan.zoneOffsetMinutes),
    ...chances.map(([e, , kind]) =>
      stroke(
        pointsOf(
          doubt.timeMs,
          doubt[e].byMoment.map((p) => (p === null ? null : 100 * p)),
          x,
          y,
        ) as Point[],
        kind,
      ),
    ),
  ].join("");
}

function chanceKeys(doubt: Doubt): Key[] {
  const chances = told(doubt).map(([e, name, line]): Key => {
    const { overall, atLeast } = doubt[e];
    const over =
      overall !== null
        ? chanceText(overall, doubt.count)
        : atLeast > 0
          ? `at least ${chanceText(atLeast, doubt.count)}`
          : "not known";
    return { mark: { line }, text: `${name}: ${over} over the stay` };
  });
  const unknown = EVENTS.filter(([e]) => known(doubt[e].byMoment).length === 0);
  return [
    ...chances,
    ...unknown.map(([, name]): Key => ({ text: `not known: whether ${name}` })),
    { text: `${doubt.count} cases, what is doubtful drawn anew in each` },
  ];
}

function keys(plan: StayPlan, doubt: Doubt | null): Key[] {
  const { value, atMs } = plan.limiting.holding;
  return [
    { mark: { line: "line" }, text: "likely holding" },
    { mark: { line: "line warn dash" }, text: "lowest credible holding, yawing wide" },
    { mark: { line: "line thick bad dots" }, text: "below this she pulls harder than it holds" },
    ...(value === null || atMs === null
      ? []
      : [worstKey(`least: ${value.toFixed(1)} × at ${clock(atMs, plan.zoneOffsetMinutes)}`)]),
    ...(doubt === null ? [] : chanceKeys(doubt)),
    ...duskKey(plan),
    clockKey(plan.zoneOffsetMinutes),
  ];
}

function describe(plan: StayPlan, doubt: Doubt | null): string {
  const { value, atMs } = plan.limiting.holding;
  const least =
    value === null || atMs === null
      ? "The holding or the pull is not known."
      : `At the least, ${clock(atMs, plan.zoneOffsetMinutes)}, the lowest credible holding is ${value.toFixed(1)} times the pull when she yaws wide.`;
  if (doubt === null) return least;
  const { drag, count } = doubt;
  return drag.overall === null
    ? `${least} How likely she drags is not known for the whole stay.`
    : `${least} She drags in ${chanceText(drag.overall, count)} of cases.`;
}

/**
 * Holding over the stay as SVG: likely and lowest credible holding over the hardest pull in the gusts, and, where the
 * plan was run with its doubts, how likely she drags, touches or meets something at each moment.
 *
 * Drawn from the plan alone; margins under a tenth and over fifty are drawn at the edge. What is not known leaves a gap.
 */
export function holdingFigure(plan: StayPlan, options: FigureOptions = {}): string {
  return fromPlan(plan, (p) => draw(p, checkedOptions(options)));
}

function draw(plan: StayPlan, options: FigureOptions): string {
  const width = widthOf(options);
  const doubt = plan.doubt ?? null;
  const words = { title: "Holding over the stay", description: describe(plan, doubt) };
  const head = heading(words, width);
  const edges = { left: 46, right: width - 14 };
  const top = head.bottom + 26;
  const margins: Box = { ...edges, top, bottom: top + 180 };
  const below = margins.bottom + 74;
  const chances: Box = { ...edges, top: below, bottom: below + 110 };
  const end = (doubt === null ? margins : chances).bottom;
  const foot = legend(keys(plan, doubt), end + 26, width);
  const body = [
    head.svg,
    marginPart(plan, margins),
    doubt === null ? "" : chancePart(plan, doubt, chances),
    foot.svg,
  ].join("");
  return figureSvg("holding", { width, height: foot.bottom }, words, body, options);
}
