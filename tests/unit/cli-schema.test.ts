import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { INSTANT_TEXT } from "../../src/cli/fileSchema.js";
import { withInstants } from "../../src/cli/readInput.js";
import { run } from "../../src/cli/run.js";
import { schemaNames, schemaOf } from "../../src/cli/schemaCommand.js";
import { planStay } from "../../src/plan/index.js";
import { demo } from "../scenario.js";

async function hawse(...args: string[]) {
  let [out, err] = ["", ""];
  const code = await run(args, {
    out: (t) => {
      out += t;
    },
    err: (t) => {
      err += t;
    },
  });
  return { code, out, err };
}

const compiled = (name: string) => new Ajv2020({ strict: false }).compile(schemaOf(name)!);

describe("hawse schema", () => {
  test("every schema is one of draft 2020-12, strict in what it takes", () => {
    for (const name of schemaNames()) {
      const schema = schemaOf(name)!;
      expect(schema["$schema"]).toBe("https://json-schema.org/draft/2020-12/schema");
      expect(() => compiled(name)).not.toThrow();
    }
  });
  test("a stay: the demo passes, a misspelt field and a missing one do not", () => {
    const valid = compiled("planStay");
    expect(valid(demo())).toBe(true);
    expect(valid({ ...demo(), vesel: {} })).toBe(false);
    const { tackle, ...without } = demo();
    expect(tackle).toBeDefined();
    expect(valid(without)).toBe(false);
  });
  test("every stay that comes with the package passes as its file stands", () => {
    const valid = compiled("planStay");
    const folder = "shared/scenarios";
    const files = readdirSync(folder).filter((f) => f.endsWith(".json"));
    expect(files.length).toBeGreaterThan(3);
    for (const file of files) {
      const text = readFileSync(path.join(folder, file), "utf8");
      expect(text).toMatch(/"fromMs": "\d{4}-/);
      expect(valid(JSON.parse(text)), `${file}: ${JSON.stringify(valid.errors)}`).toBe(true);
    }
  });
  test("an instant is a text with a zone or milliseconds; nothing else, and nowhere else", () => {
    const valid = compiled("planStay");
    const stay = (fromMs: unknown) => ({ ...demo(), stay: { fromMs, toMs: 1.8e12 } });
    for (const right of ["2026-06-16T18:00Z", "2026-06-16T18:00:05.25+02:00", 1.78e12])
      expect(valid(stay(right)), String(right)).toBe(true);
    for (const wrong of ["2026-06-16T18:00", "2026-06-16", "1780000000000", "", null, 1e15])
      expect(valid(stay(wrong)), String(wrong)).toBe(false);
    // A duration is none, though its name ends likewise.
    expect(valid({ ...demo(), stepMs: 600_000 })).toBe(true);
    expect(valid({ ...demo(), stepMs: "2026-06-16T18:00Z" })).toBe(false);
    // Nor are the entries of a column, which the reader of files leaves as they are.
    const text = "2026-06-16T18:00Z";
    expect(withInstants({ timeMs: [text] })).toEqual({ timeMs: [text] });
    const { properties } = schemaOf("watchLimits") as {
      properties: { stay: { properties: { timeMs: unknown } } };
    };
    expect(properties.stay.properties.timeMs).toMatchObject({
      type: "array",
      items: { type: "number" },
    });
    expect(valid({ ...demo(), stay: { fromMs: [text], toMs: text } })).toBe(false);
  });
  test("texts that the schema takes are those that the reader of files takes, but for days there are not", () => {
    const pattern = new RegExp(INSTANT_TEXT.pattern);
    for (const text of [
      "2026-06-16T18:00Z",
      "2026-06-16T18:00:01Z",
      "2026-06-16T18:00-0330",
      "2026-06-16T18:00:01.5+14:00",
    ]) {
      expect(text).toMatch(pattern);
      expect(typeof (withInstants({ atMs: text }) as { atMs: unknown }).atMs).toBe("number");
    }
    for (const text of [
      "2026-06-16T18Z",
      "2026-06-16 18:00Z",
      "2026-06-16T18:00",
      "x2026-06-16T18:00Z",
      "2026-06-16T18:00z",
    ]) {
      expect(text).not.toMatch(pattern);
      expect(() => withInstants({ atMs: text })).toThrow();
    }
  });
  test("in a sweep the stay may stand in a file of its own", () => {
    const valid = compiled("sweep");
    const rest = { seed: 1, axes: [{ name: "windFactor", values: [1, 1.2] }] };
    expect(valid({ ...rest, stay: "bay.json" }), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...rest, stay: demo() })).toBe(true);
    expect(valid({ ...rest, stay: 1 })).toBe(false);
  });
  test("a plan passes the schema of plans, whatever is known", () => {
    const valid = compiled("StayPlan");
    for (const drop of [null, "tide", "chart", "forecast", "stream", "route"] as const) {
      const input = demo();
      // eslint-disable-next-line @typescript-eslint/no-dynamic-delete
      if (drop !== null) delete input[drop];
      const plan: unknown = JSON.parse(JSON.stringify(planStay(input)));
      expect(valid(plan), JSON.stringify(valid.errors)).toBe(true);
    }
    expect(valid({ ...planStay(demo()), verdict: "fine" })).toBe(false);
  });
  test("the command lists names, prints one, and refuses what it does not have", async () => {
    const list = await hawse("schema");
    expect(list.out.trim().split("\n")).toEqual(schemaNames());
    const one = await hawse("schema", "layRode");
    expect(JSON.parse(one.out)).toEqual(schemaOf("layRode"));
    expect((await hawse("schema", "toString")).code).toBe(2);
    expect((await hawse("schema", "a", "b")).code).toBe(2);
  });
});

describe("hawse compare", () => {
  const file = "shared/scenarios/gannick-bay.json";
  test("a berth against itself stays level", async () => {
    const { code, out } = await hawse("compare", file, file);
    expect(code).toBe(0);
    expect(out.match(/^1 =/gm)).toHaveLength(2);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });
  test("JSON is the comparison itself", async () => {
    const { out } = await hawse("compare", file, file, "--for", "lunch", "--json");
    expect(JSON.parse(out)).toMatchObject({ version: 1, purpose: "lunch" });
  });
  test("one file, or another purpose, is refused", async () => {
    expect((await hawse("compare", file)).code).toBe(2);
    expect((await hawse("compare", file, file, "--for", "tea")).code).toBe(2);
  });
});
