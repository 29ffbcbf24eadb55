import { expect } from "vitest";
import { turnDeg } from "../../src/core/angles.js";
import { hours, knots } from "../../src/core/units.js";
import { holding, twoAnchors } from "../../src/holding/index.js";
import { lie, vesselFrom, type VesselKind } from "../../src/lie/index.js";
import { checklist, planStay } from "../../src/plan/index.js";
import { chain, layRode, scopeByRule } from "../../src/rode/index.js";
import { parseSeabed, rateAnchors, type AnchorType } from "../../src/seabed/index.js";
import { checkTimes, judgeSet, type JudgeSetInput } from "../../src/watch/index.js";
import { demo } from "../scenario.js";
import { runChecks, type Check, type Measured } from "./harness.js";

const BED = { rock: "R", weed: "Wd", sand: "S", mud: "M" } as const;

/** `good` is 3 or 4, `poor` is 0 or 1, as the checks define it. */
const word = (rating: number): string => (rating >= 3 ? "good" : rating <= 1 ? "poor" : "fair");

function anchorRow({ inputs, expected }: Check): Measured[] {
  const type = inputs["type"] as AnchorType;
  return Object.entries(expected).flatMap(([bed, wanted]) => {
    const seabed = bed as keyof typeof BED;
    const charted = rateAnchors(parseSeabed(BED[seabed])).ratings[type].rating;
    const held = holding({ anchor: { type, massKg: 15 }, seabed }).rating;
    return [
      { quantity: "rating of an anchor by charted bed", got: word(charted), expected: wanted },
      { quantity: "rating of an anchor by bed name", got: word(held), expected: wanted },
    ];
  });
}

function scopeRow({ inputs, expected }: Check): Measured[] {
  const { make, depthNowM, riseToHighWaterM } = inputs as {
    make: "chain" | "chainAndRope";
    depthNowM: number;
    riseToHighWaterM: number;
  };
  const greatestDepthM = depthNowM + Math.max(0, riseToHighWaterM);
  const got = scopeByRule({ make, greatestDepthM }).lengthM;
  return [{ quantity: "length by rule of thumb, m", got, expected: expected["lengthM"] }];
}

function swingRow({ inputs }: Check): Measured[] {
  const { lengthM, depthsM } = inputs as { lengthM: number; depthsM: number[] };
  const reach = depthsM.map(
    (depth) =>
      layRode({
        segments: [{ ...chain(8), lengthM }],
        bowHeightAboveAnchorM: depth + 1,
        horizontalLoadN: 800,
      }).horizontalReachM,
  );
  const grows = reach.every((r, i) => i === 0 || r > reach[i - 1]!);
  return [{ quantity: "reach grows as the water falls", got: grows, expected: true }];
}

/** A minute astern, the boat at rest or drawing astern at a speed, fixes and Doppler speed every second. */
function pulled(dragMps: number): JudgeSetInput {
  const t0 = Date.UTC(2026, 5, 1, 18);
  const fixes = Array.from({ length: 61 }, (_, s) => ({
    kind: "fix" as const,
    timeMs: t0 + s * 1000,
    // Centimetres of noise: a receiver that repeats itself to the bit has stopped.
    latDeg: 47 - (dragMps * s) / 111_200 + (s % 2) * 2e-7,
    lonDeg: -20,
    sigmaM: 0.3,
    sogMps: dragMps,
    cogDeg: 180,
  }));
  return { events: [{ kind: "engine", timeMs: t0, engine: "astern" }, ...fixes] };
}

function lyingRow(): Measured[] {
  const weather = {
    windMps: knots(14),
    windFromDeg: 0,
    streamMps: knots(1),
    streamTowardsDeg: 270,
  };
  const offWind = (kind: VesselKind): number =>
    Math.abs(
      turnDeg(lie({ vessel: vesselFrom({ kind, lengthM: 11 }), ...weather }).headingDeg!, 0),
    );
  const nearer = offWind("motorBoat") < offWind("yacht");
  return [
    { quantity: "motor boat lies nearer the wind than a yacht", got: nearer, expected: true },
  ];
}

