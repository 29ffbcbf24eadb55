import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  breakOut,
  bringUp,
  designLoad,
  holding,
  sizeAnchor,
  twoAnchors,
} from "../../src/holding/index.js";
import { ANCHOR_TYPES } from "../../src/core/anchorTypes.js";
import { BED_FIGURES, bedNames } from "../../src/holding/beds.js";
import { vesselFrom } from "../../src/lie/index.js";
import { codeRow, equipmentRow, fishingAnchorKg } from "../../src/holding/rules.js";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const type = fc.constantFrom(...ANCHOR_TYPES);
const bed = fc.constantFrom(...bedNames);
const figured = fc.constantFrom(...bedNames.filter((name) => BED_FIGURES[name].relative !== null));
const anchor = fc.record({ type, massKg: number(1, 200) });

describe("holding", () => {
  test("is ordered, and there is a figure or a reason why not", () => {
    fc.assert(
      fc.property(anchor, bed, number(-20, 60), (a, seabed, pullAngleDeg) => {
        const h = holding({ anchor: a, seabed, pullAngleDeg });
        expect(h.ultimateN === null).toBe(h.noFigure !== null);
        if (h.ultimateN === null) return;
        const { low, likely, high } = h.ultimateN;
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(likely);
        expect(likely).toBeLessThanOrEqual(high);
        expect(JSON.parse(JSON.stringify(h))).toEqual(h);
      }),
    );
  });

  test("a heavier anchor never holds less", () => {
    fc.assert(
      fc.property(anchor, figured, number(1, 5), (a, seabed, more) => {
        const light = holding({ anchor: a, seabed }).ultimateN!;
        const heavy = holding({
          anchor: { ...a, massKg: a.massKg * more },
          seabed,
        }).ultimateN!;
        for (const end of ["low", "likely", "high"] as const)
          expect(heavy[end]).toBeGreaterThanOrEqual(light[end] * (1 - 1e-12));
      }),
    );
  });

  test("a steeper pull never holds more, and a pull below the bed counts as along it", () => {
    fc.assert(
      fc.property(anchor, figured, number(0, 60), number(0, 30), (a, seabed, angle, more) => {
        const at = (pullAngleDeg: number) =>
          holding({ anchor: a, seabed, pullAngleDeg }).ultimateN!;
        for (const end of ["low", "likely"] as const)
          expect(at(angle + more)[end]).toBeLessThanOrEqual(at(angle)[end] * (1 + 1e-12));
        expect(at(-angle)).toEqual(at(0));
      }),
    );
  });

  test("not knowing the bed never helps", () => {
    fc.assert(
      fc.property(anchor, bed, bed, (a, one, other) => {
        const both = holding({ anchor: a, seabed: [one, other] });
        for (const seabed of [one, other]) {
          const alone = holding({ anchor: a, seabed });
          expect(both.rating).toBeLessThanOrEqual(alone.rating);
          if (alone.ultimateN === null) expect(both.ultimateN).toBeNull();
          else if (both.ultimateN !== null)
            expect(both.ultimateN.likely).toBeLessThanOrEqual(alone.ultimateN.likely);
        }
      }),
    );
  });

  test("what has been proved is the least, and invents no figure", () => {
    fc.assert(
      fc.property(anchor, bed, number(0, 1e5), (a, seabed, provedN) => {
        const h = holding({ anchor: a, seabed, set: { provedN } });
        expect(h.cautions).not.toContain("setUnproven");
        // A pull too small to be meant counts as none.
        if (h.ultimateN !== null) expect(h.ultimateN.low).toBeGreaterThanOrEqual(provedN - 1e-9);
        else expect(h.noFigure).not.toBeNull();
      }),
    );
  });
});

