import * as turf from "@turf/turf";
import { describe, expect, test } from "vitest";
import { InputError, utc } from "../../src/core/index.js";
import { distance } from "../../src/geo/index.js";
import {
  anchoringAt,
  anchoringPolicy,
  coverageOf,
  depthsIn,
  hazardsIn,
  marksOf,
  meaningOf,
  objectClasses,
  readChart,
  seabedNear,
  shoreNear,
  surroundingsOf,
  type Chart,
  type LayerInput,
} from "../../src/chart/index.js";
import { seabedFromCodes } from "../../src/seabed/index.js";
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

const verdict = (chart: Chart, options = {}) => anchoringAt(chart, circle(50), options);

describe("reading", () => {
  test("by layer name, by OBJL and by acronym alike", () => {
    const sand = { NATSUR: "4" };
    const ways = [
      readChart({ SBDARE: layer(point(sand)) }, { soundingDatum: 12 }),
      readChart([{ ...layer(point(sand)), name: "SBDARE" }], {
        soundingDatum: 12,
      }),
      readChart([layer(point({ ...sand, OBJL: 121 }))], { soundingDatum: 12 }),
      readChart({ bed: layer(point({ ...sand, acronym: "SBDARE" })) }, { soundingDatum: 12 }),
      readChart([{ cell: "A", layers: { SBDARE: layer(point(sand)) } }], {
        soundingDatum: 12,
      }),
    ];
    for (const chart of ways) {
      expect(chart.report.usedByClass).toEqual({ SBDARE: 1 });
      expect(seabedNear(chart, HERE).nearest?.words).toBe("sand");
    }
  });

  test("OBJL is surer than the name of the layer", () => {
    const chart = readChart({ SBDARE: layer(point({ OBJL: 159 })) }, { soundingDatum: 12 });
    expect(chart.features[0]!.acronym).toBe("WRECKS");
  });

  test("lines that part after their first vertices are two, not one repeated", () => {
    const cable = (lonDeg: number) =>
      feature("LineString", [
        [-30.05, 40.05],
        [-30.05, 40.051],
        [-30.05, 40.052],
        [-30.05, 40.053],
        [lonDeg, 40],
      ]);
    const { features, report } = chartWith({
      CBLSUB: layer(cable(-30.09), cable(-30), cable(-30)),
    });
    expect(features.filter((f) => f.acronym === "CBLSUB")).toHaveLength(2);
    expect(report.notUsed).toEqual([{ layer: "CBLSUB", reason: "repeated", count: 1 }]);
  });

  test("every feature is accounted for, with the reason where it is not used", () => {
    const sound = point({ NATSUR: "4" });
    const chart = readChart(
      {
        SBDARE: layer(sound, sound, feature("Point", [NaN, 40]), feature("Point", [-30, 95]), {
          type: "Feature",
          properties: {},
          geometry: null,
        }),
        XYZABC: layer(point({}), point({ RESTRN: "1" })),
        MAGVAR: layer(point({})),
        SOUNDG: layer(point({ DEPTH: 3 }), point({ DEPTH: 3 }), point({})),
        DSID: layer({
          type: "Feature",
          properties: { DSPM_SDAT: 12 },
          geometry: null,
        }),
        LNDARE: layer(
          feature("Polygon", "none"),
          feature("Polygon", [
            [
              [0, 0],
              [1, 1],
            ],
          ]),
        ),
      },
      { soundingDatum: 12 },
    );
    const { given, used, notUsed, usedByClass } = chart.report;
    expect(given).toBe(14);
    expect(used + notUsed.reduce((n, r) => n + r.count, 0)).toBe(given);
    expect(usedByClass).toEqual({ SBDARE: 1, XYZABC: 1, SOUNDG: 2 });
    expect(Object.fromEntries(notUsed.map((n) => [`${n.layer} ${n.reason}`, n.count]))).toEqual({
      "SBDARE repeated": 1,
      "SBDARE badGeometry": 2,
      "SBDARE noGeometry": 1,
      "XYZABC unknownClass": 1,
      "MAGVAR class": 1,
      "SOUNDG noDepth": 1,
      "DSID header": 1,
      "LNDARE badGeometry": 2,
    });
  });

  test("soundings as points with a depth, with z, and as a cluster", () => {
    const area = circle(50);
    for (const s of [
      point({ DEPTH: 2.5 }),
      feature("Point", [-30, 40, 2.5]),
      feature("MultiPoint", [
        [-30, 40, 2.5],
        [-30.05, 40, 1],
      ]),
    ])
      expect(depthsIn(chartWith({ SOUNDG: layer(s) }), area).leastM).toBe(2.5);
  });

  test("the sounding datum is asked for, or read from the chart", () => {
    expect(() => readChart({})).toThrow(InputError);
    const header = layer({
      type: "Feature",
      properties: { DSPM_SDAT: 12, DSPM_CSCL: 15000, DSID_DSNM: "XX5.000" },
      geometry: null,
    });
    const chart = readChart({ DSID: header });
    expect(chart.soundingDatum).toEqual({
      code: 12,
      name: "Mean lower low water",
      from: "chart",
    });
    expect(chart.cells[0]).toMatchObject({ name: "XX5", scale: 15000 });
    expect(readChart({ DSID: header }, { soundingDatum: 23 }).report.warnings[0]).toMatch(
      /states sounding datum 12/,
    );
    expect(() => readChart({}, { soundingDatum: 999 })).toThrow(InputError);
  });

  test("a chart in feet or fathoms, or off WGS 84, is refused", () => {
    const header = (properties: object) => layer({ type: "Feature", properties, geometry: null });
    const read = (properties: object) => () =>
      readChart({ DSID: header(properties) }, { soundingDatum: 23 });
    for (const DSPM_DUNI of [2, 3, 4, "feet"]) expect(read({ DSPM_DUNI })).toThrow(/metres/);
    for (const DSPM_HDAT of [1, 3, "x"]) expect(read({ DSPM_HDAT })).toThrow(/WGS 84/);
    expect(read({ DSPM_DUNI: 1, DSPM_HDAT: 2 })).not.toThrow();
    expect(read({ DSPM_DUNI: null })).not.toThrow();
    const meta = (layers: Record<string, LayerInput>) => () => chartWith(layers);
    expect(meta({ M_UNIT: small({ DUNITS: 3 }) })).toThrow(/metres/);
    expect(meta({ M_UNIT: small({}) })).toThrow(/metres/);
    expect(meta({ M_HDAT: small({ HORDAT: 3 }) })).toThrow(/WGS 84/);
    expect(meta({ M_UNIT: small({ DUNITS: 1 }), M_HDAT: small({ HORDAT: 2 }) })).not.toThrow();
  });

  test("depths of a cell that states another datum than the caller are not known", () => {
    const chart = (soundingDatum: number | string, layers: Record<string, LayerInput> = {}) =>
      readChart(
        {
          DSID: layer({ type: "Feature", properties: { DSPM_SDAT: 12 }, geometry: null }),
          M_COVR: layer(boxArea(WORLD, { CATCOV: 1 })),
          DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10 })),
          OBSTRN: layer(point({ WATLEV: 3, VALSOU: 2, EXPSOU: 1 })),
          ...layers,
        },
        { soundingDatum },
      );
    const depths = (c: Chart) => {
      const { leastM, chartedLeastM, greatestM, unknown } = depthsIn(c, circle(50));
      return [leastM, chartedLeastM, greatestM, unknown.map((u) => `${u.code} ${u.value}`).join()];
    };
    const over = (c: Chart) => hazardsIn(c, circle(50)).hazards[0]!.treatAsM;
    for (const same of [12, "MLLW", "mean lower low water"]) {
      expect(depths(chart(same))).toEqual([5, 5, 10, ""]);
      expect(over(chart(same))).toBe(2);
    }
    for (const other of [23, "LAT", "datum of the harbour"]) {
      expect(depths(chart(other))).toEqual([null, 5, null, "depth.otherDatum 12"]);
      expect(over(chart(other))).toBeNull();
      const { around } = surroundingsOf(chart(other), circle(50));
      expect(around.depthAreas.map((d) => d.leastDepthM)).toEqual([null]);
      expect(around.hazards.map((d) => d.leastDepthM)).toEqual([null]);
    }
    // An area of the cell that is charted to the datum in use is known, and one that is not, not.
    const local = { M_SDAT: layer(boxArea(WORLD, { VERDAT: 23 })) };
    expect(depths(chart(23, local))).toEqual([5, 5, 10, ""]);
    expect(over(chart(23, local))).toBe(2);
    expect(over(chart(12, local))).toBeNull();
  });

  test("a layer named like what every object has is of no class", () => {
    for (const name of ["constructor", "toString", "__proto__"]) {
      const chart = readChart([{ ...small({ RESTRN: "2" }), name }], {
        soundingDatum: 23,
        coverage: [],
      });
      expect(Object.values(chart.report.usedByClass)).toEqual([1]);
      expect(seabedNear(chart, HERE).samples).toEqual([]);
      expect(depthsIn(chart, circle(50)).sources).toEqual([]);
      expect(verdict(chart).verdict).toBe("restricted");
    }
  });

  test.each([[null], [{ SBDARE: 5 }], [{ SBDARE: { features: [7] } }], [[{}]]])(
    "what is no layer is refused: %j",
    (input) => {
      expect(() => readChart(input as never, { soundingDatum: 23 })).toThrow(InputError);
    },
  );

  test("a chart survives a structured clone, and results survive JSON", () => {
    const chart = chartWith({
      UWTROC: layer(point({ WATLEV: 3 })),
      CBLARE: small({ RESTRN: "2,6,24" }),
      COALNE: layer(
        feature("LineString", [
          [-30.05, 39.9],
          [-30.05, 40.1],
        ]),
      ),
    });
    const twin = structuredClone(chart);
    const ask = (c: Chart) => [
      anchoringAt(c, circle(80)),
      depthsIn(c, circle(80)),
      hazardsIn(c, circle(80)),
      seabedNear(c, HERE),
      coverageOf(c, circle(80)),
      shoreNear(c, HERE),
      marksOf(c),
      surroundingsOf(c, circle(80)),
    ];
    expect(ask(twin)).toEqual(ask(chart));
    expect(JSON.parse(JSON.stringify(ask(chart)))).toEqual(ask(chart));
  });

  test("unknown codes are kept and reported", () => {
    const chart = chartWith({ RESARE: small({ RESTRN: ["99"], CATREA: 77 }) });
    expect(chart.report.unknownCodes).toEqual([
      { attribute: "RESTRN", code: "99", count: 1 },
      { attribute: "CATREA", code: "77", count: 1 },
    ]);
    expect(verdict(chart).verdict).toBe("unknown");
  });

  test("listed values of the supplements are known", () => {
    expect(meaningOf("RESTRN", 24)).toBe("dragging prohibited");
    expect(meaningOf("RESTRN", 1)).toBe("anchoring prohibited");
    expect(meaningOf("VERDAT", 23)).toBe("Lowest astronomical tide");
    expect(new Set(objectClasses.map((c) => c.objl)).size).toBe(objectClasses.length);
  });
});

