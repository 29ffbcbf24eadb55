import { describe, expect, test } from "vitest";
import { readChart } from "../../src/chart/index.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";
import {
  byWeight,
  judged,
  leastKnown,
  lesser,
  spansBelow,
  weightiest,
  type Criterion,
  type PlanReason,
} from "../../src/plan/criteria.js";
import { buildBoxTree } from "../../src/geo/boxtree.js";
import { featureSeen, shoreSeen } from "../../src/plan/chartRoom.js";
import { isSettled, marginOf, marginToCharted } from "../../src/plan/margins.js";
import type { StayPlan } from "../../src/plan/planStay.js";
import { safeUntil } from "../../src/plan/safeUntil.js";
import { emptyRoom } from "../../src/swing/kernel.js";

const T = [0, 1000, 2000, 3000, 4000];
const of = (...v: number[]) => Float64Array.from(v);
const criterion = (values: Float64Array, more: Partial<Criterion> = {}): Criterion => ({
  code: "depth.tight",
  severity: "caution",
  values,
  limit: 1,
  basis: "a rule",
  ...more,
});

describe("spans at or below a limit", () => {
  test("begin and end where the straight line between moments crosses it", () => {
    expect(spansBelow(T, of(3, 1.5, 0.5, 0, 2), 1)).toEqual([{ fromMs: 1500, toMs: 3500 }]);
  });

  test("open at the first moment and to the last where they are passed there", () => {
    expect(spansBelow(T, of(0, 2, 2, 3, 0), 1)).toEqual([
      { fromMs: 0, toMs: 500 },
      { fromMs: 3667, toMs: 4000 },
    ]);
    expect(spansBelow(T, of(0, 0, 0, 0, 0), 1)).toEqual([{ fromMs: 0, toMs: 4000 }]);
  });

  test("a value on the limit passes it, one above does not", () => {
    expect(spansBelow(T, of(2, 1, 2, 2, 2), 1)).toEqual([{ fromMs: 1000, toMs: 1000 }]);
    expect(spansBelow(T, of(2, 1.001, 2, 2, 2), 1)).toEqual([]);
  });

  test("values not known neither pass nor lend a crossing", () => {
    expect(spansBelow(T, of(NaN, 0, NaN, 2, NaN), 1)).toEqual([{ fromMs: 1000, toMs: 2000 }]);
    expect(spansBelow(T, of(Infinity, 0, Infinity, 2, 2), 1)).toEqual([
      { fromMs: 1000, toMs: 2000 },
    ]);
    expect(spansBelow(T, of(2, -Infinity, 3, 3, 3), 1)).toEqual([{ fromMs: 1000, toMs: 2000 }]);
  });
});

describe("the end of what a criterion finds", () => {
  const end = (...v: number[]) => judged(T, criterion(of(...v)))!.toMs;

  test("is where it is crossed back, or the moment from which nothing is known for a while", () => {
    expect(end(2, 0, 2, NaN, NaN)).toBe(1500);
    expect(end(2, 0, NaN, 2, 2)).toBe(2000);
    expect(end(NaN, NaN, 0, 2, 2)).toBe(2500);
  });

  test("is that of the stay where nothing is known to its end", () => {
    expect(end(2, 0, NaN, NaN, NaN)).toBe(4000);
    expect(end(2, 2, 2, 2, 0)).toBe(4000);
  });
});

describe("the least", () => {
  test("of two, where what is not known stays not known", () => {
    expect([lesser(1, 2), lesser(2, 1), lesser(1, 1)]).toEqual([1, 1, 1]);
    expect([lesser(NaN, 1), lesser(1, NaN)]).toEqual([NaN, NaN]);
  });

  test("of many, the first of equals, what is not known left out", () => {
    expect(leastKnown([NaN, 3, 1, 1, NaN])).toBe(2);
    expect(leastKnown([5])).toBe(0);
    expect(leastKnown([NaN, NaN])).toBe(-1);
    expect(leastKnown([])).toBe(-1);
    expect(leastKnown([1, NaN, 2])).toBe(0);
  });
});

