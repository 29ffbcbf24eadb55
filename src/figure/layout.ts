import { el, label, px } from "./svg.js";

/** A rectangle in the picture. */
export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** What a figure says in words. */
export interface Words {
  title: string;
  description: string;
}

const LINE_PX = 16;
const MARGIN_PX = 12;
/** Usual advance of a letter of 12 px in a broad serif face, and of a full-width one. */
const LETTER_PX = 6.8;
const BROAD_PX = 12.5;

/** About how wide a text stands at 12 px, on the broad side. */
export function textWidth(text: string): number {
  let sum = 0;
  for (const c of text) sum += c > "\u2e7f" ? BROAD_PX : LETTER_PX;
  return sum;
}

/** A text cut to a width, with an ellipsis where something is left out. */
export function shortened(text: string, width: number): string {
  const letters = Array.from(text);
  while (letters.length > 1 && textWidth(letters.join("")) > width) letters.pop();
  return letters.join("") === text ? text : `${letters.slice(0, -1).join("").trimEnd()}…`;
}

/** A text in lines no wider than `width`; a word that is wider is cut. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((w) => w !== "")) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer) <= width) lines[lines.length - 1] = longer;
    else lines.push(shortened(word, width));
  }
  return lines;
}

/** Title and description across the head of a figure, and where they end. */
export function heading(words: Words, width: number): { svg: string; bottom: number } {
  const lines = wrapped(words.description, width - 2 * MARGIN_PX);
  const svg =
    label(MARGIN_PX, 22, words.title, { class: "h" }) +
    lines.map((l, i) => label(MARGIN_PX, 40 + LINE_PX * i, l, { class: "soft" })).join("");
  return { svg, bottom: 30 + LINE_PX * lines.length };
}

/** One line of a legend: what stands for what. */
export interface Key {
  /** Classes of a stroke 22 px long; or of a filled patch. */
  mark?: { line: string } | { patch: string } | { drawn: (x: number, y: number) => string };
  text: string;
}

const SWATCH_PX = 24;

function swatch(mark: NonNullable<Key["mark"]>, x: number, y: number): string {
  if ("drawn" in mark) return mark.drawn(x, y);
  return "line" in mark
    ? el("path", { d: `M${px(x)} ${px(y - 4)}h${SWATCH_PX}`, class: mark.line })
    : el("rect", { x, y: y - 10, width: SWATCH_PX, height: 12, class: mark.patch });
}

/** A legend that flows in rows below `top`; long texts are wrapped. */
export function legend(
  keys: readonly Key[],
  top: number,
  width: number,
): { svg: string; bottom: number } {
  let svg = "";
  let x = MARGIN_PX;
  let y = top + 12;
  for (const { mark, text } of keys) {
    const indent = mark === undefined ? 0 : SWATCH_PX + 6;
    const room = width - 2 * MARGIN_PX - indent;
    const lines = wrapped(text, room);
    const needs = indent + Math.max(...lines.map(textWidth)) + 16;
    if (x > MARGIN_PX && (x + needs - 16 > width - MARGIN_PX || lines.length > 1)) {
      x = MARGIN_PX;
      y += LINE_PX;
    }
    if (mark !== undefined) svg += swatch(mark, x, y);
    svg += lines.map((l, i) => label(x + indent, y + LINE_PX * i, l, { class: "soft" })).join("");
    y += LINE_PX * (lines.length - 1);
    x += lines.length > 1 ? width : needs;
  }
  return { svg, bottom: y + 12 };
}

/** Keeps texts in a picture off each other. */
export interface Placer {
  /** Space taken without a text. */
  block: (box: Box) => void;
  /** The first place of a text that is free and inside the frame; nothing where none is. */
  text: (text: string, places: readonly Spot[], kind?: string) => string;
}

/** Where a text may stand: its anchor point and which way it runs from there. */
export interface Spot {
  x: number;
  y: number;
  anchor?: "start" | "middle" | "end";
}

const boxOf = (text: string, { x, y, anchor = "start" }: Spot): Box => {
  const w = textWidth(text);
  const left = anchor === "start" ? x : anchor === "end" ? x - w : x - w / 2;
  return { left, right: left + w, top: y - 11, bottom: y + 3 };
};

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** A placer for one frame. */
export function placerIn(frame: Box): Placer {
  const taken: Box[] = [];
  const within = (b: Box): boolean =>
    b.left >= frame.left &&
    b.right <= frame.right &&
    b.top >= frame.top &&
    b.bottom <= frame.bottom;
  return {
    block: (box) => void taken.push(box),
    text(text, places, kind = "") {
      const spot = places.find((p) => {
        const box = boxOf(text, p);
        return within(box) && !taken.some((t) => overlap(t, box));
      });
      if (spot === undefined) return "";
      taken.push(boxOf(text, spot));
      return label(spot.x, spot.y, text, {
        "text-anchor": spot.anchor ?? "start",
        class: `halo ${kind}`.trim(),
      });
    },
  };
}

/** The four places beside a point, the right of it first or the left. */
export function beside(x: number, y: number, off: number, leftFirst = false): Spot[] {
  const right: Spot[] = [
    { x: x + off, y: y - 5 },
    { x: x + off, y: y + 14 },
  ];
  const left: Spot[] = [
    { x: x - off, y: y - 5, anchor: "end" },
    { x: x - off, y: y + 14, anchor: "end" },
  ];
  return [
    ...(leftFirst ? [...left, ...right] : [...right, ...left]),
    { x, y: y - off - 2, anchor: "middle" },
    { x, y: y + off + 12, anchor: "middle" },
  ];
}
