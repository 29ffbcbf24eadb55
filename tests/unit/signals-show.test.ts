import { describe, expect, test } from "vitest";
import {
  type LightDue,
  lightIntensity,
  type SignalsDueInput,
  signalsDue,
  signalsOver,
  soundEquipment,
} from "../../src/signals/index.js";

// What is shown and sounded, item by item, from the text of COLREGS 1972 as amended (Rules 20, 22, 30, 33, 35,
// Annex I 2, 6, 8 and 9) and 33 CFR 83 and 84; Annex I 2(i) and its inland difference from memory.

const MILE = 1852;
const of = (lengthM: number, more: Partial<SignalsDueInput> = {}) =>
  signalsDue({
    lengthM,
    situation: "anchored",
    period: "night",
    restrictedVisibility: false,
    ...more,
  });
const LENGTHS = [
  3, 6.99, 7, 7.01, 11.99, 12, 12.01, 19.99, 20, 20.01, 49.99, 50, 50.01, 99.99, 100, 180,
];
const REGIMES = ["colregs", "usInland"] as const;

describe.each(REGIMES)("%s", (regime) => {
  test.each(LENGTHS)("anchor lights of %s m", (lengthM) => {
    const { lights } = of(lengthM, { regime });
    const places = lights.map((l) => l.place);
    // 30(a) and (b): two from 50 m, one under it.
    expect(places).toEqual(lengthM < 50 ? ["bestSeen"] : ["forePart", "nearStern"]);
    for (const l of lights) {
      expect([l.colour, l.count, l.arcDeg, l.obligation]).toEqual(["white", 1, 360, "owed"]);
      // 22(a): three miles from 50 m; 22(b), (c): two under it. Annex I 8, printed table: 12 and 4.3 cd.
      expect(l.leastRangeM).toBe((lengthM < 50 ? 2 : 3) * MILE);
      expect(l.leastIntensityCd).toBeCloseTo(lengthM < 50 ? 4.3 : 12, lengthM < 50 ? 1 : 0);
      expect([l.leastSpacingM, l.mostHiddenDeg]).toEqual([null, null]);
    }
    // Annex I 2(k).
    expect(lights.map((l) => l.heights)).toEqual(
      lengthM < 50
        ? [[]]
        : [
            [
              { leastM: 6, above: "hull" },
              { leastM: 4.5, above: "afterLight" },
            ],
            [],
          ],
    );
  });

  test.each(LENGTHS)("red lights and balls aground of %s m", (lengthM) => {
    const night = of(lengthM, { regime, situation: "aground" });
    const red = night.lights.filter((l) => l.colour === "red");
    const day = of(lengthM, { regime, situation: "aground", period: "day" });
    // 30(f): neither under 12 m.
    if (lengthM < 12) {
      expect(red).toEqual([]);
      expect(day.shapes).toEqual([]);
      return;
    }
    const small = lengthM < 20;
    const asked = regime === "usInland" ? "ifPracticable" : "owed";
    expect(red).toHaveLength(1);
    expect(red[0]).toMatchObject({
      count: 2,
      place: "verticalLine",
      leastRangeM: (lengthM < 50 ? 2 : 3) * MILE,
      // Annex I 2(i): 2 m and 4 m above the hull from 20 m, 1 m and 2 m above the gunwale under it; inland 1 m.
      leastSpacingM: small || regime === "usInland" ? 1 : 2,
      heights: [small ? { leastM: 2, above: "gunwale" } : { leastM: 4, above: "hull" }],
      mostHiddenDeg: 6,
      obligation: asked,
    });
    expect(night.lights.filter((l) => l.colour === "white")).toHaveLength(lengthM < 50 ? 1 : 2);
    // 30(d)(ii), Annex I 6.
    expect(day.shapes).toMatchObject([
      {
        shape: "ball",
        colour: "black",
        count: 3,
        leastDiameterM: small ? null : 0.6,
        leastSpacingM: small ? null : 1.5,
        mayBeSmaller: small,
        obligation: asked,
      },
    ]);
  });

  test.each(LENGTHS)("the ball of %s m at anchor", (lengthM) => {
    expect(of(lengthM, { regime, period: "day" }).shapes).toMatchObject([
      {
        shape: "ball",
        count: 1,
        leastDiameterM: lengthM < 20 ? null : 0.6,
        leastSpacingM: null,
        mayBeSmaller: lengthM < 20,
        obligation: "owed",
      },
    ]);
  });

  test.each(LENGTHS)("bell, gong and what else will do, of %s m", (lengthM) => {
    for (const situation of ["anchored", "aground"] as const)
      for (const period of ["day", "night", "twilight"] as const) {
        const { sound } = of(lengthM, { regime, situation, period, restrictedVisibility: true });
        // 35(g) and (h) from 20 m; under it 35(i), under 12 m 35(j): some other sound every two minutes will do.
        const paragraph =
          lengthM < 12 ? "(j)" : lengthM < 20 ? "(i)" : situation === "aground" ? "(h)" : "(g)";
        expect(sound?.rule).toBe(`${regime === "usInland" ? "Inland " : ""}35${paragraph}`);
        expect(sound?.bell).toEqual({
          owed: lengthM >= 20,
          ringS: 5,
          mostIntervalS: 60,
          strokesBeforeAndAfter: situation === "aground" ? 3 : 0,
        });
        expect(sound?.gong).toEqual(lengthM >= 100 ? { ringS: 5 } : null);
        expect(sound?.alternative?.mostIntervalS).toBe(lengthM < 20 ? 120 : undefined);
        expect(sound?.whistle).toBe(
          situation === "aground" ? "appropriate" : "shortProlongedShort",
        );
      }
  });
});