describe("anchoring", () => {
  test("open, covered, charted and surveyed water is clear", () => {
    expect(verdict(chartWith())).toMatchObject({
      verdict: "clear",
      reasons: [],
    });
  });

  // S-57 edition 3.1, attribute RESTRN; what follows from each code is this library's judgement.
  test.each([
    ["1", "prohibited"],
    ["7", "prohibited"],
    ["25", "prohibited"],
    ["2", "restricted"],
    ["8", "restricted"],
    ["2,6,24", "restricted"],
    ["14", "unwise"],
    ["16", "clear"],
    ["13", "clear"],
    ["24", "clear"],
    ["1,16", "prohibited"],
  ] as const)("a restricted area with RESTRN %s: %s", (restrn, expected) => {
    for (const form of [restrn, restrn.split(","), restrn.split(",").map(Number)])
      expect(verdict(chartWith({ RESARE: small({ RESTRN: form }) })).verdict).toBe(expected);
  });

  test("RESTRN is tried on every class that carries it, known or not", () => {
    for (const acronym of [
      "ACHARE",
      "CBLARE",
      "PIPARE",
      "DMPGRD",
      "DRGARE",
      "FAIRWY",
      "TSSLPT",
      "PRCARE",
      "MIPARE",
      "MARCUL",
      "ISTZNE",
      "OSPARE",
      "SPLARE",
      "XXXXXX",
    ]) {
      const { verdict: v, reasons } = verdict(chartWith({ [acronym]: small({ RESTRN: "1" }) }));
      expect([acronym, v, reasons[0]!.code, reasons[0]!.meaning]).toEqual([
        acronym,
        "prohibited",
        "chart.RESTRN.1",
        "anchoring prohibited",
      ]);
    }
  });

  test("cables, pipelines, spoil, fairways and lanes are unwise without any RESTRN", () => {
    for (const acronym of ["CBLARE", "PIPARE", "DMPGRD", "FAIRWY", "DRGARE", "TSSLPT", "MARCUL"]) {
      const { verdict: v, reasons } = verdict(chartWith({ [acronym]: small({}) }));
      expect([acronym, v, reasons[0]!.feature?.acronym]).toEqual([acronym, "unwise", acronym]);
    }
  });

  test("a line has a margin that is said, and can be changed", () => {
    const cable = {
      CBLSUB: layer(
        feature("LineString", [
          [-30.0017, 39.9],
          [-30.0017, 40.1],
        ]),
      ),
    };
    // 0.0017 degrees of longitude in latitude 40 are 145 m: within half a cable and the circle, and 5 m of error.
    const { verdict: v, reasons } = verdict(chartWith(cable));
    expect(v).toBe("unwise");
    expect(reasons[0]!.limit).toBe(92.6);
    const east = distance({
      from: HERE,
      to: { latDeg: 40, lonDeg: -30.0017 },
    }).distanceM;
    expect(reasons[0]!.distanceM).toBeCloseTo(east - 50, 2);
    const policy = structuredClone(anchoringPolicy);
    policy.classes["CBLSUB"]!.marginM = 80;
    expect(verdict(chartWith(cable), { policy }).verdict).toBe("clear");
    delete policy.classes["CBLSUB"];
    expect(verdict(chartWith(cable), { policy }).verdict).toBe("clear");
  });

  test("a minefield and an explosives ground are prohibited by their category", () => {
    expect(verdict(chartWith({ RESARE: small({ CATREA: "14" }) })).verdict).toBe("prohibited");
    expect(verdict(chartWith({ DMPGRD: small({ CATDPG: "4" }) })).verdict).toBe("prohibited");
  });

  test("a category of safety zone counts as entry prohibited only where RESTRN is not there", () => {
    expect(verdict(chartWith({ RESARE: small({ CATREA: "1" }) })).verdict).toBe("prohibited");
    expect(verdict(chartWith({ RESARE: small({ CATREA: "1", RESTRN: "8" }) })).verdict).toBe(
      "restricted",
    );
    expect(verdict(chartWith({ RESARE: small({}) })).verdict).toBe("unknown");
    expect(verdict(chartWith({ RESARE: small({ CATREA: "24" }) })).verdict).toBe("clear");
  });

  test("the weightiest effect stands first and decides", () => {
    const chart = chartWith({
      FAIRWY: small({}),
      RESARE: small({ RESTRN: "2" }),
      PRCARE: small({ RESTRN: "7" }),
    });
    const { verdict: v, reasons } = verdict(chart);
    expect(v).toBe("prohibited");
    expect(reasons.map((r) => r.effect)).toEqual(["prohibited", "restricted", "unwise", "caution"]);
  });

  test("words of the chart are passed on", () => {
    const { reasons } = verdict(
      chartWith({
        RESARE: small({ RESTRN: "8", INFORM: "see note", TXTDSC: "NOTE.TXT" }),
      }),
    );
    expect(reasons[0]).toMatchObject({
      inform: "see note",
      textFile: "NOTE.TXT",
      whole: true,
    });
  });

  test("charted anchorages are named", () => {
    const { anchorages, verdict: v } = verdict(
      chartWith({ ACHARE: small({ CATACH: "1", OBJNAM: "North road" }) }),
    );
    expect([v, anchorages.map((a) => a.objectName)]).toEqual(["clear", ["North road"]]);
  });

  describe("seasons and dates", () => {
    const season = (PERSTA: string, PEREND: string) =>
      chartWith({ RESARE: small({ RESTRN: "1", PERSTA, PEREND }) });
    const stay = (day: string) => ({
      stay: {
        fromMs: utc(`${day}T12:00Z`),
        toMs: utc(`${day}T12:00Z`) + 8 * 3_600_000,
      },
    });
    test.each([
      ["--0401", "--1201", "2026-07-01", "prohibited"],
      ["--0401", "--1201", "2026-02-01", "clear"],
      ["--1101", "--0331", "2026-12-31", "prohibited"],
      ["--1101", "--0331", "2026-01-02", "prohibited"],
      ["--1101", "--0331", "2026-07-01", "clear"],
      ["--04", "--04", "2026-04-30", "prohibited"],
      ["--04", "--04", "2026-06-15", "clear"],
      // A day either way, for the zone of the clock by which the season is set.
      ["--0401", "--1201", "2026-03-31", "prohibited"],
      ["--0401", "--1201", "2026-03-29", "clear"],
    ])("%s to %s on %s: %s", (from, to, day, expected) => {
      expect(verdict(season(from, to), stay(day)).verdict).toBe(expected);
    });
    test("without a stay the season is in force, and so is a form that cannot be read", () => {
      expect(verdict(season("--0401", "--1201")).verdict).toBe("prohibited");
      expect(verdict(season("spring", "--1201"), stay("2026-02-01")).verdict).toBe("prohibited");
      const half = chartWith({
        RESARE: small({ RESTRN: "1", PERSTA: "--0401" }),
      });
      expect(verdict(half, stay("2026-02-01")).verdict).toBe("prohibited");
    });
    test("a long stay meets every season", () => {
      const options = {
        stay: {
          fromMs: utc("2026-02-01T00:00Z"),
          toMs: utc("2028-02-01T00:00Z"),
        },
      };
      expect(verdict(season("--0401", "--0402"), options).verdict).toBe("prohibited");
    });
    test.each([
      ["20260101", "20260331", "2026-02-01", "prohibited"],
      ["20260101", "20260331", "2026-05-01", "clear"],
      ["2027", "", "2026-05-01", "clear"],
      ["", "202604", "2026-04-30", "prohibited"],
      ["", "202604", "2026-05-03", "clear"],
    ])("dates %s to %s on %s: %s", (DATSTA, DATEND, day, expected) => {
      const chart = chartWith({
        RESARE: small({ RESTRN: "1", DATSTA, DATEND }),
      });
      expect(verdict(chart, stay(day)).verdict).toBe(expected);
    });
  });

  test("outside the coverage, across its edge, and in a gap of the depths nothing is clear", () => {
    const chart = chartWith();
    expect(anchoringAt(chart, circle(50, { latDeg: 41, lonDeg: -30 })).verdict).toBe("unknown");
    expect(anchoringAt(chart, circle(50, { latDeg: 40.1, lonDeg: -30 })).verdict).toBe("unknown");
    const hole = readChart(
      {
        M_COVR: layer(boxArea(WORLD, { CATCOV: 1 })),
        DEPARE: layer(
          feature("Polygon", [boxRing(WORLD), boxRing([-30.0003, 39.9997, -29.9997, 40.0003])], {
            DRVAL1: 5,
            DRVAL2: 10,
          }),
        ),
      },
      { soundingDatum: 23 },
    );
    expect(verdict(hole).verdict).toBe("unknown");
    expect(depthsIn(hole, circle(50)).leastM).toBeNull();
    expect(anchoringAt(hole, circle(50, { latDeg: 40.02, lonDeg: -30 })).verdict).toBe("clear");
    expect(anchoringAt(readChart({}, { soundingDatum: 23 }), circle(50)).verdict).toBe("unknown");
  });

  test("coverage may be handed over for a chart drawn by hand", () => {
    const corners = [
      [39.9, -30.1],
      [39.9, -29.9],
      [40.1, -29.9],
      [40.1, -30.1],
    ].map(([latDeg, lonDeg]) => ({ latDeg: latDeg!, lonDeg: lonDeg! }));
    const chart = readChart(
      { DEPARE: layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 9 })) },
      { soundingDatum: 23, coverage: [corners] },
    );
    const { verdict: v, reasons } = verdict(chart);
    expect([v, reasons.map((r) => r.code)]).toEqual(["clear", ["chart.noQuality"]]);
  });

  test("where the quality is poor dangers count from farther off, and where it is not assessed nothing is clear", () => {
    const far = { WRECKS: layer(point({ CATWRK: 1 }, -30, 40.004)) };
    expect(verdict(chartWith(far)).verdict).toBe("clear");
    expect(
      verdict(chartWith({ ...far, M_QUAL: layer(boxArea(WORLD, { CATZOC: 4 })) })).verdict,
    ).toBe("unwise");
    expect(verdict(chartWith({ M_QUAL: layer(boxArea(WORLD, { CATZOC: 4 })) })).verdict).toBe(
      "clear",
    );
    for (const CATZOC of [5, 6, 17])
      expect(verdict(chartWith({ M_QUAL: layer(boxArea(WORLD, { CATZOC })) })).verdict).toBe(
        "unknown",
      );
  });

  test("a polygon is asked about like a circle", () => {
    const chart = chartWith({ CBLARE: small({ RESTRN: "2" }) });
    const ring = (d: number, lon: number) =>
      [
        [-d, -d],
        [-d, d],
        [d, d],
        [d, -d],
      ].map(([a, b]) => ({ latDeg: 40 + a!, lonDeg: lon + b! }));
    expect(anchoringAt(chart, ring(0.0002, -30)).verdict).toBe("restricted");
    expect(anchoringAt(chart, ring(0.01, -30)).verdict).toBe("restricted");
    expect(anchoringAt(chart, ring(0.0002, -29.9989)).verdict).toBe("restricted");
    expect(anchoringAt(chart, ring(0.0002, -29.99)).verdict).toBe("clear");
    expect(anchoringAt(chart, ring(0.05, -29.89)).verdict).toBe("unknown");
  });

  test("a part of a feature, or a gap in the maps, well inside a polygon counts", () => {
    const square = (middle: number, half: number) => [
      boxRing([-30 + middle - half, 40 + middle - half, -30 + middle + half, 40 + middle + half]),
    ];
    const parts = [square(-0.045, 0.001), square(0, 0.001)];
    const asked = square(0, 0.03)[0]!
      .slice(0, 4)
      .map(([lonDeg, latDeg]) => ({ latDeg: latDeg!, lonDeg: lonDeg! }));
    for (const coordinates of [parts, [...parts].reverse()]) {
      const RESARE = layer(feature("MultiPolygon", coordinates, { RESTRN: "1" }));
      expect(anchoringAt(chartWith({ RESARE }), asked).verdict).toBe("prohibited");
    }
    const M_COVR = layer(
      feature("Polygon", [square(0, 0.06)[0], square(0, 0.001)[0]], { CATCOV: 1 }),
    );
    expect(coverageOf(chartWith({ M_COVR }), asked).covered).toBe("part");
  });
});

