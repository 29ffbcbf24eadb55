import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { GRAVITY_MPS2 } from "../../src/core/constants.js";
import { feet, knots } from "../../src/core/units.js";
import {
  breakOut,
  bringUp,
  designLoad,
  holding,
  sizeAnchor,
  twoAnchors,
} from "../../src/holding/index.js";
import type { AnchorType } from "../../src/core/anchorTypes.js";
import type { BedName } from "../../src/holding/beds.js";
import { ratingOf } from "../../src/holding/ratings.js";
import { codeRow, equipmentRow } from "../../src/holding/rules.js";
import { vesselFrom } from "../../src/lie/index.js";
import { holdingMatrix } from "../../src/seabed/holding-matrix.js";
import { TAUGHT_POOR } from "../../src/seabed/taught.js";
import { checksOf } from "../checks/harness.js";

describe("ratings", () => {
  // Common practice, no source: shared/checks/practice.json, "anchor-<type>".
  const rows = checksOf("practice").filter((c) => c.id.startsWith("anchor-"));
  test("the taught rows are there", () => {
    expect(rows.length).toBeGreaterThanOrEqual(7);
  });
  for (const row of rows) {
    const type = row.inputs["type"] as AnchorType;
    for (const [bed, word] of Object.entries(row.expected))
      test(`${type} on ${bed} is ${String(word)}`, () => {
        const { rating } = holding({
          anchor: { type, massKg: 15 },
          seabed: bed as BedName,
        });
        if (word === "good") expect(rating).toBeGreaterThanOrEqual(3);
        else expect(rating).toBeLessThanOrEqual(1);
      });
  }

  test("are those of the holding matrix, lowered where common teaching calls a type poor", () => {
    for (const cell of holdingMatrix) {
      const taught = TAUGHT_POOR[cell.anchor]?.includes(cell.bed) === true;
      expect(ratingOf(cell.anchor, cell.bed), `${cell.anchor} on ${cell.bed}`).toBe(
        taught ? Math.min(1, cell.rating) : cell.rating,
      );
    }
  });
});

describe("holding", () => {
  test("says no figure where none is honest, with the rating", () => {
    for (const seabed of ["rock", "coral", "weed", "kelp"] as const) {
      const h = holding({ anchor: { type: "fisherman", massKg: 20 }, seabed });
      expect(h.ultimateN).toBeNull();
      expect(h.noFigure).not.toBeNull();
      expect(h.rating).toBeGreaterThanOrEqual(0);
    }
  });

  test("a type that may not set there may hold nothing", () => {
    const h = holding({
      anchor: { type: "hingedPlough", massKg: 20 },
      seabed: "clay, stiff or hard",
    });
    expect(h.cautions).toContain("mayNotSet");
    expect(h.ultimateN!.low).toBe(0);
  });

  test("of the beds it may be the lowest figure counts and the cautions of all, in any order", () => {
    const on = (seabed: BedName | BedName[]) =>
      holding({ anchor: { type: "claw", massKg: 15 }, seabed });
    // Stiff clay likely holds more than sand, but a claw may not get in.
    for (const [a, b] of [
      ["sand, firm", "clay, stiff or hard"],
      ["sand, coarse or loose", "mud, soft"],
      ["sand", "mud, firm"],
    ] as const) {
      const low = Math.min(on(a).ultimateN!.low, on(b).ultimateN!.low);
      for (const beds of [
        [a, b],
        [b, a],
      ])
        expect(on(beds).ultimateN!.low, beds.join()).toBe(low);
    }
    for (const beds of [
      ["rock", "coral"],
      ["coral", "rock"],
    ] as BedName[][]) {
      expect(on(beds).ultimateN).toBeNull();
      expect(on(beds).cautions).toEqual(expect.arrayContaining(["bedProtected", "hooksOnly"]));
    }
  });

  test("soft mud against firm sand is a third, by the published coefficients", () => {
    const at = (seabed: BedName) =>
      holding({ anchor: { type: "claw", massKg: 15 }, seabed }).ultimateN!.likely;
    expect(at("mud, soft") / at("sand, firm")).toBeCloseTo(0.33, 9);
    expect(at("clay, stiff or hard") / at("sand, firm")).toBeCloseTo(1.5, 9);
  });

  test("pivoting fluke: pull tests of small anchors and the naval curve overlap", () => {
    // Two independent roads to one figure: ratio 20 to 50 of its weight, and 560 kN at 4536 kg with exponent 0.8.
    for (const seabed of ["sand, firm", "mud, soft"] as const) {
      const { figures } = holding({
        anchor: { type: "pivotingFluke", massKg: 20 },
        seabed,
      });
      expect(figures).toHaveLength(2);
      expect(figures[0]!.ultimateN.low).toBeLessThan(figures[1]!.ultimateN.high);
      expect(figures[1]!.ultimateN.low).toBeLessThan(figures[0]!.ultimateN.high);
    }
  });

  test("a curve of one's own replaces the one from memory", () => {
    const h = holding({
      anchor: { type: "claw", massKg: 20 },
      seabed: "sand",
      pullAngleDeg: 10,
      uplift: [
        { pullAngleDeg: 0, share: 1 },
        { pullAngleDeg: 20, share: 0.5 },
      ],
    });
    expect(h.upliftShare.likely).toBeCloseTo(0.75, 12);
    expect(() =>
      holding({
        anchor: { type: "claw", massKg: 20 },
        seabed: "sand",
        uplift: [
          { pullAngleDeg: 5, share: 1 },
          { pullAngleDeg: 2, share: 0.5 },
        ],
      }),
    ).toThrow(InputError);
  });

  test("refuses what it does not know", () => {
    expect(() =>
      holding({
        anchor: { type: "claw", massKg: 20 },
        seabed: "lava" as never,
      }),
    ).toThrow(InputError);
    expect(() => holding({ anchor: { type: "claw", massKg: NaN }, seabed: "sand" })).toThrow(
      InputError,
    );
  });
});

