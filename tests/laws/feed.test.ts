import fc from "fast-check";
import * as z from "zod/mini";
import { describe, expect, test } from "vitest";
import {
  eventFromGeolocation,
  eventsFromDelta,
  eventsFromGpx,
  readNmea0183,
  readNmea0183Line,
} from "../../src/feed/index.js";
import { watchEvent } from "../../src/watch/events.js";
import { checksOf } from "../checks/harness.js";

const seeds = checksOf("nmea").map((c) => c.inputs["sentenceText"] as string);

/** Repeatable numbers in [0, 1): a linear congruence, good enough to spoil text with. */
function* spoiler(seed: number): Generator<number, never> {
  let x = seed >>> 0;
  for (;;) {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    yield x / 4294967296;
  }
}

function withChecksum(line: string): string {
  const body = line.replace(/^\$/, "").replace(/\*.*$/s, "");
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return `$${body}*${(sum & 255).toString(16).padStart(2, "0")}`;
}

/** A sentence spoilt in one to four places; every other one with its checksum made right again. */
function spoilt(random: Generator<number, never>): string {
  const next = () => random.next().value;
  const pick = <T>(from: readonly T[]) => from[Math.floor(next() * from.length)]!;
  let line = pick(seeds);
  for (let n = 1 + Math.floor(next() * 4); n > 0; n--) {
    const at = Math.floor(next() * line.length);
    const kind = Math.floor(next() * 5);
    const char =
      next() < 0.7
        ? pick("0123456789.,-+eENSWATMKR$*!".split(""))
        : String.fromCharCode(Math.floor(next() * 0x2ff));
    if (kind === 0) line = line.slice(0, at) + line.slice(at + 1);
    else if (kind === 1) line = line.slice(0, at) + char + line.slice(at + 1);
    else if (kind === 2) line = line.slice(0, at) + char + line.slice(at);
    else if (kind === 3) line = line.slice(0, at) + pick(seeds).slice(Math.floor(next() * 30));
    else line = line.slice(0, at) + ",".repeat(Math.floor(next() * 90)) + line.slice(at);
  }
  return next() < 0.5 ? withChecksum(line) : line;
}

describe("hostile NMEA 0183", () => {
  test("10^6 spoilt lines: never an exception, never an event that the watch would refuse", () => {
    const random = spoiler(20260601);
    let [state, events, sentences, bad] = [readNmea0183("").state, 0, 0, 0];
    for (let chunk = 0; chunk < 1000; chunk++) {
      const lines = Array.from({ length: 1000 }, () => spoilt(random));
      const read = readNmea0183(lines.join(random.next().value < 0.5 ? "\r\n" : ""), {
        state,
        transducerDepthM: 0.4,
        receivedMs: Date.UTC(2026, 5, 1) + chunk * 1000,
      });
      state = read.state;
      for (let i = 0; i < lines.length; i += 50) readNmea0183Line(lines[i]!);
      sentences += read.sentences;
      events += read.events.length;
      expect(state.partial.length).toBeLessThanOrEqual(600);
      expect(read.events.length).toBeLessThanOrEqual(2 * read.sentences);
      for (let i = 0; i < read.events.length; i += 7)
        if (!z.safeParse(watchEvent, read.events[i]).success) bad++;
    }
    expect(bad).toBe(0);
    // The spoiling must leave enough alive to try the fields, not the checksum alone.
    expect(sentences).toBeGreaterThan(200_000);
    expect(events).toBeGreaterThan(20_000);
  }, 120_000);
  test("any text whatever", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 600 }), (text) => {
        const read = readNmea0183(text);
        expect(JSON.parse(JSON.stringify(read))).toEqual(read);
        const line = readNmea0183Line(text);
        expect(JSON.parse(JSON.stringify(line))).toEqual(line);
      }),
    );
  });
  test("cut into any chunks, the same events", () => {
    const random = spoiler(7);
    const text = Array.from({ length: 60 }, () => spoilt(random)).join("\r\n");
    const whole = readNmea0183(text);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: text.length }), { maxLength: 8 }), (cuts) => {
        const ends = [...cuts.sort((a, b) => a - b), text.length];
        let [state, from] = [readNmea0183("").state, 0];
        const events = [];
        for (const end of ends) {
          const read = readNmea0183(text.slice(from, end), { state });
          events.push(...read.events);
          ({ state } = read);
          from = end;
        }
        expect(events).toEqual(whole.events);
      }),
    );
  });
  test("a flood without a line end costs no more than its length", () => {
    const time = (n: number) => {
      const text = "$GPGGA,1".repeat(n);
      const start = performance.now();
      readNmea0183(text);
      return performance.now() - start;
    };
    time(1000);
    const [short, long] = [time(20_000), time(200_000)];
    // Ten times the text: were it quadratic, a hundred times the time.
    expect(long).toBeLessThan(50 * short + 50);
  });
});

