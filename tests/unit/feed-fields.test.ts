import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { utc } from "../../src/core/time.js";
import { knots } from "../../src/core/units.js";
import { readNmea0183, readNmea0183Line } from "../../src/feed/index.js";

const sum = (body: string): string => {
  let x = 0;
  for (const c of body) x ^= c.charCodeAt(0);
  return x.toString(16).toUpperCase().padStart(2, "0");
};
const sentence = (body: string): string => `$${body}*${sum(body)}`;
const line = (body: string) => readNmea0183Line(sentence(body));
/** What a sentence says, with the number of fields refused. */
const told = (body: string) => {
  const { content, faults } = line(body);
  return { ...content, faults };
};

describe("numbers", () => {
  const heading = (field: string) => told(`HEHDT,${field},T`);
  test.each([
    ["0", 0],
    ["000.0", 0],
    ["5", 5],
    ["5.", 5],
    [".5", 0.5],
    ["+12.25", 12.25],
    ["-0", 0],
    ["360", 0],
    ["359.99", 359.99],
    // Fifteen digits are held exactly by a double.
    ["123.456789012345", 123.456789012345],
  ])("%s", (field, value) => {
    const got = heading(field);
    expect(got).toMatchObject({ headingTrueDeg: value, faults: 0 });
    expect(Object.is((got as { headingTrueDeg: number }).headingTrueDeg, -0)).toBe(false);
  });
  test.each([
    "360.01",
    "-1",
    "1.2.3",
    "..",
    ".",
    "-",
    "+",
    "1e2",
    "1 2",
    " 1",
    "1-2",
    "1+",
    "/1",
    "1:",
    "0x1",
    "NaN",
    "Infinity",
    "1234567890123456",
    "0.123456789012345",
  ])("%s is none", (field) => {
    expect(heading(field)).toMatchObject({ headingTrueDeg: null, faults: 1 });
  });
  test("a letter of two characters, or of another unit, is a fault; an empty one is too where a value stands", () => {
    expect(told("HEHDT,90,TT")).toMatchObject({ headingTrueDeg: null, faults: 2 });
    expect(told("HEHDT,90,M")).toMatchObject({ headingTrueDeg: null, faults: 1 });
    expect(told("HEHDT,90,")).toMatchObject({ headingTrueDeg: null, faults: 1 });
    expect(told("HEHDT,90")).toMatchObject({ headingTrueDeg: null, faults: 1 });
    expect(told("HEHDT,,")).toMatchObject({ headingTrueDeg: null, faults: 0 });
  });
});

