import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readInput, withInstants } from "../../src/cli/readInput.js";
import { run } from "../../src/cli/run.js";
import { demo } from "../scenario.js";

const scratch = mkdtempSync(path.join(tmpdir(), "hawse-cli-"));
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

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

const file = (name: string, content: unknown): string => {
  const at = path.join(scratch, name);
  writeFileSync(at, typeof content === "string" ? content : JSON.stringify(content));
  return at;
};

describe("hawse plan", () => {
  test("a file in the place of the folder is told, after the brief", async () => {
    const taken = file("taken", "");
    const { code, out, err } = await hawse(
      "plan",
      "shared/scenarios/gannick-bay.json",
      "--out",
      taken,
    );
    expect([code, err]).toEqual([2, expect.stringContaining(`${taken}: is a file, not a folder`)]);
    expect(out).toContain("VERDICT");
  });
  test("tells the brief in 80 columns and writes and names its files", async () => {
    const folder = path.join(scratch, "out");
    const { code, out, err } = await hawse(
      "plan",
      "shared/scenarios/gannick-bay.json",
      "--out",
      folder,
    );
    expect([code, err]).toEqual([0, ""]);
    const brief = out.slice(0, out.indexOf("\nWritten:"));
    for (const line of brief.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    const names = readdirSync(folder);
    expect(names).toEqual(
      expect.arrayContaining([
        "brief.md",
        "plan.json",
        "room.geojson",
        "depth.svg",
        "rode.svg",
        "swing.svg",
        "shelter.svg",
      ]),
    );
    expect(names.some((n) => n.endsWith(".part"))).toBe(false);
    for (const name of names) expect(out).toContain(path.join(folder, name));
    const plan = JSON.parse(readFileSync(path.join(folder, "plan.json"), "utf8")) as {
      verdict: string;
    };
    expect(["suitable", "withCare", "unsuitable", "cannotTell"]).toContain(plan.verdict);
  });
  test("all issues at once with their paths, exit 2, nothing written", async () => {
    const bad = {
      ...demo(),
      vesel: {},
      stay: { fromMs: "2026-06-16T18:00", toMs: 0 },
      vessel: { kind: "ship", lengthM: -1 },
    };
    const folder = path.join(scratch, "none");
    const { code, out, err } = await hawse("plan", file("bad.json", bad), "--out", folder);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain("stay.fromMs: expected a date and time with a zone");
    expect(existsSync(folder)).toBe(false);
    for (const part of [
      'unknown field "vesel"',
      "vessel.kind",
      "vessel.lengthM: expected at least 2",
    ])
      expect(err).toContain(part);
    // One line a place: the instant is not told a second time as something that is no number.
    expect(err.match(/stay\.fromMs/g)).toHaveLength(1);
  });
  test("a slip of the pen is told with the field that was meant, a gap as one", async () => {
    const { vessel, stay, tackle, ...rest } = demo();
    const { fromMs, ...late } = stay;
    expect(fromMs).toBeGreaterThan(0);
    const { lengthM, ...short } = vessel as { lengthM: number };
    const { anchor, ...bare } = tackle;
    expect(anchor).toBeDefined();
    const bad = {
      ...rest,
      stay: late,
      vessel: { ...short, lenghtM: lengthM, zz: 1 },
      tackle: bare,
      positon: 1,
    };
    const { code, err } = await hawse("plan", file("slip.json", bad));
    expect(code).toBe(2);
    expect(
      err
        .split("\n")
        .slice(1, -1)
        .map((l) => l.trim())
        .sort(),
    ).toEqual([
      "stay.fromMs: is missing",
      "tackle.anchor: is missing",
      'unknown field "positon"',
      "vessel.lengthM: is missing",
      'vessel: unknown fields "lenghtM" (did you mean "lengthM"?), "zz"',
    ]);
    const { err: other } = await hawse(
      "plan",
      file("slip.json", { ...demo(), vesel: 1, exposur: 1 }),
    );
    expect(other).toContain('unknown fields "vesel", "exposur" (did you mean "exposure"?)');
  });
  test("an empty file of a stay lacks what it lacks", async () => {
    const { err } = await hawse("plan", file("empty.json", {}));
    expect(err).toContain("position: is missing");
    expect(err).not.toContain("expected object");
    expect((await hawse("plan", file("nought.json", "null"))).err).toContain("  expected object");
  });
  test.each([
    ["no file", ["plan", "nowhere.json"], 2, "nowhere.json: there is no such file"],
    ["no JSON", ["plan", "@text"], 2, "is not JSON"],
    ["a wrong option", ["plan", "--otu", "x"], 2, "hawse: there is no option --otu\n"],
    ["a folder for a file", ["plan", scratch], 2, "is a folder, not a file"],
    [
      "shard 0",
      ["sweep", "run", "@text", "--out", "x", "--shard", "0/4"],
      2,
      "--shard: K must be 1 to 4",
    ],
    [
      "a shard too many",
      ["sweep", "run", "@text", "--out", "x", "--shard", "5/4"],
      2,
      "--shard: K must be 1 to 4",
    ],
    [
      "shards of none",
      ["sweep", "run", "@text", "--out", "x", "--shard", "0/0"],
      2,
      "--shard: N must be 1 or more",
    ],
    ["no such verb", ["sweep", "bogus"], 2, "hawse: there is no verb bogus\n"],
    ["two files", ["plan", "a", "b"], 2, "one file at a time"],
    ["no such command", ["paln"], 2, 'no command "paln"'],
    ["a name every object has", ["toString"], 2, 'no command "toString"'],
  ])("%s", async (_, args, code, words) => {
    const given = args.map((a) => (a === "@text" ? file("text.json", "anchor") : a));
    const result = await hawse(...given);
    expect(result.code).toBe(code);
    expect(result.err).toContain(words);
    expect(result.out).toBe("");
  });
  test("a file may begin with a mark of its encoding", () => {
    expect(readInput(file("marked.json", "\uFEFF[1]"))).toEqual([1]);
  });
  test("what is wrong with berths to compare is told at once, each with its file", async () => {
    const early = file("early.json", { ...demo(), stay: { fromMs: "2026-06-16", toMs: 0 } });
    const hook = file("hook.json", { ...demo(), seabed: "quicksand" });
    const { code, err } = await hawse("compare", early, hook, "nowhere.json");
    expect(code).toBe(2);
    expect(err).toContain(`  ${early}: stay.fromMs: expected a date`);
    expect(err).toContain(`  ${hook}: seabed: cannot read "quicksand"`);
    expect(err).toContain("  nowhere.json: there is no such file");
    const { stay, ...rest } = demo();
    const later = file("later.json", { ...rest, stay: { ...stay, toMs: stay.toMs + 60_000 } });
    const apart = await hawse("compare", file("now.json", demo()), later);
    expect(apart.err).toContain(`  ${later}: stay: berths are compared over one and the same stay`);
  });
  test("a wrong purpose is told by its option", async () => {
    const { err } = await hawse("compare", "a.json", "b.json", "--for", "dinner");
    expect(err).toContain("--for: expected one of night, lunch");
  });
  test("a sweep and a plan that hold no object are the caller's mistake", async () => {
    const nought = file("no-object.json", "null");
    for (const call of [
      ["sweep", "describe", nought],
      ["watch", "night.log", "--plan", nought],
    ]) {
      const { code, err } = await hawse(...call);
      expect([code, err]).toEqual([2, expect.stringContaining(`${nought}: expected object`)]);
    }
  });
  test("an anchor in the south is no option", async () => {
    const { err } = await hawse("watch", "nowhere.log", "--anchor", "-47.2 20.4", "--reach", "45");
    expect(err).toContain("nowhere.log: there is no such file");
  });
  test("the version is told", async () => {
    const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
    expect(await hawse("--version")).toEqual({ code: 0, out: `${version}\n`, err: "" });
  });
  test("help of no command is no help", async () => {
    expect(await hawse("help", "paln")).toMatchObject({ code: 2, out: "" });
  });
  test("help teaches, and a bare call shows it", async () => {
    expect(await hawse("--help")).toMatchObject({ code: 0, err: "" });
    expect((await hawse()).code).toBe(2);
    const { out } = await hawse("help");
    expect(out).toContain("Exit codes");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(79);
  });
  test.each(["plan", "compare", "watch", "sweep", "schema"])(
    "hawse %s --help shows how it is called, with an example, and does nothing",
    async (command) => {
      const { code, out, err } = await hawse(command, "--help");
      expect([code, err]).toEqual([0, ""]);
      expect(out).toMatch(new RegExp(`^hawse ${command} `));
      expect(out).toMatch(new RegExp(`^ {2}.*hawse ${command} `, "m"));
      for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(79);
      expect((await hawse("help", command)).out).toBe(out);
      // A wrong call shows the help of the command that was called.
      expect((await hawse(command, "--nosuch")).err).toContain(`hawse ${command}`);
    },
  );
  test("with --json the terminal gets the plan and nothing else", async () => {
    const { code, out } = await hawse(
      "plan",
      "shared/scenarios/gannick-bay.json",
      "--json",
      "--out",
      path.join(scratch, "json"),
    );
    expect(code).toBe(0);
    const plan = JSON.parse(out) as { verdict: string };
    expect(plan).toEqual(JSON.parse(readFileSync(path.join(scratch, "json/plan.json"), "utf8")));
  });
});

describe("instants in files", () => {
  test("texts become milliseconds in fields that end in Ms, and nowhere else", () => {
    expect(
      withInstants({ timeMs: "2026-06-16T18:00Z", name: "2026-06-16T18:00Z", rows: [{ atMs: 5 }] }),
    ).toEqual({
      timeMs: Date.UTC(2026, 5, 16, 18),
      name: "2026-06-16T18:00Z",
      rows: [{ atMs: 5 }],
    });
  });
  test("deep nesting is refused in bounded time", () => {
    const deep = `${"[".repeat(5000)}1${"]".repeat(5000)}`;
    expect(() => readInput(file("deep.json", deep))).toThrow(/nested too deep/);
  });
  test("a key that objects have is only a key", () => {
    const read = withInstants(
      JSON.parse('{"__proto__": {"timeMs": "2026-06-16T18:00Z"}}'),
    ) as object;
    expect(Object.getPrototypeOf(read)).toBe(Object.prototype);
    expect(Object.keys(read)).toEqual(["__proto__"]);
  });
});

describe("hawse sweep", () => {
  test("one shard is told as one, two as two", async () => {
    const spec = file("sweep.json", {
      statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
      axes: [{ name: "scope", values: [3, 5] }],
      fixed: { depthM: 6, windMps: 10 },
      outputs: ["pullAngleDeg"],
      seed: 1,
    });
    for (const [n, words] of [
      [1, "2 scenarios of 1 shard\n"],
      [2, "2 scenarios of 2 shards\n"],
    ] as const) {
      const folder = path.join(scratch, `shards-${n}`);
      for (let k = 1; k <= n; k++)
        expect(
          (await hawse("sweep", "run", spec, "--out", folder, "--shard", `${k}/${n}`)).err,
        ).toBe("");
      expect((await hawse("sweep", "merge", folder)).out).toContain(words);
    }
  });
});
