import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD } from "../core/angles.js";
import { check } from "../core/check.js";
import type { Reason } from "../core/judgement.js";
import { metres, seconds, speed } from "../core/schema.js";
import type { Metres, MetresPerSecond, Seconds } from "../core/units.js";
import { planeAt, toPlane } from "../geo/plane.js";
import { type FixEvent, watchEvent } from "./events.js";
import { UNSTATED_SIGMA_M, changeSpread } from "./statistics.js";
import { ERROR_CORRELATION_S, FROZEN } from "./tables.js";

/** Schema of {@link judgeSet}. */
export const judgeSetInput = z.strictObject({
  /** Fixes, engine orders, headings and transits about the test, in any order. */
  events: z.array(watchEvent),
  /** Slowest drag that must be excluded; 0.1 m/s unless given. */
  limitMps: z._default(speed({ above: 0 }), 0.1),
  /** Least time astern; 20 s unless given. */
  leastS: z._default(seconds({ min: 5 }), 20),
  /** Spread of one axis where the fixes state none; that of the published accuracy of the system, 3.3 m, unless given. */
  sigmaM: z._default(metres({ above: 0 }), UNSTATED_SIGMA_M),
});
/** Input of {@link judgeSet}. */
export type JudgeSetInput = Given<typeof judgeSetInput>;
type Parsed = z.output<typeof judgeSetInput>;

/** Answer of {@link judgeSet}. */
export interface SetJudgement {
  /** `creeps` is a sure movement slower than the limit asked for. */
  verdict: "holds" | "creeps" | "drags" | "cannotTell";
  /** Speed down the pull; null without a test. */
  speedMps: MetresPerSecond | null;
  /** Slowest drag the data exclude, one case in a hundred; null where they exclude none. */
  leastSpeedExcludedMps: MetresPerSecond | null;
  /** Time astern. */
  asternS: Seconds;
  /** Way made sternward while the rode stretched and the anchor dug in. */
  settledM: Metres | null;
  /** What the figure rests on. */
  by: "position" | "doppler" | "transit" | null;
  /** Time astern after which the limit could be excluded with this reception; null when this test did. */
  longerS: Seconds | null;
  /** Reasons. */
  reasons: Reason[];
}

/** The pull: from when, to when. */
interface Span {
  fromMs: number;
  toMs: number;
}

const within =
  ({ fromMs, toMs }: Span) =>
  ({ timeMs }: { timeMs: number }): boolean =>
    timeMs >= fromMs && timeMs <= toMs;

/** One way of telling the speed: figure and spread. */
interface Evidence {
  by: "position" | "doppler" | "transit";
  speed: number;
  sd: number;
}

/** Excluded at one in a hundred a side; the slope of a wandering error scatters a tenth more than its ends, and several tails are tried, so the factor is larger than 2.33. */
const SURE = 3.4;

/** Fastest drag the evidence leaves possible; going surely ahead, she is not pulling as she was thought to, and nothing slower is excluded. */
const fastest = (e: Evidence): number => Math.max(0, e.speed, -e.speed - SURE * e.sd) + SURE * e.sd;
const BASIS = "astern about 20 s until the way is off, transits steady; common practice, no source";

/**
 * Whether the anchor has set: what the pull astern proves, and what it cannot.
 *
 * Way made while the rode stretches and the anchor digs in dies away, a drag goes on; so only the end
 * of the pull is judged, and the error of the position, which wanders for minutes, is carried into
 * the slowest drag the data exclude. Never says that she holds while a drag at the limit is possible.
 * Two transits are told apart by their metres a degree and their swing; let one at least lie across the pull.
 * Leaves out what a stronger pull than the engine's would do. *Valid*: one pull astern with at
 * least 15 s after the way is off. *Accuracy*: on simulated pulls in `docs/watch-accuracy.md`.
 *
 * @throws InputError when an event is malformed.
 * @source common practice, no source; spread of a wandering error in closed form
 * @example
 * ```ts
 * import { judgeSet } from "hawse/watch";
 * const events = [{ kind: "engine", timeMs: 0, engine: "astern" } as const];
 * const test = judgeSet({ events });
 * console.log(test.verdict, test.longerS);
 * // cannotTell 137
 * ```
 */
export function judgeSet(input: JudgeSetInput): SetJudgement {
  const q = check(judgeSetInput, input);
  const span = asternSpan(q);
  const fixes = withoutFrozen(
    q.events
      .filter((e) => e.kind === "fix")
      .filter(within(span))
      .sort((a, b) => a.timeMs - b.timeMs),
  );
  const sigma = sigmaOf(q, fixes);
  const asternS = Math.max(0, (span.toMs - span.fromMs) / 1000) || 0;
  const track = trackOf(q, fixes, span);
  const evidence = [
    byPosition(fixes, track, sigma),
    atTheEnd(fixes, track, sigma),
    byDoppler(fixes, span.toMs),
    byTransit(q, span),
  ].filter((e) => e !== undefined);
  return verdictOf(q, asternS, evidence, track, sigma);
}

