import type { Position } from "../core/schema.js";
import { RAD } from "../core/angles.js";
import type { StayInput } from "../plan/input.js";
import { fromPlan } from "../plan/asPlan.js";
import type { StayPlan } from "../plan/planStay.js";
import { spareText } from "../plan/words.js";
import { clock, scale, valueAxis } from "./axes.js";
import { drawChart, soundings, type Layers } from "./chartLayer.js";
import { beside, heading, legend, placerIn, shortened, type Box, type Key, type Placer } from "./layout.js"; // prettier-ignore
import { anchorMark, mapMarks, mapView, spreadOf, type MapView } from "./mapView.js";
import {
  across,
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
  label,
  px,
  stroke,
  widthOf,
  type FigureOptions,
} from "./svg.js";

type Neighbour = NonNullable<StayPlan["room"]["neighbours"]>[number];

/** Half the width of the water shown, metres. */
function halfOf(plan: StayPlan): number {
  const far = (plan.room.neighbours ?? [])
    .map((n) => spreadOf(plan.position, [n.anchor, ...n.hullThen]) + 15)
    // Neighbours far outside the swing are left out rather than shrink everything.
    .filter((d) => d < 4 * plan.room.radiusM);
  return Math.max(1.5 * plan.room.radiusM, ...far, 20);
}

/** The circle at the greatest and at the least depth: it grows as the water falls. */
function circles(plan: StayPlan, v: MapView): string {
  const radii = known(plan.room.radiusByMomentM);
  if (radii.length === 0) return "";
  return [Math.min(...radii), Math.max(...radii)]
    .map((r) => el("circle", { cx: v.cx, cy: v.cy, r: r * v.perM, class: "line thin dash" }))
    .join("");
}

/** Hours between the marks of the bow's path. */
const BOW_EVERY_MS = 3_600_000;

/** Where the bow lies under the forecast winds: a line through the stay, a dot an hour, some with their hour. */
function bowPath(plan: StayPlan, v: MapView, words: Placer): string {
  const { timeMs, reachM, pullTowardsDeg } = plan.moments;
  let next = -Infinity;
  let [dots, hours] = ["", ""];
  let count = 0;
  const path = timeMs.map((t, i): [number, number] => {
    const [r, towards] = [reachM[i], pullTowardsDeg[i]];
    if (r == null || towards == null) return [NaN, NaN];
    const x = v.cx + r * v.perM * Math.sin(towards * RAD);
    const y = v.cy - r * v.perM * Math.cos(towards * RAD);
    if (t >= next) {
      next = t + BOW_EVERY_MS;
      dots += el("circle", { cx: x, cy: y, r: 2.2, class: "ink" });
      if (count++ % 2 === 0)
        hours += words.text(clock(t, plan.zoneOffsetMinutes), beside(x, y, 7, x < v.cx));
    }
    return [x, y];
  });
  return stroke(path, "line thin") + dots + hours;
}

const inFrame = (x: number, y: number, f: Box): boolean =>
  x >= f.left && x <= f.right && y >= f.top && y <= f.bottom;

/** A neighbour's anchor with a line to her hull at the worst moment, and our hull then; both hulls bear her number. */
function neighbour(n: Neighbour, i: number, v: MapView, words: Placer): string {
  const [x, y] = v.place(n.anchor.lonDeg, n.anchor.latDeg);
  if (!inFrame(x, y, v.frame)) return "";
  words.block({ left: x - 7, right: x + 7, top: y - 7, bottom: y + 7 });
  const lead = (
    from: readonly [number, number],
    hull: readonly Position[],
    kind: string,
  ): string => {
    const bow = v.ring(hull.slice(0, 1))[0];
    return bow === undefined ? "" : stroke([from, bow], `line thin dots ${kind}`);
  };
  const named = (hull: readonly Position[]): string => {
    const points = v.ring(hull);
    if (points.length === 0) return "";
    const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
    const box = { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }; // prettier-ignore
    words.block(box);
    const middle = (box.top + box.bottom) / 2 + 4;
    return words.text(String(i + 1), [
      { x: box.right + 4, y: middle },
      { x: box.left - 4, y: middle, anchor: "end" },
      { x: (box.left + box.right) / 2, y: box.top - 4, anchor: "middle" },
      { x: (box.left + box.right) / 2, y: box.bottom + 13, anchor: "middle" },
    ]);
  };
  return [
    lead([x, y], n.hullThen, "warn"),
    lead([v.cx, v.cy], n.ownHullThen, "good"),
    el("path", { d: `M${px(x)} ${px(y)}m-5 -5l10 10m-10 0l10 -10`, class: "line warn" }),
    n.hullThen.length > 0 ? area(v.ring(n.hullThen), "line warn dash") : "",
    n.ownHullThen.length > 0 ? area(v.ring(n.ownHullThen), "line thick good") : "",
    words.text(String(i + 1), beside(x, y, 8)),
    named(n.hullThen),
    named(n.ownHullThen),
  ].join("");
}

function mapPart(plan: StayPlan, layers: Layers, frame: Box): string {
  const v = mapView(plan.position, halfOf(plan), frame);
  const words = placerIn(frame);
  const envelope = v.ring(plan.room.envelope);
  const marks = mapMarks(v, words);
  return [
    el("rect", { x: frame.left, y: frame.top, width: frame.right - frame.left, height: frame.bottom - frame.top, class: "water" }), // prettier-ignore
    drawChart(layers, v, words),
    area(envelope, "veil"),
    stroke([...envelope, ...envelope.slice(0, 1)]),
    circles(plan, v),
    anchorMark(v, words),
    ...(plan.room.neighbours ?? []).map((n, i) => neighbour(n, i, v, words)),
    bowPath(plan, v, words),
    soundings(layers, v, words),
    marks,
  ].join("");
}