const boxRing = (b: readonly [number, number, number, number]) => [
  [b[0], b[1]],
  [b[2], b[1]],
  [b[2], b[3]],
  [b[0], b[3]],
  [b[0], b[1]],
];

describe("depth", () => {
  test("the shoal bound of every area that meets the circle, soundings and contours inside it", () => {
    const west = boxArea([-30.1, 39.9, -30.0004, 40.1], {
      DRVAL1: 2,
      DRVAL2: 5,
    });
    const east = boxArea([-30.0004, 39.9, -29.9, 40.1], {
      DRVAL1: 5,
      DRVAL2: 10,
    });
    const chart = (extra = {}) => chartWith({ DEPARE: layer(west, east), ...extra });
    // 0.0004 degrees of longitude are 34 m here.
    expect(depthsIn(chart(), circle(30)).leastM).toBe(5);
    expect(depthsIn(chart(), circle(40)).leastM).toBe(2);
    const shoal = depthsIn(chart({ SOUNDG: layer(point({ DEPTH: 4.2 })) }), circle(30));
    expect([shoal.leastM, shoal.decidedBy?.kind]).toEqual([4.2, "sounding"]);
    const contour = layer(
      feature(
        "LineString",
        [
          [-30.0001, 39.9],
          [-30.0001, 40.1],
        ],
        { VALDCO: 3 },
      ),
    );
    expect(depthsIn(chart({ DEPCNT: contour }), circle(30)).leastM).toBe(3);
  });

  test("an absent depth is not zero and not deep", () => {
    const none = depthsIn(chartWith({ DEPARE: layer(boxArea(WORLD, {})) }), circle(50));
    expect([none.leastM, none.chartedLeastM]).toEqual([null, null]);
    const part = depthsIn(chartWith({ DRGARE: small({}) }), circle(50));
    expect([part.leastM, part.chartedLeastM]).toEqual([null, 5]);
  });

  test("unsurveyed, not assessed, left out, land: not known, with the reason", () => {
    const codes = (layers: Record<string, LayerInput>) =>
      depthsIn(chartWith(layers), circle(50)).unknown.map((u) => u.code);
    expect(codes({ UNSARE: small({}) })).toEqual(["depth.unsurveyed"]);
    expect(codes({ M_QUAL: layer(boxArea(WORLD, { CATZOC: 6 })) })).toEqual(["depth.notAssessed"]);
    expect(
      codes({
        CTNARE: small({ INFORM: "Bathymetry has been omitted in this area" }),
      }),
    ).toEqual(["depth.omitted"]);
    expect(codes({ LNDARE: small({}) })).toEqual(["depth.land"]);
    expect(codes({ LNDARE: layer(point({})) })).toEqual(["depth.land"]);
    expect(codes({ M_SDAT: small({ VERDAT: 12 }) })).toEqual(["depth.otherDatum"]);
    expect(codes({ M_SDAT: small({ VERDAT: 23 }) })).toEqual([]);
    expect(codes({})).toEqual([]);
  });

  test("one negative depth for every drying area of a cell is a bound, not a height", () => {
    const drying = (...depths: number[]) =>
      depthsIn(
        chartWith({
          DEPARE: layer(
            ...depths.map((DRVAL1, i) =>
              boxArea([-30.1, 39.9 + i * 0.1, -29.9, 40 + i * 0.1], {
                DRVAL1,
                DRVAL2: 0,
              }),
            ),
          ),
        }),
        circle(50),
      ).sources.map((s) => s.filler);
    expect(drying(-3.3, -3.3)).toEqual([true, true]);
    expect(drying(-3.3, -1.2)).toEqual([false, false]);
  });

  test("error of depth by the zone of confidence: A1 is 0.5 m and a hundredth of the depth (S-57, from memory)", () => {
    expect(depthsIn(chartWith(), circle(50)).errorM).toBeCloseTo(0.55, 12);
    expect(
      depthsIn(chartWith({ M_QUAL: layer(boxArea(WORLD, { CATZOC: 5 })) }), circle(50)).errorM,
    ).toBeNull();
  });

  test("where cells overlap the largest scale counts alone, if it covers the area", () => {
    const cell = (
      name: string,
      scale: number,
      bounds: readonly [number, number, number, number],
      DRVAL1: number,
    ) => ({
      cell: name,
      scale,
      layers: {
        M_COVR: layer(boxArea(bounds, { CATCOV: 1 })),
        DEPARE: layer(boxArea(bounds, { DRVAL1, DRVAL2: 20 })),
      },
    });
    const small = cell("small", 80_000, WORLD, 1);
    const large = cell("large", 15_000, [-30.01, 39.99, -29.99, 40.01], 8);
    for (const order of [
      [small, large],
      [large, small],
    ]) {
      const chart = readChart(order, { soundingDatum: 23 });
      expect(depthsIn(chart, circle(50))).toMatchObject({
        leastM: 8,
        cells: ["large"],
      });
      const edge = depthsIn(chart, circle(50, { latDeg: 40.01, lonDeg: -30 }));
      expect(edge).toMatchObject({ leastM: 1, cells: ["large", "small"] });
      expect(depthsIn(chart, circle(50, { latDeg: 40.05, lonDeg: -30 })).leastM).toBe(1);
    }
  });

  test("a seam between two cells is neither a gap nor the end of the chart", () => {
    const half = (name: string, west: number, east: number, DRVAL1: number) => ({
      cell: name,
      scale: 20_000,
      layers: {
        M_COVR: layer(boxArea([west, 39.9, east, 40.1], { CATCOV: 1 })),
        DEPARE: layer(boxArea([west, 39.9, east, 40.1], { DRVAL1, DRVAL2: 20 })),
      },
    });
    const chart = readChart([half("west", -30.1, -30, 6), half("east", -30, -29.9, 9)], {
      soundingDatum: 23,
    });
    expect(coverageOf(chart, circle(50))).toMatchObject({
      covered: "whole",
      depthsWhole: true,
    });
    expect(depthsIn(chart, circle(50)).leastM).toBe(6);
    const apart = readChart([half("west", -30.1, -30.0001, 6), half("east", -30, -29.9, 9)], {
      soundingDatum: 23,
    });
    expect(coverageOf(apart, circle(50))).toMatchObject({
      covered: "part",
      depthsWhole: false,
    });
    expect(depthsIn(apart, circle(50)).leastM).toBeNull();
  });
});

