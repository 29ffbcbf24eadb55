import { GUSTS } from "../lie/tables.js";
import type { Degrees, Metres, MetresPerSecond, Milliseconds } from "../core/units.js";
import { weatherAt } from "./adviceHold.js";
import { spansBelow } from "./criteria.js";
import { knownMoments, type DoubtEvent } from "./doubt.js";
import { modelOf, type Model } from "./doubtModel.js";
import { emptyCase, runCase, runOf, type CaseMargins } from "./doubtRun.js";
import { noDoubt } from "./doubtSpread.js";
import { preparedOut } from "./gear.js";
import { LAY, layBody, prepareBody } from "./lying.js";
import type { Study } from "./study.js";

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

/** A limit on a margin of a case. */
interface Limit {
  code: Tipping["code"];
  of: string | null;
  event: DoubtEvent;
  /** Margin at which it is passed. */
  at: number;
  column: (c: CaseMargins) => Float64Array;
}

/** The stay ready to be asked what if: likely figures, and a change of wind. */
interface WhatIf {
  study: Study;
  model: Model;
  limits: Limit[];
  known: Record<DoubtEvent, boolean[]>;
  /** Margins of a limit's event with a change; room is worked out for limits of room alone. */
  ask: (change: Change, event: DoubtEvent) => CaseMargins;
}

interface Change {
  riseMps?: number;
  shiftDeg?: number;
  lengthM?: number;
}

const limitsOf = (m: Model): Limit[] => [
  { code: "holding.less", of: null, event: "drag", at: 0, column: (c) => c.drag },
  { code: "holding.thin", of: null, event: "drag", at: 0.5, column: (c) => c.drag },
  { code: "depth.aground", of: null, event: "touch", at: 0, column: (c) => c.touch },
  ...m.neighbours.map((n, k): Limit => ({
    code: "room.neighbour",
    of: n.name,
    event: "neighbour",
    at: 0,
    column: (c) => c.neighbours[k]!,
  })),
  { code: "room.shore", of: null, event: "shore", at: 0, column: (c) => c.shore },
];

/** The model with the wind changed throughout. */
function changed(m: Model, { riseMps = 0, shiftDeg = 0, lengthM }: Change): Model {
  const windMps = m.windMps.map((w) => Math.max(0, w + riseMps));
  return {
    ...m,
    windMps,
    gustMps: m.gustMps.map((g, i) => {
      const over = m.windMps[i]! > 1 ? g / m.windMps[i]! : GUSTS.nearLand;
      return Math.max(windMps[i]!, g + riseMps * over);
    }),
    windFromDeg: m.windFromDeg.map((d) => d + shiftDeg),
    lengthOutM: lengthM ?? m.lengthOutM,
  };
}

/** Vessels laid in one case at the most. */
const MOST_LAID = 40;

function whatIf(s: Study): WhatIf {
  const { lengthOutM, aboardM, greatestHeightM } = s.rode;
  const model = modelOf(s, {
    mostLaid: MOST_LAID,
    drawn: false,
    lengthsM: [Math.min(lengthOutM, 1.5 * greatestHeightM), Math.max(lengthOutM, aboardM)],
  });
  const still = noDoubt(model.neighbours.length);
  const run = runOf(model);
  const asked = new Map<string, CaseMargins>();
  return {
    study: s,
    model,
    limits: limitsOf(model),
    known: knownMoments(s, model),
    ask: (change, event) => {
      const bare = event === "drag" || event === "touch";
      const key = `${JSON.stringify(change)}${bare ? "" : " room"}`;
      const known = asked.get(key);
      if (known !== undefined) return known;
      const out = emptyCase(model);
      const asIs = bare ? { ...model, neighbours: [], roomMatters: false } : model;
      runCase(changed(asIs, change), still, 0, run, out);
      asked.set(key, out);
      return out;
    },
  };
}

/** Whether a limit is passed at some moment. */
const isPassed = (l: Limit, c: CaseMargins): boolean => l.column(c).some((v) => !(v > l.at));

/** The least change on the way out from none at which a limit's answer is another; null where it is the same all the way. */
function change(
  w: WhatIf,
  l: Limit,
  now: boolean,
  steps: readonly number[],
  of: (x: number) => Change,
  close: number,
): number | null {
  let from = 0;
  for (const to of steps) {
    if (isPassed(l, w.ask(of(to), l.event)) === now) {
      from = to;
      continue;
    }
    let [a, b] = [from, to];
    while (Math.abs(b - a) > close) {
      const middle = (a + b) / 2;
      if (isPassed(l, w.ask(of(middle), l.event)) === now) a = middle;
      else b = middle;
    }
    return b;
  }
  return null;
}

/** Changes looked at, outwards: rises of wind, and shifts to one side. */
const RISES = [2, 5, 10, 17, 25];
const SHIFTS = [20, 40, 60, 80, 100, 120, 140, 160, 180];

function windShift(w: WhatIf, l: Limit, now: boolean): number | null {
  const of = (shiftDeg: number): Change => ({ shiftDeg });
  const veers = change(w, l, now, SHIFTS, of, 2);
  // Half way round is the same either way.
  const most = veers === null ? 180 : Math.min(180, veers + 20);
  const within = SHIFTS.filter((x) => x < most).map((x) => -x);
  const backs = change(w, l, now, within, of, 2);
  if (veers === null || backs === null) return veers ?? backs;
  return -backs < veers ? backs : veers;
}

/** Greatest length with which a room limit is not passed; null where no length does, or all do. */
function mostRode(w: WhatIf, l: Limit, now: boolean): number | null {
  const { lengthOutM, aboardM, greatestHeightM } = w.study.rode;
  const end = now ? 1.5 * greatestHeightM : aboardM;
  if (!(now ? end < lengthOutM : end > lengthOutM)) return null;
  const parts = [0.25, 0.5, 0.75, 1].map((p) => p * (end - lengthOutM));
  const by = change(w, l, now, parts, (x) => ({ lengthM: lengthOutM + x }), 0.5);
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

function tippingAt(w: WhatIf, l: Limit, asForecast: Float64Array): Tipping {
  const spans = spansBelow(w.model.timeMs, asForecast, l.at);
  const now = asForecast.some((v) => !(v > l.at));
  const holds = l.event === "drag";
  const room = l.event === "neighbour" || l.event === "shore";
  const depth = l.event === "touch";
  const rises = now ? RISES.map((r) => -r) : RISES;
  return {
    code: l.code,
    of: l.of,
    passed: now,
    fromMs: spans[0]?.fromMs ?? null,
    windRiseMps: depth ? null : change(w, l, now, rises, (riseMps) => ({ riseMps }), 0.2),
    windShiftDeg: depth ? null : windShift(w, l, now),
    leastRodeM: holds ? leastRode(w.study, 1 + l.at) : null,
    mostRodeM: room ? mostRode(w, l, now) : null,
    waterFallM: depth ? asForecast.reduce((a, b) => Math.min(a, b), Infinity) : null,
  };
}

/** What would change the answer, limit by limit; limits of which something is not known are left out. */
export function tippingOf(s: Study): Tipping[] {
  if (!(s.rode.greatestHeightM > 0)) return [];
  const w = whatIf(s);
  const asForecast = w.limits.map((l) => l.column(w.ask({}, l.event)));
  return w.limits.flatMap((l, k) => {
    const found =
      w.known[l.event].every((is) => is) && (l.event !== "shore" || w.model.roomMatters);
    return found ? [tippingAt(w, l, asForecast[k]!)] : [];
  });
}
