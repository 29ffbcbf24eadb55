import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  layRode,
  loadAtReach,
  rodeForLoad,
  rodeProfile,
  surgeCapacity,
  weakestLink,
  type LayRodeInput,
  type Segment,
} from "../../src/rode/index.js";
import {
  BOW_TENSION,
  BOW_VERTICAL,
  COLUMNS,
  HEIGHT,
  LIFTED_SHARE,
  LOAD,
  ON_BOTTOM,
  REACH,
  REACH_BY_LOAD,
  FLOATED,
} from "../../src/rode/kernel.js";
import { prepareRode } from "../../src/rode/prepare.js";
import { solveReach } from "../../src/rode/reach.js";
import { solveForward } from "../../src/rode/solve.js";
import { randomNumbers, randomRode } from "../rodeRandom.js";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const segment: fc.Arbitrary<Segment> = fc.oneof(
  fc.record({
    kind: fc.constant("chain" as const),
    lengthM: between(2, 80),
    weightInWaterNPerM: between(6, 60),
    axialStiffnessN: between(3e6, 2e7),
  }),
  fc.record({
    kind: fc.constant("rope" as const),
    lengthM: between(2, 80),
    weightInWaterNPerM: between(0.01, 1.5),
    axialStiffnessN: between(4e4, 5e5),
  }),
);
/** A rode long enough to reach the bed, any make, level or sloping bed that does not rise to the bow. */
const rode: fc.Arbitrary<LayRodeInput> = fc
  .record({
    segments: fc.array(segment, { minLength: 1, maxLength: 4 }),
    part: between(0.05, 0.8),
    load: between(0, 1),
    slope: fc.oneof(fc.constant(0), between(-10, 10)),
    friction: fc.oneof(fc.constant(0), between(0, 1.5)),
    weight: fc.option(fc.tuple(between(0.05, 0.95), between(5, 300))),
  })
  .map(({ segments, part, load, slope, friction, weight }) => {
    const lengthM = segments.reduce((sum, s) => sum + s.lengthM, 0);
    return {
      segments,
      bowHeightAboveAnchorM: lengthM * (part + Math.max(0, Math.sin((slope * Math.PI) / 180))),
      horizontalLoadN: 2 * Math.exp(load * Math.log(10_000)),
      seabedSlopeDeg: slope,
      bedFriction: friction,
      weights:
        weight === null ? [] : [{ fromAnchorM: weight[0] * lengthM, weightInWaterN: weight[1] }],
    };
  });
const frictionless = rode.map((r) => ({ ...r, bedFriction: 0 }));
const level = frictionless.map((r) => ({ ...r, seabedSlopeDeg: 0 }));

const holds = <T>(arb: fc.Arbitrary<T>, law: (value: T) => void) => {
  fc.assert(fc.property(arb, law), { numRuns: 300, seed: 41 });
};
const close = (a: number, b: number, share = 1e-9) => {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(share * (1 + Math.abs(a) + Math.abs(b)));
};

describe("forces balance", () => {
  test("vertical load at the bow is the weight off the bottom and what the anchor and the bed give", () => {
    holds(level, (r) => {
      const lie = layRode(r);
      let weight = 0;
      let at = 0;
      for (const s of r.segments) {
        const up = Math.max(0, at + s.lengthM - Math.max(at, lie.lengthOnBottomM));
        weight += s.weightInWaterNPerM * up;
        at += s.lengthM;
      }
      for (const w of r.weights ?? []) {
        if (lie.weightLiftedShare !== null) weight += w.weightInWaterN * lie.weightLiftedShare;
        else if (w.fromAnchorM > lie.lengthOnBottomM) weight += w.weightInWaterN;
      }
      const anchorUp = lie.anchorTensionN * Math.sin((lie.pullAngleDeg * Math.PI) / 180);
      close(lie.bowVerticalN, weight + anchorUp, 1e-8);
    });
  });
  test("tension is load and vertical load together", () => {
    holds(rode, (r) => {
      const lie = layRode(r);
      close(lie.bowTensionN, Math.hypot(lie.horizontalLoadN, lie.bowVerticalN));
      close(
        Math.tan((lie.bowAngleDeg * Math.PI) / 180) * lie.horizontalLoadN,
        lie.bowVerticalN,
        1e-8,
      );
    });
  });
  test("without friction on a level bed the anchor feels the whole load", () => {
    holds(level, (r) => {
      close(layRode(r).anchorHorizontalN, r.horizontalLoadN);
    });
  });
});

