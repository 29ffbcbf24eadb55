import type { Position } from "../core/schema.js";
import { planeAt, toPlane, type Plane } from "../geo/plane.js";
import { roundStep } from "./axes.js";
import type { Box, Placer } from "./layout.js";
import { el, label, px } from "./svg.js";

type Point = readonly [number, number];

/** Where a position stands in the picture. */
export type Place = (lonDeg: number, latDeg: number) => Point;

/** A picture of the water round a position, north up. */
export interface MapView {
  frame: Box;
  cx: number;
  cy: number;
  /** Pixels a metre. */
  perM: number;
  /** Half the width of the water shown, metres. */
  halfM: number;
  place: Place;
  ring: (positions: readonly Position[]) => Point[];
}

function placer(plane: Plane, perM: number, cx: number, cy: number): Place {
  const at = new Float64Array(2);
  return (lonDeg, latDeg) => {
    toPlane(plane, latDeg, lonDeg, at, 0);
    return [cx + at[0]! * perM, cy - at[1]! * perM];
  };
}

/** A square picture in a frame, `halfM` either side of a position. */
export function mapView(middle: Position, halfM: number, frame: Box): MapView {
  const [cx, cy] = [(frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2];
  const perM = (frame.right - frame.left) / (2 * halfM);
  const place = placer(planeAt(middle), perM, cx, cy);
  return {
    frame,
    cx,
    cy,
    perM,
    halfM,
    place,
    ring: (positions) => positions.map((p) => place(p.lonDeg, p.latDeg)),
  };
}

/** Greatest distance north, south, east or west of some positions from the middle, metres. */
export function spreadOf(middle: Position, positions: readonly Position[]): number {
  const plane = planeAt(middle);
  const at = new Float64Array(2);
  let most = 0;
  for (const p of positions) {
    toPlane(plane, p.latDeg, p.lonDeg, at, 0);
    most = Math.max(most, Math.abs(at[0]!), Math.abs(at[1]!));
  }
  return most;
}

/** Scale bar and north arrow, on cleared ground. */
export function mapMarks({ frame, perM, halfM }: MapView, words: Placer): string {
  const m = roundStep(halfM, 3);
  const [x, y] = [frame.left + 10, frame.bottom - 12];
  words.block({ left: frame.left, right: x + m * perM + 60, top: y - 14, bottom: frame.bottom });
  words.block({ left: frame.right - 28, right: frame.right, top: frame.top, bottom: frame.top + 52 }); // prettier-ignore
  return (
    el("path", { d: `M${px(x)} ${px(y - 5)}v5h${px(m * perM)}v-5`, class: "line" }) +
    label(x + m * perM + 6, y, `${m} m`, { class: "halo" }) +
    el("path", {
      d: `M${px(frame.right - 16)} ${px(frame.top + 34)}v-24m-5 8l5 -8l5 8`,
      class: "line",
    }) +
    label(frame.right - 16, frame.top + 48, "N", { "text-anchor": "middle", class: "halo" })
  );
}

/** The anchor: a cross with its word. */
export function anchorMark({ cx, cy }: MapView, words: Placer): string {
  words.block({ left: cx - 8, right: cx + 8, top: cy - 8, bottom: cy + 8 });
  return (
    el("path", { d: `M${px(cx)} ${px(cy)}m-7 0h14m-7 -7v14`, class: "line thick" }) +
    words.text("anchor", [
      { x: cx + 9, y: cy - 7 },
      { x: cx - 9, y: cy - 7, anchor: "end" },
      { x: cx + 9, y: cy + 16 },
    ])
  );
}