/** From the last order astern to the next order, or to the last event. */
function asternSpan(q: Parsed): Span {
  const events = [...q.events].sort((a, b) => a.timeMs - b.timeMs);
  let fromMs = NaN;
  let toMs = NaN;
  for (const e of events) {
    if (e.kind === "engine") {
      if (e.engine === "astern") [fromMs, toMs] = [e.timeMs, NaN];
      else if (Number.isNaN(toMs)) toMs = e.timeMs;
    }
  }
  if (Number.isNaN(toMs)) toMs = events[events.length - 1]?.timeMs ?? NaN;
  return { fromMs, toMs };
}

/** Fixes but for those of a receiver that repeats itself: what has stopped shows nothing. */
function withoutFrozen(fixes: FixEvent[]): FixEvent[] {
  const out: FixEvent[] = [];
  for (let i = 0; i < fixes.length;) {
    const first = fixes[i]!;
    let end = i + 1;
    while (fixes[end]?.latDeg === first.latDeg && fixes[end]?.lonDeg === first.lonDeg) end++;
    const lastsMs = fixes[end - 1]!.timeMs - first.timeMs;
    const frozen = end - i >= FROZEN.fixes && lastsMs >= 1000 * FROZEN.afterS;
    out.push(...fixes.slice(i, frozen ? i + 1 : end));
    i = end;
  }
  return out;
}

const sigmaOf = (q: Parsed, fixes: FixEvent[]): number =>
  fixes.reduce((m, f) => Math.max(m, f.sigmaM ?? q.sigmaM), 0) || q.sigmaM;

/** Way made good down the pull at each fix: astern by the heading, else along the whole movement. */
function trackOf(q: Parsed, fixes: FixEvent[], span: Span): number[] {
  const first = fixes[0];
  if (first === undefined) return [];
  const plane = planeAt(first);
  const xy = new Float64Array(2 * fixes.length);
  fixes.forEach((f, i) => {
    toPlane(plane, f.latDeg, f.lonDeg, xy, 2 * i);
  });
  let ux = xy[xy.length - 2]!;
  let uy = xy[xy.length - 1]!;
  const headings = q.events.filter((e) => e.kind === "heading").filter(within(span));
  if (headings.length > 0) {
    ux = -headings.reduce((sum, e) => sum + Math.sin(e.headingDeg * RAD), 0);
    uy = -headings.reduce((sum, e) => sum + Math.cos(e.headingDeg * RAD), 0);
  }
  const size = Math.sqrt(ux * ux + uy * uy) || 1;
  return fixes.map((_, i) => (xy[2 * i]! * ux + xy[2 * i + 1]! * uy) / size);
}

/** Shortest tail of a pull a speed is told from, s. */
const TAIL_S = 15;

/** Slope over each tail of the pull; the tail that excludes most, as a drag shows in all of them. */
function byPosition(fixes: FixEvent[], track: number[], sigma: number): Evidence | undefined {
  const n = fixes.length;
  let best: Evidence | undefined;
  for (let from = 0; from < n - 3; from++) {
    const spanS = (fixes[n - 1]!.timeMs - fixes[from]!.timeMs) / 1000;
    if (!(spanS >= TAIL_S)) break;
    const now = overTail(fixes, track, sigma, from);
    if (best === undefined || fastest(now) < fastest(best)) best = now;
  }
  return best;
}

/** Over the last quarter of a minute alone: an anchor that breaks out late is hidden in anything longer. */
function atTheEnd(fixes: FixEvent[], track: number[], sigma: number): Evidence | undefined {
  const last = fixes[fixes.length - 1]?.timeMs ?? 0;
  const from = fixes.findLastIndex((f) => last - f.timeMs >= 1000 * TAIL_S);
  return from < 0 || from > fixes.length - 4 ? undefined : overTail(fixes, track, sigma, from);
}

/** Slope of the way made from one fix on; fixes that scatter by more than the receiver states are worth no more than they scatter. */
function overTail(fixes: FixEvent[], track: number[], sigma: number, from: number): Evidence {
  const spanS = (fixes[fixes.length - 1]!.timeMs - fixes[from]!.timeMs) / 1000;
  const speed = slopeOf(fixes, track, from);
  const scatter = scatterOf(fixes, track, from, speed);
  const sd = (Math.max(sigma, scatter) * changeSpread(spanS, ERROR_CORRELATION_S)) / spanS;
  return { by: "position", speed, sd };
}

/** Spread of the way made about its slope. */
function scatterOf(fixes: FixEvent[], track: number[], from: number, slope: number): number {
  const n = fixes.length - from;
  const off = (i: number) => track[i]! - (slope * (fixes[i]!.timeMs - fixes[from]!.timeMs)) / 1000;
  let [sum, square] = [0, 0];
  for (let i = from; i < fixes.length; i++) sum += off(i);
  for (let i = from; i < fixes.length; i++) square += (off(i) - sum / n) * (off(i) - sum / n);
  return Math.sqrt(square / (n - 2));
}

