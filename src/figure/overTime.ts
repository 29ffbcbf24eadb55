import type { StayPlan } from "../plan/planStay.js";
import { clock, timeAxis, type Scale } from "./axes.js";
import type { Box, Key } from "./layout.js";
import { area, el, px, stroke } from "./svg.js";

type Point = readonly [number, number];

/** The values that are known. */
export const known = (values: readonly (number | null | undefined)[]): number[] =>
  values.filter((v): v is number => v != null && Number.isFinite(v));

/** Points of a column over time; gaps stay gaps. */
export const pointsOf = (
  times: readonly number[],
  values: readonly (number | null)[],
  x: Scale,
  y: (v: number) => number,
): Point[] =>
  times.map((t, i) => {
    const v = values[i];
    return [x(t), v == null ? NaN : y(v)];
  });

/** The area between two columns over time, broken wherever one of them is not known. */
export function band(low: readonly Point[], high: readonly Point[], kind: string): string {
  const parts: string[] = [];
  let from = 0;
  for (let i = 0; i <= low.length; i++) {
    const there = i < low.length && Number.isFinite(low[i]![1]) && Number.isFinite(high[i]![1]);
    if (there) continue;
    if (i - from > 1)
      parts.push(area([...high.slice(from, i), ...low.slice(from, i).reverse()], kind));
    from = i + 1;
  }
  return parts.join("");
}

/** Dark hours of a stay as a light wash with a solid strip along the head of the box. */
export const duskBands = (plan: Pick<StayPlan, "dark">, x: Scale, box: Box): string =>
  plan.dark
    .map((d) => {
      const width = x(d.toMs) - x(d.fromMs);
      const at = { x: x(d.fromMs), width };
      return (
        el("rect", { ...at, y: box.top, height: box.bottom - box.top, class: "dusk" }) +
        el("rect", { ...at, y: box.top - 5, height: 5, class: "night" })
      );
    })
    .join("");

/** What the dark hours look like, where there are any. */
export const duskKey = (plan: Pick<StayPlan, "dark">): Key[] =>
  plan.dark.length === 0
    ? []
    : [
        {
          mark: {
            drawn: (x, y) =>
              el("rect", { x, y: y - 9, width: 24, height: 11, class: "dusk" }) +
              el("rect", { x, y: y - 9, width: 24, height: 3, class: "night" }),
          },
          text: "sunset to sunrise",
        },
      ];

/** Which clock the hours are by. */
export function clockKey(zoneOffsetMinutes: number): Key {
  const sign = zoneOffsetMinutes < 0 ? "−" : "+";
  const ahead = clock(Math.abs(zoneOffsetMinutes) * 60_000, 0);
  return { text: zoneOffsetMinutes === 0 ? "hours in UTC" : `hours aboard, UTC${sign}${ahead}` };
}

/** A straight line across a box at a limit. */
export const across = (box: Box, y: number, kind: string): string =>
  stroke([[box.left, y], [box.right, y]], kind); // prettier-ignore

/** A ring round the worst value. */
export const worstRing = (x: number, y: number): string =>
  el("circle", { cx: x, cy: y, r: 4.5, class: "line thick warn" });

/** What that ring stands for. */
export const worstKey = (text: string): Key => ({
  mark: { drawn: (x, y) => worstRing(x + 12, y - 4) },
  text,
});

/** Hours along the foot of a box, and its frame. */
export const timeFrame = (x: Scale, box: Box, zoneOffsetMinutes: number): string =>
  timeAxis(x, box, zoneOffsetMinutes) +
  el("path", { d: `M${px(box.left)} ${px(box.bottom)}H${px(box.right)}`, class: "line thin" });