describe("positions", () => {
  const at = (lat: string, ns: string, lon: string, ew: string) =>
    told(`GPGLL,${lat},${ns},${lon},${ew},120000,A,A`);
  test.each([
    ["9000.0000", "N", "18000.0000", "E", 90, 180],
    ["9000", "S", "18000", "W", -90, -180],
    ["0000.0", "S", "00000.0", "W", 0, 0],
    ["4530", "N", "00730.5", "W", 45.5, -(7 + 30.5 / 60)],
    ["0059.9999", "N", "00059.9999", "E", 59.9999 / 60, 59.9999 / 60],
  ])("%s %s %s %s", (lat, ns, lon, ew, latDeg, lonDeg) => {
    expect(at(lat, ns, lon, ew)).toMatchObject({ valid: true, latDeg, lonDeg, faults: 0 });
  });
  test.each([
    ["9000.01", "N", "00000.0", "E"],
    ["0060", "N", "00000.0", "E"],
    ["453", "N", "00000.0", "E"],
    ["45", "N", "00000.0", "E"],
    ["45301", "N", "00000.0", "E"],
    ["4530-1", "N", "00000.0", "E"],
    ["45:0.0", "N", "00000.0", "E"],
    ["4:30.0", "N", "00000.0", "E"],
    ["4/30.0", "N", "00000.0", "E"],
    ["45-1.0", "N", "00000.0", "E"],
    ["4530.0", "X", "00000.0", "E"],
    ["4530.0", "n", "00000.0", "E"],
    ["4530.0", "N", "0000.0", "E"],
    ["4530.0", "N", "00060.0", "E"],
    ["4530.0", "N", "18000.1", "W"],
  ])("%s %s %s %s is none, and one fault", (lat, ns, lon, ew) => {
    expect(at(lat, ns, lon, ew)).toMatchObject({ valid: false, latDeg: null, faults: 1 });
  });
  test("minutes are not taken from the field that follows", () => {
    expect(at("453", ".N", "00000.0", "E")).toMatchObject({ valid: false, faults: 2 });
  });
  test("an empty half is unknown without a fault", () => {
    expect(told("GPGLL,,,00500.0,W,120000,A,A")).toMatchObject({ valid: false, faults: 0 });
    expect(told("GPGLL,5000.0,N,,,120000,A,A")).toMatchObject({ valid: false, faults: 0 });
  });
  // Modes and qualities of measured positions: gpsd documentation, "NMEA Revealed".
  test.each([
    ["A", true, 0],
    ["D", true, 0],
    ["F", true, 0],
    ["P", true, 0],
    ["R", true, 0],
    ["E", false, 0],
    ["M", false, 0],
    ["N", false, 0],
    ["S", false, 0],
    ["@", false, 1],
    ["T", false, 1],
    ["a", false, 1],
    ["1", false, 1],
  ])("mode %s", (mode, valid, faults) => {
    expect(told(`GPGLL,5000.0,N,00500.0,W,120000,A,${mode}`)).toMatchObject({ valid, faults });
  });
  test.each([0, 1, 2, 3, 4, 5, 6, 7, 8])("quality %i", (quality) => {
    expect(told(`GPGGA,120000,5000.0,N,00500.0,W,${quality},08,1.0,3,M,48,M,,`)).toMatchObject({
      valid: quality >= 1 && quality <= 5,
      quality,
      satellites: 8,
      hdop: 1,
      altitudeM: 3,
      geoidSeparationM: 48,
      faults: 0,
    });
  });
  test("whole numbers are whole", () => {
    expect(told("GPGGA,120000,5000.0,N,00500.0,W,1.5,8.5,1.0,,M,,M,,")).toMatchObject({
      valid: false,
      quality: null,
      satellites: null,
      faults: 2,
    });
    expect(told("GPGGA,120000,5000.0,N,00500.0,W,9,100,1.0,,M,,M,,")).toMatchObject({
      valid: false,
      faults: 2,
    });
  });
  test("a receiver that gives no position is not valid, whatever the status", () => {
    expect(told("GPGGA,,,,,,0,,,,M,,M,,")).toMatchObject({ valid: false, faults: 0 });
  });
});

