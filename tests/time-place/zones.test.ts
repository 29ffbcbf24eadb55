import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { buildSync } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";

// No answer may hang on the clock of the machine: one program, run in five time zones, gives the same to the bit.

const root = path.resolve(import.meta.dirname, "../..");
const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-zones-"));
const bundle = path.join(scratch, "digest.mjs");
let expected = "";

const answers = (zone: string): string =>
  execFileSync(process.execPath, [bundle], {
    cwd: root,
    encoding: "utf8",
    env: { ...process.env, TZ: zone },
  });

beforeAll(() => {
  buildSync({
    entryPoints: [path.join(import.meta.dirname, "digest.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile: bundle,
    logLevel: "error",
  });
  expected = answers("UTC");
});
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

test("the zone takes hold in a child", () => {
  const hour = (zone: string) =>
    execFileSync(process.execPath, ["-p", "new Date(1780272000000).getHours()"], {
      encoding: "utf8",
      env: { ...process.env, TZ: zone },
    }).trim();
  expect([hour("UTC"), hour("Pacific/Kiritimati")]).toEqual(["0", "14"]);
  expect(expected.trim().split("\n").length).toBeGreaterThan(25);
});

// West and east of the date line, half an hour's summer time, three quarters of an hour off, and one that sets its
// clocks forward at midnight.
test.each([
  ["Pacific/Pago_Pago"],
  ["Pacific/Kiritimati"],
  ["Australia/Lord_Howe"],
  ["Asia/Kathmandu"],
  ["America/Santiago"],
])("the same answers in %s", (zone) => {
  expect(answers(zone)).toBe(expected);
});
