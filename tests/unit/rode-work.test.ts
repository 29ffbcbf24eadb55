/**
 * Energy, length and strength by ways of their own: the cable equations integrated step by step, and
 * the work of a rising load held against the energy that the rode then holds.
 */
import { describe, expect, test } from "vitest";
import {
  rodeForLoad,
  surgeCapacity,
  weakestLink,
  type LayRodeInput,
  type Segment,
} from "../../src/rode/index.js";
import { randomNumbers } from "../rodeRandom.js";
import { byIntegration } from "./rodeReference.js";

const RAD = Math.PI / 180;

/** Chain at the anchor, rope above it, some with a snubber, a sentinel, on sloping beds; no friction. */
function rodesAtRandom(count: number, seed: number): LayRodeInput[] {
  const random = randomNumbers(seed);
  const even = (a: number, b: number) => a + (b - a) * random();
  const chain = (lengthM: number): Segment => ({
    kind: "chain",
    lengthM,
    weightInWaterNPerM: even(8, 30),
    axialStiffnessN: even(3e6, 2e7),
  });
  const rope = (lengthM: number): Segment => ({
    kind: "rope",
    lengthM,
    weightInWaterNPerM: even(0.05, 0.4),
    axialStiffnessN: even(4e4, 3e5),
  });
  return Array.from({ length: count }, (_, k) => {
    const segments = [chain(even(10, 40)), ...(k % 3 > 0 ? [rope(even(8, 40))] : [])];
    if (k % 4 === 0) segments.push(rope(8));
    const lengthM = segments.reduce((sum, s) => sum + s.lengthM, 0);
    const seabedSlopeDeg = k % 2 === 0 ? 0 : even(-6, 6);
    return {
      segments,
      weights:
        k % 5 === 0
          ? [{ fromAnchorM: even(0.2, 0.8) * lengthM, weightInWaterN: even(40, 200) }]
          : [],
      seabedSlopeDeg,
      bowHeightAboveAnchorM:
        lengthM * (even(0.1, 0.4) + Math.max(0, Math.sin(seabedSlopeDeg * RAD))),
      // Light loads leave rope on the bottom.
      horizontalLoadN: Math.exp(even(Math.log(k % 6 === 1 ? 2 : 60), Math.log(800))),
    };
  });
}

/** Stretch and height of the whole rode, as energy: integrated from the anchor up, with the load that hangs on each point. */
function heldEnergy(rode: LayRodeInput): number {
  const h = rode.horizontalLoadN;
  const slope = (rode.seabedSlopeDeg ?? 0) * RAD;
  const { bowVerticalN, onBottomM } = byIntegration(rode);
  const weights = rode.weights ?? [];
  let length = 0;
  const parts = rode.segments.map((s) => ({ s, from: length, to: (length += s.lengthM) }));
  const cuts = [0, onBottomM, ...parts.map((p) => p.to), ...weights.map((w) => w.fromAnchorM)];
  const ends = [...new Set(cuts)].sort((a, b) => a - b);
  let [energy, z] = [0, 0];
  for (const [k, from] of ends.slice(0, -1).entries()) {
    const to = ends[k + 1]!;
    const middle = (from + to) / 2;
    const { axialStiffnessN, weightInWaterNPerM } = parts.find((p) => p.to > middle)!.s;
    for (const w of weights) if (w.fromAnchorM === from) energy += w.weightInWaterN * z;
    let above = 0;
    for (const w of weights) if (w.fromAnchorM > middle) above += w.weightInWaterN;
    for (const p of parts)
      above += p.s.weightInWaterNPerM * Math.max(0, p.to - Math.max(p.from, to));
    const rate = (m: number, height: number): [number, number] => {
      const v = bowVerticalN - above - weightInWaterNPerM * (to - m);
      const lies = middle < onBottomM;
      const eased = Math.sin(slope) * (h * Math.tan(slope) - v);
      const tension = lies ? h / Math.cos(slope) - eased : Math.sqrt(h * h + v * v);
      const strain = tension / axialStiffnessN;
      const up = lies ? Math.sin(slope) : v / tension;
      return [up * (1 + strain), 0.5 * tension * strain + weightInWaterNPerM * height];
    };
    const steps = 1000;
    const ds = (to - from) / steps;
    for (let i = 0; i < steps; i++) {
      const m = from + i * ds;
      const k1 = rate(m, z);
      const k2 = rate(m + ds / 2, z + (ds / 2) * k1[0]);
      const k3 = rate(m + ds / 2, z + (ds / 2) * k2[0]);
      const k4 = rate(m + ds, z + ds * k3[0]);
      energy += (ds / 6) * (k1[1] + 2 * k2[1] + 2 * k3[1] + k4[1]);
      z += (ds / 6) * (k1[0] + 2 * k2[0] + 2 * k3[0] + k4[0]);
    }
  }
  // The integration has come to the bow: nothing was left out.
  expect(Math.abs(z - rode.bowHeightAboveAnchorM)).toBeLessThan(1e-6);
  return energy;
}

const within = (got: number, want: number, share: number, what: string) => {
  if (!(Math.abs(got - want) <= share * Math.abs(want)))
    expect.fail(`${what}: ${got}, expected ${want}`);
};

