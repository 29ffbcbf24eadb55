import type { Degrees, Metres, MetresPerSecond, Milliseconds } from "../core/units.js";
import { weatherAt } from "./adviceHold.js";
import { spansBelow } from "./criteria.js";
import { knownMoments } from "./doubt.js";
import type { Model } from "./doubtModel.js";
import { preparedOut } from "./gear.js";
import { LAY, layBody, prepareBody } from "./lying.js";
import type { Study } from "./study.js";
import { asForecast, passer, whatIfOf, type Change, type Limit, type WhatIf } from "./whatIf.js";

/** What would change the answer at one limit: everything else as it is likely. */
export interface Tipping {
  /** The limit, as in the reasons. */
  code: "holding.less" | "holding.thin" | "depth.aground" | "room.neighbour" | "room.shore";
  /** The neighbour it is about; null where that is plain. */
  of: string | null;
  /** Whether it is passed as the stay is forecast. */
  passed: boolean;
  /** When it is first passed; null where it is not. */
  fromMs: Milliseconds | null;
  /** Rise of the mean wind, gusts with it, at which it is first passed; where it is passed already, the negative of the fall that would do. Null where none up to 25 m/s changes it. */
  windRiseMps: MetresPerSecond | null;
  /** Least shift of the wind, clockwise positive, that changes it; null where none does. */
  windShiftDeg: Degrees | null;
  /** Least length of rode with which it is not passed; null where no length aboard does, or it does not hang on it. */
  leastRodeM: Metres | null;
  /** Greatest length of rode with which it is not passed; null where every length aboard does, or none. */
  mostRodeM: Metres | null;
  /** Fall of the water below the likely at which it is passed, negative where it is passed already; null where it does not hang on it. */
  waterFallM: Metres | null;
}

/** A limit, and what it is told as. */
interface NamedLimit extends Limit {
  code: Tipping["code"];
  of: string | null;
}

const limitsOf = (m: Model): NamedLimit[] => [
  { code: "holding.less", of: null, event: "drag", neighbour: -1, at: 0 },
  { code: "holding.thin", of: null, event: "drag", neighbour: -1, at: 0.5 },
  { code: "depth.aground", of: null, event: "touch", neighbour: -1, at: 0 },
  ...m.neighbours.map((n, k): NamedLimit => ({
    code: "room.neighbour",
    of: n.name,
    event: "neighbour",
    neighbour: k,
    at: 0,
  })),
  { code: "room.shore", of: null, event: "shore", neighbour: -1, at: 0 },
];

/** A limit being asked what would change its answer. */
interface Asked {
  what: WhatIf;
  limit: NamedLimit;
  /** Whether it is passed as the stay is forecast. */
  now: boolean;
  isPassed: (change: Change) => boolean;
}

/** The least change on the way out from none at which a limit's answer is another; null where it is the same all the way. */
function change(
  { isPassed, now }: Asked,
  steps: readonly number[],
  of: (x: number) => Change,
  close: number,
): number | null {
  let from = 0;
  for (const to of steps) {
    if (isPassed(of(to)) === now) {
      from = to;
      continue;
    }
    let [a, b] = [from, to];
    while (Math.abs(b - a) > close) {
      const middle = (a + b) / 2;
      if (isPassed(of(middle)) === now) a = middle;
      else b = middle;
    }
    return b;
  }
  return null;
}

/** Changes looked at, outwards: rises of wind, and shifts to one side. */
const RISES = [2, 5, 10, 17, 25];
const SHIFTS = [20, 40, 60, 80, 100, 120, 140, 160, 180];

function windShift(asked: Asked): number | null {
  const of = (shiftDeg: number): Change => ({ shiftDeg });
  const veers = change(asked, SHIFTS, of, 2);
  // Half way round is the same either way.
  const most = veers === null ? 180 : Math.min(180, veers + 20);
  const within = SHIFTS.filter((x) => x < most).map((x) => -x);
  const backs = change(asked, within, of, 2);
  if (veers === null || backs === null) return veers ?? backs;
  return -backs < veers ? backs : veers;
}

