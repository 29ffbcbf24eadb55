import { bracketedRoot } from "../core/roots.js";
import { blockOf, DAY_MS, harmonicHeight, harmonicSlope, type Harmonic } from "./harmonic.js";

const HOUR_MS = 3_600_000;

/** Height, first and second derivative per step, at even steps. */
interface Grid {
  height: Float64Array;
  first: Float64Array;
  second: Float64Array;
}

/**
 * Height and derivatives at even steps by turning each constituent's pointer from step to step;
 * pointers are set afresh every day, so that rounding does not add up.
 */
function harmonicGrid(h: Harmonic, fromMs: number, stepMs: number, count: number): Grid {
  const { n } = h;
  const grid: Grid = {
    height: new Float64Array(count),
    first: new Float64Array(count),
    second: new Float64Array(count),
  };
  const work = new Float64Array(6 * n);
  let block = -1;
  for (let k = 0; k < count; k++) {
    const t = fromMs + k * stepMs;
    const b = blockOf(h, t);
    if (b !== block) {
      block = b;
      setPointers(h, b, t, stepMs, work);
    }
    let [p, d, c] = [h.meanM, 0, 0];
    for (let i = 0; i < n; i++) {
      const j = 6 * i;
      const x = work[j]!;
      const y = work[j + 1]!;
      const w = work[j + 4]!;
      const r = work[j + 5]!;
      p += x;
      d += r * x - w * y;
      c -= w * (w * x + 2 * r * y);
      work[j] = x * work[j + 2]! - y * work[j + 3]!;
      work[j + 1] = y * work[j + 2]! + x * work[j + 3]!;
    }
    grid.height[k] = p;
    grid.first[k] = d;
    grid.second[k] = c;
  }
  return grid;
}

/** Pointer, its turn per step, its angle and the growth of its length per step, six numbers a constituent. */
function setPointers(
  h: Harmonic,
  block: number,
  timeMs: number,
  stepMs: number,
  work: Float64Array,
): void {
  const dt = timeMs - h.startMs - block * DAY_MS;
  for (let i = 0; i < h.n; i++) {
    const row = block * h.n + i;
    const a = h.amp[row]! + h.ampRate[row]! * dt;
    const growth = (h.ampRate[row]! * stepMs) / a;
    const angle = h.phase[row]! + h.speed[row]! * dt;
    const turn = h.speed[row]! * stepMs;
    const j = 6 * i;
    work[j] = a * Math.cos(angle);
    work[j + 1] = a * Math.sin(angle);
    work[j + 2] = (1 + growth) * Math.cos(turn);
    work[j + 3] = (1 + growth) * Math.sin(turn);
    work[j + 4] = turn;
    work[j + 5] = growth;
  }
}

const INTERPOLATION_ERROR_M = 1e-7;

/** Largest step at which fifth-order interpolation between grid points keeps its error bound, ms. */
function coarseStep(h: Harmonic): number {
  let sixth = 0;
  for (let i = 0; i < h.n; i++) {
    const w = h.speed[i]!;
    sixth += h.amp[i]! * (w * w * w) * (w * w * w);
  }
  // Remainder of two-point quintic interpolation: f⁽⁶⁾ step⁶ / 46 080.
  return sixth > 0 ? Math.exp(Math.log((46_080 * INTERPOLATION_ERROR_M) / sixth) / 6) : HOUR_MS;
}

/** Heights at even steps, written to `out`. */
export function harmonicFill(h: Harmonic, fromMs: number, stepMs: number, out: Float64Array): void {
  const per = Math.floor(Math.min(coarseStep(h), HOUR_MS) / stepMs);
  if (per < 3) {
    out.set(harmonicGrid(h, fromMs, stepMs, out.length).height);
    return;
  }
  const segments = Math.ceil((out.length - 1) / per);
  const coarseMs = per * stepMs;
  const inside = Math.floor((endMs(h) - 1 - fromMs) / coarseMs) + 1;
  const grid = harmonicGrid(h, fromMs, coarseMs, Math.min(segments + 1, inside));
  for (let s = 0; s < segments; s++) {
    const first = s * per;
    const last = Math.min(first + per, out.length);
    if (s + 1 >= grid.height.length || jumps(h, fromMs + first * stepMs, coarseMs))
      for (let k = first; k < last; k++) out[k] = harmonicHeight(h, fromMs + k * stepMs);
    else quintic(grid, s, per, first, last, out);
  }
  const end = out.length - 1;
  out[end] = harmonicHeight(h, fromMs + end * stepMs);
}

const endMs = (h: Harmonic): number => h.startMs + h.blocks * DAY_MS;

const jumps = (h: Harmonic, t: number, spanMs: number): boolean =>
  blockOf(h, t) !== blockOf(h, t + spanMs) && h.jump[blockOf(h, t + spanMs)] === 1;

function quintic(
  g: Grid,
  s: number,
  per: number,
  first: number,
  last: number,
  out: Float64Array,
): void {
  const a = g.height[s]!;
  const b = g.first[s]!;
  const c = g.second[s]! / 2;
  const rest = g.height[s + 1]! - a - b - c;
  const rate = g.first[s + 1]! - b - 2 * c;
  const bend = (g.second[s + 1]! - 2 * c) / 2;
  const d3 = 10 * rest - 4 * rate + bend;
  const d4 = -15 * rest + 7 * rate - 2 * bend;
  const d5 = 6 * rest - 3 * rate + bend;
  const du = 1 / per;
  for (let k = first; k < last; k++) {
    const u = (k - first) * du;
    out[k] = a + u * (b + u * (c + u * (d3 + u * (d4 + u * d5))));
  }
}

const TURN_STEP_MS = 600_000;
const TURN_TOLERANCE_MS = 1;

/** Instants of all turns in a span; two turns closer together than about a minute count as a stand. */
export function harmonicTurns(h: Harmonic, fromMs: number, toMs: number): number[] {
  const steps = Math.max(1, Math.ceil((toMs - fromMs) / TURN_STEP_MS));
  const stepMs = (toMs - fromMs) / steps;
  const slope = (t: number): number => harmonicSlope(h, t);
  const { first, second } = harmonicGrid(h, fromMs, stepMs, steps + 1);
  const found: number[] = [];
  const search = (a: number, b: number): void => {
    const root = bracketedRoot(slope, a, b, TURN_TOLERANCE_MS);
    if (!Number.isNaN(root)) found.push(root);
  };
  for (let k = 0; k < steps; k++) {
    const a = fromMs + k * stepMs;
    if (first[k]! > 0 !== first[k + 1]! > 0) search(a, a + stepMs);
    else if (second[k]! > 0 !== second[k + 1]! > 0) {
      // The rate has its own extreme here: it may touch or cross zero twice.
      const part = second[k]! / (second[k]! - second[k + 1]!);
      const mid = a + part * stepMs;
      if (slope(mid) > 0 !== first[k]! > 0) {
        search(a, mid);
        search(mid, a + stepMs);
      }
    }
  }
  return found;
}