function slopeOf(fixes: FixEvent[], track: number[], from: number): number {
  const n = fixes.length - from;
  const t0 = fixes[from]!.timeMs;
  let [st, sy, stt, sty] = [0, 0, 0, 0];
  for (let i = from; i < fixes.length; i++) {
    const t = (fixes[i]!.timeMs - t0) / 1000;
    st += t;
    sy += track[i]!;
    stt += t * t;
    sty += t * track[i]!;
  }
  return (n * sty - st * sy) / (n * stt - st * st);
}

/** Spread of a Doppler speed over some seconds, m/s: receivers state 0.05 to 0.1 (common practice, no source). */
const DOPPLER_SD = 0.05;

/** Mean Doppler speed over the last ten seconds of the pull, whichever way she moves. */
function byDoppler(fixes: FixEvent[], toMs: number): Evidence | undefined {
  const last = fixes.filter((f) => f.sogMps !== undefined && f.timeMs >= toMs - 10_000);
  if (last.length < 3) return undefined;
  const mean = last.reduce((s, f) => s + f.sogMps!, 0) / last.length;
  return { by: "doppler", speed: mean, sd: DOPPLER_SD };
}

/** How fast the transit opens that opens fastest: one along the pull shows nothing, however she drags. */
function byTransit(q: Parsed, span: Span): Evidence | undefined {
  const seen = q.events
    .filter((e) => e.kind === "transit")
    .filter(within(span))
    .sort((a, b) => a.timeMs - b.timeMs);
  const pairs = new Map<string, Observed[]>();
  for (const one of seen) {
    const pair = `${one.metresPerDegree} ${one.swingOpenDeg}`;
    pairs.set(pair, [...(pairs.get(pair) ?? []), one]);
  }
  return [...pairs.values()]
    .map(overPull)
    .filter((e) => e !== undefined)
    .sort((a, b) => b.speed - a.speed || b.sd - a.sd)[0];
}

type Observed = Extract<Parsed["events"][number], { kind: "transit" }>;

/** How fast one transit opens from its first bearing to its last, which it needs ten seconds between. */
function overPull(seen: readonly Observed[]): Evidence | undefined {
  const [first, last] = [seen[0]!, seen[seen.length - 1]!];
  const spanS = (last.timeMs - first.timeMs) / 1000;
  if (!(spanS >= 10)) return undefined;
  const metresPer = last.metresPerDegree;
  const sigma = (last.sigmaDeg ?? 0.3) * metresPer * Math.SQRT2;
  const moved = Math.abs(last.openedDeg - first.openedDeg) * metresPer;
  return { by: "transit", speed: moved / spanS, sd: sigma / spanS };
}

function verdictOf(
  q: Parsed,
  asternS: number,
  evidence: Evidence[],
  track: number[],
  sigma: number,
): SetJudgement {
  const best = evidence.reduce<Evidence | undefined>(
    (a, b) => (a === undefined || fastest(b) < fastest(a) ? b : a),
    undefined,
  );
  // A drag seen by any one of them counts, whatever another excludes.
  const seen = evidence.find((e) => e.speed - SURE * e.sd > q.limitMps);
  const excluded = best && fastest(best);
  const long = asternS >= q.leastS;
  let verdict: SetJudgement["verdict"] = "cannotTell";
  if (seen !== undefined) verdict = "drags";
  else if (best !== undefined && long && excluded! <= q.limitMps)
    verdict = best.speed - SURE * best.sd > 0 ? "creeps" : "holds";
  const used = seen ?? best;
  return {
    verdict,
    speedMps: used?.speed ?? null,
    leastSpeedExcludedMps: excluded ?? null,
    asternS,
    settledM: track.length === 0 ? null : Math.max(...track),
    by: used?.by ?? null,
    longerS: verdict === "cannotTell" ? longerThan(q, sigma) : null,
    reasons: reasonsOf(q, asternS, verdict, excluded),
  };
}

/** Seconds astern at which the change of the error no longer hides the limit; ten more for the rode to stretch. */
function longerThan(q: Parsed, sigma: number): number {
  let s = q.leastS;
  while (s < 1800 && (SURE * sigma * changeSpread(s)) / s > 0.9 * q.limitMps) s++;
  return s + 10;
}

function reasonsOf(
  q: Parsed,
  asternS: number,
  verdict: SetJudgement["verdict"],
  excluded: number | undefined,
): Reason[] {
  const out: Reason[] = [];
  if (!(asternS >= q.leastS))
    out.push({
      code: "set.tooShort",
      severity: "caution",
      value: asternS,
      limit: q.leastS,
      basis: BASIS,
    });
  out.push({
    code: `set.${verdict}`,
    severity: verdict === "drags" ? "stop" : verdict === "holds" ? "note" : "warning",
    value: excluded ?? null,
    limit: q.limitMps,
    basis: BASIS,
  });
  return out;
}
