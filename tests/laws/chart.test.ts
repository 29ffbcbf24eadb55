import fc from "fast-check";
import polygonClipping from "polygon-clipping";
import { describe, expect, test } from "vitest";
import {
  anchoringAt,
  coverageOf,
  depthsIn,
  hazardsIn,
  readChart,
  seabedNear,
  shoreNear,
  type Anchoring,
  type Area,
  type Chart,
  type LayerInput,
} from "../../src/chart/index.js";
import { layArea, treeToArea } from "../../src/chart/area.js";
import { buildBoxTree } from "../../src/geo/boxtree.js";
import { planeAt } from "../../src/geo/plane.js";
import { pointToSegment2 } from "../../src/geo/polygon.js";
import { boxArea, feature, layer } from "../unit/chart-support.js";

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const spot = fc.tuple(unit, unit);
const patch = fc.record({
  acronym: fc.constantFrom("RESARE", "CBLARE", "FAIRWY", "UNSARE", "LNDARE", "DRGARE", "PRCARE"),
  restrn: fc.constantFrom("", "1", "2", "8", "14", "16", "99"),
  at: spot,
  size: unit,
});
const rock = fc.record({
  at: spot,
  watlev: fc.constantFrom(2, 3, 4, 5),
  valsou: fc.option(fc.double({ min: -2, max: 20, noNaN: true }), {
    nil: undefined,
  }),
});

interface Scene {
  patches: {
    acronym: string;
    restrn: string;
    at: [number, number];
    size: number;
  }[];
  rocks: { at: [number, number]; watlev: number; valsou: number | undefined }[];
}
const scene: fc.Arbitrary<Scene> = fc.record({
  patches: fc.array(patch, { maxLength: 5 }),
  rocks: fc.array(rock, { maxLength: 5 }),
});

/** An invented chart of two strips of depth round a middle, with patches and rocks in it; `turn` is added to every longitude. */
function chartOf({ patches, rocks }: Scene, lat = 50, lon = 5, turn = 0): Chart {
  const [w, s, e, n] = [lon - 0.01 + turn, lat - 0.01, lon + 0.01 + turn, lat + 0.01];
  const place = ([a, b]: [number, number]): [number, number] => [w + a * (e - w), s + b * (n - s)];
  const layers: Record<string, LayerInput> = {
    M_COVR: layer(boxArea([w, s, e, n], { CATCOV: 1 })),
    M_QUAL: layer(boxArea([w, s, e, n], { CATZOC: 2 })),
    DEPARE: layer(
      boxArea([w, s, lon + turn, n], { DRVAL1: 3, DRVAL2: 6 }),
      boxArea([lon + turn, s, e, n], { DRVAL1: 6, DRVAL2: 12 }),
    ),
    UWTROC: layer(
      ...rocks.map((r) =>
        feature("Point", place(r.at), {
          WATLEV: r.watlev,
          ...(r.valsou === undefined ? {} : { VALSOU: r.valsou }),
        }),
      ),
    ),
  };
  for (const p of patches) {
    const [x, y] = place(p.at);
    const d = 0.0002 + p.size * 0.004;
    const area = boxArea([x - d, y - d, x + d, y + d], {
      ...(p.restrn === "" ? {} : { RESTRN: p.restrn }),
      DRVAL1: 1,
    });
    layers[p.acronym] = layer(...(layers[p.acronym]?.features ?? []), area);
  }
  return readChart(layers, { soundingDatum: 23 });
}
const circleAt = ([a, b]: [number, number], radiusM: number, lat = 50, lon = 5) => ({
  centre: { latDeg: lat - 0.01 + b * 0.02, lonDeg: lon - 0.01 + a * 0.02 },
  radiusM,
});
// Kept off the corners of the chart, where rounding decides.
const inner = fc.tuple(
  fc.double({ min: 0.001, max: 0.999, noNaN: true }),
  fc.double({ min: 0.001, max: 0.999, noNaN: true }),
);
const radius = fc.double({ min: 1, max: 400, noNaN: true });

const RANK: Record<Anchoring["verdict"], number> = {
  clear: 0,
  unknown: 1,
  unwise: 2,
  restricted: 3,
  prohibited: 4,
};

/** Every number of a result finite, and the result the same through JSON. */
function wholesome(result: unknown): void {
  expect(JSON.parse(JSON.stringify(result))).toEqual(result);
}