describe("dangers", () => {
  const hazards = (properties: object, acronym = "OBSTRN", extra = {}) =>
    hazardsIn(chartWith({ [acronym]: layer(point(properties)), ...extra }), circle(50)).hazards[0]!;

  test.each<[object, number | null, number | null]>([
    [{ VALSOU: 3.2, WATLEV: 3 }, 3.2, 3.2],
    [{ VALSOU: -2.4, WATLEV: 4 }, -2.4, -2.4],
    [{ VALSOU: 0, WATLEV: 5 }, 0, 0],
    [{ WATLEV: 3 }, null, 0],
    [{ WATLEV: 3, EXPSOU: 1 }, null, 5],
    [{ WATLEV: 3, EXPSOU: 3 }, null, 5],
    [{ WATLEV: 3, EXPSOU: 2 }, null, 0],
    [{ WATLEV: 5 }, null, 0],
    [{ WATLEV: 4 }, null, null],
    [{ WATLEV: 2 }, null, null],
    [{ WATLEV: 7 }, null, null],
    [{}, null, null],
    [{ WATLEV: 3, VALSOU: 4, QUASOU: "7" }, 4, 4],
    [{ WATLEV: 3, VALSOU: 4, QUASOU: "2" }, null, 0],
  ])("%j: charted %s, to count with %s", (properties, least, treatAs) => {
    expect(hazards(properties)).toMatchObject({
      leastDepthM: least,
      treatAsM: treatAs,
    });
  });

  test("an unknown depth within the depths round it stays unknown where those are", () => {
    expect(
      hazards({ WATLEV: 3, EXPSOU: 1 }, "OBSTRN", {
        DEPARE: layer(boxArea(WORLD, {})),
      }).treatAsM,
    ).toBe(0);
  });

  test("a depth area counts round a danger only where it holds it", () => {
    // An angle of shoal water west and south of the danger, whose box holds it.
    const angle = feature(
      "Polygon",
      [
        [
          [-30.01, 39.99],
          [-29.99, 39.99],
          [-29.99, 39.995],
          [-30.005, 39.995],
          [-30.005, 40.01],
          [-30.01, 40.01],
          [-30.01, 39.99],
        ],
      ],
      { DRVAL1: 1, DRVAL2: 5 },
    );
    const DEPARE = layer(boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10 }), angle);
    expect(hazards({ WATLEV: 3, EXPSOU: 1 }, "OBSTRN", { DEPARE }).treatAsM).toBe(5);
  });

  test("a depth over a rock that dries or is awash is none", () => {
    const rock = (properties: object) =>
      hazardsIn(chartWith({ UWTROC: layer(point(properties)) }), circle(50)).hazards[0]!;
    expect(rock({ WATLEV: 4, VALSOU: 2.4 })).toMatchObject({ leastDepthM: 2.4, treatAsM: null });
    expect(rock({ WATLEV: 4, VALSOU: -2.4 })).toMatchObject({ treatAsM: -2.4 });
    expect(rock({ WATLEV: 4, VALSOU: 0 })).toMatchObject({ treatAsM: 0 });
    expect(rock({ WATLEV: 5, VALSOU: 2.4 })).toMatchObject({ leastDepthM: 2.4, treatAsM: 0 });
  });

  test("a shoal within the ground of a danger counts among the depths round it", () => {
    const chart = chartWith({
      DEPARE: layer(
        boxArea(WORLD, { DRVAL1: 5, DRVAL2: 10 }),
        boxArea([-30.001, 39.999, -29.999, 40.001], { DRVAL1: 2, DRVAL2: 5 }),
      ),
      OBSTRN: layer(boxArea([-30.003, 39.997, -29.997, 40.003], { WATLEV: 3, EXPSOU: 1 })),
    });
    expect(hazardsIn(chart, circle(50)).hazards[0]!.treatAsM).toBe(2);
  });

  test("foul ground is not foul area, and in doubt without a depth", () => {
    expect(hazards({ CATOBS: 7, VALSOU: 9, WATLEV: 3 })).toMatchObject({
      kind: "foulGround",
      passable: true,
      fouls: true,
    });
    expect(hazards({ CATOBS: 7, WATLEV: 3 })).toMatchObject({
      kind: "foulGround",
      passable: "inDoubt",
    });
    expect(hazards({ CATOBS: 6, VALSOU: 9, WATLEV: 3 })).toMatchObject({
      kind: "foulArea",
      passable: false,
    });
  });

  test("a wreck called not dangerous fouls an anchor all the same; doubt does not make it less", () => {
    expect(hazards({ CATWRK: 1, WATLEV: 3, STATUS: "18" }, "WRECKS")).toMatchObject({
      kind: "wreck",
      fouls: true,
      doubtful: true,
      treatAsM: 0,
    });
  });

  test("the area is widened by the charted error of position", () => {
    const chart = (CATZOC: number) =>
      chartWith({
        UWTROC: layer(point({ WATLEV: 3 }, -30, 40.001)),
        M_QUAL: layer(boxArea(WORLD, { CATZOC })),
      });
    expect(hazardsIn(chart(1), circle(50)).hazards).toHaveLength(0);
    const poor = hazardsIn(chart(4), circle(50));
    expect(poor).toMatchObject({ widenedM: 500, hazards: [{ within: false }] });
    expect(hazardsIn(chart(4), circle(50), { widen: false }).hazards).toHaveLength(0);
    expect(hazardsIn(chart(5), circle(50))).toMatchObject({
      positionErrorM: null,
      widenedM: 500,
    });
  });
});