// Annex I 2(k) speaks of any two anchor lights, at every length.
test("the pair that may be shown under 50 m stands as far apart in height as that of 50 m", () => {
  const pair = of(11).choices.find((c) => c.code === "anchorLightPair");
  expect(pair?.text).toContain("at least 4.5 m lower");
});

// Annex I 8, as printed; the first and the fourth from memory.
test.each([
  [1, 0.9],
  [2, 4.3],
  [3, 12],
  [4, 27],
  [5, 52],
  [6, 94],
])("intensity of a light of %s miles as printed: %s cd", (miles, cd) => {
  expect(lightIntensity({ rangeM: miles * MILE }).printedCd).toBe(cd);
});

test.each(LENGTHS)("what %s m carries, Rule 33", (lengthM) => {
  const kit = soundEquipment({ lengthM });
  expect([kit.whistle, kit.bell !== null, kit.gong, kit.otherMeansWillDo]).toEqual([
    lengthM >= 12,
    lengthM >= 20,
    lengthM >= 100,
    lengthM < 12,
  ]);
});

describe("lights by day in restricted visibility, Rule 20(c)", () => {
  test("are owed where they are carried; what is asked for if practicable stays so", () => {
    const fog = { period: "day", restrictedVisibility: true } as const;
    expect(of(30, fog).lights.map((l) => l.obligation)).toEqual(["ifCarried"]);
    const aground = of(30, { ...fog, situation: "aground", regime: "usInland" });
    expect(aground.lights.map((l) => l.obligation)).toEqual(["ifCarried", "ifPracticable"]);
    expect(aground.shapes).toHaveLength(1);
  });
});

describe("relief", () => {
  test("by 30(e) leaves nothing lit and nothing hoisted, by day, by night and in between", () => {
    for (const period of ["day", "night", "twilight"] as const)
      for (const restrictedVisibility of [false, true]) {
        const due = of(6.99, { period, restrictedVisibility, nearTraffic: false });
        expect([due.lights, due.shapes]).toEqual([[], []]);
        expect(due.exemptions.map((e) => e.rule)).toEqual(["30(e)"]);
        expect(due.sound !== null).toBe(restrictedVisibility);
      }
    expect(of(12, { nearTraffic: false }).exemptions).toEqual([]);
  });

  test("inland in a special anchorage area: 30(g) under 20 m, 35(l) for those and for barges of any length", () => {
    const there = {
      regime: "usInland",
      specialAnchorage: true,
      restrictedVisibility: true,
    } as const;
    expect(of(19.99, there)).toMatchObject({ lights: [], shapes: [], sound: null });
    for (const lengthM of [20, 60, 120]) {
      expect(of(lengthM, there).sound?.bell.owed).toBe(true);
      expect(of(lengthM, there).exemptions).toEqual([]);
      const barge = of(lengthM, { ...there, nondescriptCraft: true });
      expect(barge.sound).toBeNull();
      expect(barge.exemptions.map((e) => e.from)).toEqual([["sound"]]);
      expect(barge.lights.length).toBeGreaterThan(0);
    }
  });

  test("is given to nobody where the local rule takes it", () => {
    const rule = "harbour by-law 4";
    const small = of(5, { nearTraffic: false, localRule: { rule, noRelief: true } });
    expect(small.lights).toHaveLength(1);
    expect(small.exemptions).toEqual([]);
    const stranded = of(5, { situation: "aground", localRule: { rule, noRelief: true } });
    expect(stranded.lights.map((l) => l.colour)).toEqual(["white", "red"]);
  });
});

