import type { Position } from "../core/schema.js";
import { planeAt, toPlane, type Plane } from "../geo/plane.js";
import type { StayInput } from "../plan/input.js";
import type { StayPlan } from "../plan/planStay.js";
import { clock, roundStep } from "./axes.js";
import { drawChart } from "./chartLayer.js";
import type { Frame } from "./clip.js";
import { area, el, figureSvg, label, px, stroke, widthOf, type FigureOptions } from "./svg.js";

type Point = readonly [number, number];
/** Where a position stands in the picture. */
export type Place = (lonDeg: number, latDeg: number) => Point;

function placer(plane: Plane, perM: number, cx: number, cy: number): Place {
  const at = new Float64Array(2);
  return (lonDeg, latDeg) => {
    toPlane(plane, latDeg, lonDeg, at, 0);
    return [cx + at[0]! * perM, cy - at[1]! * perM];
  };
}

/** Half the width of the water shown, metres. */
function viewOf(plan: StayPlan): number {
  const plane = planeAt(plan.position);
  const at = new Float64Array(2);
  const far = (plan.room.neighbours ?? []).flatMap((n) =>
    [n.anchor, ...n.hullThen].map((p) => {
      toPlane(plane, p.latDeg, p.lonDeg, at, 0);
      return Math.max(Math.abs(at[0]!), Math.abs(at[1]!)) + 15;
    }),
  );
  // Neighbours far outside the swing are left out rather than shrink everything.
  const near = far.filter((d) => d < 4 * plan.room.radiusM);
  return Math.max(1.6 * plan.room.radiusM, ...near);
}

/** A picture of the water round the anchor, north up. */
interface View {
  frame: Frame;
  cx: number;
  cy: number;
  perM: number;
  halfM: number;
  place: Place;
  ring: (positions: readonly Position[]) => Point[];
}

function pictureOf(plan: StayPlan, size: number): View {
  const frame: Frame = { left: 12, right: size - 12, top: 40, bottom: size + 16 };
  const [cx, cy] = [(frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2];
  const halfM = viewOf(plan);
  const perM = (frame.right - frame.left) / (2 * halfM);
  const place = placer(planeAt(plan.position), perM, cx, cy);
  const ring = (positions: readonly Position[]): Point[] =>
    positions.map((p) => place(p.lonDeg, p.latDeg));
  return { frame, cx, cy, perM, halfM, place, ring };
}

/** The water she takes, the circles, the anchor. */
function ownRoom(plan: StayPlan, v: View): string {
  const envelope = v.ring(plan.room.envelope);
  return [
    area(envelope, "veil"),
    stroke([...envelope, ...envelope.slice(0, 1)]),
    circles(plan, v.cx, v.cy, v.perM),
    el("path", { d: `M${px(v.cx)} ${px(v.cy)}m-6 0h12m-6 -6v12`, class: "line" }),
    label(v.cx + 8, v.cy - 8, "anchor"),
  ].join("");
}

const KEY = [
  "veil: the water she takes under the forecast winds · dashed: circle at least and greatest depth",
  "hulls are drawn at the worst moment for each neighbour; not for navigation",
];

function describe(plan: StayPlan): string {
  const { value, atMs, of } = plan.limiting.room;
  return value === null || atMs === null
    ? "The room to anything else is not known."
    : `Least room ${value.toFixed(0)} m to ${of ?? "something"} at ${clock(atMs, plan.zoneOffsetMinutes)}.`;
}

/**
 * The room to swing as SVG, north up: the circle at every tide, the water she takes over the stay, each neighbour at
 * the worst moment, over the chart where the input has one.
 */
export function swingFigure(
  plan: StayPlan,
  input?: Pick<StayInput, "chart">,
  options: FigureOptions = {},
): string {
  const width = widthOf(options);
  const size = Math.min(width, 640);
  const height = size + 58;
  const v = pictureOf(plan, size);
  const { left, right, top, bottom } = v.frame;
  const body = [
    el("rect", { x: left, y: top, width: right - left, height: bottom - top, class: "water" }),
    drawChart(input?.chart?.layers ?? {}, v.place, v.frame),
    ownRoom(plan, v),
    ...(plan.room.neighbours ?? []).map((n) => neighbour(plan, n, v)),
    scaleBar(v.frame, v.perM, v.halfM),
    ...KEY.map((line, i) => label(left, height - 22 + 16 * i, line, { class: "soft" })),
  ].join("");
  const words = { title: "Room to swing", description: describe(plan) };
  return figureSvg("swing", { width, height }, words, body, options);
}

/** The circle at the greatest and at the least depth: it grows as the water falls. */
function circles(plan: StayPlan, cx: number, cy: number, perM: number): string {
  const radii = plan.room.radiusByMomentM.filter((r): r is number => r !== null);
  if (radii.length === 0) return "";
  return [Math.min(...radii), Math.max(...radii)]
    .map((r) => el("circle", { cx, cy, r: r * perM, class: "line dash" }))
    .join("");
}

function neighbour(
  plan: StayPlan,
  n: NonNullable<StayPlan["room"]["neighbours"]>[number],
  { place, ring, frame }: View,
): string {
  const [x, y] = place(n.anchor.lonDeg, n.anchor.latDeg);
  if (x < frame.left || x > frame.right || y < frame.top || y > frame.bottom) return "";
  const gap =
    n.leastGapM === null
      ? "room not known"
      : `${n.leastGapM.toFixed(0)} m at ${clock(n.atMs ?? 0, plan.zoneOffsetMinutes)}`;
  const unsettled = n.hullThen.length === 0 ? ", may lie anywhere" : "";
  const left = x > (frame.left + frame.right) / 2;
  const at = { "text-anchor": left ? "end" : "start" };
  return [
    el("path", {
      d: `M${px(x)} ${px(y)}m-5 -5l10 10m-10 0l10 -10`,
      class: "line warn",
    }),
    n.hullThen.length > 0 ? stroke(ring(n.hullThen), "line warn") : "",
    n.ownHullThen.length > 0 ? stroke(ring(n.ownHullThen), "line good") : "",
    label(x + (left ? -9 : 9), y + 15, n.name, at),
    label(x + (left ? -9 : 9), y + 30, `${gap}${unsettled}`, {
      ...at,
      class: "soft",
    }),
  ].join("");
}

function scaleBar(frame: Frame, perM: number, halfM: number): string {
  const m = roundStep(halfM, 3);
  const [x, y] = [frame.left + 10, frame.bottom - 12];
  return (
    el("path", {
      d: `M${px(x)} ${px(y - 5)}v5h${px(m * perM)}v-5`,
      class: "line",
    }) +
    label(x + m * perM + 6, y, `${m} m`) +
    el("path", {
      d: `M${px(frame.right - 16)} ${px(frame.top + 34)}v-24m-5 8l5 -8l5 8`,
      class: "line",
    }) +
    label(frame.right - 16, frame.top + 48, "N", { "text-anchor": "middle" })
  );
}
