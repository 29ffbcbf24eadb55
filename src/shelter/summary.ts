import { toHours } from "../core/units.js";
import { sicknessDose, waveFollowingAccel } from "./comfort.js";
import type { Step } from "./run.js";
import type { RiskiestHour, Shelter } from "./shelterTypes.js";

/** A probability that is not known counts as certain. */
const atWorst = (p: number): number => (Number.isNaN(p) ? 1 : p);

/** The hour at which a berth is most in doubt: an unknown one first, then the likeliest to be untenable, then poor, then highest. */
export function riskiestOf(steps: readonly Step[]): RiskiestHour {
  const worse = (a: Step, b: Step): number =>
    atWorst(b.sea.untenable) - atWorst(a.sea.untenable) ||
    atWorst(b.sea.poor) - atWorst(a.sea.poor) ||
    b.sea.heightM - a.sea.heightM ||
    0;
  const worst = steps.reduce((a, b) => (worse(a, b) > 0 ? b : a));
  const { sea } = worst;
  const unknown = sea.comfort === "unknown";
  return {
    timeMs: worst.timeMs,
    comfort: sea.comfort,
    heightM: unknown ? null : sea.heightM,
    untenable: unknown ? null : sea.untenable,
    worstFromDeg: unknown ? null : sea.worstFromDeg,
  };
}

/** Periods at which vertical motion makes people ill, s: 0.1 to 0.315 Hz, ISO 2631-1. */
const SICK_FROM_S = 1 / 0.315;
const SICK_TO_S = 10;

/** The stay in a few figures. */
export function summaryOf(steps: readonly Step[], stepMs: number): Shelter["summary"] {
  const known = steps.filter((s) => s.sea.comfort !== "unknown");
  const most = (pick: (s: Step) => number): number =>
    Math.max(...steps.map((s) => atWorst(pick(s))));
  const sum = (pick: (s: Step) => number): number =>
    steps.reduce((total, s) => total + atWorst(pick(s)), 0);
  const heights = known.reduce((total, s) => total + s.sea.heightM, 0);
  return {
    untenable: most((s) => s.sea.untenable),
    poor: most((s) => s.sea.poor),
    meanPoor: sum((s) => s.sea.poor) / steps.length,
    meanHeightM: known.length > 0 ? heights / known.length : null,
    unknownHours: toHours((steps.length - known.length) * stepMs),
    sicknessShareMost: known.length < steps.length ? 1 : Math.min(1, doseOf(steps) / 300),
  };
}

/** Motion sickness dose of a stay, of a hull that follows every wave whose period makes people ill. */
function doseOf(steps: readonly Step[]): number {
  let square = 0;
  for (let i = 1; i < steps.length; i++) {
    const [before, after] = [steps[i - 1]!, steps[i]!];
    const seconds = (after.timeMs - before.timeMs) / 1000;
    const dose = sicknessDose(Math.max(accelOf(before), accelOf(after)), seconds);
    square += dose * dose;
  }
  return Math.sqrt(square);
}

/** Acceleration of the waves of a step that make people ill. */
function accelOf({ sea, swell }: Step): number {
  const parts = [
    [sea.windSeaM, sea.periodS],
    [swell.hm0M, swell.periodS],
  ] as const;
  let square = 0;
  for (const [hm0M, periodS] of parts)
    if (periodS >= SICK_FROM_S && periodS <= SICK_TO_S) {
      const accel = waveFollowingAccel(hm0M, periodS);
      square += accel * accel;
    }
  return Math.sqrt(square);
}