describe("a local rule", () => {
  const rule = "harbour by-law 9";
  const pair: LightDue = {
    ...of(11).lights[0]!,
    count: 2,
    place: "asRuled",
    placement: "on the fairway side, one above the other",
    leastSpacingM: 1,
    rule,
  };

  test("in place of the lights: its paragraph and the annex on lights in line are named, not 30(d)", () => {
    for (const lengthM of [12, 40]) {
      const due = of(lengthM, { situation: "aground", localRule: { rule, lights: [pair] } });
      expect(due.lights).toEqual([pair]);
      expect(due.rules).toContain(rule);
      expect(due.rules).toContain("Annex I 2");
      expect(due.rules.join()).not.toContain("30(d)");
    }
  });

  test("in place of the lights is not answered by what may stand for those of the rules", () => {
    const due = of(11, { localRule: { rule, lights: [pair] } });
    expect(due.choices).toEqual([]);
  });

  test("that only adds words is named too", () => {
    expect(of(11, { localRule: { rule, also: ["someone on deck"] } }).rules).toContain(rule);
  });

  test("nothing due rests on no rule but the relief", () => {
    expect(of(5, { period: "day", nearTraffic: false }).rules).toEqual(["30(e)"]);
  });
});

describe("over a stay, the changes in words", () => {
  // On the equator at an equinox day and night part the stay in order, and fog is told out of order.
  const day = Date.UTC(2026, 2, 20);
  const hour = 3_600_000;
  const position = { latDeg: 0, lonDeg: 0 };
  const stay = { fromMs: day + 10 * hour, toMs: day + 23 * hour };

  test("a long vessel aground in fog: each signal once, in the plural where it is several", () => {
    const { timeline, changes } = signalsOver({
      vessel: { lengthM: 120 },
      position,
      stay,
      situation: "aground",
      restrictedVisibility: [
        { fromMs: day + 21 * hour, toMs: day + 22 * hour },
        { fromMs: day + 12 * hour, toMs: day + 13 * hour },
      ],
    });
    expect(timeline.map((s) => s.period)).toEqual([
      "day",
      "day",
      "day",
      "twilight",
      "night",
      "night",
      "night",
    ]);
    const lit = [
      "1 white light forward",
      "1 white light at the stern",
      "2 red lights in a vertical line",
    ];
    expect(changes.map(({ begin, end }) => [begin, end])).toEqual([
      [["3 black balls"], []],
      [[...lit, "sound signal"], []],
      [[], [...lit, "sound signal"]],
      [lit, []],
      [[], ["3 black balls"]],
      [["sound signal"], []],
      [[], ["sound signal"]],
    ]);
    expect(changes.map((c) => c.atMs)).toEqual(timeline.map((s) => s.fromMs));
  });

  test("deck lights from 100 m at anchor, and not under", () => {
    const words = (lengthM: number) =>
      signalsOver({ vessel: { lengthM }, position, stay }).changes.flatMap((c) => c.begin);
    expect(words(120)).toEqual([
      "1 black ball",
      "1 white light forward",
      "1 white light at the stern",
      "deck lights",
    ]);
    expect(words(99)).not.toContain("deck lights");
    expect(words(11)).toEqual(["1 black ball", "1 white light"]);
  });

  test("where nothing begins or ends nothing is written", () => {
    const { timeline, changes } = signalsOver({
      vessel: { lengthM: 5 },
      position,
      stay,
      nearTraffic: false,
    });
    expect(timeline).toHaveLength(3);
    expect(changes).toEqual([]);
  });
});