describe("times and dates", () => {
  const seconds = (time: string) => told(`GPGLL,5000.0,N,00500.0,W,${time},A,A`);
  test.each([
    ["000000", 0],
    ["000001", 1],
    ["235959", 86_399],
    ["235959.99", 86_399.99],
    ["120000.", 43_200],
    // A leap second.
    ["235960", 86_400],
    ["235960.5", 86_400.5],
  ])("%s", (time, value) => {
    expect(seconds(time)).toMatchObject({ secondsOfDay: value, faults: 0 });
  });
  test.each([
    "240000",
    "126000",
    "120061",
    "12000",
    "1200001",
    "120000:1",
    "12:000",
    "1a0000",
    "1200-1",
    "120060.99.1",
    "120061.0",
    "-12000",
  ])("%s is no time", (time) => {
    expect(seconds(time)).toMatchObject({ secondsOfDay: null, faults: 1 });
  });
  test("an empty time is unknown", () => {
    expect(seconds("")).toMatchObject({ secondsOfDay: null, valid: true, faults: 0 });
  });

  const dated = (date: string) => told(`GPRMC,120000,A,5000.0,N,00500.0,W,0,0,${date},,,A`);
  const noonOf = (day: string) => utc(`${day}T12:00Z`);
  // Against the calendar of the platform.
  test.each([
    ["010100", "2000-01-01"],
    ["290200", "2000-02-29"],
    ["290224", "2024-02-29"],
    ["280226", "2026-02-28"],
    ["010326", "2026-03-01"],
    ["310126", "2026-01-31"],
    ["300426", "2026-04-30"],
    ["311226", "2026-12-31"],
    ["311279", "2079-12-31"],
    ["010180", "1980-01-01"],
    ["310799", "1999-07-31"],
  ])("ddmmyy %s", (date, day) => {
    expect(dated(date)).toMatchObject({ timeMs: noonOf(day), faults: 0 });
  });
  test.each([
    "290226",
    "300224",
    "310426",
    "310626",
    "310926",
    "311126",
    "320126",
    "000126",
    "010026",
    "011326",
    "01012",
    "0101261",
    "1 0126",
    "0101-6",
  ])("ddmmyy %s is no day", (date) => {
    expect(dated(date)).toMatchObject({ timeMs: null, faults: 1 });
  });
  test("an empty date is unknown", () => {
    expect(dated("")).toMatchObject({ timeMs: null, valid: true, faults: 0 });
  });
  test("the ends of every month of two centuries as the platform counts them", () => {
    for (let day = Date.UTC(1980, 0, 1); day < Date.UTC(2200, 0, 1); day += 86_400_000) {
      const d = new Date(day);
      const [y, m, dd] = [d.getUTCFullYear(), d.getUTCMonth() + 1, d.getUTCDate()];
      if (dd > 1 && new Date(day + 86_400_000).getUTCDate() > 1) continue;
      expect(told(`GPZDA,000000,${dd},${m},${y},00,00`)).toMatchObject({ timeMs: day, faults: 0 });
    }
    // A year of a whole century is leap only in four hundred.
    expect(told("GPZDA,000000,29,02,2100,00,00")).toMatchObject({ timeMs: null, faults: 1 });
    expect(told("GPZDA,000000,29,02,2000,00,00")).toMatchObject({ timeMs: Date.UTC(2000, 1, 29) });
  });
  test.each([
    "31,12,1979",
    "01,01,2200",
    "1.5,1,2026",
    "01,1.5,2026",
    ",01,2026",
    "01,,2026",
    "01,01,",
  ])("ZDA %s is no day", (date) => {
    expect(told(`GPZDA,120000,${date},00,00`)).toMatchObject({
      timeMs: null,
      faults: /(^|,)(,|$)/.test(date) ? 0 : 1,
    });
  });
});

