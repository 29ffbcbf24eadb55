import type { StayPlan } from "../plan/planStay.js";
import { clock, scale, timeAxis, valueAxis, type Scale } from "./axes.js";
import { area, el, figureSvg, label, stroke, widthOf, type FigureOptions } from "./svg.js";

type Point = readonly [number, number];

const known = (values: readonly (number | null)[]): number[] =>
  values.filter((v): v is number => v !== null);

/** Points of a column over time; gaps stay gaps. */
export const pointsOf = (
  times: readonly number[],
  values: readonly (number | null)[],
  x: Scale,
  y: Scale,
): Point[] => times.map((t, i) => [x(t), y(values[i] ?? NaN)]);

/** Bands of darkness behind a figure over time. */
export const duskBands = (
  plan: Pick<StayPlan, "dark">,
  x: Scale,
  top: number,
  bottom: number,
): string =>
  plan.dark
    .map((d) =>
      el("rect", {
        x: x(d.fromMs),
        y: top,
        width: x(d.toMs) - x(d.fromMs),
        height: bottom - top,
        class: "dusk",
      }),
    )
    .join("");

/** Water, depth and the water under the keel as lines. */
function depthLines(plan: StayPlan, x: Scale, y: Scale, dusk: string): string {
  const { fromMs, toMs } = plan.stay;
  const m = plan.moments;
  const depth = pointsOf(m.timeMs, m.depthM, x, y);
  const water = depth.filter(([, v]) => Number.isFinite(v));
  const level = y(0);
  return [
    area([[x(fromMs), level], ...water, [x(toMs), level]], "water"),
    dusk,
    stroke([[x(fromMs), level], [x(toMs), level]]), // prettier-ignore
    stroke(depth),
    stroke(pointsOf(m.timeMs, m.underKeelLeastM, x, y), "line warn dash"),
  ].join("");
}

const describe = (plan: StayPlan): string => {
  const { value, atMs } = plan.limiting.depth;
  return value === null || atMs === null
    ? "The least water is not known."
    : `Least water under the keel at the worst ${value.toFixed(1)} m at ${clock(atMs, plan.zoneOffsetMinutes)}.`;
};

const KEY =
  "whole line: depth at the anchor · dashed: water under the keel at the worst · shaded: dark";

/**
 * Depth over the stay as SVG: depth at the anchor, water under the keel at the worst, limits, dark hours and
 * the least of it.
 *
 * Drawn from the plan alone; a quantity that is not known leaves a gap in its line.
 */
export function depthFigure(plan: StayPlan, options: FigureOptions = {}): string {
  const width = widthOf(options);
  const height = 300;
  const box = { left: 46, right: width - 14, top: 44, bottom: height - 46 };
  const m = plan.moments;
  const values = [...known(m.depthM), ...known(m.underKeelLeastM)];
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const top = Math.max(1, ...values) * 1.05;
  const y = scale(Math.min(0, ...values), top, box.bottom, box.top);
  const body = [
    depthLines(plan, x, y, duskBands(plan, x, box.top, box.bottom)),
    valueAxis(y, box, "m"),
    timeAxis(x, box, plan.zoneOffsetMinutes),
    limitLine(plan, box, y),
    worstMark(plan, x, y),
    label(box.left, height - 8, KEY, { class: "soft" }),
  ].join("");
  const words = { title: "Depth over the stay", description: describe(plan) };
  return figureSvg("depth", { width, height }, words, body, options);
}

const limitLine = (plan: StayPlan, box: { left: number; right: number }, y: Scale): string => {
  const limit = plan.limiting.depth.limit;
  if (limit === null) return "";
  return (
    stroke(
      [
        [box.left, y(limit)],
        [box.right, y(limit)],
      ],
      "line bad dots",
    ) +
    label(box.right, y(limit) - 4, "wanted under the keel", {
      "text-anchor": "end",
      class: "bad",
    })
  );
};

function worstMark(plan: StayPlan, x: Scale, y: Scale): string {
  const { value, atMs } = plan.limiting.depth;
  if (value === null || atMs === null) return "";
  const [cx, cy] = [x(atMs), y(value)];
  const left = cx > (x(plan.stay.fromMs) + x(plan.stay.toMs)) / 2;
  return (
    el("circle", { cx, cy, r: 4, class: "line warn" }) +
    label(
      cx + (left ? -8 : 8),
      cy - 10,
      `${value.toFixed(1)} m at ${clock(atMs, plan.zoneOffsetMinutes)}`,
      { "text-anchor": left ? "end" : "start" },
    )
  );
}
