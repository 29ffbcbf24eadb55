/** Heights at knots with one rule between them. */
export interface Knots {
  /** Instants, ascending, UTC epoch milliseconds. */
  times: Float64Array;
  /** Heights at them, m. */
  heights: Float64Array;
  /** Slopes at them, m per ms; only read by the cubic rule. */
  slopes: Float64Array;
  /** 1 where the height between a knot and the next is known. */
  known: Uint8Array;
  /** Lower end of the error of the curve at the knots, m. */
  low: Float64Array;
  /** Upper end of the error of the curve at the knots, m. */
  high: Float64Array;
  /** 1 where the range lies well outside the ranges the curve was made from. */
  beyond: Uint8Array;
  /** Rule between knots. */
  rule: "cosine" | "linear" | "cubic";
}

/** Knots being gathered. */
export interface KnotList {
  times: number[];
  heights: number[];
  slopes: number[];
  known: number[];
  low: number[];
  high: number[];
  beyond: number[];
}

/** No knots yet. */
export const noKnots = (): KnotList => ({
  times: [],
  heights: [],
  slopes: [],
  known: [],
  low: [],
  high: [],
  beyond: [],
});

/** One knot; what is not given is none. */
export interface Knot {
  timeMs: number;
  heightM: number;
  /** Whether the piece after it is known. */
  known: boolean;
  slope?: number;
  low?: number;
  high?: number;
  beyond?: boolean;
}

/** Add a knot; one at the instant of the last only says anew whether the piece after it is known. */
export function pushKnot(list: KnotList, knot: Knot): void {
  const { timeMs, heightM, known, slope = 0, low = 0, high = 0 } = knot;
  const last = list.times.length - 1;
  if (last >= 0 && list.times[last] === timeMs) {
    list.known[last] = known ? 1 : 0;
    return;
  }
  list.times.push(timeMs);
  list.heights.push(heightM);
  list.slopes.push(slope);
  list.known.push(known ? 1 : 0);
  list.low.push(low);
  list.high.push(high);
  list.beyond.push(knot.beyond === true ? 1 : 0);
}

/** The gathered knots as columns. */
export const knotsOf = (list: KnotList, rule: Knots["rule"]): Knots => ({
  times: Float64Array.from(list.times),
  heights: Float64Array.from(list.heights),
  slopes: Float64Array.from(list.slopes),
  known: Uint8Array.from(list.known),
  low: Float64Array.from(list.low),
  high: Float64Array.from(list.high),
  beyond: Uint8Array.from(list.beyond),
  rule,
});

/** Knots are looked for this many places either side of where even spacing would put them. */
const NEAR = 3;

/** Index of the piece an instant lies in: last knot at or before it; -1 outside the knots. */
export function pieceAt(times: Float64Array, timeMs: number): number {
  let low = 0;
  let high = times.length - 1;
  const first = times[0]!;
  const last = times[high]!;
  if (!(timeMs >= first && timeMs < last)) return timeMs === last ? high : -1;
  const guess = Math.floor(((timeMs - first) / (last - first)) * high);
  if (times[guess]! <= timeMs) {
    low = guess;
    if (guess + NEAR < high)
      if (times[guess + NEAR]! > timeMs) high = guess + NEAR;
      else low = guess + NEAR;
  } else {
    high = guess;
    if (guess > NEAR)
      if (times[guess - NEAR]! <= timeMs) low = guess - NEAR;
      else high = guess - NEAR;
  }
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (times[mid]! <= timeMs) low = mid;
    else high = mid;
  }
  return low;
}

/** Height at an instant; NaN outside the knots and in a piece that is not known. */
export function knotHeight(k: Knots, timeMs: number): number {
  const i = pieceAt(k.times, timeMs);
  if (i < 0) return NaN;
  const start = k.times[i]!;
  if (timeMs === start) return k.heights[i]!;
  return k.known[i] === 1 ? between(k, i, timeMs) : NaN;
}

function between(k: Knots, i: number, timeMs: number): number {
  const t0 = k.times[i]!;
  const width = k.times[i + 1]! - t0;
  const h0 = k.heights[i]!;
  const rise = k.heights[i + 1]! - h0;
  const x = (timeMs - t0) / width;
  if (k.rule === "cosine") return h0 + rise * (0.5 - 0.5 * Math.cos(Math.PI * x));
  if (k.rule === "linear") return h0 + rise * x;
  const m0 = k.slopes[i]! * width;
  const m1 = k.slopes[i + 1]! * width;
  return h0 + x * (m0 + x * (3 * rise - 2 * m0 - m1 + x * (m0 + m1 - 2 * rise)));
}

/** Error of the curve at an instant, linear between knots; NaN outside them. */
export function knotError(k: Knots, column: Float64Array, timeMs: number): number {
  const i = pieceAt(k.times, timeMs);
  if (i < 0) return NaN;
  const start = k.times[i]!;
  if (timeMs === start) return column[i]!;
  const x = (timeMs - start) / (k.times[i + 1]! - start);
  return column[i]! + x * (column[i + 1]! - column[i]!);
}

const RESEED = 256;

/** Heights at even steps, NaN where not known; walks the knots once. */
export function knotFill(k: Knots, fromMs: number, stepMs: number, out: Float64Array): void {
  const n = out.length;
  let s = 0;
  while (s < n && !(fromMs + s * stepMs >= k.times[0]!)) out[s++] = NaN;
  let i = pieceAt(k.times, fromMs + s * stepMs);
  while (s < n && i >= 0 && i < k.times.length - 1) {
    const end = k.times[i + 1]!;
    const inPiece = Math.min(n, Math.ceil((end - fromMs) / stepMs));
    if (s < inPiece && fromMs + s * stepMs === k.times[i]) out[s++] = k.heights[i]!;
    if (k.known[i] !== 1) while (s < inPiece) out[s++] = NaN;
    else if (k.rule === "cosine")
      while (s < inPiece)
        s = cosineRun(k, i, fromMs, stepMs, s, Math.min(inPiece, s + RESEED), out);
    else
      while (s < inPiece) {
        out[s] = between(k, i, fromMs + s * stepMs);
        s++;
      }
    i++;
  }
  for (; s < n; s++) out[s] = knotHeight(k, fromMs + s * stepMs);
}

/** Half-cosine at even steps by the recurrence cos(a + 2d) = 2 cos d cos(a + d) - cos a. */
function cosineRun(
  k: Knots,
  i: number,
  fromMs: number,
  stepMs: number,
  first: number,
  last: number,
  out: Float64Array,
): number {
  const t0 = k.times[i]!;
  const perMs = Math.PI / (k.times[i + 1]! - t0);
  const half = (k.heights[i + 1]! - k.heights[i]!) / 2;
  const mean = k.heights[i]! + half;
  const angle = (fromMs + first * stepMs - t0) * perMs;
  const turn = stepMs * perMs;
  const twice = 2 * Math.cos(turn);
  let before = half * Math.cos(angle - turn);
  let now = half * Math.cos(angle);
  for (let s = first; s < last; s++) {
    out[s] = mean - now;
    const next = twice * now - before;
    before = now;
    now = next;
  }
  return last;
}
