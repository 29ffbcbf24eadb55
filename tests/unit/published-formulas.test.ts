/**
 * Cases of the kinds of the published check values, at other figures: each expected value from the
 * published formula, worked out here with the engine's own functions.
 */
import { describe, expect, test } from "vitest";
import { knots } from "../../src/core/units.js";
import { holdingByMass, holdingWithChain } from "../../src/holding/kernel.js";
import { codeLeastKg, codeRow, equipmentNumber, fishingAnchors } from "../../src/holding/rules.js";
import { designLoad } from "../../src/holding/index.js";
import { balancingWind, lie, streamLoad, vesselFrom, windAtHeight } from "../../src/lie/index.js";
import { crossStreamCoefficient } from "../../src/lie/kernel.js";
import { chainStiffness, weightInSeaWater } from "../../src/rode/tackle.js";
import { randomNumbers } from "../rodeRandom.js";

const RAD = Math.PI / 180;
const COUNT = 40;
const close = (got: number, want: number, share = 1e-9) => {
  expect(Math.abs(got - want)).toBeLessThanOrEqual(share * Math.abs(want));
};
/** Numbers drawn for each of many cases. */
const cases = (seed: number, ranges: readonly (readonly [number, number])[]) => {
  const random = randomNumbers(seed);
  return Array.from({ length: COUNT }, () => ranges.map(([a, b]) => a + (b - a) * random()));
};
const sketch = { kind: "yacht", lengthM: 11 } as const;

describe("stream", () => {
  test("from ahead: form, skin friction by ITTC 1957, propeller (UFC 4-159-03, Eq. 15-21)", () => {
    const drawn = cases(1, [
      [0.3, 4],
      [7, 14],
      [2.2, 4.5],
      [0.4, 0.9],
      [2500, 15_000],
      [0, 0.2],
    ]);
    for (const [rate, waterlineM, beamM, hullDraughtM, displacementKg, propellerAreaM2] of drawn) {
      const vessel = vesselFrom({
        ...sketch,
        waterlineM: waterlineM!,
        beamM: beamM!,
        immersedBeamM: beamM!,
        hullDraughtM: hullDraughtM!,
        displacementKg: displacementKg!,
        propellerAreaM2: propellerAreaM2!,
      });
      const load = streamLoad({ vessel, streamMps: rate! });
      const pressure = (1025 * rate! ** 2) / 2;
      const reynolds = (rate! * waterlineM!) / 1.19e-6;
      const wetted = 1.7 * hullDraughtM! * waterlineM! + displacementKg! / (1025 * hullDraughtM!);
      close(load.formN, 0.1 * pressure * beamM! * hullDraughtM!);
      close(load.wettedAreaM2, wetted);
      close(load.frictionN, (pressure * wetted * 0.075) / (Math.log10(reynolds) - 2) ** 2);
      expect(load.propellerN).toBeCloseTo(pressure * propellerAreaM2!, 6);
    }
  });
  test("abeam in shoal water: C0 + (3.2 - C0) (T/d)^2 (UFC 4-159-03, Eq. 11)", () => {
    for (const [deep, draught, ratio] of cases(2, [
      [0.4, 1.4],
      [0.5, 3],
      [1, 8],
    ]))
      close(
        crossStreamCoefficient(deep!, draught!, ratio! * draught!),
        deep! + (3.2 - deep!) / ratio! ** 2,
      );
  });
});

