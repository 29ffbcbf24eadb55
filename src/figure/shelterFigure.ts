import { fromPlan } from "../plan/asPlan.js";
import type { StayPlan } from "../plan/planStay.js";
import { clock, scale, valueAxis, type Scale } from "./axes.js";
import { fanKeys, fanPart } from "./fanPart.js";
import { heading, legend, textWidth, type Box, type Key } from "./layout.js";
import {
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
  bar,
  checkedOptions,
  figureSvg,
  label,
  stroke,
  widthOf,
  type FigureOptions,
} from "./svg.js";

function hoursPart(plan: StayPlan, box: Box): string {
  const hours = plan.shelter?.hours;
  if (hours === undefined)
    return label(box.left - 30, box.top + 20, "The sea by the hour cannot be reckoned.");
  const { low, likely, high } = hours.heightM;
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const y = scale(0, Math.max(0.5, ...known(high)) * 1.05, box.bottom, box.top);
  const { value, atMs } = plan.limiting.shelter;
  return [
    duskBands(plan, x, box),
    valueAxis(y, box, "m"),
    band(pointsOf(hours.timeMs, low, x, y), pointsOf(hours.timeMs, high, x, y), "veil"),
    stroke(pointsOf(hours.timeMs, likely, x, y)),
    timeFrame(x, box, plan.zoneOffsetMinutes),
    value === null || atMs === null ? "" : worstRing(x(atMs), y(value)),
    classBar(plan, x, box.bottom + 30),
  ].join("");
}

/** Strokes of the classes of comfort: the thicker, the worse. */
const CLASSES = [
  ["comfortable", "good", 3],
  ["tolerable", "good", 6],
  ["poor", "warn", 10],
  ["untenable", "bad", 15],
  ["unknown", "dots", 15],
] as const;

/** The class of each hour as a bar whose thickness grows as it gets worse, so that it reads in grey. */
function classBar(plan: StayPlan, x: Scale, top: number): string {
  const { timeMs, comfort } = plan.shelter!.hours;
  const y = top + 8;
  let out = "";
  for (let i = 0; i + 1 < timeMs.length;) {
    let end = i + 1;
    while (end + 1 < timeMs.length && comfort[end] === comfort[i]) end++;
    const [name, kind, thick] = CLASSES.find((c) => c[0] === comfort[i]) ?? CLASSES[4];
    const [from, to] = [x(timeMs[i]!), x(timeMs[end]!)];
    out += bar(from, to, y, kind, thick);
    // A word may reach a little beyond its bar.
    if (textWidth(name) - 8 < to - from)
      out += label((from + to) / 2, y + 22, name, { "text-anchor": "middle", class: "soft" });
    i = end;
  }
  return out;
}

function keys(plan: StayPlan): Key[] {
  const { value, atMs } = plan.limiting.shelter;
  const sea: Key[] =
    plan.shelter === null
      ? []
      : [
          { mark: { line: "line" }, text: "significant wave height, expected" },
          { mark: { patch: "veil" }, text: "eight cases in ten" },
          ...(value === null || atMs === null
            ? []
            : [
                worstKey(
                  `highest: ${value.toFixed(1)} m at ${clock(atMs, plan.zoneOffsetMinutes)}`,
                ),
              ]),
          {
            text: "bar below the hours, the thicker the worse: comfortable, tolerable, poor, untenable; dotted: unknown",
          },
        ];
  return [...fanKeys(plan), ...sea, ...duskKey(plan), clockKey(plan.zoneOffsetMinutes)];
}

function describe(plan: StayPlan): string {
  const { value, atMs, of } = plan.limiting.shelter;
  if (plan.shelter === null)
    return "No forecast, or no shore: the sea at the berth cannot be reckoned.";
  if (value === null || atMs === null) return "The sea at the berth is not known.";
  return `Highest expected sea ${value.toFixed(1)} m at ${clock(atMs, plan.zoneOffsetMinutes)}${of === null ? "" : `, then ${of}`}.`;
}

/**
 * Shelter as SVG: open water by bearing on a logarithmic scale with the forecast wind round it, and the sea at the
 * berth by the hour, low, expected and high, with its class.
 *
 * Drawn from the plan alone; without a shore or a forecast the part that cannot be reckoned says so.
 */
export function shelterFigure(plan: StayPlan, options: FigureOptions = {}): string {
  return fromPlan(plan, (p) => draw(p, checkedOptions(options)));
}

function draw(plan: StayPlan, options: FigureOptions): string {
  const width = widthOf(options);
  const words = { title: "Shelter", description: describe(plan) };
  const head = heading(words, width);
  const narrow = width < 600;
  const rim = narrow ? Math.min(120, width / 2 - 62) : 118;
  const [cx, cy] = [narrow ? width / 2 : rim + 64, head.bottom + rim + 34];
  const fan: Box = { left: 8, right: narrow ? width - 8 : cx + rim + 58, top: head.bottom + 2, bottom: cy + rim + 34 }; // prettier-ignore
  const top = narrow ? fan.bottom + 34 : head.bottom + 30;
  const box: Box = narrow
    ? { left: 46, right: width - 14, top, bottom: top + 170 }
    : { left: fan.right + 40, right: width - 14, top, bottom: top + 2 * rim - 44 };
  const foot = legend(keys(plan), Math.max(box.bottom + 66, fan.bottom), width);
  const body = head.svg + fanPart(plan, cx, cy, rim, fan) + hoursPart(plan, box) + foot.svg;
  return figureSvg("shelter", { width, height: foot.bottom }, words, body, options);
}
