import { wrap180 } from "../core/angles.js";
import { argumentFor, refuseTwice, speedOf, type Argument } from "./arguments.js";
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
  refuseTwice(source.constituents);
  const active = source.constituents
    .map((c, i) => readied(c, argumentFor(c, i)))
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
  let after: NodeFactors | null = null;
  for (let b = 0; b < blocks; b++) {
    const t = startMs + b * DAY_MS;
    const [now, next] = factors(t);
    if (next !== after) for (const c of active) setFactors(c, now, next);
    if (after !== null && now !== after) h.jump[b] = 1;
    after = next;
    longitudes(t, lon);
    for (let i = 0; i < n; i++) fillRow(h, b * n + i, active[i]!, lon, t);
  }
  return h;
}

/** A constituent with what its rows are made from. */
interface Ready {
  amplitudeM: number;
  phaseDeg: number;
  /** Argument by longitudes; null for one of the caller's own. */
  of: Argument | null;
  /** Argument at 2000-01-01T00:00Z where it is the caller's own. */
  at2000Deg: number;
  /** Speed, degrees per ms. */
  degPerMs: number;
  /** Node factor and angle at the start of the day, and their change over it. */
  f: number;
  df: number;
  uDeg: number;
  duDeg: number;
}

function readied(c: CheckedConstituents["constituents"][number], of: Argument | null): Ready {
  const degPerHour = of === null ? c.argument!.speedDegPerHour : speedOf(of);
  return {
    amplitudeM: c.amplitudeM,
    phaseDeg: c.phaseDeg,
    of,
    at2000Deg: c.argument?.at2000Deg ?? 0,
    degPerMs: degPerHour / HOUR_MS,
    f: 1,
    df: 0,
    uDeg: 0,
    duDeg: 0,
  };
}

/** Node factors at the start and end of the day beginning at an instant. */
function factorsOf(midYear: boolean): (timeMs: number) => readonly [NodeFactors, NodeFactors] {
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
const midYearMs = (year: number): number => (Date.UTC(year, 0, 1) + Date.UTC(year + 1, 0, 1)) / 2;

function setFactors(c: Ready, now: NodeFactors, next: NodeFactors): void {
  let [f0, f1] = [1, 1];
  c.uDeg = 0;
  c.duDeg = 0;
  for (const [kind, power] of c.of?.nodes ?? []) {
    for (let k = Math.abs(power); k > 0; k--) {
      f0 *= now[kind].f;
      f1 *= next[kind].f;
    }
    c.uDeg += power * now[kind].uDeg;
    c.duDeg += power * wrap180(next[kind].uDeg - now[kind].uDeg);
  }
  c.f = f0;
  c.df = f1 - f0;
}

function fillRow(h: Harmonic, row: number, c: Ready, lon: Float64Array, timeMs: number): void {
  let v = c.at2000Deg;
  if (c.of === null) v += c.degPerMs * (timeMs - Y2000_MS);
  else {
    const m = c.of.multiples;
    v = c.of.constantDeg;
    for (let k = 0; k < 5; k++) v += m[k]! * lon[k]!;
  }
  h.amp[row] = c.f * c.amplitudeM;
  h.ampRate[row] = (c.df * c.amplitudeM) / DAY_MS;
  h.phase[row] = ((v + c.uDeg - c.phaseDeg) % 360) * RAD;
  h.speed[row] = (c.degPerMs + c.duDeg / DAY_MS) * RAD;
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
    sum += (h.amp[i]! + h.ampRate[i]! * dt) * Math.cos(h.phase[i]! + h.speed[i]! * dt);
  return sum;
}

/** Rate of rise at an instant, m per ms. */
export function harmonicSlope(h: Harmonic, timeMs: number): number {
  const b = blockOf(h, timeMs);
  const dt = timeMs - h.startMs - b * DAY_MS;
  let sum = 0;
  for (let i = b * h.n, end = i + h.n; i < end; i++)
    sum -=
      (h.amp[i]! + h.ampRate[i]! * dt) * h.speed[i]! * Math.sin(h.phase[i]! + h.speed[i]! * dt);
  return sum;
}
