import { describe, expect, test } from "vitest";
import { type Pull, pullEvents } from "../../bench/simulator/pulls.js";
import { type WatchEvent, judgeSet } from "../../src/watch/index.js";

/** A pull astern as simulated: the rode stretches out, and then she stops, or goes on at the drag's speed. */
const pull = ({ number = 1, ...rest }: Partial<Pull> & { seconds: number; number?: number }) =>
  pullEvents(number, { dragMps: 0, sigmaM: 1.5, doppler: false, ...rest });

describe("the setting test", () => {
  test("no pull, no verdict", () => {
    const none = judgeSet({ events: [] });
    expect(none.verdict).toBe("cannotTell");
    expect(none.leastSpeedExcludedMps).toBeNull();
    expect(none.reasons.map((r) => r.code)).toContain("set.tooShort");
  });

  test("twenty seconds at a good site exclude no slow drag, so she is not said to hold", () => {
    const short = judgeSet({ events: pull({ seconds: 20 }) });
    expect(short.verdict).toBe("cannotTell");
    expect(short.longerS).toBeGreaterThan(30);
    // What they do exclude is near the 0.15 m/s that static receivers at good sites allow.
    const looser = judgeSet({ events: pull({ seconds: 30 }), limitMps: 0.3 });
    expect(looser.verdict).toBe("holds");
    expect(looser.leastSpeedExcludedMps).toBeGreaterThan(0.08);
  });

  test("as long as it asks for, in the same reception, and it can tell", () => {
    const { longerS } = judgeSet({ events: pull({ seconds: 20 }) });
    let told = 0;
    for (let n = 0; n < 40; n++) {
      const events = pull({ seconds: longerS!, number: 900 + n });
      if (judgeSet({ events }).verdict === "holds") told++;
    }
    expect(told).toBeGreaterThan(20);
  });

  test("settling is not dragging", () => {
    for (let n = 0; n < 60; n++)
      expect(judgeSet({ events: pull({ seconds: 90, number: n }) }).verdict).not.toBe("drags");
  });

  test("a drag at the limit is said to hold in no more than one case in fifty", () => {
    let wrong = 0;
    const cases = 300;
    for (let n = 0; n < cases; n++) {
      const events = pull({ seconds: 120, dragMps: 0.1, number: 5000 + n });
      const { verdict } = judgeSet({ events });
      if (verdict === "holds" || verdict === "creeps") wrong++;
    }
    expect(wrong / cases).toBeLessThanOrEqual(0.02);
  });

  test("a fast drag is seen", () => {
    for (let n = 0; n < 40; n++)
      expect(judgeSet({ events: pull({ seconds: 60, dragMps: 0.5, number: n }) }).verdict).toBe(
        "drags",
      );
  });

  test("poor reception excludes less and asks for longer", () => {
    const good = judgeSet({ events: pull({ seconds: 60, sigmaM: 1 }) });
    const poor = judgeSet({ events: pull({ seconds: 60, sigmaM: 6 }) });
    expect(poor.leastSpeedExcludedMps!).toBeGreaterThan(2 * good.leastSpeedExcludedMps!);
    expect(poor.verdict).toBe("cannotTell");
    expect(poor.longerS!).toBeGreaterThan(good.longerS ?? 0);
  });

  test("Doppler speed or a steady transit exclude what positions cannot", () => {
    const doppler = judgeSet({
      events: pull({ seconds: 40, sigmaM: 5, doppler: true }),
      limitMps: 0.25,
    });
    expect(doppler).toMatchObject({ verdict: "holds", by: "doppler" });
    const transit = (openedDeg: number): WatchEvent[] => [
      ...pull({ seconds: 60, sigmaM: 5 }),
      ...[30, 60].map((s): WatchEvent => ({
        kind: "transit",
        timeMs: s * 1000,
        openedDeg: s === 30 ? 0 : openedDeg,
        swingOpenDeg: 1,
        metresPerDegree: 2,
        sigmaDeg: 0.2,
      })),
    ];
    expect(judgeSet({ events: transit(0) })).toMatchObject({
      verdict: "holds",
      by: "transit",
    });
    expect(judgeSet({ events: transit(6) }).verdict).toBe("drags");
  });

  test("a transit along the pull does not hide what one across it shows", () => {
    const at = (s: number, openedDeg: number, metresPerDegree: number): WatchEvent => ({
      ...{ kind: "transit", timeMs: s * 1000, openedDeg, metresPerDegree },
      ...{ swingOpenDeg: 1, sigmaDeg: 0.2 },
    });
    const both = [at(10, 0, 4), at(11, 0, 2), at(59, 3, 4), at(60, 0, 2)];
    const { verdict, by } = judgeSet({ events: [...pull({ seconds: 60, sigmaM: 5 }), ...both] });
    expect([verdict, by]).toEqual(["drags", "transit"]);
  });

  test("order of the events does not matter", () => {
    const events = pull({ seconds: 60 });
    expect(judgeSet({ events: [...events].reverse() })).toEqual(judgeSet({ events }));
  });
});