describe("what grows with what", () => {
  test("more load: further out, more tension, less on the bottom", () => {
    holds(fc.tuple(rode, between(1.0001, 3)), ([r, more]) => {
      const a = layRode(r);
      const b = layRode({ ...r, horizontalLoadN: r.horizontalLoadN * more });
      const less = 1e-9 * a.lengthM;
      expect(b.horizontalReachM).toBeGreaterThanOrEqual(a.horizontalReachM - less);
      expect(b.lengthOnBottomM).toBeLessThanOrEqual(a.lengthOnBottomM + less);
      expect(b.anchorTensionN).toBeGreaterThanOrEqual(a.anchorTensionN * (1 - 1e-9));
    });
  });
  test("more rode: further out, no steeper at the anchor", () => {
    holds(fc.tuple(level, between(0.1, 30)), ([r, more]) => {
      const a = layRode(r);
      const last = r.segments.at(-1)!;
      const segments = [...r.segments.slice(0, -1), { ...last, lengthM: last.lengthM + more }];
      const b = layRode({ ...r, segments });
      expect(b.horizontalReachM).toBeGreaterThan(a.horizontalReachM);
      expect(b.pullAngleDeg).toBeLessThanOrEqual(a.pullAngleDeg + 1e-7);
    });
  });
  test("a pull that leads along the bed asks for more rode the stronger it is", () => {
    holds(fc.tuple(level, between(1.01, 3)), ([r, more]) => {
      const plain = { ...r, weights: [] };
      const a = rodeForLoad(plain);
      const b = rodeForLoad({
        ...plain,
        horizontalLoadN: r.horizontalLoadN * more,
      });
      expect(b.lengthM).toBeGreaterThan(a.lengthM);
    });
  });
});

describe("there and back", () => {
  test("the load of a reach has that reach", () => {
    holds(rode, (r) => {
      const lie = layRode(r);
      const back = loadAtReach({
        segments: r.segments,
        bowHeightAboveAnchorM: r.bowHeightAboveAnchorM,
        seabedSlopeDeg: r.seabedSlopeDeg,
        bedFriction: r.bedFriction,
        weights: r.weights,
        horizontalReachM: lie.horizontalReachM,
      });
      expect(Math.abs(back.horizontalReachM - lie.horizontalReachM)).toBeLessThanOrEqual(1e-8);
      // The load is as sure as the stiffness lets it be.
      const sure = 1e-8 * (lie.stiffnessNPerM ?? 1) + 1e-9 * r.horizontalLoadN;
      expect(Math.abs(back.horizontalLoadN - r.horizontalLoadN)).toBeLessThanOrEqual(sure);
    });
  });
  test("the rode for a load leads along the bed, and a shorter one does not", () => {
    holds(fc.tuple(frictionless, between(0, 8)), ([r, limit]) => {
      const asked = { ...r, weights: [], pullAngleLimitDeg: limit };
      const veer = rodeForLoad(asked);
      expect(veer.pullAngleFromBedDeg).toBeLessThanOrEqual(limit + 1e-7);
      if (veer.lengthM <= r.segments[0]!.lengthM) return;
      const shorter = rodeForLoad({ ...asked, pullAngleLimitDeg: limit + 1 });
      expect(shorter.lengthM).toBeLessThan(veer.lengthM);
    });
  });
  test("stiffness is the change of load with reach", () => {
    holds(rode, (r) => {
      const h = r.horizontalLoadN;
      const at = (load: number) => layRode({ ...r, horizontalLoadN: load });
      const step = 1e-4 * h;
      const [a, m, b] = [at(h - step), at(h), at(h + step)];
      const rate = (2 * step) / (b.horizontalReachM - a.horizontalReachM);
      // A branch between the two ends bends the curve; elsewhere they agree.
      if (a.state !== b.state || a.weightLiftedShare !== null) return;
      expect(Math.abs(m.stiffnessNPerM! / rate - 1)).toBeLessThan(2e-3);
    });
  });
});

