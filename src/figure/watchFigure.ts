import * as z from "zod/mini";
import { check } from "../core/check.js";
import { instant, plain, position, type Position } from "../core/schema.js";
import type { WatchMode } from "../watch/memory.js";
import type { WatchReport } from "../watch/report.js";
import { clock, scale, valueAxis, type Scale } from "./axes.js";
import { thinned } from "./clip.js";
import { heading, legend, placerIn, textWidth, type Box, type Key } from "./layout.js";
import { anchorMark, mapMarks, mapView, spreadOf, type Place } from "./mapView.js";
import { across, clockKey, known, pointsOf, timeFrame } from "./overTime.js";
import {
  bar,
  el,
  checkedOptions,
  figureSvg,
  label,
  pathData,
  px,
  stroke,
  widthOf,
  type FigureOptions,
} from "./svg.js";

/** A watch to draw. */
export interface WatchDrawn {
  /** What the watch said, in order of time. */
  reports: readonly WatchReport[];
  /** Where her antenna was, in order of time; without it the excess alone is drawn. */
  track?: readonly (Position & { timeMs: number })[];
  /** Clock aboard, minutes ahead of UTC; default 0. */
  zoneOffsetMinutes?: number;
}

/** Of a report what is drawn. */
const reportSchema = z.looseObject({
  atMs: instant(),
  mode: z.string(),
  distanceM: z.nullable(plain()),
  greatestDistanceM: plain(),
  alarms: z.array(z.looseObject({})),
});
const drawnSchema = z.strictObject({
  reports: z.array(reportSchema),
  track: z.optional(z.array(z.object({ timeMs: instant(), ...position.shape }))),
  zoneOffsetMinutes: z.optional(plain({ min: -900, max: 900 })),
});

type Point = readonly [number, number];

/** Drawn parts of the excess over time at the most. */
const MOST_PARTS = 300;

/** How she lies, from the best to the worst, and the bar that stands for it. */
const MODES = [
  ["aweigh", "aweigh", "dash", 2],
  ["bringingUp", "being brought up", "", 3],
  ["lying", "lying", "good", 4],
  ["cannotTell", "cannot tell", "dots", 8],
  ["uneasy", "uneasy", "warn", 10],
  ["blind", "blind", "bad dots", 13],
  ["dragging", "dragging", "bad", 16],
] as const satisfies readonly (readonly [WatchMode, string, string, number])[];

const rankOf = (r: WatchReport): number => MODES.findIndex(([mode]) => mode === r.mode);

/** How far she lies beyond the greatest distance; negative inside it. */
const excessOf = (r: WatchReport): number | null =>
  r.distanceM === null ? null : r.distanceM - r.greatestDistanceM;

/** Reports few enough to draw: of each part of the watch the worst told, so that nothing bad is lost. */
function fewer(reports: readonly WatchReport[]): WatchReport[] {
  const step = Math.max(1, Math.ceil(reports.length / MOST_PARTS));
  const out: WatchReport[] = [];
  for (let i = 0; i < reports.length; i += step)
    out.push(
      reports
        .slice(i, i + step)
        .reduce((a, b) =>
          rankOf(b) > rankOf(a) ||
          (rankOf(b) === rankOf(a) && (excessOf(b) ?? -Infinity) > (excessOf(a) ?? -Infinity))
            ? b
            : a,
        ),
    );
  return out;
}

/** Bars below the hours: the thicker, the worse. */
function modeBar(reports: readonly WatchReport[], x: Scale, toMs: number, top: number): string {
  const y = top + 10;
  let out = "";
  for (let i = 0; i < reports.length;) {
    let end = i + 1;
    while (end < reports.length && reports[end]!.mode === reports[i]!.mode) end++;
    const [, name, kind, thick] = MODES[rankOf(reports[i]!)]!;
    const [from, to] = [x(reports[i]!.atMs), x(reports[end]?.atMs ?? toMs)];
    out += bar(from, Math.max(to, from + 1), y, kind, thick);
    if (textWidth(name) < to - from)
      out += label((from + to) / 2, y + 22, name, { "text-anchor": "middle", class: "soft" });
    i = end;
  }
  return out;
}

