import * as z from "zod/mini";
import { check } from "../core/check.js";

/** Look of a figure: `auto` follows the page (light or dark), `night` is red on black. */
export type FigureTheme = "auto" | "light" | "dark" | "night";

/** What every figure function accepts besides its data. */
export interface FigureOptions {
  /** Look; default `auto`. */
  theme?: FigureTheme;
  /** Width in px of the drawing box, held to 320 to 1600; default 720. */
  widthPx?: number;
  /** Tells figures of one kind on one page apart; letters, digits and hyphens. Default none. */
  id?: string;
}

const optionsSchema = z.strictObject({
  theme: z.optional(z.enum(["auto", "light", "dark", "night"])),
  // No figure is as good as too small a one: a page asks before it has been laid out.
  widthPx: z.optional(z.custom<number>((w) => typeof w === "number", "expected a number")),
  id: z.optional(z.string()),
});

/** Options that have been checked: what goes into a style sheet unescaped is one of the words. */
export const checkedOptions = (options: FigureOptions): FigureOptions =>
  check(optionsSchema, options) as FigureOptions;

const INK = {
  light:
    "--paper:#fbf8f1;--ink:#22303a;--soft:#4c5962;--rule:#cfcaba;--water:#d3e3ea;--shoal:#e9e2c4;--land:#d8cfae;--dusk:#4a4470;--good:#1d5c8a;--warn:#9a5200;--bad:#a3153b",
  dark: "--paper:#161c21;--ink:#e6e2d6;--soft:#aab5bb;--rule:#404b52;--water:#22394a;--shoal:#4b4a31;--land:#56503a;--dusk:#8791e8;--good:#7cc0ee;--warn:#f0b35a;--bad:#ff8fa3",
  night:
    "--paper:#000;--ink:#f03a28;--soft:#c92a1d;--rule:#5a130d;--water:#1f0604;--shoal:#330d08;--land:#47130c;--dusk:#5a0c06;--good:#c92a1d;--warn:#f03a28;--bad:#ff7a66",
};

const RULES =
  ".hw{background:var(--paper);color:var(--ink);font-family:Georgia,'Times New Roman',serif;font-size:12px;max-width:100%;height:auto}" +
  ".hw text{fill:var(--ink)}.hw .line{fill:none;stroke:var(--ink);stroke-width:1.8;stroke-linejoin:round}" +
  ".hw .bar{fill:none;stroke:var(--ink)}.hw .thin{stroke-width:1}.hw .thick{stroke-width:3}" +
  ".hw .rule{stroke:var(--rule);fill:none}.hw .dash{stroke-dasharray:6 3}.hw .dots{stroke-dasharray:1.5 3}" +
  ".hw .good{stroke:var(--good)}.hw .warn{stroke:var(--warn)}.hw .bad{stroke:var(--bad)}.hw text.bad{fill:var(--bad)}.hw text.soft{fill:var(--soft)}" +
  ".hw .water{fill:var(--water)}.hw .shoal{fill:var(--shoal)}.hw .land{fill:var(--land)}.hw .paper{fill:var(--paper)}.hw .ink{fill:var(--ink)}" +
  ".hw .dusk{fill:var(--dusk);fill-opacity:.16}.hw .night{fill:var(--dusk)}.hw .veil{fill:var(--ink);fill-opacity:.13}.hw .h{font-size:15px;font-weight:bold}" +
  ".hw .halo{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}";

/** Colours hang on a class of the theme, so that figures of different themes can share a page. */
function styleOf(theme: FigureTheme): string {
  const base = theme === "auto" ? INK.light : INK[theme];
  const dark = theme === "auto" ? `@media (prefers-color-scheme:dark){.hw-auto{${INK.dark}}}` : "";
  return `<style>.hw-${theme}{${base}}${dark}${RULES}</style>`;
}

const ESCAPES: Record<string, string> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text safe inside SVG elements and attributes; characters XML does not allow are dropped. */
export const escapeText = (text: string): string =>
  text
    .replace(
      /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
      "",
    )
    .replace(/[&<>"']/g, (c) => ESCAPES[c]!);

/** A coordinate, rounded to a tenth of a pixel. */
export const px = (x: number): string => String(Math.round(x * 10) / 10);

type Attributes = Record<string, string | number | undefined>;

/** One element; texts among the children must have gone through {@link escapeText}. */
export function el(name: string, attributes: Attributes, ...children: string[]): string {
  const written = Object.entries(attributes)
    .filter(([, v]) => v !== undefined)
    .map(([k, v]) => ` ${k}="${typeof v === "number" ? px(v) : escapeText(String(v))}"`)
    .join("");
  return children.length === 0
    ? `<${name}${written}/>`
    : `<${name}${written}>${children.join("")}</${name}>`;
}

/** A line of text at a point. */
export const label = (x: number, y: number, text: string, attributes: Attributes = {}): string =>
  el("text", { x, y, ...attributes }, escapeText(text));

/** Path data through points; a break wherever a coordinate is not finite. */
export function pathData(points: readonly (readonly [number, number])[], closed = false): string {
  let d = "";
  let open = false;
  for (const [x, y] of points) {
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      open = false;
      continue;
    }
    d += `${open ? "L" : "M"}${px(x)} ${px(y)}`;
    open = true;
  }
  return closed && d !== "" ? `${d}Z` : d;
}

/** A stroked path through points. */
export const stroke = (points: readonly (readonly [number, number])[], kind = "line"): string =>
  el("path", { d: pathData(points), class: kind });

/** A level bar of some thickness, which no style sheet sets: a page may forbid styles written into elements. */
export const bar = (from: number, to: number, y: number, kind: string, thickPx: number): string =>
  el("path", {
    d: `M${px(from)} ${px(y)}H${px(to)}`,
    class: `bar ${kind}`.trimEnd(),
    "stroke-width": thickPx,
  });

/** A filled area. */
export const area = (points: readonly (readonly [number, number])[], kind: string): string =>
  el("path", { d: pathData(points, true), class: kind });

/** Width of the drawing box, held inside its limits. */
export const widthOf = ({ widthPx = 720 }: FigureOptions): number =>
  widthPx >= 320 ? Math.min(1600, widthPx) : 320;

/** The finished figure: named and described for a screen reader, styled, on its paper. */
export function figureSvg(
  kind: string,
  size: { width: number; height: number },
  words: { title: string; description: string },
  body: string,
  options: FigureOptions,
): string {
  const theme = options.theme ?? "auto";
  const own = (options.id ?? "").replace(/[^\w-]/g, "");
  const name = `hw-${kind}${own === "" ? "" : `-${own}`}`;
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${px(size.width)} ${px(size.height)}`,
      width: size.width,
      height: size.height,
      class: `hw hw-${theme}`,
      role: "img",
      "aria-labelledby": `${name}-t ${name}-d`,
    },
    el("title", { id: `${name}-t` }, escapeText(words.title)),
    el("desc", { id: `${name}-d` }, escapeText(words.description)),
    styleOf(theme),
    el("rect", { width: size.width, height: size.height, class: "paper" }),
    body,
  );
}