describe("symmetry and scale", () => {
  test("a segment cut in two is the same segment", () => {
    holds(fc.tuple(rode, between(0.05, 0.95)), ([r, part]) => {
      const segments = r.segments.flatMap((s) => [
        { ...s, lengthM: s.lengthM * part },
        { ...s, lengthM: s.lengthM * (1 - part) },
      ]);
      const [a, b] = [layRode(r), layRode({ ...r, segments })];
      close(a.horizontalReachM, b.horizontalReachM);
      close(a.bowVerticalN, b.bowVerticalN, 1e-7);
      close(a.anchorTensionN, b.anchorTensionN, 1e-7);
      close(a.lengthOnBottomM, b.lengthOnBottomM, 1e-7);
    });
  });
  test("all forces times k: the same shape", () => {
    holds(fc.tuple(rode, between(0.2, 5)), ([r, k]) => {
      const scaled = {
        ...r,
        horizontalLoadN: r.horizontalLoadN * k,
        segments: r.segments.map((s) => ({
          ...s,
          weightInWaterNPerM: s.weightInWaterNPerM * k,
          axialStiffnessN: s.axialStiffnessN * k,
        })),
        weights: r.weights?.map((w) => ({
          ...w,
          weightInWaterN: w.weightInWaterN * k,
        })),
      };
      const [a, b] = [layRode(r), layRode(scaled)];
      close(a.horizontalReachM, b.horizontalReachM);
      close(a.bowVerticalN * k, b.bowVerticalN, 1e-7);
    });
  });
  test("all lengths and the load times k: the same shape, larger", () => {
    holds(fc.tuple(rode, between(0.2, 5)), ([r, k]) => {
      const scaled = {
        ...r,
        bowHeightAboveAnchorM: r.bowHeightAboveAnchorM * k,
        horizontalLoadN: r.horizontalLoadN * k,
        segments: r.segments.map((s) => ({
          ...s,
          lengthM: s.lengthM * k,
          axialStiffnessN: s.axialStiffnessN * k,
        })),
        weights: r.weights?.map((w) => ({
          fromAnchorM: w.fromAnchorM * k,
          weightInWaterN: w.weightInWaterN * k,
        })),
      };
      const [a, b] = [layRode(r), layRode(scaled)];
      close(a.horizontalReachM * k, b.horizontalReachM);
      close(a.pullAngleDeg, b.pullAngleDeg, 1e-6);
    });
  });
});

