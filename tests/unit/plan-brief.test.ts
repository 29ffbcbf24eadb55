import { describe, expect, test } from "vitest";
import { briefSections, briefText, checklist, planStay } from "../../src/plan/index.js";
import { bay, steadyWind, T0, without } from "../openBay.js";
import { demo } from "../scenario.js";

const plan = planStay(demo());
const clock = (ms: number): string =>
  new Date(Math.round(ms / 60_000) * 60_000 + 3_600_000).toISOString().slice(11, 16);
const readers = ["skipper", "crew", "watch"] as const;
/** The text with its folding undone. */
const flat = (text: string): string => text.replace(/\s+/g, " ");

describe("briefs", () => {
  test("no line is wider than a terminal, nothing is unfinished", () => {
    for (const reader of readers) {
      const text = briefText(plan, { for: reader });
      for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
      expect(text).not.toMatch(/undefined|NaN|null|\[object|Infinity|wayOut\.|unknown\./);
      expect(text).not.toMatch(/\b(json|API|array|schema|boolean)\b/i);
    }
  });

  test("the skipper's is one page, for the demo", () => {
    // A4 upright: 297 mm less 25 mm of margins, 10 points on 11.
    expect(briefText(plan).trimEnd().split("\n").length).toBeLessThanOrEqual(70);
  });

  test("the skipper reads verdict, cable, water, way out, as planned", () => {
    const text = flat(briefText(plan));
    expect(text).toContain("WITH CARE");
    expect(text).toContain(`stops being safe at ${clock(plan.danger.atMs!)}`);
    expect(text).toContain(`Veer ${plan.rode.lengthOutM} m of the ${plan.rode.aboardM} m aboard`);
    expect(text).toContain(`run out ${plan.rode.firstLengthM!.toFixed(1)} m`);
    const [shut] = plan.wayOut!.shut;
    expect(text).toContain(`Shut ${clock(shut!.fromMs)} to ${clock(shut!.toMs)}`);
    expect(text).toContain(
      `least ${(Math.floor(plan.wayOut!.meant.underKeelLeastM! * 10) / 10).toFixed(1)} m under the keel`,
    );
    for (const c of plan.cautions) expect(text).toContain(c);
  });

  test("the watch has limits, every hour to look at, who watches, and when it is not safe", () => {
    const text = flat(briefText(plan, { for: "watch" }));
    expect(text).toContain(`${Math.round(plan.limits!.greatest.distanceM)} m from the ANCHOR`);
    for (const c of plan.checks) expect(text).toContain(clock(c.timeMs));
    for (const w of plan.rota!.watches) expect(text).toContain(w.who);
    expect(text).toContain(`Be gone by ${clock(plan.danger.atMs!)}`);
  });

  test("the lowest holding stands beside the pull it is held against, in newtons that fit its share", () => {
    const { holding } = plan.limiting;
    const m = plan.moments;
    const i = m.timeMs.indexOf(holding.atMs!);
    const said =
      /Hardest pull ([\d.]+) kN at [\d:]+, ([\d.]+) kN yawing wide; may hold but ([\d.]+) kN\./.exec(
        flat(briefText(plan)),
      )!;
    const [hardest, wide, low] = said.slice(1).map((kN) => Number(kN) * 1000);
    expect(Math.abs(hardest! - Math.max(...m.gustPullN.map((n) => n!)))).toBeLessThanOrEqual(50);
    expect(Math.abs(low! - m.holdingLowN[i]!)).toBeLessThanOrEqual(50);
    // The share told of the plan is that of the pull of the widest yaw, which is harder than the usual one.
    expect(Math.abs(wide! - m.holdingLowN[i]! / holding.value!)).toBeLessThanOrEqual(50);
    expect(wide!).toBeGreaterThan(hardest!);
  });

  test("a least holding that was proved is not laid to the sources", () => {
    const stay = demo();
    const proved = planStay({ ...stay, tackle: { ...stay.tackle, provedN: 1800 } });
    expect(proved.holding!.ultimateN!.low).toBe(1800);
    expect(flat(briefText(proved))).toContain(
      "between 1.8 kN and 9.4 kN by the sources and the pull it has stood.",
    );
    expect(flat(briefText(plan))).toContain("by the sources.");
  });

  test("hours of wind astern have an end", () => {
    const { timeMs, headingDeg, windFromDeg } = plan.moments;
    const astern = headingDeg.map(
      (h, i) => h !== null && Math.cos(((h - windFromDeg[i]!) * Math.PI) / 180) < -0.5,
    );
    const [from, last] = [astern.indexOf(true), astern.lastIndexOf(true)];
    expect(astern.slice(from, last + 1)).not.toContain(false);
    expect(flat(briefText(plan))).toContain(
      `${clock(timeMs[from]!)} to ${clock(timeMs[last + 1]!)} wind astern`,
    );
  });

  test("what is asked for is rounded up, and a berth moved is not said to be planned", () => {
    const advice = briefSections(plan).find((s) => s.title === "Do")!.lines;
    const deeper = plan.advice.find((a) => a.code === "lie.deeper")!;
    const more = Number(/Lie in ([\d.]+) m more/.exec(advice.join(" "))![1]);
    expect(more).toBeGreaterThanOrEqual(Number(deeper.value));
    expect(more - Number(deeper.value)).toBeLessThan(0.1);
    expect(advice.join(" ")).toMatch(/let go \d+ m off to \d{3}°, [\d.]+ m clear of all: but plan/);
    expect(advice.join(" ")).not.toContain("planned anew");
  });

  test("the winds that bring a bad sea are told as winds: the shore may be near on that side", () => {
    const [open] = plan.shelter!.opensTo;
    const deg = (d: number): string => `${String(d).padStart(3, "0")}°`;
    expect(flat(briefText(plan))).toContain(
      `Bad in winds ${deg(open!.fromDeg)} clockwise to ${deg(open!.toDeg)}.`,
    );
  });

  test("what to sound in fog is told, by the vessel's length, or that nothing is owed", () => {
    const said = (lengthM: number, signals = {}) => {
      const stay = demo();
      const p = planStay({ ...stay, vessel: { ...stay.vessel, lengthM }, signals });
      return /In fog: [^.]*\./.exec(flat(briefText(p)))![0];
    };
    expect(said(11)).toContain("bell 5 s every minute, or another loud signal every 2 minutes");
    expect(said(21)).toBe("In fog: bell 5 s every minute.");
    const inland = { regime: "usInland", specialAnchorage: true };
    expect(said(11, inland)).toBe("In fog: no sound signal is owed.");
    expect(plan.inFog!.rule).toBe("35(j)");
  });

  test("two marks of one name are told apart by how far off they are", () => {
    const [first] = plan.transitsByDay!.transits;
    const pair = { ...first!, frontId: "1:Pile", backId: "2:Pile", frontM: 300, backM: 900 };
    const transitsByDay = { cautions: [], transits: [{ ...pair, openDeg: 0 }] };
    const text = flat(briefText({ ...plan, transitsByDay }, { for: "watch" }));
    expect(text).toContain("Pile 300 m off in line with Pile behind it, 900 m off, about");
  });

  test("what would change the answer bears no hour beside the hours of the verdict", () => {
    const late = planStay({ ...bay(6), tackle: { ...bay().tackle, lengthOutM: 20 } });
    const margins = briefSections({
      ...late,
      tipping: late.tipping.map((t) => ({ ...t, passed: true, fromMs: T0 + 3_600_000 })),
    }).find((s) => s.title === "Margins")!.lines;
    expect(margins.length).toBeGreaterThan(1);
    expect(margins.join(" ")).not.toMatch(/\d\d:\d\d/);
  });

  test("over more than a day a watch and a row of hours bear each day once", () => {
    const rows = steadyWind(5, 200).rows;
    const long = planStay({
      ...bay(),
      stay: { fromMs: T0, toMs: T0 + 30 * 3_600_000 },
      crew: [{ name: "Ann" }, { name: "Bo" }],
      forecast: {
        rows: Array.from({ length: 11 }, (_, i) => ({ ...rows[0]!, timeMs: T0 + i * 10_800_000 })),
      },
    });
    const text = flat(briefText(long));
    const looked = /Look how she lies at ([^.]*)\./.exec(text)![1]!;
    for (const day of ["Mon", "Tue"]) expect(looked.split(day).length).toBe(2);
    const rota = briefSections(long, "watch").find((s) => s.title === "Rota")!.lines;
    expect(rota.length).toBeGreaterThan(2);
    for (const l of rota) if (!l.includes("Tue")) expect(l.split("Mon").length).toBe(2);
  });

  test("a sea that is not known for want of swell does not blame shore or forecast", () => {
    const swell = [-1, 9].map((h) => ({
      timeMs: T0 + h * 3_600_000,
      hm0M: 2,
      periodS: 9,
      fromDeg: 270,
    }));
    const text = flat(briefText(planStay({ ...bay(), swell })));
    expect(text).toContain("cannot be reckoned: forecast or swell does not reach over it");
    expect(text).not.toContain("000° to 359°");
    expect(text).not.toContain("nearLand");
  });

  test("the wind is told by the hour at any step", () => {
    const fromMs = Date.UTC(2026, 5, 1, 12);
    const rows = [225, 225, 315, 225, 225].map((windFromDeg, i) => ({
      timeMs: fromMs + i * 3_600_000,
      windMps: 8,
      windFromDeg,
    }));
    for (const stepMs of [300_000, 600_000, 1_800_000, 3_600_000]) {
      const stay = { fromMs, toMs: fromMs + 4 * 3_600_000 };
      const told = flat(briefText(planStay({ ...demo(), stay, stepMs, forecast: { rows } })));
      expect(told, `steps of ${stepMs} ms`).toContain(`${clock(rows[2]!.timeMs)} north-west 16 kn`);
    }
  });

  test("the crew has every sign, and the work of laying and weighing in order", () => {
    const text = flat(briefText(plan, { for: "crew" }));
    for (const stage of ["signals", "laying", "weighing"] as const) {
      let at = 0;
      for (const s of checklist(stage, plan)) {
        const found = text.indexOf(s.text, at);
        expect(found).toBeGreaterThanOrEqual(at);
        at = found;
      }
    }
  });

  test("Markdown has the same lines", () => {
    for (const reader of readers) {
      const text = briefText(plan, { form: "markdown", for: reader });
      for (const { title, lines } of briefSections(plan, reader)) {
        expect(text).toContain(`## ${title}`);
        for (const l of lines) expect(text.replace(/\\/g, "")).toContain(l.replace(/ {2,}/g, " "));
      }
    }
  });

  test("what is not known is said to whoever reads it", () => {
    const input = demo();
    delete input.tide;
    delete input.forecast;
    delete input.chart;
    const blind = planStay(input);
    const text = flat(briefText(blind));
    expect(text).toContain("CANNOT TELL");
    expect(text).toContain("no length can be told");
    expect(text).toContain("the water on it is NOT KNOWN");
    expect(text).toContain("No forecast");
    expect(text).toContain("but not everything is known");
    const watch = flat(briefText(blind, { for: "watch" }));
    expect(watch).toContain("No limits can be set");
    expect(watch).toContain("there is no forecast to go by");
  });

  test("over more than a day every hour bears its day, as the same hour comes twice", () => {
    const hour = 3_600_000;
    const turns = [-3, 3, 9, 15, 21, 27, 33, 39, 45];
    const fitting = {
      ...bay(),
      stay: { fromMs: T0, toMs: T0 + 40 * hour },
      tide: {
        kind: "turns" as const,
        datum: "lowest astronomical tide",
        turns: turns.map((h, i) => ({ timeMs: T0 + h * hour, heightM: 1 + (i % 2) })),
      },
      forecast: {
        issuedMs: T0,
        rows: turns.map((h) => ({
          timeMs: T0 + h * hour,
          windMps: h < 33 ? 5 : 24,
          windFromDeg: 200,
        })),
      },
    };
    const long = planStay(fitting);
    expect(new Date(long.danger.atMs!).getUTCDate()).toBe(2);
    const day = (ms: number): string => `${ms < T0 + 12 * hour ? "Mon" : "Tue"} `;
    const utc = (ms: number): string => new Date(Math.round(ms / 60_000) * 60_000).toISOString();
    const watch = flat(briefText(long, { for: "watch" }));
    const at = utc(long.danger.atMs!).slice(11, 16);
    expect(watch).toContain(`Be gone by Tue ${at}`);
    for (const c of long.checks)
      expect(watch).toContain(day(c.timeMs) + utc(c.timeMs).slice(11, 16));
    const skipper = flat(briefText(long));
    expect(skipper).toContain(`stops being safe at ${at} on Tue 2 Jun`);
    expect(skipper).toMatch(/black ball Mon 12:00 to 2\d:\d\d, Tue 0\d:\d\d/);
    expect(checklist("watch", long).find((s) => s.id === "leaveBy")!.text).toContain(`Tue ${at}`);
    expect(flat(briefText(planStay(bay())))).not.toMatch(/Mon \d\d:/);
  });

  test("the watch calls by the hardest gust forecast, not by that of the hardest pull of the stream", () => {
    const hour = 3_600_000;
    const rows = [-1, 1, 3, 8].map((h, i) => ({
      timeMs: T0 + h * hour,
      rateMps: i === 1 ? 3 : 0,
      towardsDeg: 10,
    }));
    const winds = [2, 2, 8, 8].map((windMps, i) => ({
      timeMs: T0 + [-1, 2, 5, 8][i]! * hour,
      windMps,
      windFromDeg: 200,
    }));
    const p = planStay({
      ...bay(),
      stream: { kind: "series", rows },
      forecast: { issuedMs: T0, rows: winds },
    });
    const { gustMps, gustPullN } = p.moments;
    const knots = Math.round((Math.max(...gustMps.map((g) => g!)) * 3600) / 1852);
    const pull = Math.max(...gustPullN.map((n) => n!));
    expect(gustMps[gustPullN.indexOf(pull)]).toBeLessThan(4);
    expect(flat(briefText(p, { for: "watch" }))).toContain(`if gusts go over ${knots} kn`);
    expect(checklist("beforeArrival", p).find((s) => s.id === "readForecast")!.text).toContain(
      `${knots} kn`,
    );
  });

  test("a forecast that ends early makes no pull the hardest, and no rode long enough", () => {
    const whole = bay();
    const rows = whole.forecast!.rows.slice(0, 2);
    const p = planStay({ ...whole, forecast: { rows } });
    expect(p.rode.enough).toBe(false);
    const text = flat(briefText(p));
    expect(text).toContain("Hardest pull in what is known of the stay: ");
    expect(text).toContain("Not for all of the stay is the pull known.");
    expect(text).not.toContain("shorter than these ask for");
    expect(checklist("setting", p).find((s) => s.id === "asternHeld")!.text).toContain(
      "as much or more",
    );
    const out = planStay({
      ...whole,
      forecast: { rows },
      tackle: { ...whole.tackle, lengthOutM: 79 },
    });
    expect(flat(briefText(out))).toContain("79 m out; enough by what is known.");
  });

  test("without a forecast the rode aboard is not called short of the rule it meets", () => {
    const text = flat(briefText(planStay(without(bay(), "forecast"))));
    expect(text).toContain("the rule of thumb stands alone");
    expect(text).not.toContain("shorter than these ask for");
  });

  test("without a tide the watch still has the forecast, and the cable that is aboard", () => {
    const watch = flat(briefText(planStay(without(bay(), "tide")), { for: "watch" }));
    expect(watch).toContain("if gusts go over");
    expect(watch).not.toContain("there is no forecast to go by");
    expect(watch).toContain("80 m is aboard in all; look astern first");
  });

  test("where the dark is cut off by the stay, letting go is no nightfall and weighing no daybreak", () => {
    const causes = (latDeg: number, fromH: number, forH: number): string[] => {
      const fromMs = Date.UTC(2026, 11, 16, fromH);
      const stay = { fromMs, toMs: fromMs + forH * 3_600_000 };
      const open = without(without(bay(), "tide"), "chart");
      return planStay({ ...open, position: { latDeg, lonDeg: 0 }, stay }).checks.flatMap(
        (c) => c.causes,
      );
    };
    // Polar night, and a winter evening to the next one.
    expect(causes(78, 12, 12)).not.toContain("nightfall");
    expect(causes(78, 12, 12)).not.toContain("daybreak");
    expect(causes(50, 20, 24).filter((c) => /nightfall|daybreak/.test(c))).toEqual([
      "daybreak",
      "nightfall",
    ]);
  });

  test("a name cannot break the Markdown", () => {
    const text = briefText({ ...plan, name: "# [x](y) <b>" }, { form: "markdown" });
    expect(text.split("\n")[0]).toContain("\\# \\[x\\](y) \\<b\\>");
  });
});
