import { describe, expect, test } from "vitest";
import {
  anchoringAt,
  coverageOf,
  depthsIn,
  hazardsIn,
  objectClasses,
  surroundingsOf,
} from "../../src/chart/index.js";
import {
  boxArea,
  chartWith,
  circle,
  feature,
  HERE,
  layer,
  point,
  small,
  WORLD,
} from "./chart-support.js";

const line = layer(
  feature("LineString", [
    [-30, 39.9],
    [-30, 40.1],
  ]),
);

describe("figures that contradict each other or stand for nothing", () => {
  test.each([
    [{ DRVAL1: 5, DRVAL2: 0 }, 0, null],
    [{ DRVAL1: 10, DRVAL2: 5 }, 5, null],
    [{ DRVAL1: 5, DRVAL2: 5 }, 5, 5],
    [{ DRVAL1: -2, DRVAL2: 0 }, -2, 0],
  ])("an area of %j is at least %s and at most %s deep", (bounds, least, greatest) => {
    const chart = chartWith({ DEPARE: layer(boxArea(WORLD, bounds)) });
    expect(depthsIn(chart, circle(50))).toMatchObject({ leastM: least, greatestM: greatest });
    const { depthAreas } = surroundingsOf(chart, circle(50)).around;
    expect(depthAreas.map((a) => a.leastDepthM)).toEqual([least]);
  });

  test("a rock no shoaler than such an area counts at the lesser bound", () => {
    const chart = chartWith({
      DEPARE: layer(boxArea(WORLD, { DRVAL1: 10, DRVAL2: 5 })),
      UWTROC: layer(point({ WATLEV: 3, EXPSOU: 1 })),
    });
    expect(hazardsIn(chart, circle(50)).hazards[0]).toMatchObject({ treatAsM: 5 });
  });

  // S-57 POSACC and SOUACC: an accuracy of nought or less does not exist; conversions to formats without null write 0.
  test.each([0, "0", -1])("an accuracy of %j leaves that of the zone", (none) => {
    const at = (CATZOC: number, accuracy?: string | number) =>
      chartWith({
        M_QUAL: layer(
          boxArea(WORLD, {
            CATZOC,
            ...(accuracy !== undefined && { POSACC: accuracy, SOUACC: accuracy }),
          }),
        ),
      });
    for (const zone of [1, 3, 5]) {
      const found = coverageOf(at(zone, none), circle(50));
      const plain = coverageOf(at(zone), circle(50));
      expect(found.positionErrorM).toBe(plain.positionErrorM);
      expect(found.depthErrorM).toBe(plain.depthErrorM);
    }
    expect(anchoringAt(at(5, none), circle(50)).verdict).toBe("unknown");
    expect(coverageOf(at(5, 3), circle(50)).positionErrorM).toBe(3);
  });
});

describe("a datum of its own (VERDAT of the object, S-57 object catalogue)", () => {
  const depare = (VERDAT: unknown) =>
    chartWith({ DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10, VERDAT })) });
  test.each([
    [16, true],
    ["12", true],
    ["high water", true],
    [23, false],
    ["23", false],
    [0, false],
    [null, false],
  ])("depth area with VERDAT %j: depth unknown %s", (verdat, isOther) => {
    const depths = depthsIn(depare(verdat), circle(50));
    expect(depths.leastM).toBe(isOther ? null : 5);
    expect(depths.greatestM).toBe(isOther ? null : 10);
    expect(depths.unknown.map((u) => u.code)).toEqual(isOther ? ["depth.otherDatum"] : []);
    const { depthAreas } = surroundingsOf(depare(verdat), circle(50)).around;
    expect(depthAreas.map((a) => a.leastDepthM)).toEqual([isOther ? null : 5]);
  });
  test("a sounding of another datum leaves the depth unknown too", () => {
    const chart = chartWith({ SOUNDG: layer(point({ DEPTH: 7, VERDAT: 16 })) });
    expect(depthsIn(chart, circle(50)).leastM).toBeNull();
  });
  test.each([
    ["UWTROC", { VALSOU: 3, VERDAT: 16 }, null],
    ["UWTROC", { VALSOU: 3, VERDAT: 23 }, 3],
    ["WRECKS", { VALSOU: 3, VERDAT: 16 }, null],
    // Beside a height it may be the datum of that.
    ["WRECKS", { VALSOU: 3, VERDAT: 16, HEIGHT: 4 }, 3],
  ])("%s %j counts at %s", (acronym, properties, treatAsM) => {
    const chart = chartWith({ [acronym]: layer(point(properties)) });
    expect(hazardsIn(chart, circle(50)).hazards[0]!.treatAsM).toBe(treatAsM);
  });
  test("nor does a depth area of another datum bound a rock in it", () => {
    const chart = chartWith({
      DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10, VERDAT: 16 })),
      UWTROC: layer(point({ WATLEV: 3, EXPSOU: 1 })),
    });
    expect(hazardsIn(chart, circle(50)).hazards[0]!.treatAsM).toBe(0);
  });
});

