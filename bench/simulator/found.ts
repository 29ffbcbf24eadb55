/** How often a rule rang and how far the anchor had come by then: shares with their intervals, rows of drags. */
import type { Night } from "./night.js";
import type { Trace } from "./trace.js";

/** A rule that rings: the step of its first alarm, or -1. */
export type Rule = (trace: Trace, night: Night) => number;

/** Share with the exact 95 % interval after Clopper and Pearson. */
export function shareOf(hits: number, of: number) {
  const tail = (p: number, k: number): number => {
    // P(X <= k) of a binomial, in logarithms.
    let sum = 0;
    let log = of * Math.log1p(-p);
    for (let i = 0; i <= k; i++) {
      sum += Math.exp(log);
      log += Math.log((of - i) / (i + 1)) + Math.log(p) - Math.log1p(-p);
    }
    return sum;
  };
  const root = (f: (p: number) => number) => {
    let [a, b] = [1e-9, 1 - 1e-9];
    for (let i = 0; i < 100; i++) {
      const c = (a + b) / 2;
      if (f(c) > 0) a = c;
      else b = c;
    }
    return a;
  };
  return {
    hits,
    of,
    share: hits / of,
    low: hits === 0 ? 0 : root((p) => tail(p, hits - 1) - 0.975),
    high: hits === of ? 1 : root((p) => tail(p, hits) - 0.025),
  };
}

export interface DragRow {
  scenario: string;
  medianM: number;
  ninetyM: number;
  greatestM: number;
  early: number;
  /** No alarm of its kind before the anchor had come 100 m; and of these, those with a blind alarm before. */
  late: number;
  lateButBlind: number;
  never: number;
  /** Of all drags not found before 100 m: longest time from the first fix after 100 m to the alarm, s. */
  seenForS: number;
  /** Share of the time from 30 to 100 m dragged in which the watch said that she lies. */
  falseClear: number;
}

/** Metres dragged at the alarm; alarms before the drag began are counted apart, not dropped in silence. */
export function dragRow(
  scenario: string,
  nights: readonly Night[],
  traces: readonly Trace[],
  rule: Rule,
): DragRow {
  const metres: number[] = [];
  let [early, late, lateButBlind, never] = [0, 0, 0, 0];
  let [seenForS, clear, far] = [0, 0, 0];
  traces.forEach((trace, i) => {
    const night = nights[i]!;
    night.draggedM.forEach((d, k) => {
      if (d < 30 || d > 100) return;
      far++;
      clear += trace.lying[k]!;
    });
    const at = rule(trace, night);
    const dragged = at < 0 ? Infinity : night.draggedM[at]!;
    if (dragged === 0) {
      early++;
      return;
    }
    if (at < 0) never++;
    if (dragged > 100) {
      late++;
      const from = night.draggedM.findIndex((d) => d > 0);
      const to = night.draggedM.findIndex((d) => d > 100);
      if (trace.blind.subarray(from, to).some((b) => b === 1)) lateButBlind++;
      const seen = night.x.findIndex((x, k) => k >= to && x === x);
      const rang = at < 0 ? night.steps : at;
      if (seen >= 0) seenForS = Math.max(seenForS, (rang - seen) * night.stepS);
    }
    metres.push(dragged);
  });
  metres.sort((a, b) => a - b);
  const at = (p: number) => metres[Math.floor(p * metres.length)] ?? NaN;
  return {
    scenario,
    medianM: at(0.5),
    ninetyM: at(0.9),
    greatestM: metres[metres.length - 1] ?? NaN,
    early,
    late,
    lateButBlind,
    never,
    seenForS,
    falseClear: clear / far,
  };
}

/** A share in words, with its interval. */
export const percent = (s: ReturnType<typeof shareOf>): string =>
  `${(100 * s.share).toFixed(1)} % (${(100 * s.low).toFixed(1)}–${(100 * s.high).toFixed(1)})`;
/** Metres in words; a dash where no alarm rang. */
export const metre = (m: number): string => (Number.isFinite(m) ? m.toFixed(0) : "–");
