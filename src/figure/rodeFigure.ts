import type { StayPlan } from "../plan/planStay.js";
import type { RodeDrawn } from "../plan/rodeDrawn.js";
import { clock, scale, ticks, type Scale } from "./axes.js";
import { area, el, figureSvg, label, px, stroke, widthOf, type FigureOptions } from "./svg.js";

/** Where metres along and above the bed stand in the picture. */
interface View {
  x: Scale;
  y: (z: number) => number;
  left: number;
  right: number;
  bed: number;
}

function viewOf(drawn: readonly RodeDrawn[], width: number): View {
  const ends = drawn.map((d) => d.points.at(-1)!);
  const farM = Math.max(...ends.map(([along]) => along)) + 6;
  const [left, right] = [24, width - 16];
  const perM = (right - left) / (farM + 2);
  const bed = 56 + (Math.max(...ends.map(([, z]) => z)) + 1.5) * perM;
  return { x: scale(-2, farM, left, right), y: (z) => bed - z * perM, left, right, bed };
}

/** Water, bed and the anchor. */
function surroundings(v: View, depthM: number): string {
  const { x, y, left, right, bed } = v;
  const top = y(depthM);
  return [
    area([[left, top], [right, top], [right, bed], [left, bed]], "water"), // prettier-ignore
    el("rect", { x: left, y: bed, width: right - left, height: 10, class: "shoal" }),
    stroke([[left, bed], [right, bed]]), // prettier-ignore
    el("path", { d: `M${px(x(0))} ${px(bed)}m-5 -6l5 6l5 -6m-5 6v-10`, class: "line" }),
  ].join("");
}

function rodeLine(d: RodeDrawn, v: View): string {
  const [along, z] = d.points.at(-1)!;
  const kind = d.what === "gust" ? "line warn" : "line good dash";
  const leaves =
    d.touchdownM === null
      ? ""
      : el("path", { d: `M${px(v.x(d.touchdownM))} ${px(v.bed)}v10`, class: kind });
  return (
    stroke(
      d.points.map(([m, h]) => [v.x(m), v.y(h)] as const),
      kind,
    ) +
    bow(v.x(along), v.y(z), v.y(d.depthM)) +
    leaves
  );
}

const along = (v: View, width: number): string =>
  ticks(0, v.x.to, Math.max(3, Math.floor(width / 110)))
    .map(
      (m) =>
        el("path", { d: `M${px(v.x(m))} ${px(v.bed + 10)}v5`, class: "rule" }) +
        label(v.x(m), v.bed + 28, `${m} m`, { "text-anchor": "middle" }),
    )
    .join("");

const TITLE = "The rode at its hardest moment";

/**
 * The rode to scale as SVG: as it lies in the mean wind and in the hardest gust, with the place where it
 * leaves the bottom.
 */
export function rodeFigure(plan: StayPlan, options: FigureOptions = {}): string {
  const width = widthOf(options);
  const drawn = plan.rodeDrawn;
  const gust = drawn.find((d) => d.what === "gust");
  if (gust === undefined) {
    const description = "The pull or the depth is not known: nothing can be drawn.";
    const body = label(12, 56, description);
    return figureSvg("rode", { width, height: 80 }, { title: TITLE, description }, body, options);
  }
  const v = viewOf(drawn, width);
  const height = v.bed + 74;
  const at = clock(gust.timeMs, plan.zoneOffsetMinutes);
  const pull = `${(gust.pullN / 1000).toFixed(1)} kN`;
  const body = [
    surroundings(v, gust.depthM),
    ...drawn.map((d) => rodeLine(d, v)),
    along(v, width),
    label(v.left, height - 24, `whole line: gust, ${pull} at ${at} · dashed: mean wind then`, {
      class: "soft",
    }),
    label(v.left, height - 8, "to scale; the mark in the bottom is where the rode leaves it", {
      class: "soft",
    }),
  ].join("");
  const description = `To scale. ${Math.round(plan.rode.lengthOutM)} m out in ${gust.depthM.toFixed(1)} m of water, gusts pulling ${pull}.`;
  return figureSvg("rode", { width, height }, { title: TITLE, description }, body, options);
}

/** A bow above its roller. */
const bow = (x: number, y: number, waterline: number): string =>
  el("path", {
    d: `M${px(x)} ${px(y)}h22M${px(x)} ${px(y)}q3 ${px((waterline - y) * 0.7)} 10 ${px(waterline - y)}h12`,
    class: "line",
  });