describe("rules", () => {
  test("a length between two rows takes the longer row, and beyond the table none", () => {
    expect(codeRow(12.1)!.meanLengthM).toBe(13);
    expect(codeRow(4)!.meanLengthM).toBe(6);
    expect(codeRow(24.1)).toBeNull();
    expect(codeRow(NaN)).toBeNull();
  });

  test("an equipment number off the table has no row", () => {
    for (const en of [49.9, 205, NaN]) expect(equipmentRow(en)).toBeNull();
    expect(equipmentRow(70)!.bowerKg).toBe(240);
  });

  test("the storm row stands for 42 kn as for 45 kn, as its two printings have it", () => {
    const lbf = (lengthFt: number, windKn: number) =>
      designLoad({ lengthM: feet(lengthFt), windMps: knots(windKn) }).loadN! / 4.4482216152605;
    for (const [lengthFt, row] of [
      [25, 980],
      [40, 2400],
      [70, 5400],
    ] as const)
      for (const windKn of [42, 43.5, 45]) expect(lbf(lengthFt, windKn)).toBeCloseTo(row, 8);
    // Between the rows of 30 kn and 42 kn no less than the square.
    for (const windKn of [31, 35, 40])
      expect(lbf(40, windKn)).toBeGreaterThan((1200 * windKn * windKn) / 900);
  });

  test("designLoad gives nothing beyond its table", () => {
    expect(designLoad({ lengthM: 22, windMps: 10 }).loadN).toBeNull();
  });

  test("a bed without a figure leaves the rules and says why the loads do not apply", () => {
    const { rows, strictestBower } = sizeAnchor({
      vessel: vesselFrom({ kind: "yacht", lengthM: 11 }),
      designWindMps: knots(30),
      seabed: "rock",
      anchorType: "fisherman",
      pullN: 2000,
    });
    for (const r of rows)
      if (r.method === "loadTable" || r.method === "reckonedPull")
        expect(r).toMatchObject({
          applies: false,
          note: "no honest figure of holding for this anchor and bed",
        });
    expect(strictestBower?.method).toBe("fishingVesselRule");
  });

  test("a type not given is taken as one that holds little, and said", () => {
    const input = {
      vessel: vesselFrom({ kind: "yacht", lengthM: 11 }),
      designWindMps: knots(30),
      seabed: "sand" as const,
    };
    const open = sizeAnchor(input);
    const claw = sizeAnchor({ ...input, anchorType: "claw" });
    const scoop = sizeAnchor({ ...input, anchorType: "rollBarScoop" });
    expect(open.assumed).toContain("anchorType");
    expect(claw.assumed).not.toContain("anchorType");
    expect(open.rows).toEqual(claw.rows);
    expect(open.rows[0]!.bower.massKg!).toBeGreaterThan(scoop.rows[0]!.bower.massKg!);
  });

  test("an ordinary anchor is a third heavier than a high-holding one by the code", () => {
    const at = (anchorType: "claw" | "fisherman") =>
      sizeAnchor({
        vessel: vesselFrom({ kind: "yacht", lengthM: 11 }),
        designWindMps: knots(30),
        seabed: "sand",
        anchorType,
      }).rows.find((r) => r.method === "codeTable")!.bower.massKg!;
    expect(at("fisherman") / at("claw")).toBeCloseTo(1.33, 12);
  });
});