describe("what a rising load does is what the rode then holds", () => {
  test.each(rodesAtRandom(30, 11).map((rode, k) => [k, rode] as const))("rode %i", (k, rode) => {
    const { horizontalLoadN: loadFromN, ...rest } = rode;
    const loadToN = loadFromN * (2 + (k % 7));
    const { toLoad } = surgeCapacity({ ...rest, loadFromN, loadToN });
    const end = { ...rest, horizontalLoadN: loadToN };
    within(toLoad!.energyJ, heldEnergy(end) - heldEnergy(rode), 2e-6, "energy");
    const gained = byIntegration(end).reachM - byIntegration(rode).reachM;
    within(toLoad!.reachGainM, gained, 1e-6, "reach gained");
  });
});

describe("at the peak of a surge the rode holds what the vessel brought", () => {
  test.each(rodesAtRandom(24, 12).map((rode, k) => [k, rode] as const))("rode %i", (k, rode) => {
    const { horizontalLoadN: loadFromN, ...rest } = rode;
    const surge = {
      vesselMassKg: 3000 + 700 * k,
      speedMps: 0.2 + 0.03 * k,
      gustLoadN: loadFromN * (1 + (k % 3) / 4),
    };
    const { peak } = surgeCapacity({ ...rest, loadFromN, surge });
    const end = { ...rest, horizontalLoadN: peak!.loadN };
    const gained = byIntegration(end).reachM - byIntegration(rode).reachM;
    const brought =
      0.5 * surge.vesselMassKg * surge.speedMps * surge.speedMps + surge.gustLoadN * gained;
    within(heldEnergy(end) - heldEnergy(rode), brought, 1e-5, "energy");
  });
});

/** The first `lengthM` of a rode from the anchor, its last segment before `whole` as long as it takes. */
function veered(rode: LayRodeInput, lengthM: number, whole: number): LayRodeInput {
  const kept = whole > 0 ? rode.segments.slice(-whole) : [];
  const cut = rode.segments.slice(0, rode.segments.length - whole);
  let left = lengthM - kept.reduce((sum, s) => sum + s.lengthM, 0);
  const out = cut.flatMap((s, k) => {
    const l = k === cut.length - 1 ? left : Math.min(left, s.lengthM);
    left -= l;
    return l > 0 ? [{ ...s, lengthM: l }] : [];
  });
  return { ...rode, segments: [...out, ...kept] };
}

describe("the length for a load and an angle of pull", () => {
  const rodes = rodesAtRandom(32, 13).map((r, k) => ({
    ...r,
    weights: [],
    horizontalLoadN: 4 * r.horizontalLoadN,
    pullAngleLimitDeg: k % 4 === 0 ? 0 : 2 * (k % 5),
    wholeAtBow: k % 4 === 0 ? 1 : 0,
  }));
  test.each(rodes.map((rode, k) => [k, rode] as const))("rode %i", (_, asked) => {
    const { pullAngleLimitDeg, wholeAtBow, ...rode } = asked;
    const { lengthM } = rodeForLoad(asked);
    /** Pull at the anchor above the bed, by integration; below 0 where rode lies on it. */
    const angleOf = (length: number): number => {
      const laid = veered(rode, length, wholeAtBow);
      const { bowVerticalN, onBottomM } = byIntegration(laid);
      const weight = laid.segments.reduce((sum, s) => sum + s.lengthM * s.weightInWaterNPerM, 0);
      if (onBottomM > 1e-6) return -onBottomM;
      const lead = Math.atan2(bowVerticalN - weight, rode.horizontalLoadN) / RAD;
      return lead - (rode.seabedSlopeDeg ?? 0);
    };
    expect(angleOf(lengthM * (1 + 1e-6))).toBeLessThan(pullAngleLimitDeg + 1e-4);
    expect(Math.abs(angleOf(lengthM) - pullAngleLimitDeg)).toBeLessThan(1e-4);
    expect(angleOf(lengthM * 0.98)).toBeGreaterThan(pullAngleLimitDeg);
  });
});

describe("the weakest link", () => {
  // UFC 4-159-03, Table 3-7: chain 3, round a bend 4; synthetic line 3; wet polyamide 15 % off.
  test.each([
    ["chain", "chain", 40_000, undefined, undefined, 40_000, 10_000],
    ["wet polyamide", "polyamide", 24_000, undefined, undefined, 20_400, 6800],
    ["polyester", "rope", 24_000, undefined, undefined, 24_000, 8000],
    ["a shackle", "fitting", 60_000, undefined, undefined, 60_000, 15_000],
    ["worn chain led straight", "chain", 40_000, 0.9, 3, 36_000, 12_000],
    ["old polyamide, knotted", "polyamide", 24_000, 0.25, undefined, 5100, 1700],
  ] as const)("%s", (name, kind, breakingN, conditionShare, factor, breaks, works) => {
    const strong = { name: "strong", kind: "chain", breakingN: 1e6 } as const;
    const part = { name, kind, breakingN, conditionShare, factor };
    const { weakest, breaksFirst, useOfWorking, useOfBreaking } = weakestLink({
      parts: [strong, part, strong],
      tensionN: 5000,
    });
    expect([weakest.name, breaksFirst.name]).toEqual([name, name]);
    expect(weakest.breakingN).toBeCloseTo(breaks, 6);
    expect(weakest.workingN).toBeCloseTo(works, 6);
    expect(useOfWorking).toBeCloseTo(5000 / works, 9);
    expect(useOfBreaking).toBeCloseTo(5000 / breaks, 9);
  });
});
