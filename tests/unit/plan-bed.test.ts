import { expect, test } from "vitest";
import { planStay } from "../../src/plan/index.js";
import { bay, bayLayers } from "../openBay.js";

const water = bayLayers(6).SBDARE.features[0] as { geometry: object };
const weed = (properties: object) => ({ type: "Feature", properties, geometry: water.geometry });
const bedWith = (...growth: object[]) => {
  const layers = {
    ...bayLayers(6),
    WEDKLP: { type: "FeatureCollection" as const, features: growth.map(weed) },
  };
  return planStay({ ...bay(), chart: { soundingDatum: "lowest astronomical tide", layers } }).bed;
};
const ratingOf = (...growth: object[]): number =>
  bedWith(...growth).ratings!.ratings.rollBarScoop.rating;

test("weed whose kind is not charted counts as the worst there is", () => {
  const bare = ratingOf();
  const least = Math.min(...["1", "2", "3"].map((CATWED) => ratingOf({ CATWED })));
  expect(least).toBeLessThan(bare);
  for (const growth of [{}, { CATWED: "" }, { CATWED: null }, { CATWED: "9" }])
    expect(ratingOf(growth)).toBe(least);
  expect(bedWith({}).words).toBe("sand, under weed");
});

test("of two growths in one place both count", () => {
  for (const growths of [
    [{ CATWED: "4" }, { CATWED: "1" }],
    [{ CATWED: "1" }, { CATWED: "4" }],
  ])
    expect(ratingOf(...growths)).toBe(ratingOf({ CATWED: "1" }));
  expect(ratingOf({ CATWED: "4" })).toBe(ratingOf());
});
