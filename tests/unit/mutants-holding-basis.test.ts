import { expect, test } from "vitest";
import { holding } from "../../src/holding/holding.js";

test("a holding names the source of every figure, of its bed and its scaling, and of the uplift where the pull is lifted", () => {
  const at = (pullAngleDeg: number) =>
    holding({ anchor: { type: "fixedPlough", massKg: 16 }, seabed: "sand, firm", pullAngleDeg });
  const level = at(0);
  expect(level.figures.length).toBeGreaterThan(0);
  expect(level.basis.slice(0, level.figures.length)).toEqual(level.figures.map((f) => f.basis));
  expect(level.basis).toHaveLength(level.figures.length + 2);
  expect(at(10).basis).toHaveLength(level.figures.length + 3);
  for (const source of level.basis) expect(source).toBeTypeOf("object");
});