describe("no jump where one branch meets the next", () => {
  const out = new Float64Array(COLUMNS);
  test.each([
    [
      "chain",
      [
        {
          kind: "chain",
          lengthM: 30,
          weightInWaterNPerM: 12,
          axialStiffnessN: 5e6,
        },
      ],
      [],
    ],
    [
      "rope and chain, rope coming off the bottom last",
      [
        {
          kind: "rope",
          lengthM: 20,
          weightInWaterNPerM: 0.12,
          axialStiffnessN: 1e5,
        },
        {
          kind: "chain",
          lengthM: 15,
          weightInWaterNPerM: 12,
          axialStiffnessN: 5e6,
        },
        {
          kind: "rope",
          lengthM: 20,
          weightInWaterNPerM: 0.12,
          axialStiffnessN: 1e5,
        },
      ],
      [{ fromAnchorM: 30, weightInWaterN: 100 }],
    ],
  ] as const)("%s", (_, segments, weights) => {
    for (const seabedSlopeDeg of [-8, 0, 5]) {
      const p = prepareRode({ segments, weights, seabedSlopeDeg });
      const heightM = 7;
      const at = (logLoad: number) => {
        const state = solveForward(p, heightM, Math.exp(logLoad), out);
        return [state, out[REACH]!, out[BOW_VERTICAL]! / out[BOW_TENSION]!, out[ON_BOTTOM]!];
      };
      const far = (a: number[], b: number[]) =>
        Math.max(...a.map((v, i) => (i === 0 ? 0 : Math.abs(v - b[i]!))));
      let states = 0;
      for (let log = -3; log < 11; log += 0.05) {
        // Close in on wherever most of the change takes place: a jump would remain.
        let [low, high] = [log, log + 0.05];
        let [below, above] = [at(low), at(high)];
        if (below[0] !== above[0]) states++;
        for (let k = 0; k < 40; k++) {
          const mid = (low + high) / 2;
          const between = at(mid);
          if (far(below, between) > far(between, above)) [high, above] = [mid, between];
          else [low, below] = [mid, between];
        }
        expect(far(below, above)).toBeLessThan(1e-6);
      }
      expect(states).toBeGreaterThanOrEqual(1);
    }
  });
  test("slack meets grounded", () => {
    const segments = [
      {
        kind: "chain" as const,
        lengthM: 30,
        weightInWaterNPerM: 12,
        axialStiffnessN: 5e6,
      },
    ];
    const base = { segments, bowHeightAboveAnchorM: 6 };
    const { greatestSlackReachM } = layRode({ ...base, horizontalLoadN: 0 });
    const inside = loadAtReach({
      ...base,
      horizontalReachM: greatestSlackReachM!,
    });
    const outside = loadAtReach({
      ...base,
      horizontalReachM: greatestSlackReachM! + 1e-6,
    });
    expect(inside.state).toBe("slack");
    expect(outside.state).toBe("grounded");
    expect(outside.horizontalLoadN).toBeGreaterThan(0);
    expect(outside.horizontalLoadN).toBeLessThan(1e-4);
    close(outside.bowTensionN, inside.bowTensionN, 1e-5);
  });
});

describe("energy", () => {
  test("work adds up over parts of the rise, and is positive", () => {
    holds(fc.tuple(frictionless, between(1.1, 3), between(1.1, 3)), ([r, k1, k2]) => {
      const { horizontalLoadN: h, ...rest } = r;
      const work = (loadFromN: number, loadToN: number) =>
        surgeCapacity({ ...rest, loadFromN, loadToN }).toLoad!.energyJ;
      const [first, second, whole] = [
        work(h, h * k1),
        work(h * k1, h * k1 * k2),
        work(h, h * k1 * k2),
      ];
      expect(first).toBeGreaterThan(0);
      close(first + second, whole, 1e-6);
    });
  });
  test("at the peak the rode has taken the vessel's energy and the gust's work", () => {
    holds(fc.tuple(level, between(0.1, 1.5)), ([r, speedMps]) => {
      const { horizontalLoadN, ...rest } = r;
      const surge = {
        vesselMassKg: 9000,
        speedMps,
        gustLoadN: horizontalLoadN * 1.5,
      };
      const { peak } = surgeCapacity({
        ...rest,
        loadFromN: horizontalLoadN,
        surge,
      });
      const given = 0.5 * 9000 * speedMps ** 2 + surge.gustLoadN * peak!.reachGainM;
      close(peak!.energyJ, given, 1e-5);
      expect(peak!.loadN).toBeGreaterThan(surge.gustLoadN);
    });
  });
  test("a sudden gust on a rode that gives evenly doubles the rise", () => {
    // A level line without weight is a plain spring: textbook result for a load let go at once.
    const { peak } = surgeCapacity({
      segments: [
        {
          kind: "rope",
          lengthM: 20,
          weightInWaterNPerM: 1e-6,
          axialStiffnessN: 1e5,
        },
      ],
      bowHeightAboveAnchorM: 0,
      loadFromN: 1000,
      surge: { vesselMassKg: 9000, gustLoadN: 1500 },
    });
    close(peak!.loadN, 2000, 1e-6);
  });
});

