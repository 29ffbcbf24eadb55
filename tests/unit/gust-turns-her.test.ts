import { describe, expect, test } from "vitest";
import { chain, lie, vesselFrom, type VesselKind } from "../../src/index.js";
import { layShip, shipOf } from "../../src/plan/doubtShip.js";
import { LAY, layBody, prepareBody } from "../../src/plan/lying.js";
import { prepareRode } from "../../src/rode/prepare.js";

const KINDS: VesselKind[] = ["yacht", "motorBoat", "catamaran", "workboat"];
const WINDS = Array.from({ length: 81 }, (_, i) => i / 80);

/** Greatest pull of the steady lie over winds from the mean to the gust, and the peak that is told. */
function both(kind: VesselKind, windMps: number, gust: number, streamMps: number, fromDeg: number) {
  const given = {
    vessel: vesselFrom({ kind, lengthM: 10 }),
    windFromDeg: fromDeg % 360,
    streamMps,
    streamTowardsDeg: 30,
    depthM: 3,
  };
  const steady = WINDS.map(
    (x) => lie({ ...given, windMps: windMps * (1 + (gust - 1) * x), gust: 1 }).pullN,
  );
  return { most: Math.max(...steady), peak: lie({ ...given, windMps, gust }).peakPullN };
}

describe("a gust against the stream turns her round", () => {
  test("no wind between the mean and the gust pulls harder than the peak", () => {
    let turned = 0;
    for (const kind of KINDS)
      for (const windMps of [4, 9])
        for (const gust of [1.4, 2.5])
          for (const streamMps of [0.5, 1.2])
            for (const off of [80, 150, 174, -165]) {
              const { most, peak } = both(kind, windMps, gust, streamMps, 210 + off);
              expect(peak.low).toBeGreaterThanOrEqual(0.99 * most);
              expect(peak.likely).toBeGreaterThanOrEqual(peak.low);
              expect(peak.high).toBeGreaterThanOrEqual(peak.likely);
              const { peak: none } = both(kind, windMps, 1, streamMps, 210 + off);
              if (most > 1.5 * none.low) turned++;
            }
    expect(turned).toBeGreaterThan(10);
  });

  test("a catamaran lying to the stream at both ends", () => {
    // Heading by bisection on the moments and forces added up in Python, at 800 winds: 4850 N at 36.8 m/s; 619 N and 1816 N at the ends.
    const given = {
      vessel: vesselFrom({ kind: "catamaran", lengthM: 10 }),
      windFromDeg: 0,
      streamMps: 1.47,
      streamTowardsDeg: 349,
      depthM: 1.2,
    };
    const { peakPullN } = lie({ ...given, windMps: 14.2, gust: 3 });
    expect(peakPullN.low / 4849.55).toBeCloseTo(1, 2);
  });

  test("straight against it is no easier than nearly so", () => {
    const pull = (off: number) => both("motorBoat", 8, 2, 0.9, 210 + off).peak.low;
    expect(pull(180)).toBeGreaterThanOrEqual(0.98 * pull(179));
  });

  test("a plan reckons with it too", () => {
    const vessel = vesselFrom({ kind: "catamaran", lengthM: 10 });
    const rode = prepareRode({ segments: [{ ...chain(10), lengthM: 50 }] });
    const body = prepareBody(vessel, rode);
    const pulls = (windMps: number, gustMps: number) => {
      const out = new Float64Array(LAY.length);
      const from = { windFromDeg: 0, streamMps: 1.47, streamTowardsDeg: 349 };
      layBody(body, { ...from, windMps, gustMps }, 1.2, out);
      return out;
    };
    const told = pulls(14.2, 42.6);
    const most = Math.max(
      ...WINDS.map((x) => 14.2 * (1 + 2 * x)).map((w) => pulls(w, w)[LAY.gustPullN]!),
    );
    expect(told[LAY.gustPullN]! / most).toBeCloseTo(1, 2);
    expect(told[LAY.gustPullN]).toBeGreaterThan(4849);
    expect(told[LAY.gustPullHighN]).toBeGreaterThanOrEqual(told[LAY.gustPullN]!);
    // And so does its doubt, which looks less closely.
    const segmentsAt = (lengthM: number) => [{ ...chain(10), lengthM }];
    const ship = shipOf(body, segmentsAt, [40, 60], [1, 2]);
    const draw = { lengthOutM: 50, x: 0, y: 0, yawDeg: 30, sheer: body.sheerLikely, slackDeg: 0 };
    const weather = { windFromDeg: 0, gustMps: 42.6, streamMps: 1.47, streamTowardsDeg: 349 };
    layShip(ship, { ...weather, windMps: 14.2 }, 1.2, draw, false);
    expect(ship.pullN / told[LAY.gustPullN]!).toBeCloseTo(1, 2);
    const angleDeg = ship.angleDeg;
    layShip(ship, { ...weather, windMps: 42.6 }, 1.2, draw, false);
    expect(ship.pullN).toBeLessThan(told[LAY.gustPullN]!);
    expect(angleDeg).toBeGreaterThanOrEqual(ship.angleDeg);
    // What the gust itself turns her to is not touched.
    const gust = pulls(42.6, 42.6);
    for (const k of ["gustPullTowardsDeg", "gustHeadingDeg", "yawDeg"] as const)
      expect(told[LAY[k]]).toBe(gust[LAY[k]]);
  });
});