describe("two anchors", () => {
  const vee = (spreadDeg: number, pullTowardsDeg = 180) =>
    twoAnchors({
      kind: "vee",
      aheadDeg: 0,
      spreadDeg,
      firstReachM: 40,
      secondReachM: 40,
      pulls: [{ pullN: 1000, pullTowardsDeg }],
    });

  // F / (2 cos(a/2)): a textbook table of bridle legs.
  test.each([
    [30, 0.5176],
    [60, 0.5774],
    [90, 0.7071],
    [120, 1],
    [150, 1.9319],
  ])("equal legs at %i degrees bear %f of the pull each", (spread, share) => {
    const { legs, cautions, easesAnchors } = vee(spread);
    expect(legs[0]!.firstN / 1000).toBeCloseTo(share, 4);
    expect(legs[0]!.secondN / 1000).toBeCloseTo(share, 4);
    expect(cautions.includes("legBearsMoreThanPull")).toBe(spread > 120);
    expect(easesAnchors).toBe(spread < 120);
  });

  test("off the middle the legs share by the sines", () => {
    const off = 10;
    const { legs } = vee(60, 180 + off);
    const sine = (deg: number) => Math.sin((deg * Math.PI) / 180);
    const one = (1000 * sine(30 - off)) / sine(60);
    const other = (1000 * sine(30 + off)) / sine(60);
    expect([legs[0]!.firstN, legs[0]!.secondN].sort((a, b) => a - b)).toEqual([
      expect.closeTo(one, 6),
      expect.closeTo(other, 6),
    ]);
    // Pulled to the west of south, the anchor to the east bears more: the first lies to port, to the west.
    expect(legs[0]!.secondN).toBeGreaterThan(legs[0]!.firstN);
  });

  test("outside the sector one leg bears all and the other is slack", () => {
    const { legs, cautions } = vee(60, 250);
    expect([legs[0]!.firstN, legs[0]!.secondN]).toEqual([0, 1000]);
    expect(cautions).toContain("oneLegSlack");
  });

  test("stream along an open moor is borne by one anchor, wind across it by F / (2 sin phi) on each", () => {
    const apartM = 78;
    const moor = (pullTowardsDeg: number) =>
      twoAnchors({
        kind: "openMoor",
        lineDeg: 0,
        apartM,
        firstReachM: 40,
        secondReachM: 40,
        pulls: [{ pullN: 500, pullTowardsDeg }],
      });
    expect(moor(180).legs[0]).toMatchObject({ firstN: 500, secondN: 0 });
    expect(moor(0).legs[0]).toMatchObject({ firstN: 0, secondN: 500 });
    const sine = Math.sqrt(1 - (apartM / 80) ** 2);
    const across = moor(90);
    expect(across.legs[0]!.firstN).toBeCloseTo(500 / (2 * sine), 6);
    expect(across.legs[0]!.bowEastM).toBeCloseTo(40 * sine, 6);
    expect(across.cautions).toContain("flatAngle");
    expect(across.cautions).toContain("turnsInCable");
    expect(across.room.shareOfSingle).toBeLessThan(0.05);
  });

  test("fore and aft the hull takes its length out of the gap", () => {
    const t = twoAnchors({
      kind: "foreAndAft",
      headingDeg: 0,
      lengthM: 10,
      apartM: 80,
      firstReachM: 36,
      secondReachM: 36,
      pulls: [{ pullN: 600, pullTowardsDeg: 270 }],
    });
    const sine = Math.sqrt(1 - (70 / 72) ** 2);
    expect(t.legs[0]!.firstN).toBeCloseTo(600 / (2 * sine), 6);
    expect(t.legs[0]!.bowEastM).toBeCloseTo(-36 * sine, 6);
  });

  test("legs that give come to the taut ones as they stiffen", () => {
    const stiff = (give: number) => {
      const curve = [
        { loadN: 0, reachM: 40 - give },
        { loadN: 577.35, reachM: 40 },
      ];
      return twoAnchors({
        kind: "vee",
        aheadDeg: 0,
        spreadDeg: 60,
        firstReachM: 40,
        secondReachM: 40,
        give: { first: curve, second: curve },
        pulls: [{ pullN: 1000, pullTowardsDeg: 190 }],
      }).legs[0]!;
    };
    const taut = vee(60, 190).legs[0]!;
    const error = (give: number) => Math.abs(stiff(give).secondN - taut.secondN);
    expect(error(0.01)).toBeLessThan(1);
    expect(error(0.01)).toBeLessThan(error(0.1));
    expect(error(0.1)).toBeLessThan(error(1));
  });

  test("the three common uses of a second anchor are all there (common practice)", () => {
    const uses = new Set([
      ...vee(60).purposes,
      ...twoAnchors({
        kind: "openMoor",
        lineDeg: 0,
        apartM: 50,
        firstReachM: 40,
        secondReachM: 40,
      }).purposes,
    ]);
    expect([...uses].sort()).toEqual(["addHolding", "holdAgainstStream", "reduceRoom"]);
  });

  test("legs that cannot meet are refused", () => {
    expect(() =>
      twoAnchors({
        kind: "openMoor",
        lineDeg: 0,
        apartM: 90,
        firstReachM: 40,
        secondReachM: 40,
      }),
    ).toThrow(InputError);
  });
});