describe("classes that were in no list", () => {
  // IHO S-57 edition 3.1 object catalogue.
  test.each([
    ["DWRTCL", 40],
    ["DYKCON", 49],
    ["GRIDRN", 62],
    ["PILBOP", 91],
    ["PIPOHD", 93],
    ["PYLONS", 98],
    ["RCRTCL", 108],
    ["RCTLPT", 110],
    ["SUBTLN", 133],
  ])("%s has OBJL %d", (acronym, objl) => {
    expect(objectClasses.find((c) => c.acronym === acronym)?.objl).toBe(objl);
  });
  test.each(["PYLONS", "GRIDRN", "DYKCON"])("%s is a structure that may stand in water", (name) => {
    const { hazards } = hazardsIn(chartWith({ [name]: layer(point({})) }), circle(50));
    expect(hazards).toMatchObject([{ kind: "structure", treatAsM: null, passable: false }]);
  });
  test.each(["DWRTCL", "RCRTCL"])("%s is unwise to anchor on", (name) => {
    const { verdict, reasons } = anchoringAt(chartWith({ [name]: line }), circle(50));
    expect([verdict, reasons[0]!.code]).toEqual(["unwise", `chart.${name}`]);
  });
  test.each([
    ["RCTLPT", "unwise"],
    ["SUBTLN", "clear"],
    ["PILBOP", "clear"],
    ["PIPOHD", "clear"],
  ])("%s is told: %s", (name, expected) => {
    const { verdict, reasons } = anchoringAt(chartWith({ [name]: small({}) }), circle(50));
    expect([verdict, reasons[0]!.code]).toEqual([expected, `chart.${name}`]);
  });
  test("a class in small letters is the same class", () => {
    for (const name of ["cblare", "Cblare", " CBLARE"])
      expect(anchoringAt(chartWith({ [name]: small({}) }), circle(50, HERE)).verdict).toBe(
        "unwise",
      );
    expect(chartWith({ cblare: small({}) }).report.notUsed).toEqual([]);
  });
});

describe("things of a class that is in no list", () => {
  const strange = (layers: Record<string, unknown>) =>
    anchoringAt(chartWith(layers as Parameters<typeof chartWith>[0]), circle(50));

  test("are a reason to look at the chart, wherever they stand, told once", () => {
    const one = strange({ CableSubmarine: line });
    expect(one.reasons).toMatchObject([
      { code: "chart.unknownClass", effect: "caution", value: "CableSubmarine" },
    ]);
    const five = strange(Object.fromEntries("abcde".split("").map((k) => [`strange ${k}`, line])));
    expect(five.reasons.map((r) => r.value)).toEqual([
      "strange a, strange b, strange c and 2 more",
    ]);
  });

  test("not those of the catalogue that have nothing to say of anchoring", () => {
    const { verdict, reasons } = strange({ BUISGL: line, roadwy: line, TOPMAR: line });
    expect({ verdict, reasons }).toEqual({ verdict: "clear", reasons: [] });
  });
});
