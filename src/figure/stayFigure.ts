import { fromPlan } from "../plan/asPlan.js";
import type { StayPlan } from "../plan/planStay.js";
import { spareText } from "../plan/words.js";
import { clock, scale, valueAxis, type Scale } from "./axes.js";
import { heading, legend, placerIn, type Box, type Key, type Spot } from "./layout.js";
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
  area,
  checkedOptions,
  el,
  figureSvg,
  px,
  stroke,
  widthOf,
  type FigureOptions,
} from "./svg.js";

/** High or low water of the stay. */
interface Turn {
  timeMs: number;
  depthM: number;
  high: boolean;
}

/** Turns of a column inside the stay, by a parabola through the three moments round each. */
function turnsOf(timeMs: readonly number[], depthM: readonly (number | null)[]): Turn[] {
  const turns: Turn[] = [];
  for (let i = 1; i + 1 < timeMs.length; i++) {
    const [a, b, c] = [depthM[i - 1], depthM[i], depthM[i + 1]];
    if (a == null || b == null || c == null) continue;
    const high = b > a && b >= c;
    if (!high && !(b < a && b <= c)) continue;
    // Moments are not evenly spaced: turns of the tide and of the light stand between the steps.
    const [before, after] = [timeMs[i]! - timeMs[i - 1]!, timeMs[i + 1]! - timeMs[i]!];
    const [rise, fall] = [(b - a) / before, (c - b) / after];
    const bend = (fall - rise) / (before + after);
    const slope = (rise * after + fall * before) / (before + after);
    turns.push({
      timeMs: timeMs[i]! - slope / (2 * bend),
      depthM: b - (slope * slope) / (4 * bend),
      high,
    });
  }
  return turns;
}

function turnMarks(plan: StayPlan, x: Scale, y: Scale, box: Box): string {
  const placer = placerIn({ ...box, top: box.top - 4 });
  return turnsOf(plan.moments.timeMs, plan.moments.depthM)
    .map(({ timeMs, depthM, high }) => {
      const [at, level] = [x(timeMs), y(depthM)];
      const text = `${high ? "HW" : "LW"} ${clock(timeMs, plan.zoneOffsetMinutes)} · ${depthM.toFixed(1)} m`;
      const above: Spot[] = [
        { x: at, y: level - 8, anchor: "middle" },
        { x: box.left + 4, y: level - 8 },
        { x: box.right - 4, y: level - 8, anchor: "end" },
      ];
      const under = above.map((s) => ({ ...s, y: level + 18 }));
      return (
        el("path", { d: `M${px(at)} ${px(level - 4)}v8`, class: "line" }) +
        placer.text(text, high ? [...above, ...under] : [...under, ...above])
      );
    })
    .join("");
}

function keys(plan: StayPlan): Key[] {
  const { value, atMs, limit } = plan.limiting.depth;
  const at = atMs === null ? "" : ` at ${clock(atMs, plan.zoneOffsetMinutes)}`;
  return [
    { mark: { line: "line" }, text: "depth at the anchor; ticks: high and low water" },
    {
      mark: { line: "line warn dash" },
      text: "under the keel at the worst: low surge, tide error, shoalest ground in reach",
    },
    ...(limit === null
      ? []
      : [{ mark: { line: "line bad dots" }, text: `wanted under the keel: ${limit} m` }]),
    ...(value === null ? [] : [worstKey(`least: ${spareText(value)}${at}`)]),
    ...duskKey(plan),
    clockKey(plan.zoneOffsetMinutes),
  ];
}

const describe = (plan: StayPlan): string => {
  const { value, atMs } = plan.limiting.depth;
  return value === null || atMs === null
    ? "The least water is not known."
    : `Least water under the keel at the worst ${spareText(value)} at ${clock(atMs, plan.zoneOffsetMinutes)}.`;
};

function plot(plan: StayPlan, x: Scale, y: Scale, box: Box): string {
  const m = plan.moments;
  const { value, atMs, limit } = plan.limiting.depth;
  const depth = pointsOf(m.timeMs, m.depthM, x, y);
  const bed: [number, number][] = m.timeMs.map((t) => [x(t), y(0)]);
  return [
    band(bed, depth, "water"),
    area([[box.left, y(0)], [box.right, y(0)], [box.right, box.bottom], [box.left, box.bottom]], "shoal"), // prettier-ignore
    duskBands(plan, x, box),
    valueAxis(y, box, "m"),
    timeFrame(x, box, plan.zoneOffsetMinutes),
    limit === null ? "" : across(box, y(limit), "line bad dots"),
    stroke(depth),
    stroke(pointsOf(m.timeMs, m.underKeelLeastM, x, y), "line warn dash"),
    turnMarks(plan, x, y, box),
    value === null || atMs === null ? "" : worstRing(x(atMs), y(value)),
  ].join("");
}

/**
 * Depth over the stay as SVG: depth at the anchor with high and low water, water under the keel at the worst,
 * the water wanted, dark hours and the least of it.
 *
 * Drawn from the plan alone; a quantity that is not known leaves a gap in its line. Times of high and low water are
 * read off the plan's moments and may stand some minutes off.
 */
export function stayFigure(plan: StayPlan, options: FigureOptions = {}): string {
  return fromPlan(plan, (p) => draw(p, checkedOptions(options)));
}

function draw(plan: StayPlan, options: FigureOptions): string {
  const width = widthOf(options);
  const words = { title: "Depth over the stay", description: describe(plan) };
  const head = heading(words, width);
  const top = head.bottom + 24;
  const box = { left: 46, right: width - 14, top, bottom: top + 210 };
  const m = plan.moments;
  const values = [...known(m.depthM), ...known(m.underKeelLeastM)];
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const y = scale(Math.min(0, ...values), Math.max(1, ...values) * 1.15, box.bottom, box.top);
  const foot = legend(keys(plan), box.bottom + 26, width);
  const body = head.svg + plot(plan, x, y, box) + foot.svg;
  return figureSvg("depth", { width, height: foot.bottom }, words, body, options);
}