describe("a danger in a poorer zone beside the area", () => {
  const chart = (CATZOC: number, layers: Record<string, LayerInput> = {}) =>
    chartWith({
      M_QUAL: layer(
        boxArea([-30.1, 39.9, -29.9, 40.001], { CATZOC: 1 }),
        boxArea([-30.1, 40.001, -29.9, 40.1], { CATZOC }),
      ),
      ...layers,
    });
  // 0.003 degrees of latitude in latitude 40 are 333.1 m by the reference ellipsoid.
  const rock = { UWTROC: layer(point({ WATLEV: 3 }, -30, 40.003)) };
  const wreck = { WRECKS: layer(point({ CATWRK: 2 }, -30, 40.003)) };

  test.each([4, 5, 6])("counts over the error of its own zone, %i", (CATZOC) => {
    const found = hazardsIn(chart(CATZOC, rock), circle(50));
    expect(found).toMatchObject({ widenedM: 5, positionErrorM: 5 });
    expect(found.hazards).toMatchObject([{ within: false, positionErrorM: 500 }]);
    expect(verdict(chart(CATZOC, wreck)).verdict).toBe("unwise");
    const { around, positionErrorM } = surroundingsOf(chart(CATZOC, rock), circle(50));
    expect(around.hazards).toHaveLength(1);
    expect(positionErrorM).toBe(CATZOC === 4 ? 500 : null);
  });
  test("but not beyond it, nor where the widening is not wanted", () => {
    expect(hazardsIn(chart(3, rock), circle(50)).hazards).toEqual([]);
    expect(verdict(chart(3, wreck)).verdict).toBe("clear");
    expect(hazardsIn(chart(4, rock), circle(50), { widen: false }).hazards).toEqual([]);
    const far = { UWTROC: layer(point({ WATLEV: 3 }, -30, 40.0051)) };
    expect(hazardsIn(chart(4, far), circle(50)).hazards).toEqual([]);
    expect(surroundingsOf(chart(3, rock), circle(50))).toMatchObject({
      positionErrorM: 5,
      around: { hazards: [] },
    });
  });
  test("a danger of the good zone does not count from farther off for the poor one beside it", () => {
    const south = { UWTROC: layer(point({ WATLEV: 3 }, -30, 39.998)) };
    expect(hazardsIn(chart(4, south), circle(50)).hazards).toEqual([]);
  });
});

