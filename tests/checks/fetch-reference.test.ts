import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { fetchFan, prepareCoast } from "../../src/shelter/index.js";
import { hasSharedData, sharedJson } from "../shared-data.js";
import { type Measured, reportRows } from "./harness.js";

interface Reference {
  method: string;
  points: {
    id: string;
    coast: string;
    latDeg: number;
    lonDeg: number;
    bearingStepDeg: number;
    fetchM: number[];
    end: ("coast" | "edge" | "max")[];
    grazingIndex: number[];
    bearingSensitiveIndex: number[];
  }[];
}

const reference = JSON.parse(
  readFileSync(new URL("../../shared/checks/fetch-reference.json", import.meta.url), "utf8"),
) as Reference;

describe.skipIf(!hasSharedData)("ray lengths against PROJ geodesics", () => {
  const measured: Measured[] = [];
  for (const point of reference.points)
    for (const indexed of [true, false])
      test(`${point.id}, ${indexed ? "indexed" : "one pass"}`, () => {
        const raw = sharedJson<{ type: string }>(point.coast.replace(/^data\//, ""));
        const fan = fetchFan({
          coast: indexed ? prepareCoast({ coast: raw }) : raw,
          position: { latDeg: point.latDeg, lonDeg: point.lonDeg },
        });
        expect(fan.bearingsDeg).toHaveLength(point.fetchM.length);
        point.fetchM.forEach((expected, i) => {
          if (point.grazingIndex.includes(i)) return;
          const end = point.end[i] === "max" ? "limit" : point.end[i];
          expect([i, fan.ends[i]]).toEqual([i, end]);
          // "abs 2 m or 0.1 %"; where the reference says a ray is sensitive to its bearing, what a turn of 0.15° does to it: 2 % + 30 m
          const wide = point.bearingSensitiveIndex.includes(i);
          const tolerance = wide ? 0.02 * expected + 30 : Math.max(2, 0.001 * expected);
          expect(
            Math.abs(fan.fetchM[i]! - expected),
            `ray ${i}: ${fan.fetchM[i]!} m for ${expected} m`,
          ).toBeLessThanOrEqual(tolerance);
          measured.push({
            quantity: wide ? "fetch, ray sensitive to its bearing" : "fetch, length of a ray",
            got: fan.fetchM[i],
            expected,
            tolerance,
            unit: "m",
          });
        });
      });

  test("every ray but the grazing ones is compared", () => {
    const rays = reference.points.reduce((n, p) => n + p.fetchM.length - p.grazingIndex.length, 0);
    expect(measured).toHaveLength(2 * rays);
    reportRows("fetch-reference", reference.method, measured);
  });
});
