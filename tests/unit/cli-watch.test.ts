import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { run } from "../../src/cli/run.js";

const scratch = mkdtempSync(path.join(tmpdir(), "hawse-watch-"));
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

async function watch(...args: string[]) {
  let [out, err] = ["", ""];
  const code = await run(["watch", ...args], {
    out: (t) => {
      out += t;
    },
    err: (t) => {
      err += t;
    },
  });
  return { code, out, err };
}

const two = (n: number): string => String(Math.floor(n)).padStart(2, "0");

/** A position sentence of an invented boat, `s` seconds after 20:00 on 16 June 2026, metres north and east of 47 N 20 W. */
function rmc(s: number, north: number, east: number): string {
  const lat = (north / 111_170) * 60;
  const lon = 60 - (east / 76_057) * 60;
  const time = `${two(20 + s / 3600)}${two((s / 60) % 60)}${two(s % 60)}.00`;
  const body = `GPRMC,${time},A,47${lat.toFixed(5).padStart(8, "0")},N,019${lon.toFixed(5).padStart(8, "0")},W,0.1,0.0,160626,,,A`;
  const sum = [...Buffer.from(body)].reduce((a, b) => a ^ b, 0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
}

/** Two hours of fixes every 5 s, 30 m east of the anchor, dragging east at a speed from the second hour. */
function log(name: string, dragMps: number): string {
  const file = path.join(scratch, name);
  let text = "";
  for (let s = 0; s <= 7200; s += 5)
    text += rmc(s, 5 + 3 * Math.sin(s / 40), 30 + dragMps * Math.max(0, s - 3600));
  writeFileSync(file, text);
  return file;
}

const held = ["--anchor", "47 -20", "--reach", "40"];

describe("hawse watch", () => {
  test("an anchor that holds raises no alarm", async () => {
    const { code, out, err } = await watch(log("holds.log", 0), ...held);
    expect(code).toBe(0);
    expect(out).toContain("lying");
    expect(out + err).not.toContain("ALARM");
  });
  test("one that drags is told, with exit code 3", async () => {
    const { code, out } = await watch(log("drags.log", 0.1), ...held);
    expect(code).toBe(3);
    expect(out).toMatch(/dragging, \d+(\.\d)? m from the anchor \(limit 40 m\) {2}ALARM drag/);
  });
  test("left and taken up again, it says the same at the end", async () => {
    const whole = log("whole.log", 0.1);
    const text = readFileSync(whole, "utf8");
    const cut = text.indexOf("\n", text.length / 2) + 1;
    const [a, b] = ["a.log", "b.log"].map((n) => path.join(scratch, n));
    writeFileSync(a!, text.slice(0, cut));
    writeFileSync(b!, text.slice(cut));
    const state = path.join(scratch, "watch.state");
    await watch(a!, ...held, "--state", state);
    const resumed = await watch(b!, ...held, "--state", state);
    const once = await watch(whole, ...held);
    const end = (err: string): string => err.slice(err.indexOf("at the end"));
    expect(end(resumed.err)).toBe(end(once.err));
  });
  test.each([
    ["another reach", ["--anchor", "47 -20", "--reach", "35"]],
    ["another anchor", ["--anchor", "47.001 -20", "--reach", "40"]],
  ])("a watch left from %s is not taken up", async (_, other) => {
    const state = path.join(scratch, "other.state");
    rmSync(state, { force: true });
    const file = log("other.log", 0);
    await watch(file, ...held, "--state", state);
    const left = readFileSync(state, "utf8");
    const { code, err } = await watch(file, ...other, "--state", state);
    expect([code, err]).toEqual([2, expect.stringContaining("another anchor or other limits")]);
    expect(readFileSync(state, "utf8")).toBe(left);
  });
  test("a plan whose limits cannot be held, and a watch that is spoilt, are refused by name", async () => {
    const plan = path.join(scratch, "spoilt.json");
    const limits = { rows: 5, distanceSigmaM: 1 };
    writeFileSync(plan, JSON.stringify({ position: { latDeg: 47, lonDeg: -20 }, limits }));
    const quiet = path.join(scratch, "quiet.log");
    writeFileSync(quiet, "");
    const asked = await watch(quiet, "--plan", plan);
    expect([asked.code, asked.err]).toEqual([2, expect.stringContaining(`${plan}: limits.rows`)]);
    const state = path.join(scratch, "spoilt.state");
    writeFileSync(state, "{}");
    const left = await watch(log("spoilt.log", 0), ...held, "--state", state);
    expect([left.code, left.err]).toEqual([2, expect.stringContaining(state)]);
  });
  test("reports as JSON, one a line", async () => {
    const { out } = await watch(log("json.log", 0.1), ...held, "--json");
    const modes = out
      .trim()
      .split("\n")
      .map((l) => (JSON.parse(l) as { mode: string }).mode);
    expect(modes.at(-1)).toBe("dragging");
  });
  test.each([
    ["no log", [], "expected one log"],
    ["no anchor", ["x.log"], "expected --plan PLAN.json"],
    ["a log that is not there", ["x.log", ...held], "x.log: there is no such file"],
    ["a track that is not there", ["x.gpx", ...held], "x.gpx: there is no such file"],
    ["a folder", [scratch, ...held], "is a folder, not a file"],
    ["a plan and a place", ["x.log", ...held, "--plan", "plan.json"], "not both"],
    ["a plan and a reach", ["x.log", "--plan", "p.json", "--reach", "40"], "not both"],
    ["a place alone", ["x.log", "--anchor", "47 -20"], "expected --plan PLAN.json"],
    ["no place", ["x.log", "--anchor", "47", "--reach", "40"], "--anchor: expected latitude and"],
    ["no distance", ["x.log", "--anchor", "47 -20", "--reach", "far"], "--reach: expected metres"],
  ])("%s", async (_, args, words) => {
    const { code, err } = await watch(...args);
    expect(code).toBe(2);
    expect(err).toContain(words);
    // It writes nothing, so it need not say so.
    expect(err).not.toContain("nothing was written");
  });
  test("a log without a fix says that nothing can be said", async () => {
    const file = path.join(scratch, "none.log");
    writeFileSync(file, "$SDDBT,,f,,M,,F*28\r\n");
    expect(await watch(file, ...held)).toMatchObject({ code: 2, out: "" });
  });
});