describe("seabed samples", () => {
  const chart = chartWith({
    SBDARE: layer(
      point({ NATSUR: "4", NATQUA: "1", SORDAT: "201507" }, -30, 40.002),
      point({ NATSUR: "1,17", NATQUA: ",4", SORDAT: "1962" }, -30.001, 40),
      point({ NATQUA: "10" }, -30.003, 40),
    ),
    WEDKLP: layer(boxArea([-30.001, 39.999, -29.999, 40.001], { CATWED: 3 })),
  });
  test("nearest first, with distance, bearing, age, words and codes as charted", () => {
    const { samples, nearest, spread, agree } = seabedNear(chart, HERE, {
      atMs: utc("2026-07-01T00:00Z"),
    });
    expect(samples.map((s) => s.words)).toEqual(
      ["sea grass", "mud, broken shells", "fine sand", "hard"].sort((a, b) => order(a) - order(b)),
    );
    const way = distance({ from: HERE, to: { latDeg: 40, lonDeg: -30.001 } });
    expect(nearest!.distanceM).toBeCloseTo(way.distanceM, 3);
    expect(nearest!.bearingDeg).toBeCloseTo(way.bearingDeg, 3);
    expect(nearest!.codes).toEqual({
      natsur: "1,17",
      natqua: ",4",
      catwed: null,
    });
    expect(samples.map((s) => (s.ageYears === null ? null : Math.round(s.ageYears)))).toEqual(
      [null, 64, 11, null].slice(0, 4),
    );
    expect(samples[0]!.here).toBe(true);
    expect([spread.length, agree]).toEqual([3, false]);
    expect(samples.find((s) => s.words === "hard")!.material).toBe(false);
  });
  const order = (words: string) =>
    ["sea grass", "mud, broken shells", "fine sand", "hard"].indexOf(words);
  test("lists that came as arrays stay so, for their lost slots; what belongs to which is then not said", () => {
    const bed = (properties: object) =>
      seabedNear(chartWith({ SBDARE: layer(point(properties)) }), HERE).nearest!;
    const lost = bed({ NATSUR: ["1", "17"], NATQUA: ["4"] });
    expect(lost.codes).toEqual({ natsur: ["1", "17"], natqua: ["4"], catwed: null });
    expect(lost.words).toBe("mud, shells; broken (of which is not known)");
    expect(seabedFromCodes(lost.codes).pairing).toBe("uncertain");
    const whole = bed({ NATSUR: ["4", "1"], NATQUA: ["1", "6"] });
    expect(whole.words).toBe("fine sand, soft mud");
    expect(bed({ NATSUR: "1,17", NATQUA: ",4" }).words).toBe("mud, broken shells");
    expect(bed({ NATSUR: "1,17", NATQUA: "6" }).words).toBe("soft mud, shells");
    expect(bed({ NATSUR: ["4"] }).words).toBe("sand");
    expect(bed({ NATSUR: [] }).codes.natsur).toBeNull();
  });

  test("none within reach is none", () => {
    expect(seabedNear(chartWith(), HERE)).toMatchObject({
      nearest: null,
      samples: [],
      agree: false,
    });
    expect(seabedNear(chart, HERE, { radiusM: 100 }).nearest?.words).toBe("mud, broken shells");
  });
});