function excessPart(all: readonly WatchReport[], box: Box, zone: number): string {
  const reports = fewer(all);
  const [fromMs, toMs] = [all[0]!.atMs, all.at(-1)!.atMs];
  const times = reports.map((r) => r.atMs);
  const now = reports.map(excessOf);
  const windows = reports
    .at(-1)!
    .excess.map((_, w) => reports.map((r) => r.excess[w]?.excessM ?? null));
  const longest = windows.at(-1) ?? [];
  const values = [0, ...known(now), ...known(longest)];
  const x = scale(fromMs, toMs, box.left, box.right);
  const y = scale(
    Math.max(-60, Math.min(-5, ...values)),
    Math.max(5, ...values) * 1.1,
    box.bottom,
    box.top,
  );
  const cut = (v: number): number => Math.min(y(v), box.bottom);
  return [
    label(box.left - 34, box.top - 26, "Metres beyond the greatest distance"),
    valueAxis(y, box, "m"),
    timeFrame(x, box, zone),
    across(box, y(0), "line thick bad dots"),
    stroke(pointsOf(times, now, x, cut), "line thin"),
    stroke(pointsOf(times, longest, x, cut), "line thick warn dash"),
    alarmMarks(all, x, box),
    modeBar(reports, x, toMs, box.bottom + 28),
  ].join("");
}

/** A tall bar where an alarm first stands. */
function alarmMarks(reports: readonly WatchReport[], x: Scale, box: Box): string {
  const words = placerIn(box);
  const standing = new Set<string>();
  let out = "";
  for (const r of reports) {
    const codes: string[] = r.alarms.map((a) => a.code);
    for (const code of codes) {
      if (standing.has(code)) continue;
      const at = x(r.atMs);
      out +=
        el("path", { d: `M${px(at)} ${px(box.top)}V${px(box.bottom)}`, class: "line bad" }) +
        words.text(code, [
          { x: at + 4, y: box.top + 12 },
          { x: at - 4, y: box.top + 12, anchor: "end" },
          { x: at + 4, y: box.top + 28 },
        ]);
    }
    standing.clear();
    for (const code of codes) standing.add(code);
  }
  return out;
}

/** A track is drawn in steps of so many pixels at the least, coarser where it is very long. */
const STEPS_PX = [1.5, 3, 6];
const MOST_POINTS = 1200;

function fewerPoints(points: readonly Point[]): Point[] {
  let out: Point[] = [];
  for (const step of STEPS_PX) {
    out = thinned(points, step);
    if (out.length <= MOST_POINTS) return out;
  }
  const every = Math.ceil(out.length / MOST_POINTS);
  return out.filter((_, i) => i % every === 0 || i === out.length - 1);
}

/** Whether the worst was told of at a time; reports are in order. */
function draggingAt(reports: readonly WatchReport[], timeMs: number): boolean {
  let [low, high] = [0, reports.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (reports[middle]!.atMs <= timeMs) low = middle + 1;
    else high = middle;
  }
  const mode = reports[low - 1]?.mode;
  return mode === "dragging" || mode === "uneasy";
}

/** A track is broken where no position came for so long. */
const GAP_MS = 180_000;
const BREAK: Point = [NaN, NaN];

/** The track in two lines, calm and uneasy, each broken where the other goes on and where positions are missing. */
function linesOf(
  track: NonNullable<WatchDrawn["track"]>,
  reports: readonly WatchReport[],
  place: Place,
): [calm: Point[], uneasy: Point[]] {
  const lines: [Point[], Point[]] = [[], []];
  let before = { k: 0, timeMs: -Infinity };
  for (const { timeMs, latDeg, lonDeg } of track) {
    const k = draggingAt(reports, timeMs) ? 1 : 0;
    const at = place(lonDeg, latDeg);
    if (timeMs - before.timeMs > GAP_MS) lines[before.k]!.push(BREAK);
    else if (k !== before.k) lines[before.k]!.push(at, BREAK);
    lines[k].push(at);
    before = { k, timeMs };
  }
  return lines;
}

function trackPart(
  track: NonNullable<WatchDrawn["track"]>,
  reports: readonly WatchReport[],
  frame: Box,
): string {
  const last = reports.at(-1)!;
  const middle = last.anchor?.position ?? track[0]!;
  const reach = last.greatestDistanceM;
  const half = 1.15 * Math.max(reach, spreadOf(middle, track), 10);
  const v = mapView(middle, half, frame);
  const words = placerIn(frame);
  const [calm, uneasy] = linesOf(track, reports, v.place);
  const end = v.place(track.at(-1)!.lonDeg, track.at(-1)!.latDeg);
  const marks = mapMarks(v, words);
  return [
    el("rect", { x: frame.left, y: frame.top, width: frame.right - frame.left, height: frame.bottom - frame.top, class: "water" }), // prettier-ignore
    el("path", { d: pathData(fewerPoints(calm)), class: "line thin" }),
    el("path", { d: pathData(fewerPoints(uneasy)), class: "line thick bad" }),
    el("circle", { cx: v.cx, cy: v.cy, r: reach * v.perM, class: "line dash" }),
    last.anchor === null ? "" : anchorMark(v, words),
    el("circle", { cx: end[0], cy: end[1], r: 5, class: "line thick good" }),
    marks,
  ].join("");
}

