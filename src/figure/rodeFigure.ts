import { fromPlan } from "../plan/asPlan.js";
import type { StayPlan } from "../plan/planStay.js";
import type { RodeDrawn } from "../plan/rodeDrawn.js";
import { clock, scale, ticks, type Scale } from "./axes.js";
import { clockKey } from "./overTime.js";
import { heading, legend, type Key } from "./layout.js";
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

/** Where metres along and above the bed stand in the picture. */
interface View {
  x: Scale;
  y: (z: number) => number;
  left: number;
  right: number;
  bed: number;
}

function viewOf(drawn: readonly RodeDrawn[], width: number, top: number): View {
  const ends = drawn.map((d) => d.points.at(-1)!);
  const farM = 1.12 * Math.max(...ends.map(([along]) => along)) + 3;
  const [left, right] = [14, width - 14];
  const perM = (right - left) / (1.05 * farM);
  const bed = top + 22 + Math.max(...ends.map(([, z]) => z)) * perM;
  return {
    x: scale(-0.05 * farM, farM, left, right),
    y: (z) => bed - z * perM,
    left,
    right,
    bed,
  };
}

/** Water, bed and the anchor. */
function surroundings(v: View, depthM: number): string {
  const { x, y, left, right, bed } = v;
  const top = y(depthM);
  return [
    area([[left, top], [right, top], [right, bed], [left, bed]], "water"), // prettier-ignore
    el("rect", { x: left, y: bed, width: right - left, height: 14, class: "shoal" }),
    stroke([[left, bed], [right, bed]], "line thin"), // prettier-ignore
    label(left + 4, top - 4, `surface, ${depthM.toFixed(1)} m above the bed`, { class: "soft" }),
    el("path", {
      d: `M${px(x(0))} ${px(bed)}l-10 0m2 -6q0 9 9 9`,
      class: "line thick",
    }),
  ].join("");
}

function rodeLine(d: RodeDrawn, v: View): string {
  const gust = d.what === "gust";
  const kind = gust ? "line thick warn" : "line good dash";
  const path = stroke(
    d.points.map(([m, h]) => [v.x(m), v.y(h)] as const),
    kind,
  );
  const leaves = d.touchdownM;
  if (leaves === null) return path;
  const at = v.x(leaves);
  const mark = gust
    ? `M${px(at)} ${px(v.bed + 2)}l-5 10h10z`
    : `M${px(at)} ${px(v.bed + 2)}v10m-4 0h8`;
  return path + el("path", { d: mark, class: gust ? "line warn" : "line good" });
}

const along = (v: View, width: number): string =>
  ticks(0, v.x.to, Math.max(3, Math.floor(width / 90)))
    .map(
      (m) =>
        el("path", { d: `M${px(v.x(m))} ${px(v.bed + 14)}v5`, class: "rule" }) +
        label(v.x(m), v.bed + 31, `${m} m`, {
          "text-anchor": v.x(m) > v.right - 20 ? "end" : "middle",
        }),
    )
    .join("");

/** The fore part of a hull from her bow roller aft, as far as the picture goes. */
function bow([alongM, z]: readonly [number, number], depthM: number, v: View): string {
  const [x, y, waterline] = [v.x(alongM), v.y(z), v.y(depthM)];
  const high = waterline - y;
  const edge = v.right;
  return el("path", {
    d:
      `M${px(edge)} ${px(y + high * 0.15)}L${px(x)} ${px(y)}q${px(high * 0.25)} ${px(high * 0.8)} ${px(high * 0.9)} ${px(high * 1.15)}` +
      `L${px(edge)} ${px(waterline + high * 0.3)}`,
    class: "line paper",
    "fill-opacity": ".85",
  });
}

const TITLE = "The rode at its hardest moment";

function keysOf(plan: StayPlan, gust: RodeDrawn): Key[] {
  const mean = plan.rodeDrawn.find((d) => d.what === "mean");
  const kN = (n: number): string => `${(n / 1000).toFixed(1)} kN`;
  const leaves = (d: RodeDrawn): string => {
    const at = d.touchdownM;
    return at === null
      ? "clear of the bottom throughout"
      : `leaves the bottom ${at.toFixed(0)} m from the anchor`;
  };
  return [
    {
      mark: { line: "line thick warn" },
      text: `in the gust, ${kN(gust.pullN)}: ${leaves(gust)} (triangle)`,
    },
    ...(mean === undefined
      ? []
      : [
          {
            mark: { line: "line good dash" },
            text: `in the mean wind then, ${kN(mean.pullN)}: ${leaves(mean)} (bar)`,
          },
        ]),
    { text: "metres from the anchor, heights and lengths to one scale" },
    clockKey(plan.zoneOffsetMinutes),
  ];
}

/**
 * The rode to scale as SVG: as it lies in the mean wind and in the hardest gust, with the places where it
 * leaves the bottom.
 *
 * Drawn from the plan alone; where the pull or the depth is not known the figure says so in place of a drawing.
 */
export function rodeFigure(plan: StayPlan, options: FigureOptions = {}): string {
  return fromPlan(plan, (p) => draw(p, checkedOptions(options)));
}

function draw(plan: StayPlan, options: FigureOptions): string {
  const width = widthOf(options);
  const gust = plan.rodeDrawn.find((d) => d.what === "gust");
  if (gust === undefined) {
    const words = {
      title: TITLE,
      description: "The pull or the depth is not known: nothing can be drawn.",
    };
    const { svg, bottom } = heading(words, width);
    return figureSvg("rode", { width, height: bottom + 4 }, words, svg, options);
  }
  const words = {
    title: TITLE,
    description: `${Math.round(plan.rode.lengthOutM)} m out in ${gust.depthM.toFixed(1)} m of water at ${clock(gust.timeMs, plan.zoneOffsetMinutes)}, gusts pulling ${(gust.pullN / 1000).toFixed(1)} kN. To scale.`,
  };
  const head = heading(words, width);
  const v = viewOf(plan.rodeDrawn, width, head.bottom);
  const foot = legend(keysOf(plan, gust), v.bed + 40, width);
  const body = [
    head.svg,
    surroundings(v, gust.depthM),
    bow(gust.points.at(-1)!, gust.depthM, v),
    ...plan.rodeDrawn.map((d) => rodeLine(d, v)),
    along(v, width),
    foot.svg,
  ].join("");
  return figureSvg("rode", { width, height: foot.bottom }, words, body, options);
}
