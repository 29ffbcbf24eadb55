import { describe, expect, test } from "vitest";
import { readInput } from "../../src/cli/readInput.js";
import { briefText, checklist, planStay, type StayInput } from "../../src/plan/index.js";
import { bay, bayLayers, HERE, steadyWind, T0 } from "../openBay.js";

const scenario = (name: string): StayInput =>
  readInput(`shared/scenarios/${name}.json`) as StayInput;
const chain = (lengthM: number) => ({
  anchor: { type: "rollBarScoop" as const, massKg: 20 },
  rode: [{ kind: "chain" as const, diameterMm: 10, lengthM }],
});
const at = (northM: number, eastM: number) => ({
  latDeg: HERE.latDeg + northM / 111_000,
  lonDeg: HERE.lonDeg + eastM / 85_000,
});
const oneLine = (text: string): string => text.replace(/\s+/g, " ");

describe("the hour to be gone by is one and the same", () => {
  test("where the way out is shut before it stops being safe", () => {
    const plan = planStay(scenario("shoal-berth"));
    const skipper = oneLine(briefText(plan));
    expect(skipper).toContain("Be gone before it stops being safe, by 21:34");
    expect(skipper).toContain("To be gone, leaving at 21:30");
    expect(skipper).not.toContain("To be gone, leaving at 22:00");
    for (const reader of ["crew", "watch"] as const) {
      const told = oneLine(briefText(plan, { for: reader }));
      expect(told).toContain(
        "Be gone by 21:34: after that the way out is shut, and from 22:03 on it is not safe",
      );
    }
    const leaveBy = checklist("watch", plan).find((s) => s.id === "leaveBy");
    expect(leaveBy?.text).toContain("21:34");
  });

  test("where it stops being safe in the dark", () => {
    const plan = planStay(scenario("shift-night"));
    expect(oneLine(briefText(plan))).toContain("To be gone, leaving at 22:00");
    expect(oneLine(briefText(plan, { for: "watch" }))).toContain(
      "Be gone by 22:20, before nightfall, at the very latest by 05:00: from then on it is not safe to lie here.",
    );
  });

  test("and where nothing comes before, that at which it stops being safe", () => {
    const plan = planStay(scenario("gannick-bay"));
    expect(oneLine(briefText(plan, { for: "watch" }))).toContain(
      "Be gone by 21:40: from then on it is not safe to lie here.",
    );
  });
});

test("a way out that is shut at the hour meant to leave is a reason for care, and no more", () => {
  const open = scenario("quiet-night");
  const plan = planStay(open);
  expect(plan.verdict).toBe("suitable");
  const [berth, ...rest] = open.route!;
  const overTheShoal = [berth!, scenario("shoal-berth").position, ...rest];
  const shut = planStay({ ...open, route: overTheShoal });
  expect(shut.wayOut!.meant.state).toBe("shut");
  expect(shut.verdict).toBe("withCare");
  expect(shut.danger).toMatchObject({ atMs: null, known: true });
  expect(shut.reasons.filter((r) => r.code.startsWith("wayOut."))).toMatchObject([
    { code: "wayOut.shut", severity: "caution" },
  ]);
  expect(oneLine(briefText(shut))).toContain("care the way out is shut when she is to leave");
});

test("what is in hand is told rounded down, what is wanting rounded up", () => {
  const plan = planStay(scenario("quiet-night"));
  const told = (value: number): string =>
    oneLine(
      briefText({
        ...plan,
        limiting: { ...plan.limiting, depth: { ...plan.limiting.depth, value } },
      }),
    );
  expect(told(0.497)).toContain("At the worst 0.4 m under the keel");
  expect(told(0.5)).toContain("At the worst 0.5 m under the keel");
  expect(told(20.9)).toContain("At the worst 20 m under the keel");
  expect(told(-0.41)).toContain("At the worst 0.5 m SHORT of water");
});

test("of what begins at one instant the stop is told before the warning, in whatever order they come", () => {
  const dinghy = {
    name: "dinghy",
    vessel: { kind: "motorBoat" as const, lengthM: 5 },
    position: at(20, -30),
    lengthOutM: 25,
  };
  const cat = {
    name: "cat",
    vessel: { kind: "catamaran" as const, lengthM: 13 },
    position: at(-60, 10),
  };
  for (const neighbours of [
    [cat, dinghy],
    [dinghy, cat],
  ]) {
    const plan = planStay({ ...bay(6, 7), forecast: steadyWind(7, 80), neighbours });
    const [stop, warning] = plan.reasons;
    expect([stop?.severity, warning?.severity]).toEqual(["stop", "warning"]);
    expect(warning?.fromMs).toBe(stop?.fromMs);
    expect(plan.danger.of).toBe(stop?.of);
    expect(plan.danger.reason?.severity).toBe("stop");
  }
});