describe("sizing", () => {
  const lengthM = number(3, 21);
  test("longer or windier never means less load", () => {
    fc.assert(
      fc.property(
        lengthM,
        number(0, 40),
        number(1, 1.4),
        number(1, 1.4),
        (length, wind, longer, windier) => {
          const at = (l: number, w: number) => designLoad({ lengthM: l, windMps: w }).loadN;
          const base = at(length, wind)!;
          const bigger = at(Math.min(21.3, length * longer), wind * windier)!;
          expect(bigger).toBeGreaterThanOrEqual(base * (1 - 1e-12));
        },
      ),
    );
  });

  test("rules never ask for less of a longer vessel, a higher number or a greater hull, but for the break of the fishing rule", () => {
    fc.assert(
      fc.property(number(2, 24), number(0, 1), (length, part) => {
        const longer = length + part * (24 - length);
        expect(codeRow(longer)!.mainAnchorKg).toBeGreaterThanOrEqual(codeRow(length)!.mainAnchorKg);
        const en = 50 + (length / 24) * 154;
        expect(equipmentRow(en + part * (204.9 - en))!.bowerKg).toBeGreaterThanOrEqual(
          equipmentRow(en)!.bowerKg,
        );
        expect(fishingAnchorKg(longer * 40)).toBeGreaterThanOrEqual(fishingAnchorKg(length * 40));
      }),
    );
  });

  test("the mass asked for by load holds that load, and no lighter one does", () => {
    fc.assert(
      fc.property(
        type,
        figured,
        number(5, 20),
        number(5, 30),
        (anchorType, seabed, length, designWindMps) => {
          const sizes = sizeAnchor({
            vessel: vesselFrom({ kind: "yacht", lengthM: length }),
            designWindMps,
            seabed,
            anchorType,
          });
          const row = sizes.rows.find((r) => r.method === "loadTable")!;
          fc.pre(row.applies && row.bower.massKg! > 0.11);
          const at = (massKg: number) =>
            holding({ anchor: { type: anchorType, massKg }, seabed }).ultimateN!.likely;
          expect(at(row.bower.massKg! * 1.0001)).toBeGreaterThan(row.loadN!);
          expect(at(row.bower.massKg! * 0.9999)).toBeLessThan(row.loadN!);
          expect(row.bower.massKg!).toBeGreaterThanOrEqual(row.bower.spreadKg!.low);
        },
      ),
      { numRuns: 50 },
    );
  });

  test("exactly one method is marked strictest for the bower anchor and none asks for more", () => {
    fc.assert(
      fc.property(type, bed, number(4, 40), (anchorType, seabed, length) => {
        const { rows, strictestBower } = sizeAnchor({
          vessel: vesselFrom({ kind: "workboat", lengthM: length }),
          designWindMps: 20,
          seabed,
          anchorType,
          pullN: 3000,
        });
        const marked = rows.filter((r) => r.strictest.includes("bower"));
        expect(marked).toHaveLength(1);
        expect(marked[0]!.method).toBe(strictestBower!.method);
        for (const r of rows)
          if (r.applies) expect(r.bower.massKg ?? 0).toBeLessThanOrEqual(strictestBower!.massKg);
      }),
      { numRuns: 50 },
    );
  });
});

