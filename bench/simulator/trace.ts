/** A night seen by the watch's kernel: the evidence at every half minute, for tuning and for reports. */
import { addFix, addHeading, addSpeed, advance } from "../../src/watch/kernel.js";
import { watchLimits } from "../../src/watch/limits.js";
import { Bit, MODES, Slot as m } from "../../src/watch/memory.js";
import type { Memory } from "../../src/watch/reach.js";
import { startWatch } from "../../src/watch/startwatch.js";
import { WINDOWS } from "../../src/watch/tables.js";
import { tell } from "../../src/watch/tell.js";
import { planeAt } from "../../src/geo/plane.js";
import { GEAR, type Night } from "./night.js";

export const START_MS = Date.UTC(2026, 0, 1);

/** Soundings need no place. */
const PLANE = planeAt({ latDeg: 0, lonDeg: 0 });

/** Knowledge the watch is given. */
export interface Given {
  anchor: boolean;
  heading?: boolean;
  doppler?: boolean;
  /** Silence after which the watch is blind, and after which it rings for that alone. */
  silentS?: number;
  ringSilentS?: number;
  /** By how much what is told is more than what is: rode, antenna abaft the bow, depth of water, m; heading, degrees. */
  rodeOffM?: number;
  antennaOffM?: number;
  depthOffM?: number;
  headingOffDeg?: number;
  /** Spread told of the rode; the library's own if left out. */
  rodeSigmaM?: number;
  /** Part of the spread that the receiver states of what it stated. */
  statedPart?: number;
  /** Usual time between fixes, s, where it is not that of the night. */
  everyS?: number;
  /** Whether soundings are told. */
  depth?: boolean;
}

const statedBy = (night: Night, given: Given): number =>
  night.statedSigmaM * (given.statedPart ?? 1);

/** A watch told what a skipper would know before that night. */
export function watchFor(night: Night, given: Given): Memory {
  const stepMs = night.stepS * 1000;
  const hourly: number[] = [];
  for (let i = 0; i < night.steps; i += 1800 / night.stepS) hourly.push(i);
  const limits = watchLimits({
    stay: {
      timeMs: hourly.map((i) => START_MS + i * stepMs),
      depthM: hourly.map((i) => night.depthM[i]! + (given.depthOffM ?? 0)),
    },
    rode: {
      lengthM: GEAR.rodeM + (given.rodeOffM ?? 0),
      ...(given.rodeSigmaM === undefined ? {} : { sigmaM: given.rodeSigmaM }),
    },
    bowHeightM: GEAR.bowHeightM,
    antenna: { abaftBowM: GEAR.abaftBowM + (given.antennaOffM ?? 0) },
  });
  const near = { latDeg: 0, lonDeg: 0 };
  const setSigma = Math.sqrt(statedBy(night, given) ** 2 + 1.5 ** 2);
  const state = startWatch({
    startMs: START_MS,
    anchor: given.anchor
      ? { known: true, position: near, sigmaM: setSigma }
      : { known: false, near },
    limits,
    ...(given.silentS === undefined ? {} : { silentS: given.silentS }),
    ...(given.everyS === undefined ? {} : { fixEveryS: given.everyS }),
    ...(given.ringSilentS === undefined ? {} : { ringSilentS: given.ringSilentS }),
  });
  return {
    open: [...state.open],
    ring: [...state.ring],
    limits: state.limits,
  };
}

/** Evidence over a night. */
export interface Trace {
  /** First step at which each alarm stood, or -1. */
  alarmStep: number;
  /** At each step, excess over its spread of the newest fix; NaN where none was taken. */
  fix: Float32Array;
  /** At each step, per window, excess over its spread. */
  windows: Float32Array[];
  /** Excess of each fix as received, m: what a plain rule sees. */
  excess: Float32Array;
  /** Whether the watch said it could not tell, or was blind. */
  cannotTell: Uint8Array;
  blind: Uint8Array;
  /** Whether the blind alarm has rung for the silence that lasts; it is acknowledged at once. */
  rang: Uint8Array;
  /** Whether it said that she lies. */
  lying: Uint8Array;
  /** Whether it said that the water shoals beyond what the tide explains, and that she is uneasy, no drag. */
  shoal: boolean;
  uneasy: Uint8Array;
}

