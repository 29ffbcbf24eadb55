import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { createInterface } from "node:readline";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readNmea0183 } from "../../src/feed/nmea.js";
import { resumeWatch, saveWatch } from "../../src/watch/savewatch.js";
import { hasSharedData } from "../shared-data.js";
import { bundle } from "./bundle.js";

const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-plugin-"));
const script = path.join(scratch, "host.mjs");

beforeAll(async () => {
  await bundle("tests/package/plugin-host.ts", script);
});
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

/** A sentence with its checksum. */
function sentence(body: string): string {
  let sum = 0;
  for (const c of body) sum ^= c.charCodeAt(0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
}

/** Five invented minutes at anchor, one fix a second. */
function inventedLog(): string {
  let text = "";
  for (let s = 0; s < 300; s++) {
    const north = 30 + 3 * Math.sin(s / 40);
    const east = 12 * Math.sin(s / 170);
    const minutes = (degrees: number) => ((degrees % 1) * 60).toFixed(5).padStart(8, "0");
    const lat = 47.2 + north / 111_200;
    const lon = 20.4 - east / 75_600;
    const clock = `21${String(Math.floor(s / 60)).padStart(2, "0")}${String(s % 60).padStart(2, "0")}.00`;
    text += sentence(
      `GPRMC,${clock},A,47${minutes(lat)},N,020${minutes(lon)},W,0.3,0.0,160626,,,A`,
    );
  }
  return text;
}

interface Log {
  name: string;
  file: string;
}
function logs(): Log[] {
  const invented = path.join(scratch, "invented.log");
  writeFileSync(invented, inventedLog());
  const open = hasSharedData
    ? ["gps.log", "gofree-merrimac.log", "gpsd-ijsselmeer-mixed.log"].map((name) => ({
        name,
        file: path.resolve(import.meta.dirname, "../../../shared/data/nmea", name),
      }))
    : [];
  return [{ name: "an invented night", file: invented }, ...open.filter((l) => existsSync(l.file))];
}

const savedWatch = (folder: string) =>
  resumeWatch(readFileSync(path.join(folder, "watch.txt"), "utf8").split("\n")[1]!);

describe.each(logs())("the plugin fed with $name", ({ name, file }) => {
  const fixes = readNmea0183(readFileSync(file, "utf8")).events.filter((e) => e.kind === "fix");
  const { latDeg, lonDeg } = fixes[0]!;
  const anchor = JSON.stringify({ latDeg, lonDeg });
  const last = Math.min(fixes.length, 160);

  test("goes on after kill -9 as if it had never stopped", async () => {
    expect(fixes.length).toBeGreaterThan(20);
    const short = path.join(scratch, `${name.replaceAll(/\W/g, "-")}.log`);
    // Only as much of a long log as the test needs.
    const text = readFileSync(file, "latin1");
    const until = text.length * Math.min(1, (1.2 * last) / fixes.length);
    writeFileSync(short, text.slice(0, until), "latin1");
    const [whole, cut] = [`${short}-whole`, `${short}-cut`];
    const whole1 = spawnSync("node", [script, short, whole, anchor, "0"], { encoding: "utf8" });
    expect(whole1.status).toBe(0);

    const killAfter = Math.floor(whole1.stdout.trim().split("\n").length / 2);
    const done = await killedAfter(killAfter, [script, short, cut, anchor, "0"]);
    // The last step it saved may not have been printed any more.
    const ends = [done, done + 1].map((from) => {
      const folder = `${cut}-${from}`;
      cpSync(cut, folder, { recursive: true });
      const rest = spawnSync("node", [script, short, folder, anchor, String(from)]);
      expect(rest.status).toBe(0);
      return saveWatch(savedWatch(folder));
    });
    expect(ends).toContain(saveWatch(savedWatch(whole)));
    expect(savedWatch(cut).report.quality.fixes).toBeGreaterThan(0);
  });
});

/** Runs a process and kills it outright once it has printed so many lines; how many it printed. */
function killedAfter(lines: number, args: string[]): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn("node", args, { stdio: ["ignore", "pipe", "inherit"] });
    let printed = 0;
    createInterface(child.stdout).on("line", () => {
      printed += 1;
      if (printed === lines) child.kill("SIGKILL");
    });
    child.on("close", (_, signal) => {
      if (signal === "SIGKILL") resolve(printed);
      else reject(new Error("it ended before it could be killed"));
    });
  });
}
