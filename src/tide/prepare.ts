import { constantsError } from "./error.js";
import type { Gap, TideCurve, Unknown } from "./curve.js";

import { harmonicFill, harmonicTurns } from "./harmonic-grid.js";
import { DAY_MS, harmonicHeight, prepareHarmonic, type Harmonic } from "./harmonic.js";
import { withKinds, type Turn } from "./kinds.js";
import { secondaryCurve } from "./secondary-curve.js";
import type { CheckedConstituents, CheckedSecondary, CheckedTide } from "./source.js";
import { tableCurve } from "./table.js";

/** Reach beyond a span within which the turns around it are certain to lie. */
const AROUND_MS = 2 * DAY_MS;

/**
 * Make a source ready for a span of time. The source has been checked; the result is asked as often as need be.
 * Constants know their heights on the span and up to a day beyond, tables wherever they reach.
 */
export function tideCurve(source: CheckedTide, fromMs: number, toMs: number): TideCurve {
  switch (source.kind) {
    case "turns":
    case "curve":
      return tableCurve(source);
    case "constituents":
      return harmonicCurve(source, fromMs, toMs);
    case "secondary":
      return secondaryOf(source, fromMs, toMs);
  }
}

function secondaryOf(source: CheckedSecondary, fromMs: number, toMs: number): TideCurve {
  const from = fromMs - AROUND_MS;
  const to = toMs + AROUND_MS;
  return secondaryCurve(source, tideCurve(source.standard, from, to), from, to);
}

function harmonicCurve(source: CheckedConstituents, fromMs: number, toMs: number): TideCurve {
  const h = prepareHarmonic(source, fromMs, toMs);
  const error = constantsError(source);
  const endMs = h.startMs + h.blocks * DAY_MS;
  const outside = (t: number): boolean => !(t >= h.startMs && t < endMs);
  return {
    datum: source.toDatum?.datum ?? source.datum,
    basis: `harmonic constants, ${h.n} constituents, node factors ${source.nodes === "midYear" ? "of the middle of the year" : "of the day"}`,
    heightAt: (t) => harmonicHeight(h, t),
    errorLowAt: (t) => (outside(t) ? NaN : -error),
    errorHighAt: (t) => (outside(t) ? NaN : error),
    unknownAt: (t): Unknown | null => (outside(t) ? "outsideTable" : null),
    gaps: (from, to): Gap[] =>
      outside(from) || outside(to) ? [{ fromMs: from, toMs: to, reason: "outsideTable" }] : [],
    breaks: (from, to) => harmonicBreaks(h, from, to),
    turns: (from, to) => turnsOf(h, from, to),
    extrapolatedAt: () => false,
    fill: (from, step, out) => {
      harmonicFill(h, from, step, out);
    },
  };
}

/** Turns, and both sides of a step in the node factors. */
function harmonicBreaks(h: Harmonic, fromMs: number, toMs: number): number[] {
  const breaks = harmonicTurns(h, fromMs, toMs);
  h.jump.forEach((is, b) => {
    const t = h.startMs + b * DAY_MS;
    if (is === 1) breaks.push(t - 1, t);
  });
  return breaks.filter((t) => t > fromMs && t < toMs).sort((a, b) => a - b);
}

/** Turns in a span, with kinds by the turns before and after, which may lie outside it. */
function turnsOf(h: Harmonic, fromMs: number, toMs: number): Turn[] {
  const rows = harmonicTurns(h, fromMs, toMs).map((timeMs) => ({
    timeMs: Math.round(timeMs),
    heightM: harmonicHeight(h, timeMs),
  }));
  if (rows.length !== 1) return withKinds(rows);
  const row = rows[0]!;
  const side = row.timeMs > fromMs ? fromMs : toMs;
  return [{ ...row, kind: row.heightM > harmonicHeight(h, side) ? "high" : "low" }];
}