describe("shore and marks", () => {
  test("the edge of the chart is not shore, and limits what is known", () => {
    const land = boxArea([-30.1, 39.9, -30.05, 40.1], {});
    const chart = chartWith({ LNDARE: layer(land) });
    const near = shoreNear(chart, HERE);
    const way = distance({ from: HERE, to: { latDeg: 40, lonDeg: -30.05 } });
    expect(near.distanceM).toBeCloseTo(way.distanceM, 0);
    expect(near.atLeastM).toBe(near.distanceM);
    const east = shoreNear(chart, { latDeg: 40, lonDeg: -29.91 });
    expect(east.atLeastM).toBeCloseTo(
      distance({
        from: { latDeg: 40, lonDeg: -29.91 },
        to: { latDeg: 40, lonDeg: -29.9 },
      }).distanceM,
      0,
    );
    expect(shoreNear(chart, { latDeg: 40, lonDeg: -30.08 })).toMatchObject({
      onLand: true,
      distanceM: 0,
    });
    expect(shoreNear(chartWith(), HERE)).toMatchObject({
      distanceM: null,
      feature: null,
    });
    expect(shoreNear(chart, { latDeg: 45, lonDeg: -30 }).atLeastM).toBe(0);
  });

  test("the side along which the edge of the chart cuts land is not shore", () => {
    const chart = chartWith({ LNDARE: layer(boxArea([-30.1, 39.9, -30.05, 40.1])) });
    const outside = { latDeg: 40, lonDeg: -30.11 };
    const { distanceM } = shoreNear(chart, outside);
    expect(distanceM).toBeCloseTo(
      distance({ from: outside, to: { latDeg: 40, lonDeg: -30.05 } }).distanceM,
      0,
    );
  });

  test("structures always under water are no shore", () => {
    const wall = (WATLEV: number) =>
      shoreNear(
        chartWith({
          SLCONS: layer(
            feature(
              "LineString",
              [
                [-30.001, 39.99],
                [-30.001, 40.01],
              ],
              { WATLEV },
            ),
          ),
        }),
        HERE,
      ).distanceM;
    expect(wall(2)).not.toBeNull();
    expect(wall(4)).not.toBeNull();
    expect(wall(3)).toBeNull();
  });

  test("fixed and floating marks, lit or not, or not to be told", () => {
    const marks = (extra: object) =>
      marksOf(
        chartWith({
          BCNLAT: layer(point({ OBJNAM: "Beacon" })),
          BOYLAT: layer(point({ OBJNAM: "Buoy", PERSTA: "--0401", PEREND: "--1201" }, -30.01)),
          ...extra,
        }),
      );
    const unlit = marks({});
    expect(unlit.map((m) => [m.name, m.floating, m.lit])).toEqual([
      ["Beacon", false, null],
      ["Buoy", true, null],
    ]);
    expect(unlit[1]!.season).toBe("--0401 to --1201");
    const lit = marks({
      LIGHTS: layer(
        point({ LITCHR: 2, SIGPER: 5, COLOUR: "3", VALNMR: 4 }),
        point({ OBJNAM: "Head", SECTR1: 10, SECTR2: 100 }, -30.02),
        point({ OBJNAM: "Head" }, -30.02),
      ),
    });
    expect(lit.map((m) => [m.name, m.kind, m.lit, m.lights.length])).toEqual([
      ["Beacon", "beacon", true, 1],
      ["Buoy", "buoy", false, 0],
      ["Head", "light", true, 2],
    ]);
    expect(lit[0]!.lights[0]).toEqual({
      character: 2,
      group: null,
      periodS: 5,
      colour: "3",
      rangeNm: 4,
      sector: null,
    });
  });
});

