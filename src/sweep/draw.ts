import { lastAtOrBefore } from "../core/series.js";
import { wrap360 } from "../core/angles.js";
import type { Draw } from "./input.js";
import type { Parameter } from "./model.js";
import { valueOf, type Issues } from "./names.js";
import { normalAt, normalShare } from "../core/normal.js";
import { exp, log, log1p } from "../core/elementary.js";

/** Value of a draw that a share of all its values lies below. */
type Quantile = (share: number) => number;

/** Turns the first `rows` shares of a column into values, in place. */
export type Spread = (column: Float64Array, rows: number) => void;

const spreadBy =
  (q: Quantile): Spread =>
  (column, rows) => {
    for (let r = 0; r < rows; r++) column[r] = q(column[r]!);
  };

/** The spread of a draw, cut off at the bounds of the parameter; issues where it cannot be. */
export function spreadOf(draw: Draw, p: Parameter, path: string, issues: Issues): Spread {
  if (draw.spread === "choice") return spreadBy(choice(draw, p, path, issues));
  if (p.words !== undefined)
    issues.push({
      path: `${path}.spread`,
      code: "invalid_value",
      message: `${p.name} is a word: expected the spread "choice"`,
    });
  const q = plainQuantile(draw, p, path, issues);
  if (p.turns === true) return spreadBy((u) => wrap360(q(u)));
  return draw.spread === "uniform" ? evenly(draw.low, draw.high) : spreadBy(q);
}

/** As the quantile of an even spread, without a call for every value. */
const evenly =
  (low: number, high: number): Spread =>
  (column, rows) => {
    const width = high - low;
    for (let r = 0; r < rows; r++) column[r] = low + column[r]! * width;
  };

function plainQuantile(
  draw: Exclude<Draw, { spread: "choice" }>,
  p: Parameter,
  path: string,
  issues: Issues,
): Quantile {
  switch (draw.spread) {
    case "uniform":
    case "triangular":
      return between(draw, p, path, issues);
    case "normal": {
      const { mean, sigma } = draw;
      const whole: Quantile = (u) => mean + sigma * normalAt(u);
      // A direction has no bounds: it turns.
      if (p.turns === true) return whole;
      return cut(whole, (x) => normalShare((x - mean) / sigma), p, path, issues);
    }
    case "logNormal": {
      const middle = log(draw.median);
      const { sigmaLog } = draw;
      const share = (x: number) => (x > 0 ? normalShare((log(x) - middle) / sigmaLog) : 0);
      return cut((u) => exp(middle + sigmaLog * normalAt(u)), share, p, path, issues);
    }
    case "weibull": {
      const { scale, shape } = draw;
      const share = (x: number) => (x > 0 ? 1 - exp(-exp(shape * log(x / scale))) : 0);
      const whole: Quantile = (u) => scale * exp(log(-log1p(-u)) / shape);
      return cut(whole, share, p, path, issues);
    }
  }
}

function between(
  draw: Extract<Draw, { low: number }>,
  p: Parameter,
  path: string,
  issues: Issues,
): Quantile {
  const { low, high } = draw;
  const likely = draw.spread === "uniform" ? low : draw.likely;
  for (const [of, value] of Object.entries(
    draw.spread === "uniform" ? { low, high } : { low, likely, high },
  ))
    valueOf(value, p, `${path}.${of}`, issues);
  if (!(low <= likely && likely <= high))
    issues.push({ path, code: "order", message: "expected values in ascending order" });
  return draw.spread === "uniform" ? (u) => low + u * (high - low) : triangular(low, likely, high);
}

function triangular(low: number, likely: number, high: number): Quantile {
  const width = high - low;
  const knee = width > 0 ? (likely - low) / width : 0;
  return (u) =>
    u < knee
      ? low + Math.sqrt(u * width * (likely - low))
      : high - Math.sqrt((1 - u) * width * (high - likely));
}

/** Cut a spread off at the bounds of the parameter: what lies beyond is shared out among what lies within. */
function cut(
  whole: Quantile,
  share: (x: number) => number,
  p: Parameter,
  path: string,
  issues: Issues,
): Quantile {
  const least = share(p.min);
  const part = share(p.max) - least;
  if (!(part > 0.5)) {
    issues.push({
      path,
      code: "out_of_bounds",
      message: `more than half of the spread lies outside ${p.min} to ${p.max} ${p.unit}`,
    });
    return () => NaN;
  }
  return (u) => Math.min(p.max, Math.max(p.min, whole(least + u * part)));
}

function choice(
  draw: Extract<Draw, { spread: "choice" }>,
  p: Parameter,
  path: string,
  issues: Issues,
): Quantile {
  const values = draw.values.map((v, i) => valueOf(v, p, `${path}.values[${i}]`, issues));
  const weights = draw.weights ?? values.map(() => 1);
  const total = weights.reduce((a, b) => a + b, 0);
  if (weights.length !== values.length || !(total > 0)) {
    issues.push({
      path: `${path}.weights`,
      code: "invalid_value",
      message: `expected ${values.length} weights, not all 0`,
    });
    return () => NaN;
  }
  let sum = 0;
  const starts = weights.map((w) => (sum += w) - w).map((s) => s / total);
  return (u) => values[lastAtOrBefore(starts, u)]!;
}