describe("plain data", () => {
  const finite = (value: unknown): boolean =>
    typeof value === "number"
      ? Number.isFinite(value)
      : typeof value !== "object" || value === null || Object.values(value).every(finite);
  test("finite, the same twice, input untouched, unchanged by JSON", () => {
    holds(rode, (r) => {
      const before = JSON.stringify(r);
      const { horizontalLoadN, ...rest } = r;
      const all = () => [
        layRode(r),
        loadAtReach({
          ...rest,
          horizontalReachM: 0.9 * r.segments[0]!.lengthM,
        }),
        rodeForLoad({ ...r, weights: [] }),
        rodeProfile(r),
        surgeCapacity({
          ...rest,
          loadFromN: horizontalLoadN,
          loadToN: 2 * horizontalLoadN,
        }),
        weakestLink({
          parts: [{ name: "a", kind: "chain", breakingN: horizontalLoadN }],
        }),
      ];
      const results = all();
      expect(finite(results)).toBe(true);
      expect(all()).toEqual(results);
      expect(JSON.parse(JSON.stringify(results))).toEqual(results);
      expect(JSON.stringify(r)).toBe(before);
    });
  });
  test("the profile ends at the bow, starts at the anchor and never goes below the bed", () => {
    holds(rode, (r) => {
      const { points, lie } = rodeProfile(r);
      const tan = Math.tan(((r.seabedSlopeDeg ?? 0) * Math.PI) / 180);
      expect(points[0]).toEqual([0, 0]);
      expect(points.at(-1)).toEqual([lie.horizontalReachM, r.bowHeightAboveAnchorM]);
      let length = 0;
      for (const [i, [x, z]] of points.entries()) {
        expect(z - tan * x).toBeGreaterThanOrEqual(-1e-6);
        if (i > 0) length += Math.hypot(x - points[i - 1]![0], z - points[i - 1]![1]);
      }
      // Chords are a little shorter than the arc.
      expect(length).toBeLessThanOrEqual(lie.lengthM + lie.stretchM + 1e-6);
      expect(length).toBeGreaterThan((lie.lengthM + lie.stretchM) * 0.99);
    });
  });
});

describe("rodes at random", () => {
  test("20 000 rodes: every one laid, and found again from its reach", () => {
    const random = randomNumbers(2026);
    const out = new Float64Array(COLUMNS);
    let laid = 0;
    for (let k = 0; k < 20_000; k++) {
      const r = randomRode(random);
      const state = solveForward(r.prepared, r.heightM, r.loadN, out);
      const label = () => `rode ${k}: ${JSON.stringify({ ...r, prepared: undefined })}`;
      if (state < 0) {
        // Only what has no lie is refused: a bed that rises to the bow, a float that touches twice.
        const allowed =
          state === FLOATED ? r.weights.some((w) => w.weightInWaterN < 0) : r.seabedSlopeDeg > 0;
        expect(allowed, label()).toBe(true);
        continue;
      }
      laid++;
      for (let i = 0; i < REACH_BY_LOAD; i++)
        if (i !== LIFTED_SHARE && !Number.isFinite(out[i]!)) expect.fail(label());
      if (!(Math.abs(out[HEIGHT]! - r.heightM) <= 1e-9 * Math.max(1, r.heightM)))
        expect.fail(label());
      if (r.loadN === 0) continue;
      const reachM = out[REACH]!;
      solveReach(r.prepared, r.heightM, reachM, out);
      if (
        !(Math.abs(out[REACH]! - reachM) <= 1e-8) ||
        !(Math.abs(out[HEIGHT]! - r.heightM) <= 1e-8) ||
        !(out[LOAD]! >= 0)
      )
        expect.fail(label());
    }
    expect(laid).toBeGreaterThan(18_000);
  });
});
