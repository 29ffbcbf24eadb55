import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { ANCHOR_TYPES } from "../../src/core/anchorTypes.js";
import { BED_FIGURES, bedNames, PROTECTED } from "../../src/holding/beds.js";
import { holding } from "../../src/holding/holding.js";
import { holdingByMass, holdingWithChain, smallHoldingN } from "../../src/holding/kernel.js";
import { ratingOf } from "../../src/holding/ratings.js";
import {
  ANCHORS,
  EXPONENTS,
  NAVAL_SPREAD,
  UPLIFT,
  UPLIFT_SPREAD,
} from "../../src/holding/tables.js";

// Every anchor on every bed at several masses and pulls, reckoned once more from the tables by the rule as it is
// written down (UFC 4-159-03, Eq. 26, and the bed and uplift lists), one end of a spread at a time.

type End = "low" | "likely" | "high";
const ENDS: End[] = ["low", "likely", "high"];
const G = 9.80665;

/** Share left at a pull angle, by walking the curve. */
function shareAt(angleDeg: number): number {
  const angle = angleDeg < 0 ? 0 : angleDeg;
  for (let i = 1; i < UPLIFT.length; i++) {
    const [a, b] = [UPLIFT[i - 1]!, UPLIFT[i]!];
    if (angle <= b.pullAngleDeg)
      return (
        a.share +
        ((b.share - a.share) * (angle - a.pullAngleDeg)) / (b.pullAngleDeg - a.pullAngleDeg)
      );
  }
  return UPLIFT.at(-1)!.share;
}

const upliftEnd = (angleDeg: number, end: End): number => {
  const likely = shareAt(angleDeg);
  if (angleDeg <= 0 || end === "likely") return likely;
  return end === "low" ? Math.max(likely - UPLIFT_SPREAD, 0) : Math.min(likely + UPLIFT_SPREAD, 1);
};

/** One end of the holding; null where the bed has no figure. */
function reckoned(
  type: (typeof ANCHOR_TYPES)[number],
  massKg: number,
  bed: (typeof bedNames)[number],
  angleDeg: number,
  end: End,
): number | null {
  const { relative, soil } = BED_FIGURES[bed];
  if (relative === null) return null;
  const { sandRatio, naval } = ANCHORS[type];
  const exponents = EXPONENTS[soil === "soft" ? "soft" : "hard"];
  const grown = (["low", "high"] as const).map((e) => (massKg / 15) ** exponents[e]);
  const growth =
    end === "likely"
      ? (massKg / 15) ** exponents.likely
      : end === "low"
        ? Math.min(...grown)
        : Math.max(...grown);
  const all = [sandRatio[end] * relative[end] * growth * G * 15];
  const curve = soil === null ? undefined : naval[soil];
  if (curve !== undefined) {
    const likely = curve.referenceN * (massKg / 4536) ** curve.exponent;
    all.push(
      end === "low" ? likely / NAVAL_SPREAD : end === "high" ? likely * NAVAL_SPREAD : likely,
    );
  }
  if (end === "low" && ratingOf(type, bed) <= 1) return 0;
  return (end === "high" ? Math.max(...all) : Math.min(...all)) * upliftEnd(angleDeg, end);
}

const close = (got: number, want: number, what: string) => {
  expect(Math.abs(got - want), what).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(want)));
};

describe("holding of every anchor on every bed", () => {
  test.each(ANCHOR_TYPES.map((t) => [t]))("%s", (type) => {
    for (const bed of bedNames)
      for (const [massKg, pullAngleDeg] of [
        [8, 0],
        [15, -5],
        [40, 3],
        [40, 12],
        [25, 25],
        [25, 60],
      ] as const) {
        const h = holding({ anchor: { type, massKg }, seabed: bed, pullAngleDeg });
        const what = `${type} ${massKg} kg on ${bed} at ${pullAngleDeg}`;
        for (const end of ENDS) {
          const want = reckoned(type, massKg, bed, pullAngleDeg, end);
          if (want === null) expect(h.ultimateN, what).toBeNull();
          else close(h.ultimateN![end], want, what);
          close(h.upliftShare[end], upliftEnd(pullAngleDeg, end), what);
        }
        const { relative, soil, cohesive, from } = BED_FIGURES[bed];
        const a = ANCHORS[type];
        expect(h.noFigure).toBe(relative === null ? from : null);
        expect(h.bed).toBe(bed);
        expect(h.rating).toBe(ratingOf(type, bed));
        expect(h.figures).toHaveLength(
          relative === null ? 0 : soil !== null && a.naval[soil] !== undefined ? 2 : 1,
        );
        expect(h.basis).toHaveLength(
          h.figures.length + (h.figures.length > 0 ? 2 : 0) + (pullAngleDeg > 0 ? 1 : 0),
        );
        const told = new Set(h.cautions);
        expect(told.size).toBe(h.cautions.length);
        for (const [caution, applies] of [
          ["setUnproven", true],
          ["bedUncertain", false],
          ["mayNotSet", ratingOf(type, bed) < 2],
          ["bedProtected", PROTECTED.has(bed)],
          ["hooksOnly", ["rock", "stones, cobbles, boulders"].includes(bed)],
          ["pullLifts", pullAngleDeg > 0],
          ["mayNotResetAfterVeer", a.mayNotReset],
          ["mayCapsizeOnHardGround", a.mayCapsize && (soil === "hard" || relative === null)],
          ["clingsToMud", a.clingsToMud && cohesive],
        ] as const)
          expect(told.has(caution), `${caution} ${what}`).toBe(applies);
      }
  });
});

