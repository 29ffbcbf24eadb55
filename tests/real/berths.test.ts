import { describe, expect, test } from "vitest";
import { readChart } from "../../src/chart/index.js";
import { briefText, planStay } from "../../src/plan/index.js";
import { tideHeight } from "../../src/tide/index.js";
import { hasSharedData } from "../shared-data.js";
import { deepBay, shoalBay } from "./stays.js";

describe.skipIf(!hasSharedData)("two berths on real charts", () => {
  test("deep bay, 1:15 000: the figures hang together", () => {
    const input = deepBay();
    const plan = planStay(input);
    expect(plan.anchoring?.verdict).toBe("clear");
    expect(plan.unknown).toEqual([]);
    expect(plan.bed.words).toBe("mud");
    // Depth is the sounding plus the height of tide, asked for by itself.
    plan.moments.timeMs.forEach((t, i) => {
      const tide = tideHeight(input.tide!, t);
      if (!tide.known) throw new Error("the tide is known all night");
      expect(plan.moments.depthM[i]).toBeCloseTo(input.chartedDepthM! + tide.heightM, 6);
    });
    // By hand: 60 m of chain is just short of four times (13.9 + 1.2) m, the rope beyond it counts at six.
    const height = plan.rode.greatestHeightM;
    expect(height).toBeGreaterThan(15);
    expect(plan.rode.byRuleM).toBeCloseTo(60 + 6 * (height - 15), 6);
    // Chain of 22 N/m or so and 0.9 kN of pull need far less than the rule in this depth.
    expect(plan.rode.forPullM!).toBeLessThan(plan.rode.byRuleM);
    expect(briefText(plan)).toContain("The chart forbids nothing in the swing.");
  });
  test("shoal bay, 1:80 000: what the chart does not tell is said", () => {
    const plan = planStay(shoalBay());
    // No sample of the bed within 500 m: no judgement of the holding, so no verdict in its favour.
    expect(plan.unknown).toContain("unknown.seabed");
    expect(plan.verdict).toBe("cannotTell");
    expect(plan.holding).toBeNull();
    // The depth area's lower bound, not the sounding, less the error of zone C.
    expect(plan.limiting.depth.value!).toBeLessThan(5.4 + 0.05 - 1.9);
    const text = briefText(plan);
    expect(text).toContain("CANNOT TELL");
    expect(text).toContain("the bed is not known");
  });
  test("the same chart with a tide above another datum is refused", () => {
    const input = deepBay();
    input.tide = { ...input.tide!, datum: "LAT" };
    expect(() => planStay(input)).toThrow(
      /tide\.datum: the chart's depths are below Mean lower low water/,
    );
    input.tide.toDatum = { datum: "MLLW", addM: -1.3 };
    expect(planStay(input).depth?.known).toBe(true);
  });
  test("every feature of both extracts is accounted for", () => {
    for (const input of [deepBay(), shoalBay()]) {
      const { report } = readChart(input.chart!.layers as never, { soundingDatum: 12 });
      const given = Object.values(input.chart!.layers).reduce((n, l) => n + l.features.length, 0);
      const unused = report.notUsed.reduce((n, u) => n + u.count, 0);
      expect([report.given, report.used + unused]).toEqual([given, given]);
    }
  });
});