describe("wind and stream together", () => {
  const ranges = [
    [10, 40],
    [3, 6],
    [3, 14],
    [3, 6],
    [0.3, 2],
    [3, 20],
    [0, 360],
    [0, 360],
  ] as const;
  const drawn = cases(3, ranges).map(([side, arm, plane, keelArm, streamMps, windMps, w, c]) => ({
    vessel: vesselFrom({
      ...sketch,
      windageSideM2: side!,
      windSideCoefficient: 0.9,
      windCentreAftOfBowM: arm!,
      lateralPlaneM2: plane!,
      streamSideCoefficient: 0.8,
      lateralCentreAftOfBowM: keelArm!,
    }),
    windMoment: 0.5 * 1.225 * windMps! ** 2 * side! * 0.9 * arm!,
    streamMoment: 0.5 * 1025 * streamMps! ** 2 * plane! * 0.8 * keelArm!,
    weather: { windMps: windMps!, windFromDeg: w!, streamMps: streamMps!, streamTowardsDeg: c! },
  }));
  test("she heads where the turning moments are in balance, and turns back when put off it", () => {
    for (const { vessel, windMoment, streamMoment, weather } of drawn) {
      const turning = (headingDeg: number) =>
        windMoment * Math.sin((weather.windFromDeg - headingDeg) * RAD) +
        streamMoment * Math.sin((weather.streamTowardsDeg + 180 - headingDeg) * RAD);
      const heading = lie({ vessel, ...weather }).headingDeg!;
      expect(Math.abs(turning(heading))).toBeLessThan(1e-6 * (windMoment + streamMoment));
      expect(turning(heading - 1)).toBeGreaterThan(0);
      expect(turning(heading + 1)).toBeLessThan(0);
    }
  });
  test("the balancing wind turns her as much as the stream does", () => {
    for (const { vessel, windMoment, streamMoment, weather } of drawn) {
      const { windMps } = balancingWind({ vessel, streamMps: weather.streamMps });
      close((windMoment * windMps ** 2) / weather.windMps ** 2, streamMoment);
    }
  });
  test("wind by the 1/7 power of height (from memory)", () => {
    for (const [windMps, heightM] of cases(4, [
      [1, 40],
      [1, 30],
    ]))
      close(
        windAtHeight({ windMps: windMps!, heightM: heightM! }).windMps,
        windMps! * (heightM! / 10) ** (1 / 7),
      );
  });
  test("the tabulated load goes by the square of the wind: 60 kn four times 30 kn, the storm row twice", () => {
    for (let feet = 20; feet <= 60; feet += 5) {
      const at = (kn: number) => designLoad({ lengthM: feet * 0.3048, windMps: knots(kn) }).loadN!;
      close(at(60), 4 * at(30));
      close(at(15), at(30) / 4, 0.03);
      close(at(75), (at(60) * 75 * 75) / 3600);
      close(at(45), 2 * at(30));
    }
  });
});

describe("holding and sizing", () => {
  test("power law of mass (UFC 4-159-03, Eq. 26)", () => {
    for (const [reference, massKg, exponent] of cases(5, [
      [20, 2000],
      [5, 9000],
      [0.75, 1],
    ]))
      close(
        holdingByMass(reference!, massKg!, exponent!),
        reference! * (massKg! / 4536) ** exponent!,
      );
  });
  test("anchor and chain on the bed", () => {
    for (const [anchor, k, chain, lies] of cases(6, [
      [0.01, 10],
      [1, 10],
      [0.001, 0.1],
      [0, 300],
    ]))
      close(
        holdingWithChain(anchor!, k!, chain!, lies!, 0.75),
        anchor! * k! + chain! * lies! * 0.75,
      );
  });
  test("equipment number D^(2/3) + 2 h B + A/10 (IACS unified requirement A1)", () => {
    for (const [d, b, h, a] of cases(7, [
      [3, 900],
      [2, 14],
      [1, 12],
      [8, 400],
    ]))
      close(equipmentNumber(d!, b!, h!, a!), Math.cbrt(d!) ** 2 + 2 * h! * b! + a! / 10);
  });
  test("fishing vessel rule: 0.64 CN to 566, else 0.48 CN + 91; 40 % off; two anchors above 135 kg", () => {
    for (const [cubic] of cases(8, [[20, 1500]])) {
      const { totalKg, patentKg, mainKg } = fishingAnchors(cubic!);
      const all = cubic! > 566 ? 91 + 0.48 * cubic! : 0.64 * cubic!;
      close(totalKg, all);
      close(patentKg, all - 0.4 * all);
      if (all > 135) close(mainKg!, 0.6 * all);
      else expect(mainKg).toBeNull();
    }
  });
  test("code table: between two lengths the longer counts; 90 % in categories 4 and 5, a kedge in 6", () => {
    for (const [length] of cases(9, [[6, 23.9]])) {
      const row = codeRow(length!)!;
      expect(row.meanLengthM).toBeGreaterThanOrEqual(length!);
      const shorter = codeRow(length! - 0.5)!;
      expect(shorter.mainAnchorKg).toBeLessThanOrEqual(row.mainAnchorKg);
      expect(codeLeastKg(row, 3).mainKg).toBe(row.mainAnchorKg);
      close(codeLeastKg(row, 4).mainKg, row.mainAnchorKg - row.mainAnchorKg / 10);
      expect(codeLeastKg(row, 6)).toEqual({ mainKg: row.kedgeAnchorKg, kedgeKg: null });
    }
  });
});

describe("chain", () => {
  test("stiffness 85.6e9 d^2 - 3.93e7 d^3 of studless chain, weight in sea water by density", () => {
    for (const [mm, kgPerM, density] of cases(10, [
      [6, 60],
      [0.05, 80],
      [1100, 7900],
    ])) {
      const d = mm! / 1000;
      close(chainStiffness(mm!), 85.6e9 * d ** 2 - 3.93e7 * d ** 3);
      close(weightInSeaWater(kgPerM!, density!), kgPerM! * 9.80665 * (1 - 1025 / density!), 1e-9);
    }
  });
});
