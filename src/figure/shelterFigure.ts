import { RAD } from "../core/angles.js";
import type { StayPlan } from "../plan/planStay.js";
import { clock, scale, timeAxis, valueAxis } from "./axes.js";
import { duskBands, pointsOf } from "./depthFigure.js";
import { area, el, figureSvg, label, px, stroke, widthOf, type FigureOptions } from "./svg.js";

type Point = readonly [number, number];

/** Water is drawn from this far off, m. */
const LEAST_M = 20;
/** The rim of the drawing, m. */
const MOST_M = 100_000;

/** Radius at which a length of open water is drawn, by the logarithm. */
const radiusOf = (fetchM: number, most: number): number =>
  (most * Math.log(Math.min(MOST_M, Math.max(LEAST_M, fetchM)) / LEAST_M)) /
  Math.log(MOST_M / LEAST_M);

const RINGS_M = [100, 1000, 10_000];

function fanPart(plan: StayPlan, cx: number, cy: number, most: number): string {
  const { fan } = plan;
  if (fan === null)
    return label(cx, cy, "no shore known", { "text-anchor": "middle", class: "soft" });
  const at = (deg: number, r: number): Point => [
    cx + r * Math.sin(deg * RAD),
    cy - r * Math.cos(deg * RAD),
  ];
  const rim = fan.bearingsDeg.map((b, i) => at(b, radiusOf(fan.fetchM[i]!, most)));
  const ends = fan.bearingsDeg
    .map((b, i) => ({ b, end: fan.ends[i], r: radiusOf(fan.fetchM[i]!, most) }))
    .filter((ray) => ray.end !== "coast")
    .map((ray) => {
      const [x, y] = at(ray.b, ray.r);
      return el("circle", { cx: x, cy: y, r: 2, class: "ink" });
    });
  return [
    area(rim, "water"),
    stroke([...rim, rim[0]!]),
    ...RINGS_M.map((m) => el("circle", { cx, cy, r: radiusOf(m, most), class: "rule" })),
    ...RINGS_M.map((m) =>
      label(cx + 3, cy - radiusOf(m, most) - 2, m < 1000 ? `${m} m` : `${m / 1000} km`, {
        class: "soft",
      }),
    ),
    ...ends,
    ...["N", "E", "S", "W"].map((name, i) => {
      const [x, y] = at(90 * i, most + 12);
      return label(x, y + 4, name, { "text-anchor": "middle" });
    }),
    windTrack(plan, at, most),
  ].join("");
}

/** The forecast wind round the rim, a dot an hour, the stay's start hollow. */
function windTrack(plan: StayPlan, at: (deg: number, r: number) => Point, most: number): string {
  const { timeMs, windFromDeg } = plan.moments;
  return timeMs
    .map((_, i) => {
      const from = windFromDeg[i];
      if (from == null || i % 6 !== 0) return "";
      const [x, y] = at(from, most * 0.94 - 0.1 * i);
      return el("circle", {
        cx: x,
        cy: y,
        r: i === 0 ? 4 : 2.5,
        class: i === 0 ? "line warn" : "line good",
      });
    })
    .join("");
}

function hoursPart(
  plan: StayPlan,
  box: { left: number; right: number; top: number; bottom: number },
): string {
  const hours = plan.shelter?.hours;
  if (hours === undefined)
    return label(box.left, box.top + 20, "no forecast, or no shore: the sea cannot be reckoned", {
      class: "soft",
    });
  const { low, likely, high } = hours.heightM;
  const most = Math.max(0.5, ...high.map((h) => h ?? 0));
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const y = scale(0, most * 1.05, box.bottom, box.top);
  const known = (p: Point): boolean => Number.isFinite(p[1]);
  const band = [
    ...pointsOf(hours.timeMs, high, x, y),
    ...pointsOf(hours.timeMs, low, x, y).reverse(),
  ].filter(known);
  return [
    duskBands(plan, x, box.top, box.bottom),
    valueAxis(y, box, "m"),
    area(band, "veil"),
    stroke(pointsOf(hours.timeMs, likely, x, y)),
    timeAxis(x, box, plan.zoneOffsetMinutes),
    classBar(plan, x, box.bottom + 26),
  ].join("");
}

const CLASS = {
  comfortable: "good",
  tolerable: "rule",
  poor: "warn",
  untenable: "bad",
  unknown: "soft",
} as const;

/** The class of each hour as a bar whose thickness grows as it gets worse, so that it reads in grey. */
function classBar(plan: StayPlan, x: (t: number) => number, top: number): string {
  const hours = plan.shelter!.hours;
  const order = Object.keys(CLASS);
  return hours.comfort
    .slice(0, -1)
    .map((c, i) => {
      const from = x(hours.timeMs[i]!);
      const h = 2 + 3 * order.indexOf(c);
      return el("path", {
        d: `M${px(from)} ${px(top + 7)}H${px(x(hours.timeMs[i + 1]!))}`,
        class: `line ${CLASS[c]}`,
        style: `stroke-width:${h}px`,
      });
    })
    .join("");
}

function describe(plan: StayPlan): string {
  const { value, atMs, of } = plan.limiting.shelter;
  if (value === null || atMs === null) return "The sea at the berth is not known.";
  return `Highest expected sea ${value.toFixed(1)} m at ${clock(atMs, plan.zoneOffsetMinutes)}: ${of ?? ""}.`;
}

/**
 * Shelter as SVG: open water by bearing on a logarithmic scale with the forecast wind round it, and the sea at the
 * berth by the hour, low, expected and high, with its class.
 */
export function shelterFigure(plan: StayPlan, options: FigureOptions = {}): string {
  const width = widthOf(options);
  const narrow = width < 560;
  const most = narrow ? Math.min(130, width / 2 - 40) : 112;
  const [cx, cy] = [narrow ? width / 2 : most + 36, most + 62];
  const box = narrow
    ? { left: 46, right: width - 14, top: cy + most + 60, bottom: cy + most + 220 }
    : { left: 2 * most + 120, right: width - 14, top: 56, bottom: 2 * most + 56 };
  const height = Math.max(box.bottom, cy + most) + 78;
  const body = [
    fanPart(plan, cx, cy, most),
    hoursPart(plan, box),
    label(
      12,
      height - 24,
      "open water by bearing (logarithmic); dots on its rim: not ended by a shore · ring of dots: forecast wind",
      { class: "soft" },
    ),
    label(
      12,
      height - 8,
      "sea: expected line, eight cases in ten within the veil · bar: the thicker, the worse to lie in",
      { class: "soft" },
    ),
  ].join("");
  return figureSvg(
    "shelter",
    { width, height },
    { title: "Shelter", description: describe(plan) },
    body,
    options,
  );
}
