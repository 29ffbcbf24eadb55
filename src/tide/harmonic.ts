import { wrap180 } from "../core/angles.js";
import { argumentFor, speedOf, type Argument } from "./arguments.js";
import { longitudes, nodeFactors, type NodeFactors } from "./astro.js";
import type { CheckedConstituents } from "./source.js";

const RAD = Math.PI / 180;
/** Length of a row of columns. */
export const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const Y2000_MS = Date.UTC(2000, 0, 1);

/** Constituents made ready, day by day: row `block * n + i` of each column. */
export interface Harmonic {
  /** Number of constituents with an amplitude. */
  n: number;
  /** Start of the first day, UTC epoch milliseconds. */
  startMs: number;
  /** Number of days. */
  blocks: number;
  /** Mean level above the datum wanted. */
  meanM: number;
  /** Amplitude at the start of the day, m. */
  amp: Float64Array;
  /** Its change, m per ms. */
  ampRate: Float64Array;
  /** Angle at the start of the day, rad. */
  phase: Float64Array;
  /** Its change, rad per ms. */
  speed: Float64Array;
  /** 1 where the node factors change with a step at the start of the day. */
  jump: Uint8Array;
}

/** Make constituents ready for a span of time. */
export function prepareHarmonic(
  source: CheckedConstituents,
  fromMs: number,
  toMs: number,
): Harmonic {
  const active = source.constituents
    .map((c, i) => ({
      ...c,
      of: argumentFor(c, i),
    }))
    .filter((c) => c.amplitudeM > 0);
  const n = active.length;
  const startMs = Math.floor(fromMs / DAY_MS) * DAY_MS;
  const blocks = Math.floor((toMs - startMs) / DAY_MS) + 1;
  const column = () => new Float64Array(n * blocks);
  const h: Harmonic = {
    n,
    startMs,
    blocks,
    meanM: source.meanLevelM + (source.toDatum?.addM ?? 0),
    amp: column(),
    ampRate: column(),
    phase: column(),
    speed: column(),
    jump: new Uint8Array(blocks),
  };
  const factors = factorsOf(source.nodes === "midYear");
  const lon = new Float64Array(5);
  for (let b = 0; b < blocks; b++) {
    const t = startMs + b * DAY_MS;
    const [now, next] = factors(t);
    longitudes(t, lon);
    if (b > 0 && now !== factors(t - DAY_MS)[1]) h.jump[b] = 1;
    active.forEach((c, i) => {
      if (c.of === null) ownArgument(h, b * n + i, c, t);
      else fillRow(h, b * n + i, c, c.of, lon, now, next);
    });
  }
  return h;
}

/** Node factors at the start and end of the day beginning at an instant. */
function factorsOf(
  midYear: boolean,
): (timeMs: number) => readonly [NodeFactors, NodeFactors] {
  const kept = new Map<number, NodeFactors>();
  const at = (timeMs: number): NodeFactors => {
    let found = kept.get(timeMs);
    if (found === undefined) {
      found = nodeFactors(timeMs);
      kept.set(timeMs, found);
    }
    return found;
  };
  if (!midYear) return (t) => [at(t), at(t + DAY_MS)];
  return (t) => {
    const f = at(midYearMs(new Date(t).getUTCFullYear()));
    return [f, f];
  };
}

/** The middle of a calendar year: noon of 2 July, or its start in a leap year. */
const midYearMs = (year: number): number =>
  (Date.UTC(year, 0, 1) + Date.UTC(year + 1, 0, 1)) / 2;

interface Amplitude {
  amplitudeM: number;
  phaseDeg: number;
}

function fillRow(
  h: Harmonic,
  row: number,
  c: Amplitude,
  of: Argument,
  lon: Float64Array,
  now: NodeFactors,
  next: NodeFactors,
): void {
  let [f0, f1, u0, du] = [1, 1, 0, 0];
  for (const [kind, power] of of.nodes) {
    for (let k = Math.abs(power); k > 0; k--) {
      f0 *= now[kind].f;
      f1 *= next[kind].f;
    }
    u0 += power * now[kind].uDeg;
    du += power * wrap180(next[kind].uDeg - now[kind].uDeg);
  }
  let v = of.constantDeg;
  for (let k = 0; k < 5; k++) v += of.multiples[k]! * lon[k]!;
  h.amp[row] = f0 * c.amplitudeM;
  h.ampRate[row] = ((f1 - f0) * c.amplitudeM) / DAY_MS;
  h.phase[row] = wrap180(v + u0 - c.phaseDeg) * RAD;
  h.speed[row] = (speedOf(of) / HOUR_MS + du / DAY_MS) * RAD;
}

function ownArgument(
  h: Harmonic,
  row: number,
  c: Amplitude & {
    argument?: { speedDegPerHour: number; at2000Deg: number } | undefined;
  },
  startMs: number,
): void {
  const { speedDegPerHour, at2000Deg } = c.argument!;
  const hours = (startMs - Y2000_MS) / HOUR_MS;
  h.amp[row] = c.amplitudeM;
  h.phase[row] =
    wrap180(at2000Deg + ((speedDegPerHour * hours) % 360) - c.phaseDeg) * RAD;
  h.speed[row] = (speedDegPerHour / HOUR_MS) * RAD;
}

/** Day an instant lies in; -1 outside the span made ready. */
export const blockOf = (h: Harmonic, timeMs: number): number => {
  const b = Math.floor((timeMs - h.startMs) / DAY_MS);
  return b >= 0 && b < h.blocks ? b : -1;
};

/** Height at an instant; NaN outside the span made ready. */
export function harmonicHeight(h: Harmonic, timeMs: number): number {
  const b = blockOf(h, timeMs);
  if (b < 0) return NaN;
  const dt = timeMs - h.startMs - b * DAY_MS;
  let sum = h.meanM;
  for (let i = b * h.n, end = i + h.n; i < end; i++)
    sum +=
      (h.amp[i]! + h.ampRate[i]! * dt) *
      Math.cos(h.phase[i]! + h.speed[i]! * dt);
  return sum;
}

/** Rate of rise at an instant, m per ms. */
export function harmonicSlope(h: Harmonic, timeMs: number): number {
  const b = blockOf(h, timeMs);
  const dt = timeMs - h.startMs - b * DAY_MS;
  let sum = 0;
  for (let i = b * h.n, end = i + h.n; i < end; i++)
    sum -=
      (h.amp[i]! + h.ampRate[i]! * dt) *
      h.speed[i]! *
      Math.sin(h.phase[i]! + h.speed[i]! * dt);
  return sum;
}