export function traceNight(night: Night, given: Given): Trace {
  const mem = watchFor(night, given);
  const { open } = mem;
  const column = () => new Float32Array(night.steps).fill(NaN);
  const out: Trace = {
    alarmStep: -1,
    fix: column(),
    windows: WINDOWS.map(column),
    excess: column(),
    cannotTell: new Uint8Array(night.steps),
    blind: new Uint8Array(night.steps),
    rang: new Uint8Array(night.steps),
    lying: new Uint8Array(night.steps),
    shoal: false,
    uneasy: new Uint8Array(night.steps),
  };
  const sigma = statedBy(night, given);
  const sx = given.anchor ? night.setX : 0;
  const sy = given.anchor ? night.setY : 0;
  for (let i = 0; i < night.steps; i++) {
    const t = START_MS + i * night.stepS * 1000;
    if (given.heading === true) {
      if (i % 2 === 0) addHeading(open, night.headingDeg[i]! + (given.headingOffDeg ?? 0));
      open[m.WIND_MPS] = night.windMps[i]!;
      open[m.WIND_FROM] = night.windFromDeg[i]!;
      open[m.WIND_T] = t;
    }
    if (given.depth === true)
      tell(mem, PLANE, { kind: "depth", timeMs: t, depthM: night.depthM[i]! });
    const x = night.x[i]! - sx;
    const y = night.y[i]! - sy;
    if (x === x) {
      if (given.doppler === true) addSpeed(open, t, x, y, night.sogMps[i]!, night.cogDeg[i]!);
      const before = open[m.FIXES]!;
      addFix(mem, 0, t, x, y, x, y, sigma);
      const dx = x - open[m.ANCHOR_X]!;
      const dy = y - open[m.ANCHOR_Y]!;
      out.excess[i] = Math.sqrt(dx * dx + dy * dy) - open[m.REACH]!;
      if (open[m.FIXES]! > before) out.fix[i] = (out.excess[i]! - open[m.BASE]!) / open[m.FAST]!;
    } else advance(mem, t);
    for (let w = 0; w < WINDOWS.length; w++) {
      const at = m.WINDOW + 3 * w;
      if (open[at + 2]! >= 1) out.windows[w]![i] = open[at + 1]!;
    }
    const mode = MODES[open[m.MODE]!];
    if (mode === "cannotTell") out.cannotTell[i] = 1;
    if (mode === "blind") out.blind[i] = 1;
    if ((open[m.LATCHED]! & Bit.BLIND) !== 0) {
      out.rang[i] = 1;
      open[m.ACKNOWLEDGED]! |= Bit.BLIND;
    }
    if (mode === "lying") out.lying[i] = 1;
    if (mode === "uneasy") out.uneasy[i] = 1;
    if ((open[m.LATCHED]! & Bit.SHOAL) !== 0) out.shoal = true;
    if (out.alarmStep < 0 && (open[m.LATCHED]! & Bit.DRAG) !== 0) out.alarmStep = i;
  }
  return out;
}

/** First step at which a rule "beyond `margin` without a break for `forS`" rings, on raw fixes; -1 for never. */
export function persistence(
  excess: Float32Array,
  margin: number,
  forS: number,
  stepS: number,
): number {
  let since = -1;
  for (let i = 0; i < excess.length; i++) {
    const e = excess[i]!;
    if (e !== e) continue;
    if (!(e > margin)) since = -1;
    else if (since < 0) since = i;
    if (since >= 0 && (i - since) * stepS >= forS) return i;
  }
  return -1;
}
