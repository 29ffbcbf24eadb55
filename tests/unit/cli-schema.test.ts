import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
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
