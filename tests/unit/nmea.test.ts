import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { knots } from "../../src/core/units.js";
import { readNmea0183, readNmea0183Line, type ReadNmea0183Options } from "../../src/feed/index.js";
import { hasSharedData, sharedText } from "../shared-data.js";

/** A sentence with its checksum put on. */
function sentence(body: string): string {
  let sum = 0;
  for (const c of body) sum ^= c.charCodeAt(0);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\r\n`;
}
const read = (bodies: string[], options: ReadNmea0183Options = {}) =>
  readNmea0183(bodies.map(sentence).join(""), options);
const content = (body: string) => readNmea0183Line(sentence(body)).content;

const RMC = "GPRMC,120000,A,5000.0000,N,00500.0000,W,0.4,200.0,010626,2.0,W,A";
const noon = utc("2026-06-01T12:00Z");

describe("positions that are not measured", () => {
  test.each(["0", "6", "7", "8", "9", ""])("quality %s gives no position", (quality) => {
    const body = `GPGGA,120000,5000.0000,N,00500.0000,W,${quality},08,1.0,3,M,,M,,`;
    expect(content(body)).toMatchObject({
      valid: false,
      latDeg: null,
      lonDeg: null,
    });
    expect(read([body], { receivedMs: noon }).events).toEqual([]);
  });
  test.each(["N", "E", "S", "M"])("mode %s gives no position", (mode) => {
    const body = RMC.replace(/A$/, mode);
    expect(content(body)).toMatchObject({
      valid: false,
      latDeg: null,
      sogMps: null,
    });
    expect(read([body]).events).toEqual([]);
  });
  test("an empty mode is unknown: the status decides", () => {
    for (const [status, lat] of [
      ["A", 50],
      ["V", null],
    ] as const) {
      const gll = content(`GPGLL,5000.0000,N,00500.0000,W,120000,${status},`);
      expect(gll).toMatchObject({ mode: null, valid: lat !== null, latDeg: lat });
      const rmc = content(RMC.replace(",A,", `,${status},`).replace(/A$/, ""));
      expect(rmc).toMatchObject({ mode: null, valid: lat !== null, latDeg: lat });
    }
  });
  test("status V with a position in text gives none", () => {
    const body = RMC.replace(",A,", ",V,");
    expect(content(body)).toMatchObject({ valid: false, latDeg: null });
    expect(read([body]).events).toEqual([]);
  });
  test("a receiver that calls its position estimated silences its other sentences", () => {
    const gga = "GPGGA,120001,5000.0000,N,00500.0000,W,6,08,1.0,3,M,,M,,";
    const gll = "GPGLL,5000.0000,N,00500.0000,W,120001,A";
    const { events } = read([RMC, gga, gll]);
    expect(events.filter((e) => e.kind === "fix")).toHaveLength(1);
  });
});

describe("fields", () => {
  test.each([
    ["minutes of sixty", "GPGLL,5060.0000,N,00500.0000,W,120000,A"],
    ["latitude over ninety", "GPGLL,9000.0001,N,00500.0000,W,120000,A"],
    ["longitude over 180", "GPGLL,5000.0000,N,18000.0001,W,120000,A"],
    ["no hemisphere", "GPGLL,5000.0000,,00500.0000,W,120000,A"],
    ["hemispheres exchanged", "GPGLL,5000.0000,E,00500.0000,N,120000,A"],
    ["three digits of degrees of latitude", "GPGLL,05000.0000,N,00500.0000,W,120000,A"],
    ["a sign", "GPGLL,-5000.000,N,00500.0000,W,120000,A"],
    ["an exponent", "GPGLL,5000.0e0,N,00500.0000,W,120000,A"],
    ["only half of it", "GPGLL,5000.0000,N,,,120000,A"],
  ])("%s is no position", (_, body) => {
    expect(content(body)).toMatchObject({
      valid: false,
      latDeg: null,
      lonDeg: null,
    });
  });
  test("an empty field is unknown and no fault; a wrong one is unknown and counted", () => {
    const empty = readNmea0183Line(sentence("IIHDT,,T"));
    expect([empty.content, empty.faults]).toMatchObject([{ headingTrueDeg: null }, 0]);
    const wrong = readNmea0183Line(sentence("IIHDT,361,T"));
    expect([wrong.content, wrong.faults]).toMatchObject([{ headingTrueDeg: null }, 1]);
  });
  test("magnetic is never taken for true", () => {
    expect(content("IIHDT,10,M")).toMatchObject({ headingTrueDeg: null });
    expect(content("WIMWD,10,M,,,5,N,,")).toMatchObject({
      directionTrueDeg: null,
    });
    expect(read([RMC, "HCHDG,100.0,,,,"]).events.at(-1)).toMatchObject({
      kind: "heading",
      headingDeg: 98,
    });
    expect(read(["HCHDG,100.0,,,,"], { receivedMs: noon }).events).toEqual([]);
  });
  test("deviation and variation: east is added, west taken off", () => {
    expect(content("HCHDG,100.0,3.0,E,5.0,W")).toMatchObject({
      headingMagneticDeg: 103,
      headingTrueDeg: 98,
      variationDeg: -5,
    });
  });
  test("the old VTG without letters", () => {
    expect(content("GPVTG,89.68,90.1,0.22,0.41")).toMatchObject({
      cogTrueDeg: 89.68,
      sogMps: knots(0.22),
    });
  });
  test.each([
    ["K", 1 / 3.6],
    ["M", 1],
    ["N", 1852 / 3600],
  ])("wind in unit %s", (unit, factor) => {
    expect(content(`WIMWV,10,R,20,${unit},A`)).toMatchObject({
      speedMps: 20 * factor,
    });
  });
  test("three ways of saying a depth that disagree are no depth", () => {
    expect(content("SDDBT,7.7,f,2.3,M,1.3,F")).toMatchObject({
      depthBelowTransducerM: 2.3,
    });
    expect(content("SDDBT,7.7,f,23.0,M,1.3,F")).toMatchObject({
      depthBelowTransducerM: null,
    });
    expect(content("SDDBT,7.7,f,,M,,F")).toMatchObject({
      depthBelowTransducerM: 7.7 * 0.3048,
    });
  });
  test("names of object members are no units", () => {
    expect(content("IIXDR,constructor,1,name,X,__proto__,2,toString,Y")).toEqual({
      type: "XDR",
      transducers: [],
    });
    expect(content("WIMWV,10,R,5,constructor,A")).toMatchObject({
      speedMps: null,
    });
  });
  test("good quadruples beside a bad one are kept", () => {
    expect(content("IIXDR,A,0.5,D,HEEL,A,-1.-3,D,TRIM")).toEqual({
      type: "XDR",
      transducers: [{ type: "A", value: 0.5, unit: "D", name: "HEEL" }],
    });
  });
  test.each(["310226", "000126", "011326", "1126"])("no such day: %s", (day) => {
    expect(content(RMC.replace("010626", day))).toMatchObject({
      timeMs: null,
    });
  });
  test("engine astern proves itself by pitch, and an unknown pitch proves nothing", () => {
    const engine = (body: string) =>
      read([RMC, body])
        .events.filter((e) => e.kind === "engine")
        .map((e) => e.engine);
    expect(engine("IIRPM,E,1,1800,-40,A")).toEqual(["astern"]);
    expect(engine("IIRPM,E,1,1800,40,A")).toEqual(["ahead"]);
    expect(engine("IIRPM,E,1,0,,A")).toEqual(["stopped"]);
    expect(engine("IIRPM,E,1,1800,,A")).toEqual([]);
    expect(engine("IIRPM,E,1,1800,-40,V")).toEqual([]);
  });
});

describe("any talker", () => {
  test.each(["GP", "GN", "II", "EC", "42"])("%s", (talker) => {
    expect(readNmea0183Line(sentence(`${talker}HDT,90,T`))).toMatchObject({
      talker,
      usable: true,
      content: { headingTrueDeg: 90 },
    });
  });
});

describe("events", () => {
  test("one fix an instant, with the spread of the dilution and the speed of the same second", () => {
    const gga = "GPGGA,120000,5000.0000,N,00500.0000,W,1,08,1.5,3,M,,M,,";
    const { events } = read([
      RMC,
      gga,
      "GPGLL,5000.000,N,00500.000,W,120000,A,A",
      RMC.replace("120000", "120001"),
    ]);
    expect(events).toMatchObject([
      {
        kind: "fix",
        timeMs: noon,
        latDeg: 50,
        lonDeg: -5,
        sogMps: knots(0.4),
        cogDeg: 200,
      },
      // HDOP x range error of 4 m / √2 (stated convention).
      { kind: "fix", timeMs: noon + 1000, sigmaM: (1.5 * 4) / Math.SQRT2 },
    ]);
    expect(events[0]).not.toHaveProperty("sigmaM");
  });
  test("midnight passes between two sentences without a date", () => {
    const late = RMC.replace("120000", "235959");
    const { events } = read([late, "GPGLL,5000.0000,N,00500.0000,W,000000,A,A"]);
    expect(events.map((e) => e.timeMs)).toEqual([
      utc("2026-06-01T23:59:59Z"),
      utc("2026-06-02T00:00Z"),
    ]);
  });
  test("without any date nothing is dated, unless the caller's clock gives the day", () => {
    const gll = "GPGLL,5000.0000,N,00500.0000,W,235959,A,A";
    expect(read([gll]).events).toEqual([]);
    const { events } = read([gll], { receivedMs: utc("2026-06-02T00:00:01Z") });
    expect(events.map((e) => e.timeMs)).toEqual([utc("2026-06-01T23:59:59Z")]);
  });
  test("a receiver that loses its fix still tells the time", () => {
    const lost = "GPRMC,120005,V,,,,,,,010626,,,N";
    expect(read([RMC, lost]).events.map((e) => e.kind)).toEqual(["fix", "clock"]);
    expect(read([lost]).events).toEqual([]);
  });
  test("depth from the surface: by the sounder's offset, or the caller's word, or not at all", () => {
    const depths = (bodies: string[], options = {}) =>
      read([RMC, ...bodies], options)
        .events.filter((e) => e.kind === "depth")
        .map((e) => e.depthM);
    expect(depths(["SDDPT,5.0,0.5,"])).toEqual([5.5]);
    expect(depths(["SDDPT,5.0,-0.9,"])).toEqual([]);
    expect(depths(["SDDBT,,f,5.0,M,,F"])).toEqual([]);
    expect(depths(["SDDBT,,f,5.0,M,,F"], { transducerDepthM: 0.4 })).toEqual([5.4]);
    expect(depths(["SDDBT,,f,0.0,M,,F"], { transducerDepthM: 0.4 })).toEqual([]);
  });
  // Vector sum: 10 kn from dead ahead while making 4 kn over the ground is 6 kn of wind over the ground.
  test("relative wind less the vessel's own way", () => {
    const moving = RMC.replace("0.4,200.0", "4.0,0.0");
    const wind = read([moving, "HEHDT,0.0,T", "WIMWV,0.0,R,10.0,N,A"]).events.at(-1);
    expect(wind).toMatchObject({ kind: "wind", windFromDeg: 0 });
    expect(wind?.kind === "wind" && wind.windMps).toBeCloseTo(knots(6), 9);
  });
  test("the caller's clock carries time on for sentences without one", () => {
    const first = read([RMC], { receivedMs: 5000 });
    const { events } = read(["HEHDT,10.0,T"], {
      state: first.state,
      receivedMs: 8000,
    });
    expect(events).toEqual([{ kind: "heading", timeMs: noon + 3000, headingDeg: 10 }]);
  });
});

describe("text", () => {
  const text = [RMC, "HEHDT,10.0,T", "SDDPT,5.0,0.5,", RMC.replace("120000", "120001")]
    .map(sentence)
    .join("");
  test("cut anywhere into chunks, the events are the same", () => {
    const whole = readNmea0183(text).events;
    for (let cut = 0; cut <= text.length; cut++) {
      const first = readNmea0183(text.slice(0, cut));
      const second = readNmea0183(text.slice(cut), { state: first.state });
      expect([...first.events, ...second.events]).toEqual(whole);
    }
    expect(whole).toHaveLength(4);
  });
  test("a line needs no end", () => {
    expect(readNmea0183(sentence(RMC).trimEnd()).events).toHaveLength(1);
  });
  test("the state given is left as it was, and survives JSON", () => {
    const { state } = readNmea0183(text.slice(0, 90));
    const before = structuredClone(state);
    const a = readNmea0183(text.slice(90), { state });
    expect(state).toEqual(before);
    const b = readNmea0183(text.slice(90), {
      state: JSON.parse(JSON.stringify(state)) as typeof state,
    });
    expect(b).toEqual(a);
  });
  test("a sentence that begins inside another ends it", () => {
    const { events, malformed } = readNmea0183(`$GPGGA,120000,50${sentence(RMC)}`);
    expect([events.length, malformed]).toEqual([1, 1]);
  });
  test("a sentence without end is not kept for ever", () => {
    const { state } = readNmea0183(`$GPGGA${",1".repeat(100_000)}`);
    expect(state.partial.length).toBeLessThanOrEqual(600);
  });
  test("a wrong checksum leaves the whole sentence out", () => {
    const { events, badChecksums } = readNmea0183(sentence(RMC).replace(/..\r\n$/, "00\r\n"));
    expect([events, badChecksums]).toEqual([[], 1]);
  });
  test.each([[null], [5], [{}]])("refuses %j", (x) => {
    expect(() => readNmea0183(x as never)).toThrow(InputError);
    expect(() => readNmea0183Line(x as never)).toThrow(InputError);
  });
  test("refuses a misspelt option and a foreign state", () => {
    expect(() => readNmea0183("", { reciever: 1 } as never)).toThrow(InputError);
    expect(() => readNmea0183("", { state: { version: 2 } } as never)).toThrow(InputError);
  });
});

describe.skipIf(!hasSharedData)("logs of real boats", () => {
  test("the log with shifted fields under valid checksums yields no false value", () => {
    const log = sharedText("nmea/gofree-merrimac.log");
    const { events, badChecksums } = readNmea0183(log);
    // Every nested VLW falls by its own checksum once the reader has found its last beginning.
    expect(badChecksums).toBe(142);
    for (const line of log.split("\n").filter((l) => /XDR|VLW/.test(l)))
      expect(readNmea0183Line(line).usable).toBe(false);
    // The log was made in one berth within three minutes: anything far from its middle is false.
    const spans: Record<string, [number, number]> = {
      latDeg: [53.1801, 53.1804],
      lonDeg: [5.4283, 5.4285],
      timeMs: [utc("2014-04-16T19:57:19Z"), utc("2014-04-16T20:00:00Z")],
      sogMps: [0, 0.06],
      cogDeg: [0, 360],
      sigmaM: [1, 5],
      depthM: [0.9, 1.2],
      headingDeg: [182, 183],
      windMps: [1, 4],
      windFromDeg: [90, 160],
    };
    const kinds: Record<string, number> = {};
    for (const e of events) {
      kinds[e.kind] = (kinds[e.kind] ?? 0) + 1;
      for (const [key, value] of Object.entries(e))
        if (key !== "kind") {
          expect(value, key).toBeGreaterThanOrEqual(spans[key]![0]);
          expect(value, key).toBeLessThanOrEqual(spans[key]![1]);
        }
    }
    expect(kinds).toMatchObject({ fix: 142, depth: 283, wind: 142 });
  });
  // Against a plain splitting of the same lines.
  test.each(["gps.log", "gpsd-ijsselmeer-mixed.log", "gpsd-depth-river.log"])(
    "every RMC of %s reads as its text says",
    (name) => {
      let compared = 0;
      for (const line of sharedText(`nmea/${name}`).split(/\r?\n/)) {
        if (!/^\$..RMC,/.test(line)) continue;
        const f = line.split(/[,*]/);
        const got = readNmea0183Line(line).content;
        expect(got).toMatchObject({ type: "RMC", valid: true });
        if (got?.type !== "RMC") continue;
        const lat =
          (Number(f[3]!.slice(0, 2)) + Number(f[3]!.slice(2)) / 60) * (f[4] === "S" ? -1 : 1);
        const lon =
          (Number(f[5]!.slice(0, 3)) + Number(f[5]!.slice(3)) / 60) * (f[6] === "W" ? -1 : 1);
        expect(got.latDeg).toBeCloseTo(lat, 12);
        expect(got.lonDeg).toBeCloseTo(lon, 12);
        expect(got.sogMps).toBeCloseTo(knots(Number(f[7])), 12);
        expect(got.cogTrueDeg).toBeCloseTo(Number(f[8]) % 360, 12);
        compared++;
      }
      expect(compared).toBeGreaterThan(10);
    },
  );
});
