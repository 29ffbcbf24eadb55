import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { watchOn } from "../../src/cli/watchCommand.js";
import { MACHINE } from "../../src/cli/watchFollow.js";
import { positionOf } from "../../src/cli/watchHeld.js";

const scratch = mkdtempSync(path.join(tmpdir(), "hawse-live-"));
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

const two = (n: number): string => String(Math.floor(n)).padStart(2, "0");

/** A position sentence `s` seconds after 20:00 on 16 June 2026, metres east of 47 N 20 W; void without a place. */
function rmc(s: number, east: number | null): string {
  const lon = 60 - ((east ?? 0) / 76_057) * 60;
  const time = `${two(20 + s / 3600)}${two((s / 60) % 60)}${two(s % 60)}.00`;
  const wobble = (0.0005 + 0.0003 * Math.sin(s / 40)).toFixed(5).padStart(8, "0");
  const body =
    east === null
      ? `GPRMC,${time},V,,,,,,,160626,,,N`
      : `GPRMC,${time},A,47${wobble},N,019${lon.toFixed(5).padStart(8, "0")},W,0.1,0.0,160626,,,A`;
  const sum = [...Buffer.from(body)].reduce((a, b) => a ^ b, 0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
}

type Heard = string | null;

/** Watch a stream given second by second: what comes then, or null for nothing. The clock is that of the stream. */
async function live(seconds: readonly Heard[], ...more: string[]) {
  let [out, err, nowMs, calls] = ["", "", 1e6, 0];
  let tick: () => void = () => undefined;
  let meanwhile = "";
  async function* stream() {
    for (const heard of seconds) {
      nowMs += 1000;
      if (++calls % 5 === 0) tick();
      if (heard !== null) yield Promise.resolve(heard);
    }
    meanwhile = out;
  }
  const command = watchOn({
    stdin: stream,
    nowMs: () => nowMs,
    every: (ms, call) => {
      expect(ms).toBe(5000);
      tick = call;
      return () => {
        tick = () => undefined;
      };
    },
  });
  const code = await command(["-", "--anchor", "47 -20", "--reach", "40", ...more], {
    out: (t) => {
      out += t;
    },
    err: (t) => {
      err += t;
    },
  });
  return { code, out, err, meanwhile };
}

const span = (n: number, what: (s: number) => Heard): Heard[] =>
  Array.from({ length: n }, (_, s) => what(s));
const lying =
  (from = 0) =>
  (s: number) =>
    rmc(from + s, 30);
const silent = () => null;

describe("hawse watch on a live stream", () => {
  test("140 s of silence ring blind, with exit code 4, before the stream ends", async () => {
    const { code, out, err, meanwhile } = await live([...span(300, lying()), ...span(140, silent)]);
    expect(code).toBe(4);
    expect(meanwhile).toBe(out);
    expect(out).toMatch(
      /20:07 {2}blind, last seen 30 m from the anchor \(limit 40 m\) {2}ALARM blind\n$/,
    );
    expect(err).toContain("the stream ended: nobody is watching");
  });
  test("a silence of 90 s is none", async () => {
    const { code, out } = await live([...span(300, lying()), ...span(90, silent)]);
    expect(code).toBe(0);
    expect(out).not.toContain("blind");
  });
  test("the clock rests on what came last: it does not run ahead while fixes come", async () => {
    const { code, out } = await live(span(600, lying()));
    expect(code).toBe(0);
    expect(out.match(/\n/g)).toHaveLength(2);
    expect(out).toMatch(
      /cannot tell yet \(limit 40 m\)\n.*lying, 30 m from the anchor \(limit 40 m\)\n$/,
    );
  });
  test("seeing again is told, and a second silence rings again", async () => {
    const { out, code } = await live([
      ...span(300, lying()),
      ...span(200, silent),
      ...span(300, lying(500)),
      ...span(200, silent),
    ]);
    expect(out).toContain("seeing again: lying");
    expect(out.match(/ALARM blind/g)).toHaveLength(2);
    expect(code).toBe(4);
  });
  test("sentences of a receiver without a position, or with one instant for ever, are silence", async () => {
    for (const what of [
      (s: number) => rmc(300 + s, null),
      () => rmc(299, 30),
      () => "$SDDBT,,f,,M,,F*28\r\n",
    ]) {
      const { code, out } = await live([...span(300, lying()), ...span(140, what)]);
      expect(code).toBe(4);
      expect(out).toContain("ALARM blind");
    }
  });
  test("a stream that never brings a position says that nobody is watching, once", async () => {
    const { code, out, err } = await live(span(400, silent));
    expect([code, out]).toEqual([2, ""]);
    expect(err.match(/no position has come for two minutes: nobody is watching/g)).toHaveLength(1);
    expect((await live(span(100, silent))).err).not.toContain("two minutes");
  });
  test("taken up again from a file, silence from the first rings too, and is kept", async () => {
    const state = path.join(scratch, "watch.state");
    await live(span(300, lying()), "--state", state);
    const { code, out } = await live(span(200, silent), "--state", state);
    expect(code).toBe(4);
    expect(out).toContain("ALARM blind");
    expect(readFileSync(state, "utf8")).toMatch(/^hawse-watch-\d+ /);
  });
  test("the machine's own timer rings, and can be stopped", async () => {
    const from = MACHINE.nowMs();
    const holds = setInterval(() => undefined, 1000);
    await new Promise<void>((resolve) => {
      const stop = MACHINE.every(1, () => {
        stop();
        resolve();
      });
    });
    clearInterval(holds);
    expect(MACHINE.nowMs()).toBeGreaterThan(from);
  });
});

async function replayed(name: string, text: string, ...more: string[]) {
  const file = path.join(scratch, name);
  writeFileSync(file, text);
  let [out, err] = ["", ""];
  const code = await watchOn(MACHINE)([file, "--anchor", "47 -20", "--reach", "40", ...more], {
    out: (t) => {
      out += t;
    },
    err: (t) => {
      err += t;
    },
  });
  return { code, out, err };
}

const fixes = (fromS: number, toS: number, east: (s: number) => number): string => {
  let text = "";
  for (let s = fromS; s < toS; s += 5) text += rmc(s, east(s));
  return text;
};

describe("hawse watch on a log", () => {
  test("a hole of 1 h 40 is told as blind within two minutes and a look, then as seeing again", async () => {
    const log = fixes(0, 3600, () => 30) + fixes(9600, 10_800, () => 30);
    const { code, out } = await replayed("hole.log", log);
    expect(code).toBe(0);
    expect(out).toMatch(/21:02 {2}blind, last seen 30 m/);
    expect(out).toMatch(/22:40 {2}seeing again: /);
  });
  test("so is one in a track", async () => {
    const point = (s: number) =>
      `<trkpt lat="${(47 + 5e-6 * Math.sin(s / 40)).toFixed(7)}" lon="-19.9996056"><time>${new Date(Date.UTC(2026, 5, 16, 20, 0, s)).toISOString()}</time></trkpt>`;
    let text = "<gpx>";
    for (let s = 0; s < 600; s += 5) text += point(s) + point(s + 6600);
    const sorted = text
      .match(/<trkpt.*?<\/trkpt>/g)!
      .sort((a, b) => (a.slice(-40) < b.slice(-40) ? -1 : 1));
    const { out } = await replayed("hole.gpx", `<gpx>${sorted.join("")}</gpx>`);
    expect(out).toMatch(/blind, last seen 30 m/);
    expect(out).toContain("seeing again: ");
  });
  test("a log too short to tell ends with exit code 4", async () => {
    const { code, err } = await replayed(
      "short.log",
      fixes(0, 15, () => 30),
    );
    expect(code).toBe(4);
    expect(err).toContain("at the end: Tue 16 Jun 20:00  cannot tell yet (limit 40 m)");
  });
  test("passing the limit is told, once, before the alarm rings", async () => {
    const { out } = await replayed(
      "past.log",
      fixes(0, 7200, (s) => 30 + 0.05 * Math.max(0, s - 3600)),
    );
    const past = out.search(/4\d m from the anchor \(limit 40 m\) {2}past the limit/);
    expect(past).toBeGreaterThan(0);
    expect(out.indexOf("ALARM drag")).toBeGreaterThan(past);
  });
  test("and so is coming back", async () => {
    const { out, code } = await replayed(
      "back.log",
      fixes(0, 7200, (s) => (s > 3600 && s < 3700 ? 43 : 30)),
    );
    expect(code).toBe(0);
    expect(out.match(/past the limit/g)).toHaveLength(1);
    expect(out.trimEnd().split("\n").at(-1)).toMatch(
      /lying, 3\d m from the anchor \(limit 40 m\)$/,
    );
  });
  test("as JSON a report at every change, nothing else", async () => {
    const log = fixes(0, 600, () => 30) + fixes(1200, 1800, () => 30);
    const { out } = await replayed("json.log", log, "--json");
    const modes = out
      .trimEnd()
      .split("\n")
      .map((l) => (JSON.parse(l) as { mode: string }).mode);
    expect(modes).toEqual(["cannotTell", "lying", "blind", "lying"]);
  });
});

describe("the place of an anchor", () => {
  const near = (text: string, latDeg: number, lonDeg: number) => {
    const p = positionOf(text);
    expect(p.latDeg).toBeCloseTo(latDeg, 9);
    expect(p.lonDeg).toBeCloseTo(lonDeg, 9);
  };
  test("in decimal degrees, and as the brief prints it", () => {
    near("47.2 -20.4", 47.2, -20.4);
    near("-47.2, 20.4", -47.2, 20.4);
    near("47°12.011'N 020°24.016'W", 47 + 12.011 / 60, -(20 + 24.016 / 60));
    near(" 07° 05.5′ S, 120° 00.000′ E ", -(7 + 5.5 / 60), 120);
  });
  test.each([
    "",
    "47",
    "47 ",
    "47 x",
    "95 10",
    "47°60.0'N 020°24.0'W",
    "47°12'E 020°24'W",
    "47 -20 5",
    "1e1 2",
  ])("not %j", (text) => {
    expect(() => positionOf(text)).toThrow(/47°12\.011'N 020°24\.016'W/);
  });
});
