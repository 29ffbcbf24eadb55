import { RAD } from "../core/angles.js";
import type { StayPlan } from "../plan/planStay.js";
import { clock } from "./axes.js";
import { placerIn, type Box, type Key, type Placer } from "./layout.js";
import { area, el, label, px, stroke } from "./svg.js";

type Point = readonly [number, number];

/** Water is drawn from this far off, m. */
const LEAST_M = 20;
const RINGS_M = [100, 1000, 10_000, 100_000, 1_000_000];

/** The fan in the picture: its middle, its rim and what the rim stands for. */
interface Fan {
  cx: number;
  cy: number;
  rim: number;
  mostM: number;
}

/** Radius at which a length of open water is drawn, by the logarithm. */
const radiusOf = (f: Fan, lengthM: number): number =>
  (f.rim * Math.log(Math.min(f.mostM, Math.max(LEAST_M, lengthM)) / LEAST_M)) /
  Math.log(f.mostM / LEAST_M);

const at = (f: Fan, deg: number, r: number): Point => [
  f.cx + r * Math.sin(deg * RAD),
  f.cy - r * Math.cos(deg * RAD),
];

function rings(f: Fan, placer: Placer): string {
  return RINGS_M.filter((m) => m <= f.mostM)
    .map((m) => {
      const r = radiusOf(f, m);
      const text = m < 1000 ? `${m} m` : `${m / 1000} km`;
      const spots = [45, 135, 100, 20, 160].map((deg) => {
        const [x, y] = at(f, deg, r);
        return { x, y: y + 4, anchor: "middle" as const };
      });
      return (
        el("circle", { cx: f.cx, cy: f.cy, r, class: "rule" }) + placer.text(text, spots, "soft")
      );
    })
    .join("");
}

/** Hours between the dots of the wind. */
const WIND_EVERY_MS = 3_600_000;

/** The forecast wind outside the rim: a dot an hour where it comes from, hollow at the start, the path joined up. */
function windTrack(plan: StayPlan, f: Fan, placer: Placer): string {
  const { timeMs, windFromDeg } = plan.moments;
  const dots: { p: Point; timeMs: number }[] = [];
  let next = -Infinity;
  timeMs.forEach((t, i) => {
    const from = windFromDeg[i];
    if (from == null || t < next) return;
    next = t + WIND_EVERY_MS;
    dots.push({ p: at(f, from, f.rim + 14), timeMs: t });
  });
  for (const { p } of dots)
    placer.block({ left: p[0] - 4, right: p[0] + 4, top: p[1] - 4, bottom: p[1] + 4 });
  return dots
    .map(({ p: [x, y], timeMs: t }, i) => {
      const first = i === 0;
      const dot = first
        ? el("circle", { cx: x, cy: y, r: 4.5, class: "line thick warn" })
        : el("path", { d: `M${px(x - 2.5)} ${px(y)}h5`, class: "line thick warn" });
      if (!first && i !== dots.length - 1 && i % 3 !== 0) return dot;
      const right = x > f.cx;
      const off = right ? 8 : -8;
      const anchor = right ? ("start" as const) : ("end" as const);
      return (
        dot +
        placer.text(clock(t, plan.zoneOffsetMinutes), [
          { x: x + off, y: y + 4, anchor },
          { x: x + off / 2, y: y + (y > f.cy ? 15 : -7), anchor },
        ])
      );
    })
    .join("");
}

/** Rays that no shore ends, as bars across their tips. */
function openEnds(plan: StayPlan, f: Fan): string {
  const { bearingsDeg, fetchM, ends } = plan.fan!;
  const half = 180 / bearingsDeg.length;
  const d = bearingsDeg
    .map((b, i) => {
      if (ends[i] === "coast") return "";
      const r = radiusOf(f, fetchM[i]!);
      const [[x1, y1], [x2, y2]] = [at(f, b - half, r), at(f, b + half, r)];
      return `M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}`;
    })
    .join("");
  return d === "" ? "" : el("path", { d, class: "line thick bad" });
}

/** Open water by bearing on a logarithmic scale, and the forecast wind round it. */
export function fanPart(plan: StayPlan, cx: number, cy: number, rim: number, frame: Box): string {
  const { fan } = plan;
  const longest = fan === null ? 1000 : Math.max(...fan.fetchM);
  const f: Fan = { cx, cy, rim, mostM: Math.max(1000, 1.3 * longest) };
  const placer = placerIn(frame);
  const compass = ["N", "E", "S", "W"]
    .map((name, i) => {
      const [x, y] = at(f, 90 * i, rim - 9);
      placer.block({ left: x - 7, right: x + 7, top: y - 8, bottom: y + 8 });
      return label(x, y + 4, name, { "text-anchor": "middle", class: "halo" });
    })
    .join("");
  if (fan === null)
    return (
      el("circle", { cx, cy, r: rim, class: "rule" }) +
      compass +
      label(cx, cy + 4, "no shore known", { "text-anchor": "middle", class: "soft" }) +
      windTrack(plan, f, placer)
    );
  const tips = fan.bearingsDeg.map((b, i) => at(f, b, radiusOf(f, fan.fetchM[i]!)));
  return [
    el("circle", { cx, cy, r: rim, class: "land" }),
    area(tips, "water"),
    stroke([...tips, tips[0]!], "line thin"),
    openEnds(plan, f),
    windTrack(plan, f, placer),
    compass,
    rings(f, placer),
    el("path", { d: `M${px(cx - 4)} ${px(cy)}h8m-4 -4v8`, class: "line" }),
  ].join("");
}

/** What the fan's marks stand for. */
export const fanKeys = (plan: StayPlan): Key[] => [
  ...(plan.fan === null
    ? []
    : [{ mark: { patch: "water" }, text: "open water by bearing, rings by the logarithm" }]),
  ...(plan.fan?.ends.some((e) => e !== "coast") === true
    ? [{ mark: { line: "line thick bad" }, text: "not ended by a shore: open, or past the limit" }]
    : []),
  {
    mark: {
      drawn: (x, y) => el("circle", { cx: x + 12, cy: y - 4, r: 4.5, class: "line thick warn" }),
    },
    text: "where the forecast wind comes from, hour by hour; ring: at the start",
  },
];