describe("a criterion", () => {
  test("passed gives a reason: the worst moment with its value, and the hours", () => {
    expect(judged(T, criterion(of(3, 1.5, 0.5, 0, 2), { of: "the shore" }))).toEqual({
      code: "depth.tight",
      severity: "caution",
      atMs: 3000,
      value: 0,
      limit: 1,
      basis: "a rule",
      fromMs: 1500,
      toMs: 3500,
      of: "the shore",
    });
  });

  test("names nothing where it is about nothing, and runs from the first span to the end of the last", () => {
    const r = judged(T, criterion(of(0, 2, 0, 2, 2)))!;
    expect("of" in r).toBe(false);
    expect(r.times).toBe(2);
    expect("times" in judged(T, criterion(of(0, 2, 2, 2, 2)))!).toBe(false);
    expect([r.fromMs, r.toMs, r.atMs]).toEqual([0, 2500, 0]);
  });

  test("not passed, or of which nothing is known, gives none; an endless value is no figure", () => {
    expect(judged(T, criterion(of(2, 2, 2, 2, 2)))).toBeNull();
    expect(judged(T, criterion(of(NaN, NaN, NaN, NaN, NaN)))).toBeNull();
    expect(judged(T, criterion(of(2, -Infinity, 2, 2, 2)))?.value).toBeNull();
  });

  test("of a ladder the weightiest that is passed counts", () => {
    const stop = criterion(of(2, 0.5, 2, 2, 2), { severity: "stop", limit: 0 });
    const warning = criterion(of(2, 0.5, 2, 2, 2), { severity: "warning", limit: 1 });
    const caution = criterion(of(2, 0.5, 2, 2, 2), { limit: 3 });
    expect(weightiest(T, [stop, warning, caution])?.severity).toBe("warning");
    expect(weightiest(T, [stop])).toBeNull();
    expect(weightiest(T, [])).toBeNull();
  });
});

const reason = (severity: PlanReason["severity"], fromMs?: number, code = "x"): PlanReason => ({
  code,
  severity,
  value: null,
  limit: null,
  basis: "a rule",
  ...(fromMs !== undefined && { fromMs }),
});

test("reasons stand heaviest first, then by the hour, those that hang on none before", () => {
  const sorted = [
    reason("note", 1),
    reason("caution", 5),
    reason("stop", 9),
    reason("warning", 7),
    reason("warning", 3),
    reason("warning"),
  ].sort(byWeight);
  expect(sorted.map((r) => [r.severity, r.fromMs])).toEqual([
    ["stop", 9],
    ["warning", undefined],
    ["warning", 3],
    ["warning", 7],
    ["caution", 5],
    ["note", 1],
  ]);
});

test("of two that weigh the same, whichever way round they are asked about", () => {
  expect(byWeight(reason("stop"), reason("stop", 5))).toBe(-Infinity);
  expect(byWeight(reason("stop", 5), reason("stop"))).toBe(Infinity);
});

describe("room over the fan", () => {
  test("the least of every entry of a moment; under the forecast of its first two, where settled", () => {
    const gaps = [9, 12, 8, 20, 19, 7];
    const { fanM, forecastM } = marginOf(
      Int32Array.of(0, 3, 6),
      (i) => gaps[i]!,
      (i) => i !== 4 && i !== 0,
    );
    expect([...fanM]).toEqual([8, 7]);
    expect([...forecastM]).toEqual([12, 20]);
  });

  test("nothing compared is no limit", () => {
    const { fanM, forecastM } = marginOf(
      Int32Array.of(0, 2),
      () => 5,
      () => false,
    );
    expect([...fanM, ...forecastM]).toEqual([5, Infinity]);
  });

  test("to a point: from the circle that holds the hull and its margin, nothing where it reaches", () => {
    const room = emptyRoom(4);
    room.x.set([10, 10, 10, 0]);
    room.y.set([20, 20, 20, 0]);
    room.halfLengthM.set([3, 3, 0, 3]);
    room.halfBeamM.set([4, 4, 0, 4]);
    room.marginM.set([1, 2, 1, 0]);
    const at = (x: number, y: number) => ({
      tree: buildBoxTree({ xy: Float64Array.of(x, y), starts: Int32Array.of(0, 1) }),
      form: "point" as const,
      ...{ x: 0, y: 0, cos: 1, sin: 0 },
    });
    const { fanM, forecastM } = marginToCharted(at(40, 60), room, Int32Array.of(0, 2, 4));
    // 50 m off, less 5 m of hull and the margin.
    expect([...fanM]).toEqual([43, 49]);
    expect([...forecastM]).toEqual([43, Math.sqrt(5200) - 5]);
    expect(marginToCharted(at(12, 20), room, Int32Array.of(0, 2)).fanM[0]).toBe(0);
    expect([0, 1, 2].map((i) => isSettled(room, i))).toEqual([true, true, false]);
  });
});

