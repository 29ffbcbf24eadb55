import { describe, expect, test } from "vitest";
import { utc } from "../../src/core/time.js";
import { knots } from "../../src/core/units.js";
import { readNmea0183, type ReadNmea0183Options } from "../../src/feed/index.js";

const sentence = (body: string): string => {
  let x = 0;
  for (const c of body) x ^= c.charCodeAt(0);
  return `$${body}*${x.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
};
const read = (bodies: string[], options: ReadNmea0183Options = {}) =>
  readNmea0183(bodies.map(sentence).join(""), options);
const DAY = 86_400_000;
const noon = utc("2026-06-01T12:00Z");
/** Time of day of so many seconds after noon. */
const clock = (s: number) =>
  new Date(noon + 1000 * s).toISOString().slice(11, 19).replaceAll(":", "");
const rmc = (s: number, sog = "0.4", cog = "200.0", date = "010626") =>
  `GPRMC,${clock(s)},A,5000.0,N,00500.0,W,${sog},${cog},${date},2.0,W,A`;
const gga = (s: number, hdop = "1.0", quality = 1) =>
  `GPGGA,${clock(s)},5000.0,N,00500.0,W,${quality},08,${hdop},3,M,,M,,`;
const gll = (s: number) => `GPGLL,5000.0,N,00500.0,W,${clock(s)},A,A`;
const RMC = rmc(0);

describe("what is known of a fix", () => {
  const last = (bodies: string[], options = {}) => read(bodies, options).events.at(-1)!;
  test("speed and course stand for two and a half seconds, the dilution for ten", () => {
    expect(last([RMC, gll(2)])).toMatchObject({ sogMps: knots(0.4), cogDeg: 200 });
    expect(last([RMC, gll(3)])).not.toHaveProperty("sogMps");
    expect(last([RMC, gll(3)])).not.toHaveProperty("cogDeg");
    expect(last([RMC, gga(0), gll(10)])).toHaveProperty("sigmaM");
    expect(last([RMC, gga(1), gll(11)])).toHaveProperty("sigmaM");
    expect(last([RMC, gga(1), gll(12)])).not.toHaveProperty("sigmaM");
  });
  test("a speed or course that is not given is left out, not nil", () => {
    expect(last([rmc(0, "", "")])).toEqual({ kind: "fix", timeMs: noon, latDeg: 50, lonDeg: -5 });
    expect(last([rmc(0, "0.4", "")])).not.toHaveProperty("cogDeg");
    expect(last([rmc(0, "", "200.0")])).not.toHaveProperty("sogMps");
    expect(last([gll(0)], { receivedMs: noon })).toEqual({
      kind: "fix",
      timeMs: noon,
      latDeg: 50,
      lonDeg: -5,
    });
  });
  test("a dilution of nil is no statement", () => {
    expect(last([RMC, gga(1, "0.0")])).not.toHaveProperty("sigmaM");
    expect(last([RMC, gga(1, "")])).not.toHaveProperty("sigmaM");
    expect(last([RMC, gga(0, "2.0"), gga(1, "0.0")])).toMatchObject({ sigmaM: 8 / Math.SQRT2 });
  });
  test("the second receiver says so, the first need not", () => {
    expect(last([RMC], { receiver: 1 })).toMatchObject({ receiver: 1 });
    expect(last([RMC], { receiver: 0 })).not.toHaveProperty("receiver");
    expect(last([RMC], { rangeErrorM: 3 })).not.toHaveProperty("sigmaM");
    expect(last([RMC, gga(1)], { rangeErrorM: 3 })).toMatchObject({ sigmaM: 3 / Math.SQRT2 });
  });
  test("VTG gives speed and course to the fixes that follow; without a speed it tells nothing", () => {
    const vtg = (cog: string, sog: string) => `GPVTG,${cog},T,,M,${sog},N,,K,A`;
    expect(last([RMC, vtg("90", "2"), gll(1)])).toMatchObject({ sogMps: knots(2), cogDeg: 90 });
    expect(last([RMC, vtg("90", ""), gll(1)])).toMatchObject({ sogMps: knots(0.4), cogDeg: 200 });
    const slow = last([RMC, vtg("", "0.1"), gll(1)]);
    expect(slow).toMatchObject({ sogMps: knots(0.1) });
    expect(slow).not.toHaveProperty("cogDeg");
  });
  test("for three seconds after a position that is not measured none is handed on", () => {
    const fixes = (bodies: string[]) =>
      read(bodies)
        .events.filter((e) => e.kind === "fix")
        .map((e) => (e.timeMs - noon) / 1000);
    expect(fixes([RMC, gga(1, "1.0", 6), gll(1), gll(2), gll(4), gll(5)])).toEqual([0, 5]);
    // Before the first of them nothing is known to be poor; a receiver that says none in RMC or GLL may be sound in GGA.
    expect(fixes([RMC, `GPGLL,5000.0,N,00500.0,W,${clock(1)},V,N`, gga(2)])).toEqual([0, 2]);
  });
});

describe("time", () => {
  const times = (bodies: string[], options = {}) =>
    read(bodies, options).events.map((e) => [e.kind, (e.timeMs - noon) / 1000]);
  test("a receiver that loses its fix, or sends the time alone, still tells the time", () => {
    const lost = (s: number) => `GPRMC,${clock(s)},V,,,,,,,010626,,,N`;
    const zda = (s: number, year = 2026) => `GPZDA,${clock(s)},01,06,${year},00,00`;
    expect(times([RMC, lost(5)])).toEqual([
      ["fix", 0],
      ["clock", 5],
    ]);
    expect(times([RMC, zda(5)])).toEqual([
      ["fix", 0],
      ["clock", 5],
    ]);
    // The instant of the fix itself says nothing new, and before a fix no time is believed.
    expect(times([RMC, zda(0)])).toEqual([["fix", 0]]);
    expect(times([zda(5)])).toEqual([]);
    expect(times([lost(5)])).toEqual([]);
    // Nor is one that is years off: within a year and a day, and not beyond.
    expect(times([RMC, zda(5, 2028)])).toEqual([["fix", 0]]);
    expect(times([RMC, zda(5, 2027)])).toHaveLength(2);
    expect(times([RMC, "GPZDA,120005,,,,00,00"])).toEqual([["fix", 0]]);
    expect(times([RMC, "GPGLL,,,,,,V,N"])).toEqual([["fix", 0]]);
  });
  test("ZDA gives the day to sentences without a date, until RMC gives a surer one", () => {
    const zda = "GPZDA,115959,01,06,2026,00,00";
    expect(times([zda, gll(0)])).toEqual([["fix", 0]]);
    expect(times([gll(0)])).toEqual([]);
    // A wrong day of a clock that runs on is not taken once RMC with a position has told it.
    const wrong = "GPZDA,120001,01,06,2027,00,00";
    const after = read([RMC, wrong, rmc(2)]).events.filter((e) => e.kind === "fix");
    expect(after.map((e) => e.timeMs)).toEqual([noon, noon + 2000]);
    // Nor one that is years off, for the sentences after it.
    const off = "GPZDA,120001,01,06,2028,00,00";
    expect(times([RMC, off, gll(1)])).toEqual([
      ["fix", 0],
      ["fix", 1],
    ]);
    // A position of a receiver that told no date of its own does not make the caller's date sure.
    const own = read([gll(0), off, gll(6)], { receivedMs: noon }).events;
    expect(own.at(-1)!.timeMs).toBe(utc("2028-06-01T12:00:06Z"));
    // A date that cannot be, or is empty, is none, and leaves the one before it.
    for (const date of ["320126", ""])
      expect(times([RMC, rmc(1, "0.4", "200.0", date), gll(2)])).toEqual([
        ["fix", 0],
        ["fix", 1],
        ["fix", 2],
      ]);
    expect(times([rmc(1, "0.4", "200.0", "")])).toEqual([]);
    expect(times([rmc(1, "0.4", "200.0", "")], { receivedMs: noon })).toEqual([["fix", 1]]);
    expect(times([zda, "GPZDA,120000,,,,00,00", gll(1)])).toEqual([["fix", 1]]);
    // An RMC without a position does not make its date sure.
    const unsure = `GPRMC,${clock(0)},V,,,,,,,020626,,,N`;
    expect(times([unsure, zda, gll(1)])).toEqual([["fix", 1]]);
  });
  test("past midnight the day goes on, and comes back for a sentence that is late", () => {
    const late = "GPRMC,235959,A,5000.0,N,00500.0,W,0.4,200.0,010626,2.0,W,A";
    const next = (time: string) => `GPGLL,5000.0,N,00500.0,W,${time},A,A`;
    const at = (bodies: string[]) => read(bodies).events.map((e) => e.timeMs);
    expect(at([late, next("000000"), next("000001"), next("060000"), next("180000")])).toEqual([
      utc("2026-06-01T23:59:59Z"),
      utc("2026-06-02T00:00:00Z"),
      utc("2026-06-02T00:00:01Z"),
      utc("2026-06-02T06:00:00Z"),
      utc("2026-06-02T18:00:00Z"),
    ]);
    expect(at([late, next("000000"), next("235958")])).toEqual([
      utc("2026-06-01T23:59:59Z"),
      utc("2026-06-02T00:00:00Z"),
      utc("2026-06-01T23:59:58Z"),
    ]);
  });
  test("the caller's clock dates what has no date, and carries time on between sentences", () => {
    const received = { receivedMs: noon + 3 * DAY + 1000 };
    expect(times([gll(0)], received)).toEqual([["fix", 3 * 86_400]]);
    // Just before midnight by his clock, just after by the receiver's.
    const eve = { receivedMs: utc("2026-06-01T23:59:58Z") };
    const [fix] = read(["GPGLL,5000.0,N,00500.0,W,000001,A,A"], eve).events;
    expect(fix!.timeMs).toBe(utc("2026-06-02T00:00:01Z"));

    const heading = (before: object, after: object) => {
      const { state } = read([RMC], before);
      return (read(["HEHDT,10.0,T"], { state, ...after }).events[0]!.timeMs - noon) / 1000;
    };
    expect(heading({ receivedMs: 5000 }, { receivedMs: 8000 })).toBe(3);
    // A clock set back does not set the receiver back.
    expect(heading({ receivedMs: 5000 }, { receivedMs: 4000 })).toBe(0);
    expect(heading({}, { receivedMs: noon + 9000 })).toBe(0);
    expect(heading({ receivedMs: 5000 }, {})).toBe(0);
    expect(read(["HEHDT,10.0,T"]).events).toEqual([]);
    expect(read(["HEHDT,10.0,T"], { receivedMs: 7000 }).events[0]!.timeMs).toBe(7000);
  });
});

describe("heading", () => {
  const headings = (bodies: string[], options = {}) =>
    read([RMC, ...bodies], options)
      .events.filter((e) => e.kind === "heading")
      .map((e) => e.headingDeg);
  test("compass by its own variation, else the receiver's, else none", () => {
    expect(headings(["HCHDG,100,,,5,E"])).toEqual([105]);
    expect(headings(["HCHDG,100,,,,"])).toEqual([98]);
    // The latest the receiver gave; a sentence without one leaves it.
    expect(headings([rmc(1).replace("2.0,W", "3.0,E"), "HCHDG,100,,,,"])).toEqual([103]);
    expect(headings([rmc(1).replace("2.0,W", ","), "HCHDG,100,,,,"])).toEqual([98]);
    expect(headings(["HCHDG,,,,5,E"])).toEqual([]);
    expect(headings(["HEHDT,,T"])).toEqual([]);
  });
  test("the log's heading is silent beside a compass for half a minute", () => {
    const log = "IIVHW,50,T,,M,1,N,,K";
    expect(headings([log])).toEqual([50]);
    expect(headings(["HEHDT,10,T", log])).toEqual([10]);
    expect(headings(["HEHDT,10,T", rmc(30), log])).toEqual([10]);
    expect(headings(["HEHDT,10,T", rmc(31), log])).toEqual([10, 50]);
    expect(headings([log, "HEHDT,10,T", "HEHDT,11,T"])).toEqual([50, 10, 11]);
    expect(headings([log, log])).toEqual([50, 50]);
  });
});

describe("wind", () => {
  const winds = (bodies: string[], first = RMC) =>
    read([first, ...bodies])
      .events.filter((e) => e.kind === "wind")
      .map((e) => [+e.windFromDeg.toFixed(6), +e.windMps.toFixed(6)]);
  const still = rmc(0, "0.0", "0.0");
  test("by compass, from the bow over the ground, and relative", () => {
    expect(winds(["WIMWD,90,T,,M,,N,5,M"])).toEqual([[90, 5]]);
    expect(winds(["HEHDT,350,T", "WIMWV,20,T,5,M,A"])).toEqual([[10, 5]]);
    expect(winds(["HEHDT,350,T", "WIMWV,20,R,5,M,A"], still)).toEqual([[10, 5]]);
  });
  // Sum of vectors by hand: 5 m/s from the north over a vessel that makes 3 m/s east, and so on.
  test.each([
    ["0.0", "0,R,10", [0, 10 - 3]],
    ["180.0", "0,R,10", [0, 10 + 3]],
    ["90.0", "0,R,4", [323.130102, 5]],
    ["270.0", "0,R,4", [36.869898, 5]],
    ["90.0", "90,R,4", [90, 1]],
  ])("way of 3 m/s towards %s taken off %s", (cog, wind, expected) => {
    const first = rmc(0, (3 / knots(1)).toFixed(9), cog);
    expect(winds(["HEHDT,0,T", `WIMWV,${wind},M,A`], first)).toEqual([expected]);
  });
  test("what is missing leaves no wind", () => {
    expect(winds(["WIMWD,,T,,M,,N,5,M"])).toEqual([]);
    expect(winds(["WIMWD,90,T,,M,,N,,M"])).toEqual([]);
    expect(winds(["HEHDT,0,T", "WIMWV,,R,5,M,A"])).toEqual([]);
    expect(winds(["HEHDT,0,T", "WIMWV,20,R,,M,A"])).toEqual([]);
    expect(winds(["HEHDT,0,T", "WIMWV,,T,5,M,A"])).toEqual([]);
    expect(winds(["HEHDT,0,T", "WIMWV,20,T,,M,A"])).toEqual([]);
    expect(winds(["WIMWV,20,T,5,M,A"])).toEqual([]);
    expect(winds(["WIMWV,20,R,5,M,A"], still)).toEqual([]);
    // A heading of more than five seconds ago, or a way of as long, is not the present one.
    expect(winds(["HEHDT,0,T", gll(5), "WIMWV,20,T,5,M,A"])).toHaveLength(1);
    expect(winds(["HEHDT,0,T", gll(6), "WIMWV,20,T,5,M,A"])).toEqual([]);
    expect(winds([gll(5), "HEHDT,0,T", "WIMWV,20,R,5,M,A"])).toHaveLength(1);
    expect(winds([gll(6), "HEHDT,0,T", "WIMWV,20,R,5,M,A"])).toEqual([]);
    expect(winds(["HEHDT,0,T", "WIMWV,20,R,5,M,A"], rmc(0, "", "0"))).toEqual([]);
  });
  test("without a course only a vessel all but stopped can be reckoned with", () => {
    const slow = rmc(0, (0.29 / knots(1)).toFixed(9), "");
    const fast = rmc(0, (0.31 / knots(1)).toFixed(9), "");
    expect(winds(["HEHDT,40,T", "WIMWV,20,R,5,M,A"], slow)).toEqual([[60, 5]]);
    expect(winds(["HEHDT,40,T", "WIMWV,20,R,5,M,A"], fast)).toEqual([]);
  });
  test("beyond 100 m/s no wind is believed", () => {
    expect(winds(["WIMWD,90,T,,M,,N,100,M"])).toEqual([[90, 100]]);
    expect(winds(["WIMWD,90,T,,M,,N,100.1,M"])).toEqual([]);
  });
  test("the nearer source silences the others for half a minute", () => {
    const relative = "WIMWV,20,R,5,M,A";
    const compass = "WIMWD,90,T,,M,,N,6,M";
    const true1 = "WIMWV,30,T,7,M,A";
    const count = (bodies: string[]) => winds(["HEHDT,0,T", ...bodies], still).length;
    expect(count([true1, compass, relative])).toBe(3);
    expect(count([relative, compass, true1])).toBe(1);
    expect(count([compass, true1])).toBe(1);
    expect(count([relative, relative])).toBe(2);
    expect(count([relative, rmc(30), compass])).toBe(1);
    expect(count([relative, rmc(31), compass])).toBe(2);
  });
});

describe("depth and engine", () => {
  const of = (kind: string, bodies: string[], options = {}) =>
    read([RMC, ...bodies], options).events.filter((e) => e.kind === kind);
  const depths = (bodies: string[], options = {}) =>
    of("depth", bodies, options).map((e) => e.kind === "depth" && e.depthM);
  test("the sounder's offset stands for other sentences, the caller's word before it", () => {
    expect(depths(["SDDPT,5,0.5,", "SDDBT,,f,4,M,,F"])).toEqual([5.5, 4.5]);
    expect(depths(["SDDPT,5,0.5,"], { transducerDepthM: 0.3 })).toEqual([5.3]);
    expect(depths(["SDDPT,5,0,"])).toEqual([]);
    expect(depths(["SDDPT,5,0.5,", "SDDPT,5,0,", "SDDPT,5,-1,"])).toEqual([5.5, 5.5, 5.5]);
    expect(depths(["SDDPT,,0.5,"])).toEqual([]);
    expect(depths(["SDDPT,0,0.5,"])).toEqual([]);
    expect(depths(["SDDPT,12000,0.5,"])).toEqual([12_000]);
  });
  const engines = (body: string) =>
    of("engine", [body]).map((e) => e.kind === "engine" && e.engine);
  test.each([
    ["IIRPM,E,1,1800,-40,A", ["astern"]],
    ["IIRPM,E,1,1800,40,A", ["ahead"]],
    ["IIRPM,E,1,1800,0,A", []],
    ["IIRPM,E,1,1800,,A", []],
    ["IIRPM,E,1,0,40,A", ["stopped"]],
    ["IIRPM,E,1,,40,A", []],
    ["IIRPM,X,1,0,40,A", []],
    ["IIRPM,X,1,,40,A", []],
    ["IIRPM,E,1,0,,V", []],
  ])("%s", (body, expected) => {
    expect(engines(body)).toEqual(expected);
  });
  test("transducers tell the watch nothing", () => {
    expect(read([RMC, "IIXDR,A,3.5,D,HEEL"]).events).toHaveLength(1);
  });
});