describe("break-out", () => {
  test("goes motor up, up and down, make fast, break out (common practice)", () => {
    const { steps, cautions } = breakOut({
      anchor: { type: "pivotingFluke", massKg: 12 },
      seabed: "mud",
      depthM: 6,
      cableWeightInWaterNPerM: 12,
      windlassN: 100,
    });
    const order = ["motorUpTakingInSlack", "upAndDown", "makeFast", "breakOutWithEngine"] as const;
    const at = order.map((step) => steps.indexOf(step));
    expect(at).toEqual([...at].sort((a, b) => a - b));
    expect(at[0]).toBe(0);
    expect(cautions).toEqual(
      expect.arrayContaining(["neverByHandOrWindlass", "windlassTooWeak", "suctionFallsWithTime"]),
    );
  });

  test("of the beds it may be the one that lets go hardest counts", () => {
    const on = (seabed: BedName | BedName[]) =>
      breakOut({
        anchor: { type: "claw", massKg: 15 },
        seabed,
        depthM: 8,
        cableWeightInWaterNPerM: 12,
      });
    const [sand, clay] = [on("sand, firm"), on("clay, stiff or hard")];
    const either = on(["sand, firm", "clay, stiff or hard"]);
    expect(sand.cautions).not.toContain("suctionFallsWithTime");
    expect(either.cautions).toContain("suctionFallsWithTime");
    expect(either.forceN!.high).toBe(Math.max(sand.forceN!.high, clay.forceN!.high));
    expect(either.forceN!.low).toBe(Math.min(sand.forceN!.low, clay.forceN!.low));
    expect(on(["sand, firm", "rock"]).forceN).toBeNull();
  });

  test("weight is that of steel in sea water", () => {
    const { weightN } = breakOut({
      anchor: { type: "claw", massKg: 20 },
      seabed: "rock",
      depthM: 5,
      bowHeightM: 1,
      cableWeightInWaterNPerM: 0,
    });
    // 1025/7850 of the weight is lost.
    expect(weightN / (20 * GRAVITY_MPS2)).toBeCloseTo(0.8694, 4);
  });
});

describe("bringing up", () => {
  const scene = {
    speedMps: 1,
    displacementKg: 8000,
    pullN: 500,
    depthM: 5,
    bowHeightM: 1,
    cableM: 50,
    scope: 4,
    readyS: 20,
  };

  test("adds up: run, cable, bite, and the energy over the net holding", () => {
    const b = bringUp({
      ...scene,
      ultimateN: { low: 4000, likely: 4000, high: 4000 },
    });
    const veer = Math.sqrt(24 * 24 - 36);
    const stop = 3 + (0.5 * 8000 * 1.1) / (4000 * 0.5 - 500);
    expect(b.distanceM!.likely).toBeCloseTo(20 + veer + stop, 9);
    const { ready, fall, veer: veered, setAndStop } = b.partsM;
    expect(ready + fall + veered + setAndStop!).toBeCloseTo(b.distanceM!.likely, 9);
    expect(b.verdict).toBe("cannotTell");
  });

  test("holding that may be below the pull is not counted on", () => {
    const b = bringUp({
      ...scene,
      ultimateN: { low: 300, likely: 4000, high: 8000 },
      roomM: 1000,
    });
    expect(b.distanceM).toBeNull();
    expect(b.verdict).toBe("cannotTell");
    expect(b.cautions).toContain("holdingBelowPull");
  });

  test("too little cable for the depth brings nobody up", () => {
    const b = bringUp({
      ...scene,
      cableM: 5,
      ultimateN: { low: 4000, likely: 5000, high: 6000 },
      roomM: 1000,
    });
    expect(b.distanceM).toBeNull();
    expect(b.cautions).toContain("cableTooShort");
  });
});