/** Least room by the hour below or beside the chart. */
function hoursPart(plan: StayPlan, box: Box): string {
  const { timeMs, roomM } = plan.moments;
  const values = known(roomM);
  if (values.length === 0)
    return label(box.left - 30, box.top + 20, "No neighbour, shore or hazard to keep clear of is known."); // prettier-ignore
  const { atMs, value, limit } = plan.limiting.room;
  const x = scale(plan.stay.fromMs, plan.stay.toMs, box.left, box.right);
  const y = scale(Math.min(0, ...values), Math.max(10, ...values) * 1.1, box.bottom, box.top);
  return [
    label(box.left - 30, box.top - 26, "Least room by the hour, over the fan of winds"),
    duskBands(plan, x, box),
    valueAxis(y, box, "m"),
    timeFrame(x, box, plan.zoneOffsetMinutes),
    limit === null ? "" : across(box, y(limit), "line bad dots"),
    stroke(pointsOf(timeMs, roomM, x, y), "line warn dash"),
    atMs === null || value === null ? "" : worstRing(x(atMs), y(value)),
  ].join("");
}

/** At most so many neighbours are told of in words. */
const MOST_TOLD = 12;

/** Whose lie is not settled when a neighbour is nearest. */
function unsettled(n: Neighbour): string {
  const [own, hers] = [n.ownHullThen.length === 0, n.hullThen.length === 0];
  if (!own && !hers) return "";
  return own && hers
    ? ", when both may lie anywhere"
    : `, when ${own ? "we" : "she"} may lie anywhere`;
}

function neighbourKeys(plan: StayPlan, width: number): Key[] {
  const neighbours = plan.room.neighbours ?? [];
  const told = neighbours.slice(0, MOST_TOLD).map((n, i): Key => {
    const gap =
      n.leastGapM === null || n.atMs === null
        ? "room not known"
        : `${spareText(n.leastGapM)} at ${clock(n.atMs, plan.zoneOffsetMinutes)}`;
    return { text: `${i + 1}  ${shortened(n.name, width / 2)}: ${gap}${unsettled(n)}` };
  });
  const left = neighbours.length - told.length;
  return left > 0 ? [...told, { text: `and ${left} more, farther off` }] : told;
}

/** Hulls in the key, as far as any is drawn. */
function hullKeys(neighbours: readonly Neighbour[]): Key[] {
  if (neighbours.length === 0) return [];
  const own = neighbours.some((n) => n.ownHullThen.length > 0);
  return [
    ...(own
      ? [{ mark: { line: "line thick good" }, text: "our hull when a neighbour is nearest" }]
      : []),
    {
      mark: { line: "line warn dash" },
      text: "a neighbour's hull when nearest; cross: her anchor",
    },
  ];
}

function keys(plan: StayPlan, width: number): Key[] {
  const { limit } = plan.limiting.room;
  const told = neighbourKeys(plan, width);
  return [
    ...told,
    { mark: { patch: "veil" }, text: "all the water she takes under the forecast winds" },
    { mark: { line: "line thin dash" }, text: "circle at least and at greatest depth" },
    { mark: { line: "line thin" }, text: "path of her bow, a dot an hour" },
    ...hullKeys(plan.room.neighbours ?? []),
    ...(known(plan.moments.roomM).length === 0
      ? []
      : [
          ...(limit === null ? [] : [{ mark: { line: "line bad dots" }, text: `room wanted: ${limit} m` }]), // prettier-ignore
          worstKey("least room"),
          ...duskKey(plan),
        ]),
    clockKey(plan.zoneOffsetMinutes),
    { text: "not for navigation" },
  ];
}

function describe(plan: StayPlan): string {
  const { value, atMs, of } = plan.limiting.room;
  return value === null || atMs === null
    ? "The room to anything else is not known."
    : `Least room ${spareText(value)} to ${of ?? "something"} at ${clock(atMs, plan.zoneOffsetMinutes)}, over the fan of winds.`;
}

/**
 * The room to swing as SVG, north up: the circle at every tide, the water she takes over the stay, her bow hour by
 * hour, each neighbour at the worst moment, over the chart where the input has one, and the least room by the hour.
 *
 * A crowded chart is drawn coarser; nothing of it is for navigation.
 */
export function swingFigure(
  plan: StayPlan,
  input?: Pick<StayInput, "chart">,
  options: FigureOptions = {},
): string {
  return fromPlan(plan, (p) => draw(p, input?.chart?.layers ?? {}, checkedOptions(options)));
}

function draw(plan: StayPlan, layers: Layers, options: FigureOptions): string {
  const width = widthOf(options);
  const words = { title: "Room to swing", description: describe(plan) };
  const head = heading(words, width);
  const wide = width >= 900;
  const size = wide ? Math.min(600, width * 0.5) : Math.min(width, 620);
  const left = wide ? 12 : (width - size) / 2 + 12;
  const frame: Box = { left, right: left + size - 24, top: head.bottom + 4, bottom: head.bottom + size - 20 }; // prettier-ignore
  const top = wide ? frame.top + 40 : frame.bottom + 46;
  const box: Box = wide
    ? { left: frame.right + 70, right: width - 14, top, bottom: top + 220 }
    : { left: 46, right: width - 14, top, bottom: top + 120 };
  const foot = legend(keys(plan, width), Math.max(frame.bottom, box.bottom + 26), width);
  const body = [head.svg, mapPart(plan, layers, frame), hoursPart(plan, box), foot.svg].join("");
  return figureSvg("swing", { width, height: foot.bottom }, words, body, options);
}
