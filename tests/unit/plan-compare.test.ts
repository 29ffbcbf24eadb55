import { describe, expect, test } from "vitest";
import { compareBerths, planStay, type StayInput } from "../../src/plan/index.js";
import { ranked, type Key } from "../../src/plan/ranking.js";
import { demo } from "../scenario.js";

const named = (name: string, change: Partial<StayInput> = {}): StayInput => ({
  ...demo(),
  name,
  ...change,
});
/** Deep, roomy, no neighbours: as the demo, but with the boats gone. */
const empty = (name: string): StayInput => named(name, { neighbours: [] });
const blind = (name: string): StayInput => {
  const input = empty(name);
  delete input.stream;
  return input;
};

describe("berths in order", () => {
  const berths = [
    named("crowded"),
    named("shallow", { chartedDepthM: 0.2 }),
    empty("empty"),
    blind("no stream told"),
  ];
  const night = compareBerths(berths, { purpose: "night" });

  test("every berth is there once, with its verdict as planned", () => {
    expect(night.berths.map((b) => b.index).sort()).toEqual([0, 1, 2, 3]);
    for (const b of night.berths) {
      const plan = planStay(berths[b.index]!);
      expect(b.verdict).toBe(plan.verdict);
      expect(b.danger).toEqual(plan.danger);
    }
    expect(JSON.parse(JSON.stringify(night))).toEqual(night);
  });
  test("what touches the ground is last, what is not known behind what is known", () => {
    const place = Object.fromEntries(night.berths.map((b) => [b.name, b.rank]));
    expect(place["empty"]).toBe(1);
    expect(place["empty"]).toBeLessThan(place["crowded"]!);
    expect(place["crowded"]).toBeLessThan(place["no stream told"]!);
    expect(place["no stream told"]).toBeLessThan(place["shallow"]!);
  });
  test("each place has its reason against the berths next to it", () => {
    night.berths.forEach((b, i) => {
      expect(b.because.length).toBe(i === 0 || i === 3 ? 1 : 2);
      for (const r of b.because) expect(r.code).toMatch(/^compare\.\w+$/);
    });
    const last = night.berths[3]!;
    expect(last.because[0]).toMatchObject({
      stands: "after",
      code: "compare.verdict",
      value: "unsuitable",
    });
  });
  test("the order of the list does not matter, and equal berths stay level", () => {
    const back = compareBerths([...berths].reverse(), { purpose: "night" });
    expect(back.berths.map((b) => b.name)).toEqual(night.berths.map((b) => b.name));
    const twins = compareBerths([empty("one"), empty("two")], { purpose: "lunch" });
    expect(twins.berths.map((b) => [b.rank, b.tied])).toEqual([
      [1, true],
      [1, true],
    ]);
    expect(twins.berths[0]!.because[0]).toMatchObject({ code: "compare.equal", stands: "level" });
  });
  test("stays at different hours are refused", () => {
    const other = empty("later");
    other.stay = { fromMs: other.stay.fromMs + 3_600_000, toMs: other.stay.toMs };
    expect(() => compareBerths([empty("one"), other], { purpose: "night" })).toThrow(/same stay/);
  });
});

describe("ranking by keys that count one after the other", () => {
  interface Thing {
    a: number;
    b: number;
  }
  const key = (code: "a" | "b", equalWithin: number): Key<Thing> => ({
    code,
    of: (t) => t[code],
    shown: (t) => t[code],
    equalWithin,
    basis: "",
  });
  test("the second key speaks only where the first is level", () => {
    const things = [
      { a: 0, b: 9 },
      { a: 0.4, b: 1 },
      { a: 3, b: 0 },
    ];
    const places = ranked(things, [key("a", 0.5), key("b", 0)]);
    expect(places.map((p) => p.entry)).toEqual([things[1], things[0], things[2]]);
    expect(places.map((p) => p.rank)).toEqual([1, 2, 3]);
    expect(places[1]!.against.map((x) => [x.stands, x.key?.code])).toEqual([
      ["after", "b"],
      ["before", "a"],
    ]);
  });
  test("a place shared by two leaves the next place free", () => {
    const things = [
      { a: 1, b: 0 },
      { a: 0, b: 0 },
      { a: 0, b: 0 },
    ];
    expect(ranked(things, [key("a", 0)]).map((p) => p.rank)).toEqual([1, 1, 3]);
  });
  test("what is not known comes last, and is level with nothing known", () => {
    const things = [
      { a: Infinity, b: 0 },
      { a: 1e9, b: 5 },
      { a: Infinity, b: 1 },
    ];
    expect(ranked(things, [key("a", 1), key("b", 0)]).map((p) => p.entry)).toEqual([
      things[1],
      things[0],
      things[2],
    ]);
  });
});