function checkTimesRow(): Measured[] {
  const t = Date.UTC(2026, 5, 1, 16);
  const causes = checkTimes({
    stay: { fromMs: t, toMs: t + hours(16) },
    tideTurns: [{ timeMs: t + hours(3), heightM: 0.8, kind: "low" }],
    wind: [
      { timeMs: t, windMps: 5, windFromDeg: 200 },
      { timeMs: t + hours(8), windMps: 5, windFromDeg: 200 },
      { timeMs: t + hours(10), windMps: 6, windFromDeg: 290 },
      { timeMs: t + hours(12), windMps: 12, windFromDeg: 290 },
    ],
    dark: [{ fromMs: t + hours(5), toMs: t + hours(13) }],
    turningInMs: t + hours(7),
  }).flatMap((c) => c.causes);
  const wanted = ["lowWater", "windShift", "windRise", "nightfall", "turningIn"] as const;
  return wanted.map((cause) => ({
    quantity: "check times",
    got: causes.includes(cause),
    expected: true,
  }));
}

const rows: Record<string, (c: Check) => Measured[]> = {
  "scope-chain-4x": scopeRow,
  "scope-chain-rope-6x": scopeRow,
  "scope-falling": scopeRow,
  "swing-grows-as-water-falls": swingRow,
  "first-length-depth": () => {
    const plan = planStay(demo());
    return [
      {
        quantity: "first length run out is the depth, m",
        got: plan.rode.firstLengthM,
        expected: plan.moments.depthM[0],
      },
      {
        quantity: "then it is paid out going astern",
        got: checklist("laying")
          .map((s) => s.id)
          .filter((id) => id === "firstLength" || id === "payOut"),
        expected: ["firstLength", "payOut"],
      },
    ];
  },
  "mark-anchor-not-boat": () => {
    const input = demo();
    const plan = planStay(input);
    const { greatest } = plan.limits!;
    return [
      {
        quantity: "distance limit is counted from the anchor",
        got: plan.room.anchor,
        expected: input.position,
      },
      {
        quantity: "and is no less than the reach",
        got: greatest.distanceM > Math.max(...plan.moments.reachM.map((r) => r ?? 0)),
        expected: true,
      },
    ];
  },
  "light-boat-wind-heavy-boat-stream": lyingRow,
  "check-times": checkTimesRow,
  "weigh-with-engine": (c) => weighRow(c),
  "set-test-20s": (c) => [
    {
      quantity: "seconds held astern in the steps of setting",
      got: checklist("setting", planStay(demo())).find((s) => s.id === "asternHeld")?.figures,
      expected: expect.objectContaining({ asternS: c.inputs["asternS"] }) as unknown,
    },
    {
      quantity: "holds when speed settles to nothing",
      got: judgeSet(pulled(0)).verdict,
      expected: "holds",
    },
    {
      quantity: "drags when she draws sternwards",
      got: judgeSet(pulled(0.5)).verdict,
      expected: "drags",
    },
  ],
  "two-anchors": () => {
    const laid = [
      twoAnchors({ kind: "vee", firstReachM: 30, secondReachM: 30, aheadDeg: 0, spreadDeg: 60 }),
      twoAnchors({
        kind: "foreAndAft",
        firstReachM: 30,
        secondReachM: 30,
        headingDeg: 0,
        lengthM: 10,
        apartM: 50,
      }),
      twoAnchors({ kind: "openMoor", firstReachM: 30, secondReachM: 30, lineDeg: 0, apartM: 50 }),
    ];
    return [
      {
        quantity: "uses of a second anchor",
        got: [...new Set(laid.flatMap((l) => l.purposes))].sort(),
        expected: ["addHolding", "holdAgainstStream", "reduceRoom"],
      },
    ];
  },
};

/** A name in code as words: `upAndDown` is `up and down`. */
const words = (id: string): string => id.replace(/[A-Z]/g, (l) => ` ${l.toLowerCase()}`);

/** Steps of weighing that a check names, in the order the stage has them. */
function weighRow({ expected }: Check): Measured[] {
  const wanted = expected["order"] as string[];
  const steps = checklist("weighing").map((s) => words(s.id));
  return [
    {
      quantity: "order of work when weighing",
      got: steps.filter((s) => wanted.includes(s)),
      expected: wanted,
    },
  ];
}

runChecks("practice", (c) => {
  if (c.id.startsWith("anchor-")) return anchorRow(c);
  return rows[c.id]?.(c) ?? { notCompared: "no adapter for this rule of the trade" };
});
