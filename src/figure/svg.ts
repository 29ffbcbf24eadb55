/** Look of a figure: `auto` follows the page (light or dark), `night` is red on black. */
export type FigureTheme = "auto" | "light" | "dark" | "night";

/** What every figure function accepts besides its data. */
export interface FigureOptions {
  /** Look; default `auto`. */
  theme?: FigureTheme;
  /** Width in px of the drawing box, 320 to 1600; default 720. */
  widthPx?: number;
}

const INK = {
  light:
    "--paper:#fbf8f1;--ink:#22303a;--soft:#5d6b74;--rule:#d5d0c2;--water:#cfe0e8;--shoal:#e9e2c4;--land:#d8cfae;--dusk:#b9b3cf;--good:#1f6f5c;--warn:#a85b00;--bad:#a3153b",
  dark: "--paper:#161c21;--ink:#e6e2d6;--soft:#a2adb3;--rule:#3a444b;--water:#24404f;--shoal:#4b4a31;--land:#56503a;--dusk:#000;--good:#6fd0b5;--warn:#f0b35a;--bad:#ff8fa3",
  night:
    "--paper:#000;--ink:#e0301e;--soft:#a3231a;--rule:#4a0f0b;--water:#1c0504;--shoal:#2b0a07;--land:#3a0f0a;--dusk:#140303;--good:#e0301e;--warn:#f0503a;--bad:#ff7a66",
};

const RULES =
  "{background:var(--paper);color:var(--ink);font-family:Georgia,'Times New Roman',serif;font-size:12px}" +
  ".hw text{fill:var(--ink)}.hw .soft{fill:var(--soft)}.hw .line{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round}" +
  ".hw .rule{stroke:var(--rule);fill:none}.hw .dash{stroke-dasharray:5 3}.hw .dots{stroke-dasharray:1.5 3}" +
  ".hw .good{stroke:var(--good)}.hw .warn{stroke:var(--warn)}.hw .bad{stroke:var(--bad)}.hw text.good{fill:var(--good);stroke:none}.hw text.warn{fill:var(--warn);stroke:none}.hw text.bad{fill:var(--bad);stroke:none}" +
  ".hw .water{fill:var(--water)}.hw .shoal{fill:var(--shoal)}.hw .land{fill:var(--land)}.hw .dusk{fill:var(--dusk);fill-opacity:.6}.hw .ink{fill:var(--ink)}.hw .veil{fill:var(--ink);fill-opacity:.12}.hw .h{font-size:15px;font-weight:bold}";

function styleOf(theme: FigureTheme): string {
  const base = theme === "auto" ? INK.light : INK[theme];
  const dark = theme === "auto" ? `@media (prefers-color-scheme:dark){.hw{${INK.dark}}}` : "";
  return `<style>.hw{${base}}${dark}.hw${RULES}</style>`;
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

/** A filled area. */
export const area = (points: readonly (readonly [number, number])[], kind: string): string =>
  el("path", { d: pathData(points, true), class: kind });

/** Width of the drawing box, held inside its limits. */
export const widthOf = (options: FigureOptions): number =>
  Math.min(1600, Math.max(320, options.widthPx ?? 720));

/** The finished figure: titled, described, styled. */
export function figureSvg(
  kind: string,
  size: { width: number; height: number },
  words: { title: string; description: string },
  body: string,
  options: FigureOptions,
): string {
  return el(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${px(size.width)} ${px(size.height)}`,
      width: size.width,
      height: size.height,
      class: "hw",
      role: "img",
      "aria-labelledby": `hw-${kind}-t hw-${kind}-d`,
    },
    el("title", { id: `hw-${kind}-t` }, escapeText(words.title)),
    el("desc", { id: `hw-${kind}-d` }, escapeText(words.description)),
    styleOf(options.theme ?? "auto"),
    el("rect", {
      width: size.width,
      height: size.height,
      fill: "var(--paper)",
    }),
    label(12, 22, words.title, { class: "h" }),
    body,
  );
}