describe("what is known of the set and the bed", () => {
  const plough = { type: "fixedPlough", massKg: 20 } as const;

  test("a pull that was stood is the least, and no more than the least", () => {
    const before = holding({ anchor: plough, seabed: "sand, firm" }).ultimateN!;
    for (const provedN of [1, 2500, 1e5]) {
      const h = holding({ anchor: plough, seabed: "sand, firm", set: { provedN } });
      for (const end of ENDS) expect(h.ultimateN![end]).toBe(Math.max(before[end], provedN));
      expect(h.cautions).not.toContain("setUnproven");
    }
  });

  test("of a lifted pull the share that is left was stood", () => {
    const lifted = { anchor: plough, seabed: "sand, firm", pullAngleDeg: 8 } as const;
    const before = holding(lifted);
    const h = holding({ ...lifted, set: { provedN: 1e5 } });
    for (const end of ENDS) close(h.ultimateN![end], 1e5 * before.upliftShare[end], end);
  });

  test("a set does not make a figure where there is none", () => {
    expect(
      holding({ anchor: plough, seabed: "rock", set: { provedN: 5000 } }).ultimateN,
    ).toBeNull();
  });

  test("of several beds the worst counts, in any order", () => {
    for (const beds of [
      ["sand, firm", "mud, soft", "clay"],
      ["mud, soft", "sand, firm", "clay"],
      ["clay", "sand, firm", "mud, soft"],
    ] as const) {
      const h = holding({ anchor: plough, seabed: [...beds] });
      expect(h.bed).toBe("mud, soft");
      expect(h.ultimateN).toEqual(holding({ anchor: plough, seabed: "mud, soft" }).ultimateN);
      expect(h.cautions[0]).toBe("bedUncertain");
      expect(h.rating).toBe(Math.min(...beds.map((b) => ratingOf("fixedPlough", b))));
    }
    for (const beds of [
      ["sand, firm", "rock"],
      ["rock", "sand, firm"],
    ] as const) {
      const h = holding({ anchor: plough, seabed: [...beds] });
      expect(h.bed).toBe("rock");
      expect(h.ultimateN).toBeNull();
    }
    expect(holding({ anchor: plough, seabed: ["rock", "kelp"] }).bed).toBe("rock");
    expect(holding({ anchor: plough, seabed: ["clay", "clay, soft to firm"] }).bed).toBe("clay");
    expect(holding({ anchor: plough, seabed: ["clay"] }).cautions).not.toContain("bedUncertain");
  });

  test("an uplift curve of one's own starts at 0 and ascends; beyond it nothing is left", () => {
    const own = (uplift: { pullAngleDeg: number; share: number }[], pullAngleDeg = 15) =>
      holding({ anchor: plough, seabed: "sand, firm", pullAngleDeg, uplift });
    const rising = [
      { pullAngleDeg: 0, share: 0.9 },
      { pullAngleDeg: 10, share: 0.5 },
      { pullAngleDeg: 20, share: 0.3 },
    ];
    close(own(rising).upliftShare.likely, 0.4, "between");
    close(own(rising, 20).upliftShare.likely, 0.3, "at the end");
    close(own(rising, 20.01).upliftShare.likely, 0, "beyond");
    close(own(rising, 90).ultimateN!.low, 0, "far beyond");
    close(own(rising, 0).upliftShare.low, 0.9, "level");
    for (const bad of [
      rising.slice(0, 1),
      rising.slice(1),
      [rising[0]!, rising[2]!, rising[1]!],
      [rising[0]!, rising[1]!, rising[1]!],
      [rising[1]!, rising[0]!, rising[2]!],
    ])
      expect(() => own(bad)).toThrow(InputError);
  });

  test("the bounds of the input", () => {
    const ask = (massKg: number, pullAngleDeg: number) => () =>
      holding({ anchor: { type: "fixedPlough", massKg }, seabed: "sand, firm", pullAngleDeg });
    for (const [m, a] of [
      [5000, 90],
      [1, -90],
    ] as const)
      expect(ask(m, a)).not.toThrow();
    for (const [m, a] of [
      [5001, 0],
      [0, 0],
      [10, 90.1],
      [10, -90.1],
    ] as const)
      expect(ask(m, a)).toThrow(InputError);
    expect(() => holding({ anchor: plough, seabed: [] })).toThrow(InputError);
  });
});

test("the kernels", () => {
  close(holdingByMass(100_000, 4536 * 8, 2 / 3), 400_000, "eight times the mass");
  close(holdingByMass(7, 20, 1, 10), 14, "linear");
  close(smallHoldingN(10, 30, 1), 10 * G * 30, "twice the test mass");
  close(holdingWithChain(20, 3, 2.5, 8, 1.5), 90, "anchor and chain");
});