function keys(drawn: WatchDrawn): Key[] {
  const last = drawn.reports.at(-1)!;
  const longest = last.excess.at(-1);
  const track: Key[] =
    drawn.track === undefined || drawn.track.length === 0
      ? []
      : [
          {
            mark: { line: "line thin" },
            text: "track of the antenna; distance by the half minute",
          },
          { mark: { line: "line thick bad" }, text: "track while uneasy or dragging" },
          { mark: { line: "line dash" }, text: `greatest distance, ${last.greatestDistanceM.toFixed(0)} m` }, // prettier-ignore
          {
            mark: { drawn: (x, y) => el("circle", { cx: x + 12, cy: y - 4, r: 5, class: "line thick good" }) }, // prettier-ignore
            text: "last position",
          },
        ];
  return [
    ...track,
    ...(longest === undefined
      ? []
      : [
          {
            mark: { line: "line thick warn dash" },
            text: `middle excess over ${longest.windowS / 60} minutes`,
          },
        ]),
    { mark: { line: "line thick bad dots" }, text: "the greatest distance itself" },
    { mark: { line: "line bad" }, text: "an alarm begins" },
    { text: "bar below the hours: the thicker, the worse; broken: cannot tell, or blind" },
    clockKey(drawn.zoneOffsetMinutes ?? 0),
  ];
}

function describe(drawn: WatchDrawn): string {
  const last = drawn.reports.at(-1);
  if (last === undefined) return "The watch has said nothing yet.";
  const zone = drawn.zoneOffsetMinutes ?? 0;
  const name = MODES[rankOf(last)]![1];
  const first = drawn.reports.find((r) => r.mode === "dragging");
  const excess = excessOf(last);
  const where =
    excess === null
      ? "her distance is not known"
      : `${last.distanceM!.toFixed(0)} m from the anchor, of ${last.greatestDistanceM.toFixed(0)} m allowed`;
  const drag = first === undefined ? "" : ` First said to drag at ${clock(first.atMs, zone)}.`;
  return `At ${clock(last.atMs, zone)}: ${name}; ${where}.${drag}`;
}

/**
 * A watch as SVG: the track round the anchor with the greatest distance, and how far she lay beyond it over time, with
 * alarms and how she was said to lie.
 *
 * Of a long watch each part is drawn by the worst report in it. A distance that is not known leaves a gap.
 *
 * @throws InputError for reports, a track or options that cannot be.
 */
export function watchFigure(drawn: WatchDrawn, options: FigureOptions = {}): string {
  check(drawnSchema, drawn);
  checkedOptions(options);
  const width = widthOf(options);
  const words = { title: "The watch", description: describe(drawn) };
  const head = heading(words, width);
  const { reports, track = [] } = drawn;
  if (reports.length === 0)
    return figureSvg("watch", { width, height: head.bottom + 4 }, words, head.svg, options);
  const mapped = track.length > 0;
  const wide = mapped && width >= 640;
  const size = mapped ? Math.min(wide ? width * 0.42 : width, 480) : 0;
  const left = wide ? 12 : (width - size) / 2 + 12;
  const frame: Box = { left, right: left + size - 24, top: head.bottom + 4, bottom: head.bottom + size - 20 }; // prettier-ignore
  const top = (mapped && !wide ? frame.bottom : head.bottom) + 50;
  const high = wide ? Math.max(150, size - 140) : 160;
  const box: Box = { left: wide ? frame.right + 56 : 46, right: width - 14, top, bottom: top + high }; // prettier-ignore
  const bottom = Math.max(wide ? frame.bottom : 0, box.bottom + 64);
  const foot = legend(keys(drawn), bottom, width);
  const body = [
    head.svg,
    mapped ? trackPart(track, reports, frame) : "",
    excessPart(reports, box, drawn.zoneOffsetMinutes ?? 0),
    foot.svg,
  ].join("");
  return figureSvg("watch", { width, height: foot.bottom }, words, body, options);
}