describe("instruments", () => {
  test("VTG with letters needs them, the old form of four numbers has none", () => {
    expect(told("GPVTG,10,T,12,M,5,N,9.3,K,A")).toMatchObject({
      cogTrueDeg: 10,
      cogMagneticDeg: 12,
      sogMps: knots(5),
      mode: "A",
      faults: 0,
    });
    expect(told("GPVTG,10,12,5,9.3")).toMatchObject({
      cogTrueDeg: 10,
      cogMagneticDeg: 12,
      sogMps: knots(5),
      faults: 0,
    });
    // The new form cut short is not the old one.
    expect(told("GPVTG,10,T,12,M")).toMatchObject({ cogTrueDeg: 10, sogMps: null });
    // Neither is a longer one whose letters are wrong.
    expect(told("GPVTG,10,12,5,9.3,1,2,3,4")).toMatchObject({ cogTrueDeg: null, sogMps: null });
    expect(told("GPVTG,,,5,9.3")).toMatchObject({ cogTrueDeg: null, sogMps: knots(5) });
    expect(told("GPVTG,360,T,360,M,0,N,0,K,D")).toMatchObject({ cogTrueDeg: 0, sogMps: 0 });
    expect(told("GPVTG,10,T,12,M,,N,18.52,K,A")).toMatchObject({
      sogMps: expect.closeTo(18.52 / 3.6, 12) as number,
    });
    expect(told("GPVTG,10,T,12,M,120.1,N,,K,A")).toMatchObject({ sogMps: null, faults: 1 });
    // The same span in kilometres an hour.
    expect(told("GPVTG,10,T,12,M,,N,222,K,A")).toMatchObject({ faults: 0 });
    expect(told("GPVTG,10,T,12,M,,N,223,K,A")).toMatchObject({ sogMps: null, faults: 1 });
    for (const mode of ["N", "E", "S", "M"])
      expect(told(`GPVTG,10,T,12,M,5,N,9.3,K,${mode}`)).toMatchObject({
        cogTrueDeg: null,
        cogMagneticDeg: null,
        sogMps: null,
        mode,
      });
  });

  test.each([
    ["SDDBT,32.8,f,10.0,M,5.5,F", 10, 0],
    ["SDDBT,,f,10.0,M,,F", 10, 0],
    ["SDDBT,32.8,f,,M,,F", 32.8 * 0.3048, 0],
    ["SDDBT,,f,,M,5.5,F", 5.5 * 1.8288, 0],
    ["SDDBT,,f,,M,,F", null, 0],
    // Depths to the deepest sea, in each unit.
    ["SDDBT,39000,f,,M,,F", 39_000 * 0.3048, 0],
    ["SDDBT,,f,11887,M,,F", 11_887, 0],
    ["SDDBT,,f,,M,6500,F", 6500 * 1.8288, 0],
    ["SDDBT,,f,12001,M,,F", null, 1],
    ["SDDBT,39400,f,,M,,F", null, 1],
    ["SDDBT,,f,,M,6600,F", null, 1],
    // One of the three has shifted.
    ["SDDBT,38.0,f,10.0,M,5.5,F", null, 1],
    ["SDDBT,32.8,f,10.0,M,9.0,F", null, 1],
    ["SDDBT,,f,10.0,M,9.0,F", null, 1],
    ["SDDBT,38.0,f,10.0,M,,F", null, 1],
    ["SDDBT,10.0,M,32.8,f,5.5,F", 5.5 * 1.8288, 2],
    // Rounded to whole units and tenths of a fathom they agree.
    ["SDDBT,33,f,10,M,5,F", 10, 0],
    ["SDDBT,3280,f,1000,M,540,F", 1000, 0],
  ])("%s", (body, depth, faults) => {
    expect(told(body)).toEqual({
      type: "DBT",
      depthBelowTransducerM: depth === null ? null : (expect.closeTo(depth, 9) as number),
      offsetM: null,
      faults,
    });
  });

  test("DPT with its offset, from keel or waterline", () => {
    expect(told("SDDPT,5.2,-1.5,100")).toMatchObject({ depthBelowTransducerM: 5.2, offsetM: -1.5 });
    expect(told("SDDPT,5.2,")).toMatchObject({ depthBelowTransducerM: 5.2, offsetM: null });
    expect(told("SDDPT,-1,0")).toMatchObject({ depthBelowTransducerM: null, faults: 1 });
  });

  test.each([
    ["WIMWV,57.5,R,13.0,N,A", { valid: true, angleDeg: 57.5, reference: "R", faults: 0 }],
    ["WIMWV,57.5,T,13.0,N,A", { valid: true, angleDeg: 57.5, reference: "T", faults: 0 }],
    ["WIMWV,57.5,R,13.0,N,V", { valid: false, angleDeg: null, speedMps: null, faults: 0 }],
    ["WIMWV,57.5,R,13.0,N,", { valid: false, angleDeg: null, faults: 0 }],
    ["WIMWV,57.5,X,13.0,N,A", { valid: false, angleDeg: null, reference: null, faults: 1 }],
    ["WIMWV,57.5,,13.0,N,A", { valid: false, reference: null, faults: 1 }],
    ["WIMWV,57.5,R,13.0,X,A", { valid: true, angleDeg: 57.5, speedMps: null }],
    ["WIMWV,57.5,X,13.0,X,A", { valid: false, faults: 1 }],
    ["WIMWV,360,R,0,N,A", { angleDeg: 0, speedMps: 0 }],
    // A statute mile is 1609.344 m.
    ["WIMWV,10,R,100,S,A", { speedMps: expect.closeTo(44.704, 9) as number }],
    // 110 m/s, beyond any wind measured at the surface, in each unit.
    ["WIMWV,10,R,109,M,A", { speedMps: 109 }],
    ["WIMWV,10,R,111,M,A", { speedMps: null, faults: 1 }],
    ["WIMWV,10,R,213,N,A", { speedMps: expect.closeTo(knots(213), 9) as number }],
    ["WIMWV,10,R,214,N,A", { speedMps: null, faults: 1 }],
    ["WIMWV,10,R,395,K,A", { speedMps: expect.closeTo(395 / 3.6, 9) as number }],
    ["WIMWV,10,R,397,K,A", { speedMps: null, faults: 1 }],
  ])("%s", (body, expected) => {
    expect(told(body)).toMatchObject(expected);
  });

  test("a sentence cut short takes nothing of the one before it", () => {
    const both = readNmea0183(`${sentence("WIMWV,57.5,R,13.0,N,A")}${sentence("WIMWV,57.5,R")}`);
    expect(both).toMatchObject({ sentences: 2, faults: 1 });
  });

  test("MWD: knots before metres a second, each with its letter", () => {
    expect(told("WIMWD,90,T,92,M,10,N,5.1,M")).toMatchObject({
      directionTrueDeg: 90,
      directionMagneticDeg: 92,
      speedMps: knots(10),
      faults: 0,
    });
    expect(told("WIMWD,90,T,92,M,,N,5.1,M")).toMatchObject({ speedMps: 5.1 });
    expect(told("WIMWD,360,T,,M,213,N,,M")).toMatchObject({
      directionTrueDeg: 0,
      speedMps: knots(213),
    });
    expect(told("WIMWD,90,T,92,M,214,N,,M")).toMatchObject({ speedMps: null, faults: 1 });
  });

  test("RPM of engine and shaft", () => {
    expect(told("IIRPM,E,1,1800,-40,A")).toMatchObject({
      valid: true,
      source: "E",
      number: 1,
      revolutionsPerMin: 1800,
      pitchPercent: -40,
      faults: 0,
    });
    expect(told("IIRPM,S,0,-300,,A")).toMatchObject({
      valid: true,
      source: "S",
      revolutionsPerMin: -300,
      pitchPercent: null,
      faults: 0,
    });
    expect(told("IIRPM,X,1,1800,-40,A")).toMatchObject({
      valid: false,
      source: null,
      revolutionsPerMin: null,
      faults: 1,
    });
    expect(told("IIRPM,E,1,1800,-40,V")).toMatchObject({ valid: false, source: "E", faults: 0 });
  });

  test("XDR by quadruples", () => {
    const heel = { type: "A", value: 3.5, unit: "D", name: "HEEL" };
    expect(told("IIXDR,A,3.5,D,HEEL")).toEqual({ type: "XDR", transducers: [heel], faults: 0 });
    expect(told("IIXDR,A,3.5,D,HEEL,C,19.2,C,AIR")).toMatchObject({
      transducers: [heel, { type: "C", value: 19.2, unit: "C", name: "AIR" }],
      faults: 0,
    });
    expect(told("IIXDR,A,3.5,D,HEEL,C,19.2,C")).toMatchObject({ transducers: [heel], faults: 1 });
    expect(told("IIXDR,A,,D,HEEL")).toMatchObject({ transducers: [], faults: 0 });
    // Nor is a type without a unit of its own held against an empty value.
    expect(told("IIXDR,Z,,Q,NONE")).toMatchObject({ transducers: [], faults: 0 });
    expect(told("IIXDR,A,3.5,C,HEEL")).toMatchObject({ transducers: [], faults: 1 });
    expect(told("IIXDR,A,361,D,HEEL")).toMatchObject({ transducers: [], faults: 1 });
    expect(line("IIXDR,A,,D,HEEL").usable).toBe(false);
    expect(line("IIXDR,A,3.5,D,HEEL").usable).toBe(true);
  });

  test("HDG: a wrong side of deviation leaves no heading, an empty one means none is known", () => {
    expect(told("HCHDG,100,3,X,5,W")).toMatchObject({
      headingMagneticDeg: null,
      headingTrueDeg: null,
      faults: 1,
    });
    expect(told("HCHDG,100,,,5,W")).toMatchObject({
      headingMagneticDeg: 100,
      headingTrueDeg: 95,
      deviationDeg: null,
      variationDeg: -5,
      faults: 0,
    });
    expect(told("HCHDG,359,3,E,5,E")).toMatchObject({ headingMagneticDeg: 2, headingTrueDeg: 7 });
    expect(told("HCHDG,100,,,0,W")).toMatchObject({ variationDeg: 0 });
    expect(told("HCHDG,100,,,181,W")).toMatchObject({ variationDeg: null, faults: 1 });
    expect(told("HCHDG,100,,,5,")).toMatchObject({ variationDeg: null, faults: 1 });
  });

  test("RMC: speed, course and variation dropped singly", () => {
    const rmc = (tail: string) => told(`GPRMC,120000,A,5000.0,N,00500.0,W,${tail}`);
    expect(rmc("121,10,010626,,,A")).toMatchObject({ valid: true, sogMps: null, faults: 1 });
    expect(rmc("0.4,400,010626,,,A")).toMatchObject({ valid: true, cogTrueDeg: null, faults: 1 });
    expect(rmc("0.4,10,010626,181,E,A")).toMatchObject({ variationDeg: null, faults: 1 });
    expect(rmc("0.4,10,010626,2,E,A")).toMatchObject({ variationDeg: 2, faults: 0 });
  });
});

