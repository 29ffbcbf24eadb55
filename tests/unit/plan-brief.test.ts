import { describe, expect, test } from "vitest";
import { briefSections, briefText, checklist, planStay } from "../../src/plan/index.js";
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
      `least ${plan.wayOut!.meant.underKeelLeastM!.toFixed(1)} m under the keel`,
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

  test("two marks of one name are told apart by how far off they are", () => {
    const [first] = plan.transitsByDay!.transits;
    const pair = { ...first!, frontId: "1:Pile", backId: "2:Pile", frontM: 300, backM: 900 };
    const transitsByDay = { cautions: [], transits: [{ ...pair, openDeg: 0 }] };
    const text = flat(briefText({ ...plan, transitsByDay }, { for: "watch" }));
    expect(text).toContain("Pile 300 m off in line with Pile behind it, 900 m off, about");
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

  test("a name cannot break the Markdown", () => {
    const text = briefText({ ...plan, name: "# [x](y) <b>" }, { form: "markdown" });
    expect(text.split("\n")[0]).toContain("\\# \\[x\\](y) \\<b\\>");
  });
});