describe("room to the shore", () => {
  // The anchor lies half a degree from the middle of the chart, where north is nearly half a degree off its plane's.
  const anchor = { latDeg: 60, lonDeg: -30.5 };
  const plane = planeAt(anchor);
  const onMap = (x: number, y: number): [number, number] => {
    const { latDeg, lonDeg } = positionOf(plane, x, y);
    return [lonDeg, latDeg];
  };
  const line = (coordinates: [number, number][]) => ({
    type: "FeatureCollection" as const,
    features: [{ type: "Feature", properties: {}, geometry: { type: "LineString", coordinates } }],
  });
  const sea = line([]);
  const ring = [[-31, 59.5], [-29, 59.5], [-29, 60.5], [-31, 60.5], [-31, 59.5]]; // prettier-ignore
  const covered = { type: "Polygon", coordinates: [ring] };
  const M_COVR = { ...sea, features: [{ type: "Feature", properties: { CATCOV: 1 }, geometry: covered }] }; // prettier-ignore
  // A shore that runs east and west 500 m north of the anchor.
  const chart = readChart(
    { M_COVR, COALNE: line([onMap(-900, 500), onMap(900, 500)]) },
    { soundingDatum: "LAT" },
  );
  const room = emptyRoom(4);
  room.x.set([150, -200, 30, NaN]);
  room.y.set([100, 40, 499, 0]);
  room.halfLengthM.set([3, 3, 3, 3]);
  room.halfBeamM.set([4, 4, 4, 4]);
  room.marginM.set([1, 2, 1, 0]);

  test("from the circle that holds the hull and its margin, north being the anchor's own", () => {
    const { fanM, forecastM } = marginToCharted(
      shoreSeen(chart, anchor),
      room,
      Int32Array.of(0, 1, 2, 3),
    );
    // The plane of a whole chart is good to a few parts in ten thousand so far from its middle.
    expect(Math.abs(fanM[0]! - (400 - 6))).toBeLessThan(0.2);
    expect(Math.abs(fanM[1]! - (460 - 7))).toBeLessThan(0.2);
    expect(fanM[2]).toBe(0);
    expect([...forecastM]).toEqual([...fanM]);
  });

  test("to a shore on her side as well, for which what lies north counts as little as it should", () => {
    const beside = readChart(
      { M_COVR, COALNE: line([onMap(500, -900), onMap(500, 900)]) },
      { soundingDatum: "LAT" },
    );
    const { fanM } = marginToCharted(shoreSeen(beside, anchor), room, Int32Array.of(0, 1, 2, 3));
    expect(Math.abs(fanM[0]! - (350 - 6))).toBeLessThan(0.2);
    expect(Math.abs(fanM[1]! - (700 - 7))).toBeLessThan(0.2);
    expect(Math.abs(fanM[2]! - (470 - 6))).toBeLessThan(0.2);
  });

  test("none beyond a shore, nor on or beyond the ground of a danger, wherever its nearest part is", () => {
    const farm = (x0: number, x1: number) => ({
      ...sea,
      features: [
        {
          type: "Feature",
          properties: {},
          geometry: {
            type: "Polygon",
            coordinates: [[onMap(x0, -900), onMap(x1, -900), onMap(x1, 900), onMap(x0, 900), onMap(x0, -900)]], // prettier-ignore
          },
        },
      ],
    });
    const jetty = line([onMap(60, -900), onMap(60, 900)]);
    const charted = readChart(
      { M_COVR, COALNE: jetty, MARCUL: farm(110, 400), PONTON: farm(40, 70) },
      { soundingDatum: "LAT" },
    );
    const lies = Int32Array.of(0, 1, 2, 3);
    const roomTo = (acronym: string): number[] => {
      const index = charted.features.findIndex((f) => f.acronym === acronym);
      return [...marginToCharted(featureSeen(charted, anchor, index), room, lies).fanM];
    };
    // She lies 150 m east, in the farm; 200 m west; 30 m east.
    expect(roomTo("MARCUL").map(Math.round)).toEqual([0, 310 - 7, 80 - 6]);
    expect(roomTo("PONTON").map(Math.round)).toEqual([0, 240 - 7, 10 - 6]);
    const shore = [...marginToCharted(shoreSeen(charted, anchor), room, lies).fanM];
    expect(shore.map(Math.round)).toEqual([0, 260 - 7, 30 - 6]);
  });

  test("not known where it is not known how she lies; nor forecast where that is not settled", () => {
    expect(marginToCharted(shoreSeen(chart, anchor), room, Int32Array.of(3, 4)).fanM[0]).toBeNaN();
    const loose = { ...room, halfLengthM: new Float64Array(4) };
    expect(marginToCharted(shoreSeen(chart, anchor), loose, Int32Array.of(0, 1)).forecastM[0]).toBe(
      Infinity,
    );
  });
});