describe("laws of the questions to a chart", () => {
  test("a wider circle never has a better verdict, more depth or fewer dangers", () => {
    fc.assert(
      fc.property(scene, spot, radius, radius, (s, at, r1, r2) => {
        const chart = chartOf(s);
        const small = circleAt(at, Math.min(r1, r2));
        const wide = circleAt(at, Math.max(r1, r2));
        expect(RANK[anchoringAt(chart, wide).verdict]).toBeGreaterThanOrEqual(
          RANK[anchoringAt(chart, small).verdict],
        );
        const [a, b] = [depthsIn(chart, small), depthsIn(chart, wide)];
        if (a.leastM === null) expect(b.leastM).toBeNull();
        else expect(b.leastM ?? -Infinity).toBeLessThanOrEqual(a.leastM);
        const ids = new Set(hazardsIn(chart, wide).hazards.map((h) => h.feature.id));
        for (const h of hazardsIn(chart, small).hazards) expect(ids).toContain(h.feature.id);
      }),
      { numRuns: 80 },
    );
  });

  test("one more charted thing never makes it better", () => {
    fc.assert(
      fc.property(scene, patch, rock, spot, radius, (s, p, r, at, radiusM) => {
        const area = circleAt(at, radiusM);
        const before = chartOf(s);
        const after = chartOf({
          patches: [...s.patches, p],
          rocks: [...s.rocks, r],
        });
        expect(RANK[anchoringAt(after, area).verdict]).toBeGreaterThanOrEqual(
          RANK[anchoringAt(before, area).verdict],
        );
        const [a, b] = [depthsIn(before, area).leastM, depthsIn(after, area).leastM];
        if (a === null) expect(b).toBeNull();
        else expect(b ?? -Infinity).toBeLessThanOrEqual(a);
        expect(hazardsIn(after, area).hazards.length).toBeGreaterThanOrEqual(
          hazardsIn(before, area).hazards.length,
        );
      }),
      { numRuns: 80 },
    );
  });

  test("nothing changes when every longitude is turned by 360 degrees", () => {
    fc.assert(
      fc.property(
        scene,
        inner,
        radius,
        fc.constantFrom(-179.995, 20, 60, 179.995),
        (s, at, radiusM, lon) => {
          const ask = (c: Chart, a: Area & { centre: unknown }) => ({
            verdict: anchoringAt(c, a).verdict,
            codes: anchoringAt(c, a).reasons.map((x) => x.code),
            least: depthsIn(c, a).leastM,
            dangers: hazardsIn(c, a).hazards.map((h) => h.distanceM.toFixed(3)),
            covered: coverageOf(c, a).covered,
          });
          const one = ask(chartOf(s, 50, lon), circleAt(at, radiusM, 50, lon));
          const turn = lon >= 0 ? -360 : 360;
          expect(ask(chartOf(s, 50, lon, turn), circleAt(at, radiusM, 50, lon))).toEqual(one);
          expect(ask(chartOf(s, 50, lon), circleAt(at, radiusM, 50, lon + turn))).toEqual(one);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("answers are finite, the same twice and through JSON, and leave chart and question untouched", () => {
    fc.assert(
      fc.property(scene, spot, radius, (s, at, radiusM) => {
        const chart = chartOf(s);
        const area = circleAt(at, radiusM);
        const before = JSON.stringify([chart.features, [...chart.lonLat], area]);
        const ask = () => [
          anchoringAt(chart, area),
          depthsIn(chart, area),
          hazardsIn(chart, area),
          seabedNear(chart, area.centre),
          coverageOf(chart, area),
          shoreNear(chart, area.centre),
        ];
        wholesome(ask());
        expect(ask()).toEqual(ask());
        expect(JSON.stringify([chart.features, [...chart.lonLat], area])).toBe(before);
      }),
      { numRuns: 40 },
    );
  });

  test("the input is left untouched, and read twice gives the same chart", () => {
    const input = {
      RESARE: layer(boxArea([0, 0, 1, 1], { RESTRN: ["1"] })),
      SOUNDG: layer(feature("MultiPoint", [[0, 0, 1]])),
    };
    const before = JSON.stringify(input);
    expect(readChart(input, { soundingDatum: 23 })).toEqual(
      readChart(input, { soundingDatum: 23 }),
    );
    expect(JSON.stringify(input)).toBe(before);
  });
});

describe("distance between a polygon asked about and a charted area", () => {
  const star = (cx: number, cy: number) =>
    fc
      .array(fc.double({ min: 5, max: 60, noNaN: true }), {
        minLength: 3,
        maxLength: 9,
      })
      .map((rs) =>
        rs.map((r, i): [number, number] => {
          const t = (2 * Math.PI * i) / rs.length;
          return [cx + r * Math.cos(t), cy + r * Math.sin(t)];
        }),
      );
  test("as by trying every side, 0 exactly where polygon-clipping finds common ground", () => {
    const plane = planeAt({ latDeg: 0, lonDeg: 0 });
    fc.assert(
      fc.property(
        star(0, 0),
        fc.double({ min: 0, max: 150, noNaN: true }).chain((x) => star(x, 10)),
        (a, b) => {
          // Corners of the question in degrees so small that the plane is flat to 1e-9 m.
          const toDeg = ([x, y]: [number, number]) => ({
            latDeg: y / 110_574.2727,
            lonDeg: x / 111_319.4908,
          });
          const area = layArea(plane, a.map(toDeg));
          const xy = Float64Array.from([...b, b[0]!].flat());
          const tree = buildBoxTree({
            xy,
            starts: Int32Array.of(0, b.length + 1),
          });
          const ring = Array.from({ length: a.length }, (_, i): [number, number] => [
            area.ring!.xy[2 * i]!,
            area.ring!.xy[2 * i + 1]!,
          ]);
          const common = polygonClipping.intersection([ring], [b]).length > 0;
          const d = treeToArea(area, tree, true);
          let brute = Infinity;
          for (const [p, q] of [
            [ring, b],
            [b, ring],
          ] as const)
            for (const [x, y] of p)
              for (const [i, u] of q.entries()) {
                const v = q[(i + 1) % q.length]!;
                brute = Math.min(brute, Math.sqrt(pointToSegment2(x, y, u[0], u[1], v[0], v[1])));
              }
          if (common) expect(d).toBeLessThan(1e-6);
          else expect(Math.abs(d - brute)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 300 },
    );
  });
});