describe("advice that buys nothing is not given", () => {
  const codes = (input: StayInput): string[] => planStay(input).advice.map((a) => a.code);

  test("a stretching line under chain that is slack in deep water", () => {
    expect(codes({ ...bay(40), tackle: chain(80) })).not.toContain("snubber.fit");
    const shoal = planStay({ ...bay(6, 12), tackle: chain(80) });
    const { buys } = shoal.advice.find((a) => a.code === "snubber.fit")!;
    expect(buys!.to!).toBeLessThanOrEqual(0.9 * buys!.from!);
  });

  test("to prove an anchor that the rode lifts out, or does not reach", () => {
    for (const lengthM of [7, 11]) {
      const input = { ...bay(6), tackle: chain(lengthM) };
      expect(planStay(input).limiting.holding.value).toBe(0);
      expect(codes(input)).not.toContain("prove.astern");
    }
  });

  test("to prove it to a pull that the lowest figure has already", () => {
    const plan = planStay({ ...bay(6, 14), tackle: chain(80) });
    const prove = plan.advice.find((a) => a.code === "prove.astern")!;
    expect(plan.reasons.map((r) => r.code)).toContain("holding.worst");
    expect(prove.buys!.to!).toBeGreaterThan(prove.buys!.from!);
  });
});

describe("what is told of the known hours alone says so", () => {
  const late: StayInput = {
    ...bay(6),
    chart: {
      soundingDatum: "lowest astronomical tide",
      layers: {
        ...bayLayers(6),
        COALNE: {
          type: "FeatureCollection",
          features: [
            {
              type: "Feature",
              properties: {},
              geometry: {
                type: "LineString",
                coordinates: [
                  [HERE.lonDeg + 75 / 85_000, HERE.latDeg - 0.04],
                  [HERE.lonDeg + 75 / 85_000, HERE.latDeg + 0.04],
                ],
              },
            },
          ],
        },
      },
    },
    forecast: steadyWind(7, 90),
  };
  const known = planStay(late);
  const partly = planStay({
    ...late,
    forecast: { ...late.forecast!, rows: late.forecast!.rows.slice(0, 2) },
  });

  test("room to a shore she may swing to when the wind is not known", () => {
    expect(known.room.shoreM).toBeGreaterThan(50);
    expect(briefText(known)).toContain("clear at the worst");
    expect(partly.room.shoreM).toBeNull();
    expect(briefText(partly)).toContain("room to the shore not known");
    expect(briefText(partly)).not.toContain("clear at the worst");
  });

  test("the highest sea", () => {
    expect(oneLine(briefText(known))).not.toContain("in what is known of the stay");
    expect(oneLine(briefText(partly))).toContain("Sea in what is known of the stay:");
  });
});

test("a lower sea on the beam that is felt worse than the highest is told beside it", () => {
  const plan = planStay(bay(6, 7));
  const hours = plan.shelter!.hours;
  hours.comfort[3] = "untenable";
  const told = oneLine(briefText(plan));
  expect(told).toContain("; as she lies untenable about 13:30.");
  expect(hours.timeMs[3]).toBe(T0 + 5_400_000);
});

test("cable that does not make the anchor hold more in the hardest gust is not told as a gain", () => {
  const input = bay(6, 7);
  const plan = planStay({ ...input, tackle: { ...input.tackle, lengthOutM: 25 } });
  const veer = plan.advice.find((a) => a.code === "veer.more")!;
  expect(veer.buys!.from!.toFixed(1)).toBe(veer.buys!.to!.toFixed(1));
  expect(oneLine(briefText(plan))).toContain("times the hardest pull, no more than as it is");
});

test("a way out without a charted mark does not count the marks", () => {
  const plan = planStay({ ...bay(6, 5), route: [HERE, at(0, -300)] });
  expect(briefText(plan)).toContain("No mark is charted to steer by.");
  expect(plan.wayOut!.marks).toEqual([]);
});