describe("when it stops being safe", () => {
  const HOUR = 3_600_000;
  const planOf = (more: Partial<StayPlan>): StayPlan =>
    ({
      version: 1,
      stay: { fromMs: 0, toMs: 10 * HOUR },
      zoneOffsetMinutes: 60,
      moments: {},
      limiting: {},
      rode: {},
      room: {},
      signals: {},
      reasons: [],
      advice: [],
      danger: { atMs: null, code: null, of: null, reason: null, known: true },
      ...more,
    }) as unknown as StayPlan;
  const thin = { ...reason("warning", 2 * HOUR, "holding.thin"), value: 1.499, limit: 1.5 };
  const at = (atMs: number) => ({ atMs, code: thin.code, of: null, reason: thin, known: true });

  test("the hour on the clock aboard, and the reason with a figure that is rounded down", () => {
    const said = safeUntil(planOf({ danger: at(2 * HOUR), reasons: [thin] }));
    expect(said).toMatchObject({ atMs: 2 * HOUR, known: true, reason: thin, advice: null });
    expect(said.text).toBe(
      "It stops being safe at 03:00 on Thu 1 Jan: little in hand: likely to hold 1.49 times the pull of the gusts, 1.5 wanted.",
    );
  });

  test("what makes it unsafe all along comes before what does so at an hour", () => {
    const along = reason("stop", undefined, "depth.none");
    for (const reasons of [
      [thin, along],
      [along, thin],
    ])
      expect(safeUntil(planOf({ danger: at(0), reasons })).then).toEqual([along, thin]);
  });

  test("at letting go, or before, it is not safe at all", () => {
    for (const atMs of [0, -1])
      expect(safeUntil(planOf({ danger: at(atMs) })).text).toMatch(/^It is not safe from letting/);
  });

  test("no hour is told apart from nothing known", () => {
    const none = { atMs: null, code: null, of: null, reason: null };
    expect(safeUntil(planOf({ danger: { ...none, known: true } })).text).toMatch(/to be unsafe\.$/);
    expect(safeUntil(planOf({ danger: { ...none, known: false } })).text).toMatch(/not everything/);
    expect(safeUntil(planOf({ danger: { ...at(HOUR), reason: null } })).text).toMatch(/^No hour/);
  });

  test("what stands at every hour is told where no hour is: a stop or a warning, no caution and nothing of an hour", () => {
    const none = { atMs: null, code: null, of: null, reason: null };
    const stands = {
      ...reason("warning", undefined, "chart.RESTRN.2"),
      value: "restricted",
      of: "a bay",
    };
    const others = [
      reason("caution"),
      reason("warning", 7),
      reason("warning", undefined, "unknown.tide"),
    ];
    const said = (known: boolean, reasons: PlanReason[]) =>
      safeUntil(planOf({ danger: { ...none, known }, reasons })).text;
    expect(said(true, [...others, stands])).toBe(
      "A warning stands at every hour: charted a bay: restricted.",
    );
    expect(said(false, [...others, stands])).toBe(
      "A warning stands at every hour: charted a bay: restricted. Not everything is known.",
    );
    expect(said(true, others)).toBe("No hour of the stay is known to be unsafe.");
  });

  test("every stop and warning by the hour; neither cautions nor what is not known", () => {
    const reasons = [
      reason("stop", 9),
      reason("warning", 7),
      reason("stop"),
      reason("warning", undefined, "unknown.tide"),
      reason("caution", 1),
      reason("note", 2),
    ];
    const { then } = safeUntil(planOf({ reasons, danger: at(7) }));
    expect(then.map((r) => r.fromMs)).toEqual([undefined, 7, 9]);
    expect(reasons[0]!.fromMs).toBe(9);
  });

  test("the advice to be gone, and none where there is no danger", () => {
    const advice = (["veer.more", "move.by"] as const).map((code) => ({
      code,
      value: null,
      buys: null,
      against: null,
      basis: "",
    }));
    expect(safeUntil(planOf({ advice, danger: at(HOUR) })).advice?.code).toBe("move.by");
    expect(safeUntil(planOf({ advice })).advice).toBeNull();
    for (const code of ["lie.elsewhere", "move.byNightfall"] as const)
      expect(
        safeUntil(planOf({ advice: [{ ...advice[0]!, code }], danger: at(HOUR) })).advice?.code,
      ).toBe(code);
  });
});
