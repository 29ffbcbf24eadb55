import { expect, test } from "vitest";
import type { CheckedStay } from "../../src/plan/input.js";
import { rodePlan } from "../../src/plan/veer.js";
import { chain, rodeForLoad, rope } from "../../src/rode/index.js";

test("the rode does for every moment, however many ask for nearly as much of chain alone", () => {
  const made = { ...chain(8), lengthM: 12 };
  const segments = [made, { ...rope("polyamide", 14), lengthM: 200 }];
  const rode = [
    { kind: "chain", diameterMm: 8, lengthM: 12 },
    { kind: "rope", fibre: "polyamide", diameterMm: 14, lengthM: 200 },
  ];
  const input = { tackle: { rode } } as unknown as CheckedStay;
  // Height and pull for which chain alone would have to be this long.
  const moment = (h: number, chainM: number) => ({
    h,
    pullN: ((chainM * chainM) / h - h) * (made.weightInWaterNPerM / 2),
  });
  for (const [many, one] of [
    [3, 9],
    [9, 3],
  ] as const) {
    const moments = [
      ...Array.from({ length: 6 }, (_, i) => moment(many, 40 + 0.01 * i)),
      moment(one, 39.9),
    ];
    const { forPullM, forPullN } = rodePlan(input, 1, 9, 9, {
      timeMs: moments.map((_, i) => i),
      heightM: moments.map((m) => m.h),
      pullN: moments.map((m) => m.pullN),
    });
    const asked = moments.map(({ h, pullN }) =>
      rodeForLoad({ segments, bowHeightAboveAnchorM: h, horizontalLoadN: pullN }),
    );
    const longest = asked.reduce((a, b) => (b.lengthM > a.lengthM ? b : a));
    expect(forPullM).toBeCloseTo(longest.lengthM, 8);
    expect(forPullN).toBe(longest.horizontalLoadN);
  }
});