describe("frames", () => {
  const body = "HEHDT,90.0,T";
  test("small letters of the checksum, blanks and other text round it", () => {
    // A body whose checksum has letters among its digits.
    const other = ["HEHDT,90.1,T", "HEHDT,90.2,T", "HEHDT,9.7,T", "HEHDT,9.6,T", "HEHDT,95,T"];
    for (const b of [body, ...other]) {
      const small = `$${b}*${sum(b).toLowerCase()}`;
      expect(readNmea0183Line(small)).toMatchObject({ checksumOk: true, usable: true });
      expect(readNmea0183(small).sentences).toBe(1);
    }
    expect(other.some((b) => /[A-F]/.test(sum(b)))).toBe(true);
    expect(readNmea0183Line(`  \\s:x*1D\\${sentence(body)}\r\n`)).toMatchObject({
      checksumOk: true,
      type: "HDT",
    });
  });
  test("every checksum of two hexadecimal digits, in either case, is held against the text", () => {
    let right = 0;
    for (let i = 0; i < 256; i++)
      for (const form of [
        i.toString(16).padStart(2, "0"),
        i.toString(16).toUpperCase().padStart(2, "0"),
      ]) {
        const { sentences, badChecksums } = readNmea0183(`$${body}*${form}`);
        expect(sentences + badChecksums).toBe(1);
        right += sentences;
      }
    expect(right).toBeGreaterThanOrEqual(1);
    for (const odd of ["G1", "1G", "/0", "0/", ":0", "@0", "`0", "g0", "  ", "**"])
      expect(readNmea0183(`$${body}*${odd}\r\n`)).toMatchObject({
        sentences: 0,
        badChecksums: 0,
        malformed: 1,
      });
  });
  test.each([
    ["no dollar sign", `${body}*${sum(body)}`],
    ["no star", `$${body}`],
    ["a star before the dollar sign", `*00$${body}`],
    ["nothing", ""],
    ["a star at once", "$*00"],
    ["a star at once, and no digits", "$*ZZ"],
  ])("%s: nothing is read", (_, text) => {
    expect(readNmea0183Line(text)).toMatchObject({ usable: false, content: null, type: null });
    expect(readNmea0183(text).events).toEqual([]);
  });
  test("an empty sentence has the checksum of nothing", () => {
    expect(readNmea0183Line("$*00")).toMatchObject({
      checksumComputed: "00",
      checksumOk: true,
      talker: null,
      content: null,
    });
    expect(readNmea0183Line(`*00$${body}`).checksumComputed).toBeNull();
    expect(readNmea0183Line(`${body}*${sum(body)}`)).toMatchObject({
      checksumComputed: null,
      checksumOk: false,
    });
  });
  test("an address of five characters, and none of a maker's own", () => {
    for (const address of ["HDT", "GHDT", "GPSHDT", "GPHDTX", "HEHD"])
      expect(line(`${address},90.0,T`)).toMatchObject({ content: null, usable: false });
    // P in front is a maker's own sentence, whatever its letters.
    expect(line("PGHDT,90.0,T").content).toBeNull();
    expect(line("GPHDT,90.0,T").content).not.toBeNull();
    expect(line("GPSHDT,90.0,T").talker).toBeNull();
    expect(readNmea0183Line(`$X${sentence("HEHDT,90.0,T")}`).talker).toBeNull();
    expect(line("GPXXX,1")).toMatchObject({ talker: "GP", type: "XXX", content: null });
    expect(readNmea0183(`${sentence("GPXXX,1")}\r\n${sentence("PGRME,1")}`)).toMatchObject({
      sentences: 2,
      ignored: 2,
    });
  });
  test("characters that do not belong end a sentence", () => {
    for (const odd of ["\u0000", "\t", "\u001f", "\u007f", "\u0080", "é", "!", "$"])
      expect(readNmea0183(`$HEHDT,90${odd},T*00\r\n`).malformed).toBeGreaterThan(0);
    for (const fine of [" ", "~", "(", "a"]) {
      const b = `HEHDT,90${fine},T`;
      expect(readNmea0183(sentence(b))).toMatchObject({ malformed: 0, sentences: 1, faults: 1 });
    }
  });
  test("as long as is kept, and no longer", () => {
    const of = (length: number) => {
      const b = `GPXXX,${"1".repeat(length - 6)}`;
      return readNmea0183(`${sentence(b)}\r\n`);
    };
    expect(of(512)).toMatchObject({ sentences: 1, malformed: 0 });
    expect(of(514)).toMatchObject({ sentences: 0, malformed: 1 });
    // The place in the text does not matter, only the length.
    const late = "x".repeat(2000) + sentence("HEHDT,90.0,T");
    expect(readNmea0183(late).sentences).toBe(1);
    expect(readNmea0183(`${"x".repeat(2000)}$HEHDT,9`).state.partial).toBe("$HEHDT,9");
    expect(readNmea0183(`$${"1".repeat(511)}`).state.partial).toHaveLength(512);
    expect(readNmea0183(`$${"1".repeat(512)}`).state.partial).toBe("");
  });
  test("sixty-four fields and the address, and no more", () => {
    const of = (fields: number) => readNmea0183(sentence(`GPXXX${",".repeat(fields)}`));
    expect(of(64)).toMatchObject({ sentences: 1, malformed: 0 });
    expect(of(65)).toMatchObject({ sentences: 0, malformed: 1 });
  });
  test("two digits of a checksum must have come before a sentence ends", () => {
    const text = sentence(body);
    expect(readNmea0183(text.slice(0, -1))).toMatchObject({ sentences: 0, malformed: 0 });
    expect(readNmea0183(text.slice(0, -1)).state.partial).toBe(text.slice(0, -1));
    expect(readNmea0183(text).state.partial).toBe("");
  });
  test("counts of what was found", () => {
    const text = [
      sentence("HEHDT,90.0,T"),
      sentence("HEHDT,900,T"),
      sentence("GPXXX,1"),
      "$HEHDT,1,T*00",
      "$HEHDT,1,T",
    ].join("\r\n");
    expect(readNmea0183(`${text}\r\n`)).toMatchObject({
      sentences: 3,
      ignored: 1,
      badChecksums: 1,
      malformed: 1,
      faults: 1,
    });
  });
  test("sentences that say nothing are of no use", () => {
    expect(line("HEHDT,,T").usable).toBe(false);
    expect(line("GPGLL,,,,,,A,A").usable).toBe(false);
    expect(line("GPGLL,,,,,120000,V,N").usable).toBe(true);
  });
});

describe("what another reading left", () => {
  const good = readNmea0183("").state;
  test.each([
    [null],
    ["text"],
    [{}],
    [{ ...good, version: 2 }],
    [{ ...good, partial: 5 }],
    [{ ...good, partial: [] }],
    [{ ...good, partial: "x".repeat(1025) }],
  ])("is refused where it cannot be a state: %#", (state) => {
    expect(() => readNmea0183("", { state: state as never })).toThrow(InputError);
  });
  test("is taken where it can", () => {
    expect(() => readNmea0183("", { state: good })).not.toThrow();
    expect(() => readNmea0183("", { state: { ...good, partial: "x".repeat(1024) } })).not.toThrow();
  });
});
