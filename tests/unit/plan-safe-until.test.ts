import { describe, expect, test } from "vitest";
import { readInput } from "../../src/cli/readInput.js";
import { bay, bayLayers } from "../openBay.js";
import { briefText, planStay, safeUntil, type StayInput } from "../../src/plan/index.js";

const demo = readInput("shared/scenarios/gannick-bay.json") as StayInput;
const plan = planStay(demo);

describe("when a berth stops being safe", () => {
  test("the hour, the reason with its figure, and what to do by then", () => {
    const { atMs, known, reason, text, advice, then } = safeUntil(plan);
    expect(atMs).toBe(plan.danger.atMs);
    expect(known).toBe(true);
    expect(reason).toMatchObject({ code: "room.neighbour", severity: "warning", fromMs: atMs });
    expect(text).toBe(
      "It stops being safe at 21:40 on Tue 16 Jun: she may come against the white motor boat.",
    );
    expect(advice?.atMs).toBeLessThanOrEqual(atMs!);
    expect(then.map((r) => r.code)).toEqual([
      "room.neighbour",
      "shelter.untenable",
      "holding.thin",
    ]);
    expect(then.every((r, i) => i === 0 || r.fromMs! >= then[i - 1]!.fromMs!)).toBe(true);
  });

  test("a verdict with care names the hour it holds until, and never clashes with the danger", () => {
    expect(plan.verdict).toBe("withCare");
    expect(briefText(plan)).toMatch(/WITH CARE UNTIL 21:40/);
  });

  test("a berth that is not safe from letting go on is unsuitable and says so", () => {
    const { fromMs } = demo.stay;
    // As the second warning of the demo begins.
    const late = planStay({
      ...demo,
      stay: { fromMs: fromMs + 11.5 * 3_600_000, toMs: demo.stay.toMs },
    });
    expect(late.danger.atMs).toBe(late.stay.fromMs);
    expect(late.verdict).toBe("unsuitable");
    expect(safeUntil(late).text).toMatch(/^It is not safe from letting go on: /);
    expect(safeUntil(late).advice?.code).toBe("lie.elsewhere");
  });

  test("be gone before the way out is shut, where it is shut when the berth stops being safe", () => {
    // With more water wanted on the way the shut hours begin before the boat comes near.
    const wanting = planStay({ ...demo, limits: { underKeelM: 3, roomM: 5 } });
    const { shut } = wanting.wayOut!;
    const move = safeUntil(wanting).advice!;
    const within = shut.some((h) => move.atMs! > h.fromMs && move.atMs! <= h.toMs);
    expect(within && move.code !== "lie.elsewhere").toBe(false);
    expect(
      shut.some((h) => h.fromMs <= wanting.danger.atMs! && h.toMs >= wanting.danger.atMs!),
    ).toBe(true);
    expect([move.code, move.against].join()).toMatch(/lie.elsewhere|way.shut/);
  });

  test("a stop that hangs on no hour stands from letting go on", () => {
    const short = planStay({
      ...demo,
      tackle: { ...demo.tackle, lengthOutM: 5 },
    });
    expect(short.verdict).toBe("unsuitable");
    expect(short.danger).toMatchObject({ atMs: demo.stay.fromMs });
    expect(safeUntil(short).text).not.toContain("No hour");
  });

  test("where something is not known, no hour of danger is no assurance", () => {
    const bare = planStay({
      position: { latDeg: 40, lonDeg: -20 },
      stay: demo.stay,
      vessel: demo.vessel,
      tackle: demo.tackle,
    });
    expect(safeUntil(bare)).toMatchObject({
      atMs: null,
      known: false,
      reason: null,
      advice: null,
      then: [],
    });
    expect(safeUntil(bare).text).toBe(
      "No hour is known to be unsafe, but not everything is known.",
    );
  });

  test("a warning of the chart, which hangs on no hour, leaves none of them called safe", () => {
    const quiet = bay();
    const { lonDeg, latDeg } = quiet.position;
    const cable = {
      type: "Feature",
      properties: {},
      geometry: {
        type: "LineString",
        coordinates: [
          [lonDeg - 0.002, latDeg],
          [lonDeg + 0.002, latDeg],
        ],
      },
    };
    const layers = {
      ...bayLayers(6),
      CBLSUB: { type: "FeatureCollection" as const, features: [cable] },
    };
    const over = planStay({ ...quiet, chart: { ...quiet.chart!, layers } });
    expect(over.verdict).toBe("withCare");
    expect(safeUntil(over)).toMatchObject({ atMs: null, known: true });
    expect(safeUntil(over).text).toBe(
      "A warning stands at every hour: charted Cable, submarine: unwise.",
    );
    expect(safeUntil(planStay(quiet)).text).toBe("No hour of the stay is known to be unsafe.");
  });

  test("it is read from a saved plan as well", () => {
    expect(safeUntil(JSON.parse(JSON.stringify(plan)) as typeof plan)).toEqual(safeUntil(plan));
  });
});
