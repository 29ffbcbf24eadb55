import { demo } from "../../scenario.js";
import { mixedSpec } from "../../sweepSpecs.js";
import type { Rooms } from "./calls.js";

type AnyFunction = (...args: unknown[]) => unknown;

const DAY = 86_400_000;
const T0 = Date.UTC(2026, 5, 1);
const turns = [0.7, 4.4, 0.8, 4.5, 0.6, 4.6].map((heightM, i) => ({
  timeMs: T0 + i * 22_320_000,
  heightM,
}));
const tables = { kind: "turns", turns, datum: "LAT" };

/** A short watch and her track, to be drawn. */
function watched(rooms: Rooms): unknown {
  const { startWatch, stepWatch } = rooms[
    "watch"
  ] as unknown as typeof import("../../../src/watch/index.js");
  const row = { greatestDistanceM: 30, leastDepthM: null, greatestDepthM: null };
  let state = startWatch({
    startMs: T0,
    anchor: { known: true, position: { latDeg: 50, lonDeg: -4 } },
    limits: { rows: [{ timeMs: T0, ...row }], distanceSigmaM: 1 },
  });
  const track = Array.from({ length: 60 }, (_, i) => ({
    timeMs: T0 + i * 60_000,
    latDeg: 50.0002 + i * 4e-6,
    lonDeg: -4,
  }));
  const reports = track.map((place) => {
    const step = stepWatch(state, { kind: "fix", sigmaM: 2, ...place });
    state = step.state;
    return structuredClone(step.report);
  });
  return { reports, track, zoneOffsetMinutes: 60 };
}

/** Layers of its chart that the short stay keeps, one feature of each: reading a chart has calls of its own. */
const KEPT = ["M_COVR", "LNDARE", "DEPARE", "SBDARE"];

/** The first hours of the demo stay in few steps and with little chart, so that it can be planned thousands of times. */
function evening(): unknown {
  const stay = demo();
  const { fromMs } = stay.stay;
  const layers = Object.fromEntries(
    Object.entries(stay.chart!.layers)
      .filter(([name]) => KEPT.includes(name))
      .map(([name, all]) => [name, { ...all, features: all.features.slice(0, 1) }]),
  );
  return {
    ...stay,
    stay: { fromMs, toMs: fromMs + DAY / 8 },
    stepMs: DAY / 24,
    chart: { ...stay.chart, layers },
  };
}

/** Calls for functions whose documentation shows none that can be recorded, and for forms it does not show. */
export function extraCalls(rooms: Rooms): [string, unknown[]][] {
  const converters = Object.entries(rooms["core"]!)
    .filter(([name, f]) => typeof f === "function" && !["InputError", "utc"].includes(name))
    .map(([name]): [string, unknown[]] => [`core.${name}`, [3]]);
  const planStay = rooms["plan"]!["planStay"] as AnyFunction;
  const plan = JSON.parse(JSON.stringify(planStay(demo()))) as Record<string, unknown>;
  const ofPlan = [
    "figure.holdingFigure",
    "figure.stayFigure",
    "figure.rodeFigure",
    "figure.shelterFigure",
    "figure.swingFigure",
    "plan.briefText",
    "plan.briefSections",
    "plan.stayGeoJson",
    "plan.safeUntil",
  ];
  return [
    ...converters,
    ...ofPlan.map((name): [string, unknown[]] => [name, [structuredClone(plan)]]),
    ["figure.watchFigure", [watched(rooms)]],
    ["plan.planStay", [evening()]],
    ["sweep/node.sweepPool", [{ ...mixedSpec, rows: 240 }, { threads: 1 }]],
    ["chart.meaningOf", ["CATZOC", 1]],
    ["shelter.meanWindOfForce", [5]],
    ["tide.tideHeight", [tables, T0 + DAY / 3]],
    [
      "tide.tideHeight",
      [
        {
          kind: "secondary",
          standard: tables,
          differences: {
            tableZoneHours: 0,
            highTime: [{ hourOfDay: 0, differenceMs: 1_800_000 }],
            lowTime: [{ hourOfDay: 0, differenceMs: 2_400_000 }],
            highHeight: { ratio: 0.9 },
            lowHeight: { ratio: 1 },
          },
          datum: "LAT",
        },
        T0 + DAY / 3,
      ],
    ],
  ];
}
