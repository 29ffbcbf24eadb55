import { hours } from "../core/units.js";
import type { Box } from "./layout.js";
import { el, label, px } from "./svg.js";

/** Straight scale from values to pixels. */
export interface Scale {
  (value: number): number;
  readonly from: number;
  readonly to: number;
}

/** Scale that puts `from` at pixel `start` and `to` at pixel `end`. */
export function scale(from: number, to: number, start: number, end: number): Scale {
  const span = to - from || 1;
  const f = (v: number): number => start + ((v - from) / span) * (end - start);
  return Object.assign(f, { from, to });
}

/** Round step (1, 2 or 5 times a power of ten) that cuts a span into about `count` parts. */
export function roundStep(span: number, count: number): number {
  const raw = span / count;
  const power = 10 ** Math.floor(Math.log10(raw));
  const lead = raw / power;
  return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
}

/** Round values inside a span. */
export function ticks(from: number, to: number, count = 5): number[] {
  if (!(to > from)) return [from];
  const step = roundStep(to - from, count);
  const out: number[] = [];
  for (let k = Math.ceil(from / step); k * step <= to + step * 1e-9; k++)
    out.push(+(k * step).toPrecision(12));
  return out;
}

/** Clock time `hh:mm`, to the nearest minute, of an instant in a zone given as minutes east of UTC. */
export function clock(timeMs: number, zoneOffsetMinutes: number): string {
  const minutes = Math.round(timeMs / 60_000) + zoneOffsetMinutes;
  return new Date(minutes * 60_000).toISOString().slice(11, 16);
}

/** Clock hours along the foot of a box. */
export function timeAxis(x: Scale, box: Box, zoneOffsetMinutes: number): string {
  const span = x.to - x.from;
  const room = Math.max(2, Math.floor((box.right - box.left) / 52));
  const step = [1, 2, 3, 4, 6, 12, 24].map(hours).find((s) => span / s <= room) ?? hours(48);
  const shift = zoneOffsetMinutes * 60_000;
  let out = "";
  for (let t = Math.ceil((x.from + shift) / step) * step - shift; t <= x.to; t += step)
    out +=
      el("path", { d: `M${px(x(t))} ${px(box.bottom)}v5`, class: "rule" }) +
      (x(t) > box.right - 6
        ? label(box.right + 8, box.bottom + 18, clock(t, zoneOffsetMinutes), {
            "text-anchor": "end",
          })
        : label(x(t), box.bottom + 18, clock(t, zoneOffsetMinutes), { "text-anchor": "middle" }));
  return out;
}

/** Ruled lines and figures up the side of a box. */
export function valueAxis(y: Scale, box: Box, unit: string): string {
  const low = Math.min(y.from, y.to);
  const high = Math.max(y.from, y.to);
  const lines = ticks(low, high)
    .map(
      (v) =>
        el("path", {
          d: `M${box.left} ${y(v).toFixed(1)}H${box.right}`,
          class: "rule",
        }) + label(box.left - 6, y(v) + 4, String(v), { "text-anchor": "end" }),
    )
    .join("");
  return (
    lines +
    label(box.left - 6, box.top - 8, unit, {
      "text-anchor": "end",
      class: "soft",
    })
  );
}
