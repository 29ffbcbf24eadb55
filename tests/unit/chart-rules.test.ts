import { describe, expect, test } from "vitest";
import { utc } from "../../src/core/index.js";
import {
  anchoringAt,
  anchoringPolicy,
  coverageOf,
  depthsIn,
  hazardsIn,
  readChart,
  surroundingsOf,
  type AnchoringPolicy,
  type LayerInput,
} from "../../src/chart/index.js";
import { inForce } from "../../src/chart/in-force.js";
import {
  box,
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

const line = (properties: object) =>
  feature(
    "LineString",
    [
      [-30.0001, 39.9],
      [-30.0001, 40.1],
    ],
    properties,
  );

describe("dates and seasons of S-57, each a day wider for the zone of its clock", () => {
  const during = (attributes: object, fromMs: number, hours = 8) =>
    inForce(attributes as never, { fromMs, toMs: fromMs + hours * 3_600_000 }).during;
  const on = (attributes: object, day: string) => during(attributes, utc(`${day}T12:00Z`));

  test("an object without dates is in force, one with them perhaps, without a stay always perhaps", () => {
    expect(inForce({}, null)).toEqual({ during: "yes", limits: null });
    expect(inForce({}, { fromMs: 0, toMs: 1 })).toEqual({ during: "yes", limits: null });
    expect(inForce({ DATSTA: "2020" }, null)).toEqual({ during: "perhaps", limits: "2020 to ?" });
    expect(inForce({ PEREND: "--04" }, null)).toEqual({ during: "perhaps", limits: "? to --04" });
    expect(
      inForce({ DATSTA: "2020", DATEND: "2021", PERSTA: "--04", PEREND: "--05" }, null).limits,
    ).toBe("2020 to 2021, --04 to --05");
    expect(
      inForce(
        { DATSTA: "2020" },
        { fromMs: utc("2026-06-01T00:00Z"), toMs: utc("2026-06-02T00:00Z") },
      ),
    ).toEqual({
      during: "perhaps",
      limits: "2020 to ?",
    });
  });
  test.each([
    ["2027", "2026-12-30", "2026-12-31"],
    ["202702", "2027-01-30", "2027-01-31"],
    ["20270215", "2027-02-13", "2027-02-14"],
  ])("from %s: not on %s, perhaps on %s", (DATSTA, before, first) => {
    expect([on({ DATSTA }, before), on({ DATSTA }, first)]).toEqual(["no", "perhaps"]);
    expect(on({ DATSTA }, "2030-01-01")).toBe("perhaps");
  });
  test.each([
    ["2026", "2027-01-01", "2027-01-02"],
    ["202604", "2026-05-01", "2026-05-02"],
    ["202612", "2027-01-01", "2027-01-02"],
    ["20260410", "2026-04-11", "2026-04-12"],
    ["20260405", "2026-04-06", "2026-04-07"],
    ["20260430", "2026-05-01", "2026-05-02"],
  ])("until %s: perhaps on %s, not on %s", (DATEND, last, after) => {
    expect([on({ DATEND }, last), on({ DATEND }, after)]).toEqual(["perhaps", "no"]);
    expect(on({ DATEND }, "2020-01-01")).toBe("perhaps");
  });
  test("a stay that ends or begins on the very instant still meets", () => {
    const midnight = utc("2026-12-31T00:00Z");
    expect(during({ DATSTA: "2027" }, midnight - 3_600_000, 1)).toBe("perhaps");
    expect(during({ DATSTA: "2027" }, midnight - 3_600_001, 1)).toBe("no");
    expect(during({ DATEND: "2026" }, utc("2027-01-02T00:00Z"))).toBe("perhaps");
    expect(during({ DATEND: "2026" }, utc("2027-01-02T00:00Z") + 1)).toBe("no");
  });
  test.each([
    ["--0401", "--1201", "2026-03-30", "2026-03-31", "2026-12-02", "2026-12-03"],
    ["--04", "--06", "2026-03-30", "2026-03-31", "2026-07-01", "2026-07-02"],
    ["--0410", "--0410", "2026-04-08", "2026-04-09", "2026-04-11", "2026-04-12"],
    ["--1101", "--0331", "2026-10-30", "2026-10-31", "2027-04-01", "2027-04-02"],
    ["--12", "--01", "2026-11-29", "2026-11-30", "2027-02-01", "2027-02-02"],
  ])("season %s to %s: not on %s, perhaps on %s and %s, not on %s", (PERSTA, PEREND, ...days) => {
    expect(days.map((day) => on({ PERSTA, PEREND }, day))).toEqual([
      "no",
      "perhaps",
      "perhaps",
      "no",
    ]);
  });
  test("every day of a season is in it", () => {
    for (let ms = utc("2026-11-01T00:00Z"); ms < utc("2027-04-01T00:00Z"); ms += 86_400_000)
      expect(during({ PERSTA: "--1101", PEREND: "--0331" }, ms)).toBe("perhaps");
  });
  test("a stay up to the day before the season meets it, a longer one all the more", () => {
    const season = { PERSTA: "--0701", PEREND: "--0702" };
    const from = utc("2026-06-01T12:00Z");
    expect(during(season, from, 28 * 24 + 11)).toBe("no");
    expect(during(season, from, 28 * 24 + 12)).toBe("perhaps");
    expect(during(season, from, 400 * 24)).toBe("perhaps");
  });
  test.each([
    { DATEND: "x2020" },
    { DATEND: "2020x" },
    { DATEND: "20201" },
    { DATEND: "202001011" },
    { DATEND: "00000000" },
    { DATEND: "0000" },
    { DATEND: "20200001" },
    { DATEND: "20201301" },
    { DATSTA: "x2090" },
    { DATSTA: "2090x" },
    { PERSTA: "--0401" },
    { PEREND: "--0401" },
    { PERSTA: "x--0401", PEREND: "--0501" },
    { PERSTA: "--0401x", PEREND: "--0501" },
    { PERSTA: "--0401", PEREND: "--0501x" },
    { PERSTA: "--4", PEREND: "--5" },
    { PERSTA: "--1301", PEREND: "--1401" },
    { PERSTA: "--0001", PEREND: "--0001" },
    { PERSTA: "--0432", PEREND: "--0433" },
    { PERSTA: "0401", PEREND: "0501" },
  ])("half a pair, or a form that is not known, bars nothing: %j", (attributes) => {
    for (const day of ["2026-02-01", "2026-07-01", "2026-12-31"])
      expect(on(attributes, day)).toBe("perhaps");
  });
  test("either limit bars by itself", () => {
    const both = { DATSTA: "2020", DATEND: "2025", PERSTA: "--01", PEREND: "--12" };
    expect(on(both, "2026-02-01")).toBe("no");
    expect(on({ ...both, DATEND: "2030", PERSTA: "--06" }, "2026-02-01")).toBe("no");
    expect(on({ ...both, DATEND: "2030" }, "2026-02-01")).toBe("perhaps");
  });
});

describe("reasons", () => {
  const at = (layers: Record<string, LayerInput>, options = {}, radiusM = 50) =>
    anchoringAt(chartWith(layers), circle(radiusM), options);

  test("name the deciding code, or the class where no code decides", () => {
    const [byCode] = at({ RESARE: small({ RESTRN: "1" }) }).reasons;
    expect(byCode).toMatchObject({
      code: "chart.RESTRN.1",
      attribute: "RESTRN",
      value: "1",
      severity: "stop",
      limit: null,
      distanceM: 0,
    });
    const [byClass] = at({ CBLARE: small({}) }).reasons;
    expect(byClass).toMatchObject({
      code: "chart.CBLARE",
      attribute: null,
      value: "CBLARE",
      severity: "warning",
      limit: null,
    });
  });
  test("what bears on anchoring and lies nobody knows where leaves it unknown", () => {
    const lost = (properties: object) => ({
      type: "Feature",
      properties,
      geometry: {
        type: "GeometryCollection",
        geometries: [
          { type: "Point", coordinates: [-30, 40] },
          {
            type: "LineString",
            coordinates: [
              [-30, 40],
              [-30, 40.01],
            ],
          },
        ],
      },
    });
    const { verdict, reasons } = at({ RESARE: layer(lost({ RESTRN: "1" })) });
    expect(verdict).toBe("unknown");
    expect(reasons).toMatchObject([
      { code: "chart.unreadable", value: "RESARE", effect: "unknown" },
    ]);
    expect(at({ SBDARE: layer(lost({ NATSUR: "4" })) }).verdict).toBe("clear");
    // Of whatever class: one that carries RESTRN, a danger, a zone of quality; a place not given at all is none.
    for (const name of ["ACHARE", "FSHGRD", "SOMEZN"])
      expect(at({ [name]: layer(lost({ RESTRN: "1" })) }).verdict).toBe("unknown");
    for (const name of ["UWTROC", "M_QUAL", "M_SDAT"])
      expect(at({ [name]: layer(lost({})) }).reasons.map((r) => r.code)).toContain(
        "chart.unreadable",
      );
    const nowhere = (properties: object) => ({ type: "Feature", properties, geometry: null });
    expect(at({ RESARE: layer(nowhere({ RESTRN: "1" })) }).verdict).toBe("unknown");
    expect(at({ C_AGGR: layer(nowhere({})), SBDARE: layer(nowhere({})) }).verdict).toBe("clear");
    // Nor are depths known where the ground of another datum cannot be read.
    expect(depthsIn(chartWith({ M_SDAT: layer(lost({ VERDAT: 12 })) }), circle(50))).toMatchObject({
      leastM: null,
      unknown: [{ code: "depth.unreadable", value: "M_SDAT" }],
    });
    expect(depthsIn(chartWith({ UNSARE: layer(nowhere({})) }), circle(50)).leastM).toBeNull();
  });

  test("stand by weight, then by distance", () => {
    // Two cables, the nearer given last.
    const cable = (lonDeg: number) =>
      feature("LineString", [
        [lonDeg, 39.9],
        [lonDeg, 40.1],
      ]);
    const { reasons } = at({ CBLSUB: layer(cable(-30.0014), cable(-30.0012), cable(-30.0013)) });
    const distances = reasons.map((r) => r.distanceM);
    expect(distances).toHaveLength(3);
    expect([...distances].sort((a, b) => a - b)).toEqual(distances);
    expect(distances[0]).toBeGreaterThan(0);
    // All the findings of one feature, the weightiest first, those without effect left out.
    const one = at({ RESARE: small({ RESTRN: "6,3,2,1,14" }) }).reasons;
    expect(one.map((r) => r.value)).toEqual(["1", "2", "14", "6"]);
  });
  test("within its margin a feature counts, beyond it not", () => {
    const platform = { OFSPLF: layer(point({}, -30, 40.005)) };
    // 0.005 degrees of latitude in latitude 40 are 555.2 m by the reference ellipsoid.
    expect(at(platform, {}, 54).verdict).toBe("clear");
    expect(at(platform, {}, 56).verdict).toBe("unwise");
    // To north-east of it the box round it and its margin still holds a corner of the area.
    expect(at({ OFSPLF: layer(point({}, -29.9947, 40.0045)) }).reasons).toEqual([]);
    // The wide margin of one class does not widen that of another.
    const spoil = boxArea([-30.004, 39.999, -30.003, 40.001]);
    expect(at({ OFSPLF: layer(point({}, -29.95)), DMPGRD: layer(spoil) }).reasons).toEqual([]);
    expect(at(platform, {}, 56).reasons[0]).toMatchObject({ limit: 500, whole: false });
  });
  test("none is given for a feature that is not in force or has no effect", () => {
    expect(at({ RESARE: small({ RESTRN: "3" }) }).reasons).toEqual([]);
    expect(at({ SBDARE: small({ NATSUR: "4" }) }).reasons).toEqual([]);
    const stay = { fromMs: utc("2026-06-01T00:00Z"), toMs: utc("2026-06-01T08:00Z") };
    expect(at({ RESARE: small({ RESTRN: "1", DATEND: "2020" }) }, { stay }).reasons).toEqual([]);
  });
  test("what the chart does not tell", () => {
    const chart = chartWith();
    const [out] = anchoringAt(chart, circle(50, { latDeg: 41, lonDeg: -30 })).reasons;
    expect(out).toMatchObject({
      code: "chart.notCovered",
      value: "none",
      meaning: "outside the coverage of the chart",
      severity: "warning",
      whole: false,
    });
    const [edge] = anchoringAt(chart, circle(50, { latDeg: 40.1, lonDeg: -30 })).reasons;
    expect(edge).toMatchObject({
      value: "part",
      meaning: "the area reaches beyond the coverage of the chart",
    });
    // Depths and land alone tell nothing of coverage.
    const bare = readChart({ DEPARE: layer(boxArea(WORLD, { DRVAL1: 5 })) }, { soundingDatum: 23 });
    expect(anchoringAt(bare, circle(50)).reasons[0]).toMatchObject({ code: "chart.notCovered" });
  });
  test("a poor zone that states its error of position can be widened by it, others cannot", () => {
    const zone = (properties: object) =>
      at({ M_QUAL: layer(boxArea(WORLD, properties)) }).reasons.map((r) => r.code);
    expect(zone({ CATZOC: 5 })).toEqual(["chart.CATZOC.5"]);
    expect(zone({ CATZOC: 5, POSACC: 30 })).toEqual([]);
    expect(zone({ CATZOC: 6, POSACC: 30 })).toEqual(["chart.CATZOC.6"]);
    expect(zone({ CATZOC: 6 })).toEqual(["chart.CATZOC.6"]);
    expect(zone({ CATZOC: 3 })).toEqual([]);
  });
  test("anchorages and berths that meet the area, and no others", () => {
    const names = (layers: Record<string, LayerInput>) =>
      at(layers).anchorages.map((a) => `${a.acronym} ${a.objectName}`);
    const roads = [
      boxArea([-30.001, 39.999, -29.999, 40.001], { OBJNAM: "Here" }),
      boxArea([-30.02, 39.999, -30.01, 40.001], { OBJNAM: "West" }),
      // Its box meets the area, the thing itself does not.
      feature(
        "Polygon",
        [
          [
            [-30.01, 39.99],
            [-29.99, 39.99],
            [-30.01, 40.01],
            [-30.01, 39.99],
          ],
        ],
        { OBJNAM: "Corner" },
      ),
    ];
    expect(names({ ACHARE: layer(...roads.slice(0, 2)) })).toEqual(["ACHARE Here"]);
    const corner = anchoringAt(
      chartWith({ ACHARE: layer(roads[2]!) }),
      circle(50, { latDeg: 40.005, lonDeg: -29.995 }),
    );
    expect(corner.anchorages).toEqual([]);
    expect(names({ ACHBRT: small({ OBJNAM: "Berth" }) })).toEqual(["ACHBRT Berth"]);
    expect(names({ MORFAC: small({ OBJNAM: "Buoy" }) })).toEqual([]);
  });
  test("what is taken for granted", () => {
    const stay = { fromMs: utc("2026-06-01T00:00Z"), toMs: utc("2026-06-01T08:00Z") };
    const policy = structuredClone(anchoringPolicy);
    expect(at({}, { stay, policy }).assumed).toEqual([]);
    expect(at({}, { policy }).assumed).toEqual(["limits of season and date are in force"]);
    expect(at({}, { stay }).assumed).toEqual(["the default anchoring policy"]);
    const zone = (CATZOC: number) =>
      at({ M_QUAL: layer(boxArea(WORLD, { CATZOC })) }, { stay, policy }).assumed;
    expect(zone(2)).toEqual([]);
    expect(zone(5)).toEqual(["a charted error of position that is not stated is taken as 500 m"]);
    expect(at({ M_QUAL: layer() }, { stay, policy }).assumed).toEqual([
      "no error of position is charted: dangers are taken where charted",
    ]);
  });

  test("a policy of one's own decides", () => {
    const policy: AnchoringPolicy = {
      codes: { RESTRN: { 3: "prohibited" }, CATSPM: { 1: "unwise" } },
      codesWithoutRestriction: {},
      unlistedRestriction: "none",
      classes: { SBDARE: { effect: "restricted", marginM: 0, basis: "ours" } },
    };
    const verdict = (layers: Record<string, LayerInput>) => at(layers, { policy }).verdict;
    expect(verdict({ RESARE: small({ RESTRN: "3" }) })).toBe("prohibited");
    expect(verdict({ RESARE: small({ RESTRN: "1" }) })).toBe("clear");
    expect(verdict({ BOYSPP: small({ CATSPM: 1 }) })).toBe("unwise");
    expect(verdict({ SBDARE: small({}) })).toBe("restricted");
    expect(verdict({ CBLARE: small({}) })).toBe("clear");
    // A policy without a word on restrictions still weighs an unlisted one.
    const bare: AnchoringPolicy = { ...policy, codes: {}, unlistedRestriction: "unknown" };
    expect(at({ RESARE: small({ RESTRN: "1" }) }, { policy: bare }).verdict).toBe("unknown");
  });
  // S-57 RESTRN and CATREA, values listed in edition 3.1 and its supplements; the effects are this library's judgement.
  test.each([
    ["RESTRN", "1 7 25", "prohibited"],
    ["RESTRN", "2 8 42", "restricted"],
    ["RESTRN", "14 39", "unwise"],
    ["RESTRN", "3 4 5 6 9 10 11 12 13 15 16 17 18 19 20 21 22 23 24 26 27", "clear"],
    ["RESTRN", "28 41 99 0 x", "unknown"],
    ["CATREA", "14 1", "prohibited"],
    ["CATREA", "9", "restricted"],
    ["CATREA", "8 10 12 18 21 31", "unwise"],
    ["CATREA", "4 5 6 7 19 20 22 23 24 25 27 28 29 30 32", "clear"],
    ["CATREA", "2 3 99", "unknown"],
  ])("a restricted area with %s %s: %s", (attribute, codes, verdict) => {
    for (const code of codes.split(" "))
      expect([code, at({ RESARE: small({ [attribute]: code }) }).verdict]).toEqual([code, verdict]);
  });
});

describe("depths", () => {
  const depths = (layers: Record<string, LayerInput>, radiusM = 50) =>
    depthsIn(chartWith(layers), circle(radiusM));
  test("the deep bound, where every area has one", () => {
    const areas = (...of: object[]) =>
      depths({ DEPARE: layer(...of.map((p) => boxArea(WORLD, p))) });
    expect(areas({ DRVAL1: 2, DRVAL2: 7 }, { DRVAL1: 5, DRVAL2: 9 }).greatestM).toBe(9);
    expect(areas({ DRVAL1: 5, DRVAL2: 9 }, { DRVAL1: 2, DRVAL2: 7 }).greatestM).toBe(9);
    expect(areas({ DRVAL1: 2, DRVAL2: 9 }, { DRVAL1: 5, DRVAL2: 7 }).greatestM).toBe(9);
    expect(areas({ DRVAL1: -3, DRVAL2: -1 }).greatestM).toBe(-1);
    expect(areas({ DRVAL1: 2 }, { DRVAL1: 5, DRVAL2: 9 }).greatestM).toBeNull();
    expect(depths({ DRGARE: small({ DRVAL1: 6 }) }).greatestM).toBeNull();
    expect(depths({ DRGARE: small({ DRVAL1: 6, DRVAL2: 12 }) }).greatestM).toBe(12);
    // A contour without a value tells nothing of the deep bound.
    expect(depths({ DEPCNT: layer(line({})) }).greatestM).toBe(10);
    expect(depths({ SOUNDG: layer(point({ DEPTH: 11 })) }).greatestM).toBe(11);
    expect(depths({ DEPARE: layer() }).greatestM).toBeNull();
  });
  test("shoalest first, and what is not charted before all", () => {
    const { sources, leastM, chartedLeastM, decidedBy } = depths({
      DRGARE: small({}),
      SOUNDG: layer(point({ DEPTH: 4 }), point({ DEPTH: 3 }, -30.0001)),
    });
    expect(sources.map((s) => s.leastM)).toEqual([null, 3, 4, 5]);
    expect([leastM, chartedLeastM, decidedBy?.kind]).toEqual([null, 3, "sounding"]);
  });
  test("a line without a depth leaves no water unknown, an area does; a depth area that is a line is none", () => {
    expect(depths({ DEPCNT: layer(line({})) }).unknown).toEqual([]);
    expect(depths({ DRGARE: small({}) }).unknown.map((u) => u.code)).toEqual(["depth.noValue"]);
    const edge = depths({ DEPARE: layer(boxArea(WORLD, { DRVAL1: 5 }), line({ DRVAL1: 1 })) });
    expect([edge.leastM, edge.sources.length]).toEqual([5, 1]);
  });
  test("fillers are of drying depth areas alone", () => {
    const filler = (layers: Record<string, LayerInput>) =>
      depths(layers).sources.map((s) => [s.kind, s.leastM, s.filler]);
    const drying = (DRVAL1: number) => ({
      DEPARE: layer(
        boxArea([-30.1, 39.9, -29.9, 40], { DRVAL1, DRVAL2: 1 }),
        boxArea([-30.1, 40, -29.9, 40.1], { DRVAL1, DRVAL2: 1 }),
      ),
    });
    expect(filler(drying(-3))).toEqual([
      ["depthArea", -3, true],
      ["depthArea", -3, true],
    ]);
    expect(filler(drying(0)).every(([, , f]) => f === false)).toBe(true);
    const mixed = filler({ ...drying(-3), SOUNDG: layer(point({ DEPTH: -3 })) });
    expect(mixed.filter(([kind]) => kind === "sounding")).toEqual([["sounding", -3, false]]);
  });
  test("doubtful where the sounding says so", () => {
    const doubtful = (QUASOU: string) =>
      depths({ SOUNDG: layer(point({ DEPTH: 4, QUASOU })) }).sources[0]!.doubtful;
    // S-57 QUASOU: 3 doubtful, 4 unreliable, 8 and 9 reported, 11 not regularly maintained.
    for (const code of ["3", "4", "8", "9", "11", "1,9"]) expect(doubtful(code)).toBe(true);
    for (const code of ["1", "5", "6", "10"]) expect(doubtful(code)).toBe(false);
  });
  test("depths that are left out are told by the caution's words or its file, and by cautions alone", () => {
    const codes = (acronym: string, properties: object) =>
      depths({ [acronym]: small(properties) }).unknown.map((u) => u.code);
    expect(codes("CTNARE", { INFORM: "Depths: bathymetry omitted" })).toEqual(["depth.omitted"]);
    expect(codes("CTNARE", { TXTDSC: "omitted bathymetric data" })).toEqual(["depth.omitted"]);
    expect(codes("CTNARE", { INFORM: "Bathymetry. Buoys are omitted" })).toEqual([]);
    expect(codes("CTNARE", { INFORM: "caution" })).toEqual([]);
    expect(codes("CTNARE", {})).toEqual([]);
    expect(codes("DRGARE", { DRVAL1: 5, DRVAL2: 6, INFORM: "bathymetry omitted" })).toEqual([]);
    expect(codes("UNSARE", { INFORM: "bathymetry omitted" })).toEqual(["depth.unsurveyed"]);
  });
  test("another datum, or one that is not given, is said", () => {
    const datum = (properties: object) =>
      depths({ M_SDAT: small(properties) }).unknown.map((u) => [u.code, u.value]);
    expect(datum({ VERDAT: 12 })).toEqual([["depth.otherDatum", "12"]]);
    expect(datum({})).toEqual([["depth.otherDatum", "not given"]]);
    expect(datum({ VERDAT: 23 })).toEqual([]);
    expect(depths({}).datum).toEqual({
      code: 23,
      name: "Lowest astronomical tide",
      from: "caller",
    });
  });
  test("beyond the coverage no depth is known", () => {
    const edge = depthsIn(chartWith(), circle(50, { latDeg: 40.1, lonDeg: -30 }));
    expect(edge.unknown.map((u) => u.code)).toEqual(["depth.notCovered", "depth.gap"]);
    // Depths charted beyond the coverage do not count as covered.
    const far = chartWith({ DEPARE: layer(boxArea([-30.2, 39.8, -29.8, 40.2], { DRVAL1: 5 })) });
    const beyond = depthsIn(far, circle(50, { latDeg: 40.1, lonDeg: -30 }));
    expect([beyond.leastM, beyond.unknown.map((u) => u.code)]).toEqual([
      null,
      ["depth.notCovered"],
    ]);
  });
});

describe("dangers", () => {
  const all = (layers: Record<string, LayerInput>, radiusM = 50, options = {}) =>
    hazardsIn(chartWith(layers), circle(radiusM), options);
  const one = (acronym: string, properties: object) =>
    all({ [acronym]: layer(point(properties)) }).hazards[0];

  test.each([
    ["UWTROC", {}, "rock", true],
    ["WRECKS", {}, "wreck", true],
    ["OBSTRN", {}, "obstruction", true],
    ["OBSTRN", { CATOBS: 6 }, "foulArea", true],
    ["OBSTRN", { CATOBS: 7 }, "foulGround", true],
    ["PILPNT", {}, "pile", false],
    ["MORFAC", {}, "mooring", true],
    ["FSHFAC", {}, "fishing", true],
    ["MARCUL", {}, "marineFarm", true],
    ["LOGPON", {}, "logPond", true],
    ["WATTUR", {}, "turbulence", false],
    ["CTNARE", {}, "reported", false],
    ["BOYLAT", {}, "mark", true],
    ["BCNCAR", {}, "mark", true],
    ["LITFLT", {}, "mark", true],
    ["LITVES", {}, "mark", true],
    ["OFSPLF", {}, "structure", true],
    ["PONTON", {}, "structure", true],
  ])("%s %j is a %s; fouls an anchor: %s", (acronym, properties, kind, fouls) => {
    expect(one(acronym, properties)).toMatchObject({ kind, fouls });
  });
  test("a caution counts where it stands at a point, a shore structure where it covers", () => {
    expect(all({ CTNARE: small({}) }).hazards).toEqual([]);
    for (const [WATLEV, count] of [
      [2, 0],
      [3, 1],
      [4, 1],
      [5, 0],
    ] as const)
      expect(all({ SLCONS: layer(line({ WATLEV })) }).hazards).toHaveLength(count);
    expect(all({ SLCONS: layer(line({})) }).hazards).toEqual([]);
  });
  // S-57 WATLEV: 1 partly submerged at high water, 2 always dry, 3 always under water, 4 covers and uncovers, 5 awash, 7 floating.
  test.each([
    ["UWTROC", { WATLEV: 3 }, true],
    ["UWTROC", { WATLEV: 4 }, true],
    ["WRECKS", { WATLEV: 5 }, true],
    ["WRECKS", { WATLEV: 2 }, false],
    ["WRECKS", { WATLEV: 1 }, false],
    ["OBSTRN", { WATLEV: 7 }, false],
    ["MARCUL", { WATLEV: 3 }, true],
    ["CTNARE", {}, true],
    ["MORFAC", { WATLEV: 3 }, false],
    ["PILPNT", { WATLEV: 3 }, false],
    ["BOYLAT", {}, false],
    ["OBSTRN", { CATOBS: 6, VALSOU: 20, WATLEV: 3 }, false],
    ["OBSTRN", { CATOBS: 7, VALSOU: 20 }, true],
    ["OBSTRN", { CATOBS: 7 }, "inDoubt"],
  ])("%s %j may be passed over: %s", (acronym, properties, passable) => {
    expect(one(acronym, properties)!.passable).toBe(passable);
  });
  test.each([
    [{ WATLEV: 1 }, "dry"],
    [{ WATLEV: 2 }, "dry"],
    [{ WATLEV: 6 }, "dry"],
    [{ WATLEV: 3 }, "submerged"],
    [{ WATLEV: 4 }, "coversAndUncovers"],
    [{ WATLEV: 5 }, "awash"],
    [{ WATLEV: 7 }, "floating"],
    [{ VALSOU: -1 }, "coversAndUncovers"],
    [{ VALSOU: 0 }, "submerged"],
    [{ VALSOU: 1 }, "submerged"],
    [{}, "unknown"],
  ])("%j: %s", (properties, level) => {
    expect(one("UWTROC", properties)!.waterLevel).toBe(level);
  });
  test("what is not charted of a danger that covers, or of none of it, is said apart", () => {
    expect(one("UWTROC", { WATLEV: 4 })!.basis).toContain("covers and uncovers");
    expect(one("UWTROC", {})!.basis).toContain("neither");
  });
  test("doubtful: reported, doubtful by status, sounding or position", () => {
    expect(one("CTNARE", {})!.doubtful).toBe(true);
    expect(one("UWTROC", {})!.doubtful).toBe(false);
    // S-57 STATUS 18 existence doubtful; QUASOU 3, 4, 8, 9; QUAPOS 4 to 8.
    for (const p of [
      { STATUS: "18" },
      { QUASOU: "3" },
      { QUASOU: "9" },
      { QUAPOS: 4 },
      { QUAPOS: 8 },
    ])
      expect(one("UWTROC", p)!.doubtful).toBe(true);
    for (const p of [{ STATUS: "1" }, { QUASOU: "6" }, { QUAPOS: 1 }, { QUAPOS: 10 }])
      expect(one("UWTROC", p)!.doubtful).toBe(false);
  });
  test("nearest first, with the least depth to count with over all", () => {
    const rock = (dLat: number, properties: object) => point(properties, -30, 40 + dLat);
    const near = all({
      UWTROC: layer(
        rock(0.0003, { VALSOU: 3 }),
        rock(0.0001, { VALSOU: 5 }),
        rock(0.0002, { VALSOU: 4 }),
      ),
    });
    const poor = all(
      {
        UWTROC: layer(
          rock(0.003, { VALSOU: 3 }),
          rock(0.001, { VALSOU: 5 }),
          rock(0.002, { VALSOU: 4 }),
        ),
        M_QUAL: layer(boxArea(WORLD, { CATZOC: 4 })),
      },
      10,
    );
    expect(poor.hazards.map((h) => h.leastDepthM)).toEqual([5, 4, 3]);
    expect(poor.hazards.map((h) => h.within)).toEqual([false, false, false]);
    expect(near.hazards.every((h) => h.within)).toBe(true);
    expect(near).toMatchObject({ leastTreatAsM: 3, anyUnbounded: false });
    const dry = all({ UWTROC: layer(rock(0, { WATLEV: 2 }), rock(0, { VALSOU: 4 })) });
    expect(dry).toMatchObject({ leastTreatAsM: null, anyUnbounded: true });
    expect(all({})).toMatchObject({ leastTreatAsM: null, anyUnbounded: false, hazards: [] });
  });
  test("beside the corner of the area is beyond it; without widening those within still count", () => {
    expect(all({ UWTROC: layer(point({}, -30.0005, 40.0004)) }).hazards).toEqual([]);
    expect(all({ UWTROC: layer(point({})) }, 50, { widen: false }).hazards).toHaveLength(1);
  });
  test("its nearest point, and a danger that holds the place", () => {
    const [rock] = all({ UWTROC: layer(point({}, -30.0002, 40.0001)) }).hazards;
    expect(rock!.position.latDeg).toBeCloseTo(40.0001, 7);
    expect(rock!.position.lonDeg).toBeCloseTo(-30.0002, 7);
    const [foul] = all({ OBSTRN: small({ CATOBS: 6 }) }).hazards;
    expect(foul!.position.latDeg).toBeCloseTo(40, 9);
    expect(foul!.position.lonDeg).toBeCloseTo(-30, 9);
  });
  test("within the depths round it: the shoalest area that touches it", () => {
    const strip = (DRVAL1: number | undefined, west: number, east: number) =>
      boxArea([west, 39.9, east, 40.1], DRVAL1 === undefined ? {} : { DRVAL1, DRVAL2: 30 });
    const wreck = feature(
      "Polygon",
      [
        [
          [-30.0003, 39.9999],
          [-29.9997, 39.9999],
          [-29.9997, 40.0001],
          [-30.0003, 40.0001],
          [-30.0003, 39.9999],
        ],
      ],
      { WATLEV: 3, EXPSOU: 1 },
    );
    const over = (...areas: object[]) =>
      all({ WRECKS: layer(wreck), DEPARE: layer(...areas) }).hazards[0]!.treatAsM;
    expect(over(strip(7, -30.1, -30), strip(4, -30, -29.9))).toBe(4);
    expect(over(strip(4, -30.1, -30), strip(7, -30, -29.9))).toBe(4);
    expect(over(strip(4, -30.1, -30), strip(undefined, -30, -29.9))).toBe(0);
    const unknown = all({
      WRECKS: layer(wreck),
      DEPARE: layer(strip(4, -30.1, -30), strip(undefined, -30, -29.9)),
    });
    expect(unknown.hazards[0]!.basis).toBe("depth not charted: taken to reach to datum");
    // A wreck charted in two parts, the second over shoaler water north of the first.
    const part = (lat: number) => [
      [
        [-30.0001, lat],
        [-29.9999, lat],
        [-29.9999, lat + 0.0001],
        [-30.0001, lat],
      ],
    ];
    const parts = feature("MultiPolygon", [part(40), part(40.0003)], { WATLEV: 3, EXPSOU: 1 });
    const north = (DRVAL1: number, south: number, to: number) =>
      boxArea([-30.1, south, -29.9, to], { DRVAL1, DRVAL2: 30 });
    const two = all({
      WRECKS: layer(parts),
      DEPARE: layer(north(7, 39.9, 40.0002), north(4, 40.0002, 40.1)),
    });
    expect(two.hazards[0]!.treatAsM).toBe(4);
    expect(over(strip(4, -30.1, -30.001), strip(7, -30.001, -29.9))).toBe(7);
  });
});

describe("water whose depth is not known comes without one, as depthsIn has it", () => {
  test.each([
    ["another datum", { M_SDAT: small({ VERDAT: 12 }) }, 1],
    ["the same datum", { M_SDAT: small({ VERDAT: 23 }) }, 0],
    ["depths left out", { CTNARE: small({ INFORM: "Bathymetry omitted here." }) }, 1],
    ["a caution of another kind", { CTNARE: small({ INFORM: "Shifting banks." }) }, 0],
    [
      "depths left out, said at a point",
      { CTNARE: layer(point({ INFORM: "Bathymetry omitted" })) },
      0,
    ],
  ])("%s", (_, layers, unknown) => {
    const depths = surroundingsOf(chartWith(layers), circle(50)).around.depthAreas;
    expect(depths.filter((d) => d.leastDepthM === null)).toHaveLength(unknown);
    expect(depths.filter((d) => d.leastDepthM === 5)).toHaveLength(1);
  });
});

describe("the gravest word on a restricted area stands for it", () => {
  test.each([
    ["6,1", "prohibited: anchoring prohibited"],
    ["1,6", "prohibited: anchoring prohibited"],
    ["14,2", "restricted: anchoring restricted"],
  ])("RESTRN %s", (RESTRN, kind) => {
    const { around } = surroundingsOf(chartWith({ RESARE: small({ RESTRN }) }), circle(50));
    expect(around.restricted.map((r) => r.kind)).toEqual([kind]);
  });
});

describe("what the chart can be relied on for", () => {
  test("cells by their particulars, largest scale first; those that do not meet the area left out", () => {
    const cell = (
      name: string,
      scale: number,
      bounds: readonly [number, number, number, number],
    ) => ({
      cell: name,
      scale,
      layers: {
        M_COVR: layer(boxArea(bounds, { CATCOV: 1 })),
        DEPARE: layer(boxArea(bounds, { DRVAL1: 5, DRVAL2: 10 })),
      },
    });
    const chart = readChart(
      [
        cell("small", 80_000, WORLD),
        cell("large", 15_000, [-30.01, 39.99, -29.99, 40.01]),
        cell("far", 15_000, [-30.1, 39.9, -30.08, 39.92]),
      ],
      { soundingDatum: 23 },
    );
    const { cells, positionErrorM, depthErrorM, widened } = coverageOf(chart, circle(50));
    expect(cells.map((c) => [c.name, c.scale])).toEqual([
      ["large", 15_000],
      ["small", 80_000],
    ]);
    expect([positionErrorM, depthErrorM, widened]).toEqual([null, null, null]);
  });
  test("a cell counts where its coverage reaches, not where its box or anything else of it does", () => {
    const corner = (name: string, ring: number[][], more: object = {}) => ({
      cell: name,
      scale: 15_000,
      layers: { M_COVR: layer(feature("Polygon", [ring], { CATCOV: 1 })), ...more },
    });
    // Three corners of a square, the place being in the fourth.
    const three = [
      [-30.05, 39.95],
      [-29.95, 39.95],
      [-29.95, 39.99],
      [-30.03, 39.99],
      [-30.03, 40.05],
      [-30.05, 40.05],
      [-30.05, 39.95],
    ];
    const away = [
      [-30.1, 39.9],
      [-30.08, 39.9],
      [-30.08, 39.92],
      [-30.1, 39.9],
    ];
    const named = (cells: object[]) =>
      coverageOf(readChart(cells as never, { soundingDatum: 23 }), circle(50)).cells.map(
        (c) => c.name,
      );
    const strays = { DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10 })) };
    expect(named([corner("three", three), corner("strays", away, strays)])).toEqual([]);
    expect(named([corner("three", [...three.slice(0, 3), [-30.05, 40.05], three[0]!])])).toEqual([
      "three",
    ]);
  });
  test("errors are those of the worst zone; a circle is widened by that of position", () => {
    const zones = (...codes: object[]) =>
      coverageOf(chartWith({ M_QUAL: layer(...codes.map((c) => boxArea(WORLD, c))) }), circle(80));
    expect(zones({ CATZOC: 1 }, { CATZOC: 3 })).toMatchObject({
      positionErrorM: 50,
      depthErrorM: 1,
      widened: { centre: HERE, radiusM: 130 },
    });
    expect(zones({ CATZOC: 5 }, { CATZOC: 3 }).positionErrorM).toBeNull();
    expect(zones({ CATZOC: 3 }, { CATZOC: 5 })).toMatchObject({
      positionErrorM: null,
      depthErrorM: null,
      widened: null,
    });
    // The zone's own figures before those of its letter.
    expect(zones({ CATZOC: 4, POSACC: 7, SOUACC: 0.3 })).toMatchObject({
      positionErrorM: 7,
      depthErrorM: 0.3,
    });
    const [zone] = zones({ CATZOC: 2, SURSTA: "2001", SUREND: "2003", TXTDSC: "Q.TXT" }).quality;
    expect(zone).toMatchObject({
      zone: "A2",
      surveyStart: "2001",
      surveyEnd: "2003",
      text: "Q.TXT",
    });
    expect(zones({ CATZOC: 2, INFORM: "words", TXTDSC: "Q.TXT" }).quality[0]!.text).toBe("words");
    const ring = [
      [39.9999, -30.0001],
      [39.9999, -29.9999],
      [40.0001, -29.9999],
    ].map(([latDeg, lonDeg]) => ({ latDeg: latDeg!, lonDeg: lonDeg! }));
    expect(coverageOf(chartWith(), ring)).toMatchObject({ positionErrorM: 5, widened: null });
  });
  test("a zone whose box meets the area but not the zone itself does not count", () => {
    const corner = feature(
      "Polygon",
      [
        [
          [-30.01, 39.99],
          [-29.99, 39.99],
          [-30.01, 40.01],
          [-30.01, 39.99],
        ],
      ],
      { CATZOC: 4 },
    );
    const chart = chartWith({ M_QUAL: layer(boxArea(WORLD, { CATZOC: 1 }), corner) });
    const there = circle(50, { latDeg: 40.005, lonDeg: -29.995 });
    expect(coverageOf(chart, there).positionErrorM).toBe(5);
    expect(coverageOf(chart, circle(50, { latDeg: 39.995, lonDeg: -30.005 })).positionErrorM).toBe(
      500,
    );
  });
});

describe("an area of two polygons that overlap", () => {
  const [one, other] = [
    [-30.002, 39.998, -29.9985, 40.002],
    [-30.0015, 39.998, -29.998, 40.002],
  ].map((b) => [box(b[0]!, b[1]!, b[2]!, b[3]!)]);
  const chart = chartWith({
    RESARE: layer(feature("MultiPolygon", [one, other], { RESTRN: "1" })),
  });
  test("prohibits anchoring in what they share", () => {
    expect(anchoringAt(chart, circle(30)).verdict).toBe("prohibited");
    // And still only within: 300 m to the east it is clear water.
    const east = circle(30, { latDeg: 40, lonDeg: -29.995 });
    expect(anchoringAt(chart, east).verdict).not.toBe("prohibited");
  });
  test("is drawn so that what they share stays inside it", () => {
    const [area] = surroundingsOf(chart, circle(100)).around.restricted;
    expect(area?.geometry).toEqual({ type: "MultiPolygon", coordinates: [one, other] });
  });
});