/** Greatest length with which a room limit is not passed; null where no length does, or all do. */
function mostRode(asked: Asked): number | null {
  const { now } = asked;
  const { lengthOutM, aboardM, greatestHeightM } = asked.what.study.rode;
  const end = now ? 1.5 * greatestHeightM : aboardM;
  if (!(now ? end < lengthOutM : end > lengthOutM)) return null;
  const parts = [0.25, 0.5, 0.75, 1].map((p) => p * (end - lengthOutM));
  const by = change(asked, parts, (x) => ({ lengthM: lengthOutM + x }), 0.5);
  if (by === null) return null;
  // Short of where it is passed.
  return lengthOutM + by - (now ? 0 : 0.5);
}

/** Moments that may ask for the longest rode. */
const HARDEST = 4;

/** Least length with which the anchor holds so many times the pull of the gusts in the forecast wind; null where no length aboard does. */
function leastRode(s: Study, times: number): number | null {
  const { scene, grip, anchorDepth, input, rode } = s;
  if (grip === null) return null;
  const hard = scene.timeMs
    .map((_, i) => ({ i, h: anchorDepth.chartedM + scene.tideM[i]!, p: s.lie.gustPullN[i]! }))
    .filter(({ h, p }) => h > 0 && p >= 0)
    .sort((a, b) => b.p * b.h - a.p * a.h)
    .slice(0, HARDEST);
  const out = new Float64Array(LAY.length);
  const holds = (lengthM: number): boolean => {
    const body = prepareBody(scene.vessel, preparedOut(input.tackle, lengthM));
    return hard.every(({ i, h }) => {
      layBody(body, weatherAt(s, i), h, out);
      return grip.likely(out[LAY.angleDeg]!) > times * out[LAY.gustPullN]!;
    });
  };
  let [short, long] = [rode.greatestHeightM, rode.aboardM];
  if (hard.length === 0 || !(short > 0) || !holds(long)) return null;
  while (long - short > 0.25) {
    const middle = (short + long) / 2;
    if (holds(middle)) long = middle;
    else short = middle;
  }
  return long;
}

/** The moment at which a margin is least, or not known. */
const worstOf = (margin: Float64Array): number =>
  margin.reduce((worst, v, i) => (v >= margin[worst]! ? worst : i), 0);

function tippingAt(what: WhatIf, limit: NamedLimit): Tipping {
  const margin = asForecast(what, limit);
  const spans = spansBelow(what.model.timeMs, margin, limit.at);
  const now = margin.some((v) => !(v > limit.at));
  const asked: Asked = { what, limit, now, isPassed: passer(what, limit, worstOf(margin)) };
  const holds = limit.event === "drag";
  const room = limit.event === "neighbour" || limit.event === "shore";
  const depth = limit.event === "touch";
  const rises = now ? RISES.map((r) => -r) : RISES;
  return {
    code: limit.code,
    of: limit.of,
    passed: now,
    fromMs: spans[0]?.fromMs ?? null,
    windRiseMps: depth ? null : change(asked, rises, (riseMps) => ({ riseMps }), 0.2),
    windShiftDeg: depth ? null : windShift(asked),
    leastRodeM: holds ? leastRode(what.study, 1 + limit.at) : null,
    mostRodeM: room ? mostRode(asked) : null,
    waterFallM: depth ? margin.reduce((a, b) => Math.min(a, b), Infinity) : null,
  };
}

/** What would change the answer, limit by limit; limits of which something is not known are left out. */
export function tippingOf(s: Study): Tipping[] {
  if (!(s.rode.greatestHeightM > 0)) return [];
  const what = whatIfOf(s);
  const known = knownMoments(s, what.model);
  return limitsOf(what.model)
    .filter((l) => known[l.event].every((is) => is))
    .filter((l) => l.event !== "shore" || what.model.roomMatters)
    .map((l) => tippingAt(what, l));
}