describe("where the maps end", () => {
  test("areas cut at the antimeridian join, from either side", () => {
    const halves = (properties: object) =>
      layer(
        boxArea([179.9, 10, 180, 10.2], properties),
        boxArea([-180, 10, -179.9, 10.2], properties),
      );
    const chart = readChart(
      {
        M_COVR: halves({ CATCOV: 1 }),
        DEPARE: halves({ DRVAL1: 4, DRVAL2: 9 }),
        M_QUAL: halves({ CATZOC: 1 }),
        WRECKS: layer(point({ WATLEV: 3 }, -179.999, 10.1)),
      },
      { soundingDatum: 23 },
    );
    for (const lonDeg of [179.999, -180.001, 180, -180]) {
      const area = circle(600, { latDeg: 10.1, lonDeg });
      expect(depthsIn(chart, area).leastM).toBe(4);
      expect(coverageOf(chart, area)).toMatchObject({
        covered: "whole",
        depthsWhole: true,
      });
      const [wreck] = hazardsIn(chart, area).hazards;
      const way = distance({
        from: area.centre,
        to: { latDeg: 10.1, lonDeg: -179.999 },
      });
      expect(wreck!.distanceM).toBeCloseTo(Math.max(0, way.distanceM - 600), 4);
    }
  });

  test("in latitude 80 the sides of a chart follow its parallels", () => {
    const chart = readChart(
      {
        M_COVR: layer(boxArea([20, 79.9, 21, 80.1], { CATCOV: 1 })),
        DEPARE: layer(boxArea([20, 79.9, 21, 80.1], { DRVAL1: 4, DRVAL2: 9 })),
        M_QUAL: layer(boxArea([20, 79.9, 21, 80.1], { CATZOC: 1 })),
      },
      { soundingDatum: 23 },
    );
    // The middle of the north side lies 20 m within; a straight side on any plane would cut 20 km of parallel 40 m inside it.
    const inside = circle(15, { latDeg: 80.1 - 20 / 111_660, lonDeg: 20.5 });
    expect(coverageOf(chart, inside).covered).toBe("whole");
    expect(coverageOf(chart, { ...inside, radiusM: 25 }).covered).toBe("part");
    const south = circle(15, { latDeg: 79.9 + 20 / 111_660, lonDeg: 20.5 });
    expect(coverageOf(chart, south).covered).toBe("whole");
    expect(coverageOf(chart, { ...south, radiusM: 25 }).covered).toBe("part");
  });

  test("a depth area of 100,000 vertices answers as a general-purpose library does", () => {
    const ring = Array.from({ length: 99_999 }, (_, i) => {
      const t = (2 * Math.PI * i) / 99_999;
      const r = 0.01 + 0.003 * Math.sin(7 * t) + 0.001 * Math.sin(801 * t);
      return [-30 + r * Math.cos(t), 40 + r * Math.sin(t)];
    });
    const area = turf.polygon([[...ring, ring[0]!]]);
    const chart = readChart(
      { DEPARE: layer({ ...area, properties: { DRVAL1: 3, DRVAL2: 9 } }) },
      { soundingDatum: 23 },
    );
    expect(chart.lonLat).toHaveLength(200_000);
    let inside = 0;
    for (let i = 0; i < 300; i++) {
      const lonDeg = -30.015 + 0.03 * ((i * 0.618034) % 1);
      const latDeg = 39.985 + 0.03 * ((i * 0.754878) % 1);
      const within = turf.booleanPointInPolygon([lonDeg, latDeg], area);
      inside += within ? 1 : 0;
      expect(depthsIn(chart, circle(0, { latDeg, lonDeg })).chartedLeastM).toBe(within ? 3 : null);
    }
    expect(inside).toBeGreaterThan(50);
  });

  test("a chart too wide for one plane says so", () => {
    const chart = readChart(
      { SBDARE: layer(point({ NATSUR: "4" }, 0, 0), point({ NATSUR: "1" }, 5, 0)) },
      { soundingDatum: 23 },
    );
    expect(chart.report.warnings).toHaveLength(1);
    expect(chartWith().report.warnings).toHaveLength(0);
  });

  test("a hole in a depth area is not of that depth", () => {
    const inner = [-30.001, 39.999, -29.999, 40.001] as const;
    const chart = chartWith({
      DEPARE: layer(
        feature("Polygon", [boxRing(WORLD), boxRing(inner)], {
          DRVAL1: 2,
          DRVAL2: 5,
        }),
        boxArea(inner, { DRVAL1: 5, DRVAL2: 10 }),
      ),
    });
    expect(depthsIn(chart, circle(50))).toMatchObject({
      leastM: 5,
      unknown: [],
    });
    expect(depthsIn(chart, circle(200)).leastM).toBe(2);
  });
});

test("surroundings in the form of the swing clearance", () => {
  const chart = chartWith({
    COALNE: layer(
      feature("LineString", [
        [-30.002, 39.9],
        [-30.002, 40.1],
      ]),
    ),
    UWTROC: layer(point({ WATLEV: 3, LNAM: "0123" }, -30, 40.001)),
    CBLARE: small({ RESTRN: "2,6,24" }),
    UNSARE: layer(boxArea([-30.05, 39.95, -30.0015, 40.05])),
  });
  const { around, covered, positionErrorM } = surroundingsOf(chart, circle(200));
  expect([covered, positionErrorM]).toEqual(["whole", 5]);
  expect(around.shore).toHaveLength(1);
  expect(around.hazards).toMatchObject([{ id: "0123", kind: "rock", leastDepthM: 0 }]);
  expect(around.depthAreas.map((d) => d.leastDepthM)).toEqual([5, null]);
  expect(around.restricted.map((r) => r.kind)).toEqual(["restricted: anchoring restricted"]);
});

test("what is no chart, no area or a misspelt option is refused", () => {
  const chart = chartWith();
  expect(() => anchoringAt({} as never, circle(50))).toThrow(InputError);
  expect(() => anchoringAt(chart, { centre: HERE, radiusM: -1 })).toThrow(InputError);
  expect(() => anchoringAt(chart, [HERE, HERE])).toThrow(InputError);
  expect(() => anchoringAt(chart, circle(50), { widenn: true } as never)).toThrow(InputError);
  expect(() => seabedNear(chart, { latDeg: NaN, lonDeg: 0 })).toThrow(InputError);
});