describe("two anchors", () => {
  const pull = fc.record({
    pullN: number(10, 1e4),
    pullTowardsDeg: number(0, 360),
  });
  const vee = fc.record({
    kind: fc.constant("vee" as const),
    firstReachM: number(15, 60),
    secondReachM: number(15, 60),
    aheadDeg: number(0, 360),
    spreadDeg: number(10, 170),
    pulls: fc.array(pull, { minLength: 1, maxLength: 8 }),
  });
  const moor = fc
    .record({
      firstReachM: number(15, 60),
      secondReachM: number(15, 60),
      lineDeg: number(0, 360),
      share: number(0.3, 0.99),
      pulls: fc.array(pull, { minLength: 1, maxLength: 8 }),
    })
    .map(({ share, ...m }) => ({
      kind: "openMoor" as const,
      ...m,
      apartM: share * (m.firstReachM + m.secondReachM),
    }));

  test("the legs balance the pull, bear only in tension and are never over-stretched", () => {
    fc.assert(
      fc.property(fc.oneof(vee, moor), (input) => {
        const t = twoAnchors(input);
        for (const l of t.legs) {
          let [east, north] = [0, 0];
          [l.firstN, l.secondN].forEach((n, k) => {
            const a = t.anchors[k]!;
            const [dx, dy] = [l.bowEastM - a.eastM, l.bowNorthM - a.northM];
            const d = Math.sqrt(dx * dx + dy * dy);
            const reach = k === 0 ? input.firstReachM : input.secondReachM;
            expect(d).toBeLessThan(reach * (1 + 1e-6));
            expect(n).toBeGreaterThanOrEqual(-1e-6 * l.pullN);
            if (n > 0) expect(d).toBeGreaterThan(reach * (1 - 1e-6));
            east += (n * dx) / d;
            north += (n * dy) / d;
          });
          const bearing = (l.pullTowardsDeg * Math.PI) / 180;
          const scale = Math.max(l.pullN, l.firstN, l.secondN);
          expect(Math.abs(east - l.pullN * Math.sin(bearing)) / scale).toBeLessThan(1e-6);
          expect(Math.abs(north - l.pullN * Math.cos(bearing)) / scale).toBeLessThan(1e-6);
        }
        expect(JSON.parse(JSON.stringify(t))).toEqual(t);
      }),
    );
  });

  test("legs that give balance the pull too", () => {
    const curve = (reachM: number, give: number) => [
      { loadN: 0, reachM: reachM - give },
      { loadN: 1000, reachM: reachM - give / 3 },
      { loadN: 5000, reachM },
    ];
    fc.assert(
      fc.property(vee, (input) => {
        const soft = twoAnchors({
          ...input,
          give: {
            first: curve(input.firstReachM, 6),
            second: curve(input.secondReachM, 6),
          },
        });
        for (const l of soft.legs) {
          let [east, north] = [0, 0];
          [l.firstN, l.secondN].forEach((n, k) => {
            const a = soft.anchors[k]!;
            const [dx, dy] = [l.bowEastM - a.eastM, l.bowNorthM - a.northM];
            const d = Math.sqrt(dx * dx + dy * dy);
            expect(n).toBeGreaterThanOrEqual(0);
            east += (n * dx) / d;
            north += (n * dy) / d;
          });
          const bearing = (l.pullTowardsDeg * Math.PI) / 180;
          expect(Math.abs(east - l.pullN * Math.sin(bearing)) / l.pullN).toBeLessThan(1e-6);
          expect(Math.abs(north - l.pullN * Math.cos(bearing)) / l.pullN).toBeLessThan(1e-6);
        }
      }),
    );
  });

  test("the room on two anchors is never more than on one", () => {
    fc.assert(
      fc.property(fc.oneof(vee, moor), (input) => {
        const { room } = twoAnchors(input);
        expect(room.shareOfSingle).toBeLessThanOrEqual(1 + 1e-12);
        expect(room.bowAreaM2).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe("break-out and bringing up", () => {
  test("breaking out takes at least the weight", () => {
    fc.assert(
      fc.property(anchor, bed, number(1, 40), (a, seabed, depthM) => {
        const b = breakOut({
          anchor: a,
          seabed,
          depthM,
          cableWeightInWaterNPerM: 12,
        });
        if (b.forceN !== null) {
          expect(b.forceN.low).toBeGreaterThanOrEqual(b.weightN);
          expect(b.forceN.high).toBeGreaterThanOrEqual(b.forceN.low);
        } else expect(b.cautions).toContain("noFigure");
      }),
    );
  });

  test("faster, deeper or slower to be ready never brings up in less room, and nothing unknown is in time", () => {
    const scene = fc.record({
      speedMps: number(0, 3),
      displacementKg: number(500, 30000),
      pullN: number(0, 1500),
      depthM: number(2, 20),
      readyS: number(0, 120),
      holdN: number(0, 20000),
    });
    fc.assert(
      fc.property(scene, number(1, 2), ({ holdN, ...s }, more) => {
        const at = (given: Partial<typeof s>) =>
          bringUp({
            ...s,
            ...given,
            ultimateN: { low: holdN / 2, likely: holdN, high: holdN * 2 },
            cableM: 200,
            roomM: 150,
          });
        const base = at({});
        for (const worse of [
          at({ speedMps: s.speedMps * more }),
          at({ depthM: s.depthM * more }),
          at({ readyS: s.readyS * more }),
          at({ displacementKg: s.displacementKg * more }),
        ])
          if (base.distanceM !== null && worse.distanceM !== null)
            for (const end of ["low", "likely", "high"] as const)
              expect(worse.distanceM[end]).toBeGreaterThanOrEqual(base.distanceM[end] - 1e-9);
        if (base.distanceM === null) expect(base.verdict).not.toBe("inTime");
        const blind = bringUp({
          ...s,
          ultimateN: null,
          cableM: 200,
          roomM: 1e6,
        });
        expect(blind.verdict).toBe("cannotTell");
      }),
    );
  });
});

test("every function: finite or null out, input left alone, same twice, through JSON and back", () => {
  const plainLaw = (f: (x: never) => unknown, inputs: fc.Arbitrary<unknown>) => {
    fc.assert(
      fc.property(inputs, (x) => {
        const before = structuredClone(x);
        const a = f(x as never);
        expect(x).toEqual(before);
        expect(JSON.parse(JSON.stringify(a))).toEqual(a);
        expect(f(x as never)).toEqual(a);
      }),
      { numRuns: 40 },
    );
  };
  plainLaw(holding, fc.record({ anchor, seabed: bed, pullAngleDeg: number(-90, 90) }));
  plainLaw(
    sizeAnchor,
    fc.record({
      vessel: fc
        .record({
          kind: fc.constantFrom("yacht" as const, "catamaran" as const),
          lengthM: number(2, 60),
        })
        .map((v) => vesselFrom(v)),
      designWindMps: number(0, 60),
      seabed: bed,
      anchorType: type,
      pullN: number(1, 1e6),
    }),
  );
  plainLaw(designLoad, fc.record({ lengthM: number(0.1, 100), windMps: number(0, 60) }));
  plainLaw(
    breakOut,
    fc.record({
      anchor,
      seabed: bed,
      depthM: number(0.1, 100),
      cableWeightInWaterNPerM: number(0, 200),
    }),
  );
  plainLaw(
    bringUp,
    fc.record({
      speedMps: number(0, 15),
      displacementKg: number(1, 1e6),
      pullN: number(0, 1e5),
      ultimateN: fc.constantFrom(null, { low: 0, likely: 1e3, high: 1e5 }),
      depthM: number(0.1, 100),
      cableM: number(0.1, 300),
      readyS: number(0, 600),
    }),
  );
  plainLaw(
    twoAnchors,
    fc.record({
      kind: fc.constant("foreAndAft"),
      headingDeg: number(0, 360),
      lengthM: number(5, 20),
      apartM: number(21, 60),
      firstReachM: number(30, 60),
      secondReachM: number(30, 60),
    }),
  );
});