describe("positions write themselves into sentences and come back", () => {
  test("round trip of latitude and longitude to the last digit of the minutes", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -90 * 600_000, max: 90 * 600_000 }),
        fc.integer({ min: -180 * 600_000, max: 180 * 600_000 }),
        (lat, lon) => {
          const field = (v: number, width: number) => {
            const size = Math.abs(v);
            const minutes = (size % 600_000) / 10_000;
            return `${String(Math.floor(size / 600_000)).padStart(width, "0")}${minutes.toFixed(4).padStart(7, "0")}`;
          };
          const line = withChecksum(
            `$GPGLL,${field(lat, 2)},${lat < 0 ? "S" : "N"},${field(lon, 3)},${lon < 0 ? "W" : "E"},120000,A,A`,
          );
          const read = readNmea0183Line(line).content;
          expect(read?.type === "GLL" && read.latDeg).toBeCloseTo(lat / 600_000, 10);
          expect(read?.type === "GLL" && read.lonDeg).toBeCloseTo(lon / 600_000, 10);
        },
      ),
    );
  });
});

describe("deltas and tracks from anywhere", () => {
  test("any JSON is read without an exception, and events are events", () => {
    const paths = fc.constantFrom(
      "navigation.position",
      "navigation.speedOverGround",
      "navigation.headingTrue",
      "environment.wind.angleApparent",
      "environment.wind.speedApparent",
      "environment.depth.belowSurface",
      "propulsion.port.transmission.gear",
      "__proto__",
    );
    const value = fc.oneof(
      fc.double(),
      fc.jsonValue(),
      fc.record({
        latitude: fc.double({ min: -100, max: 100 }),
        longitude: fc.double({ min: -200, max: 200 }),
      }),
      fc.constantFrom("Forward", "constructor"),
    );
    const delta = fc.record({
      updates: fc.array(
        fc.record({
          timestamp: fc.constantFrom("2026-06-01T08:00:00Z", "2026-06-01T08:00:00+02:00", "now", 5),
          values: fc.array(fc.record({ path: paths, value })),
        }),
      ),
    });
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue(), delta), (thing) => {
        const read = eventsFromDelta(thing, {
          receivedMs: Date.UTC(2026, 5, 1),
        });
        for (const e of read.events)
          expect(z.safeParse(watchEvent, e).success, JSON.stringify(e)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
  test("any text is read as a track without an exception", () => {
    const piece = fc.constantFrom(
      '<trkpt lat="1" lon="2">',
      "<time>2026-06-01T08:00:00Z</time>",
      "<hdop>1.5</hdop>",
      "<fix>none</fix>",
      "</trkpt>",
      "<!--",
      "-->",
      "<![CDATA[",
      "<trkpt lat='91' lon='2'/>",
      "<",
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(piece, fc.string())), (parts) => {
        for (const e of eventsFromGpx({ text: parts.join("") }).events)
          expect(z.safeParse(watchEvent, e).success).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
  // Rayleigh distribution: 95 % within 2.4477 sigma, 68 % within 1.5096 (standards page of the interface; computed).
  test("the convention of accuracy is a factor of 1.62 and nothing else", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 500, noNaN: true }), (accuracy) => {
        const fix = {
          coords: { latitude: 1, longitude: 2, accuracy },
          timestamp: 0,
        };
        const sigma = (share: 0.95 | 0.68) => {
          const e = eventFromGeolocation(fix, share);
          return e.kind === "fix" ? e.sigmaM! : NaN;
        };
        expect(1 - Math.exp(-((accuracy / sigma(0.95)) ** 2) / 2)).toBeCloseTo(0.95, 9);
        expect(1 - Math.exp(-((accuracy / sigma(0.68)) ** 2) / 2)).toBeCloseTo(0.68, 9);
      }),
    );
  });
});
