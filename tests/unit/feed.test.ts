import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import {
  eventFromGeolocation,
  eventsFromDelta,
  eventsFromGpx,
  signalKDelta,
  type SignalKDelta,
} from "../../src/feed/index.js";
import { MODES } from "../../src/watch/memory.js";
import { noon, report, type Report } from "./feed-support.js";

/** The published schema; a plain CommonJS module without types. */
const signalk = createRequire(import.meta.url)("@signalk/signalk-schema") as {
  validateDelta: (delta: unknown) => { valid: boolean };
  validateFull: (full: unknown) => { valid: boolean };
  deltaToFull: (delta: unknown) => unknown;
};

const context = "vessels.urn:mrn:imo:mmsi:230099999";
const valueAt = (delta: SignalKDelta, path: string) =>
  delta.updates[0]!.values.find((v) => v.path === path)?.value;

describe("Signal K out", () => {
  const alarms = [
    [],
    [{ code: "drag", acknowledged: false }],
    [
      { code: "drag", acknowledged: true },
      { code: "blind", acknowledged: false },
      { code: "shoal", acknowledged: true },
    ],
  ] satisfies Report["alarms"][];
  test.each(MODES)("mode %s passes the published schema, delta and full", (mode) => {
    for (const alarm of alarms)
      for (const distanceM of [null, 0, 24.5])
        for (const anchor of [null, report.anchor]) {
          const delta = signalKDelta({
            report: { ...report, mode, alarms: alarm, distanceM, anchor },
            context,
          });
          expect(signalk.validateDelta(delta).valid).toBe(true);
          expect(signalk.validateFull(signalk.deltaToFull(delta)).valid).toBe(true);
        }
  });
  test("the check itself can fail: a leaf the schema does not know is found", () => {
    const delta = signalKDelta({ report, context });
    delta.updates[0]!.values.push({
      path: "navigation.anchor.rodeLength",
      value: 40,
    });
    expect(signalk.validateFull(signalk.deltaToFull(delta)).valid).toBe(false);
  });
  test("an alarm is heard until acknowledged, and goes back to normal", () => {
    const drag = (alarm: Report["alarms"]) =>
      valueAt(
        signalKDelta({ report: { ...report, alarms: alarm } }),
        "notifications.navigation.anchor",
      );
    expect(drag([{ code: "drag", acknowledged: false }])).toMatchObject({
      state: "alarm",
      method: ["visual", "sound"],
    });
    expect(drag([{ code: "drag", acknowledged: true }])).toMatchObject({
      state: "alarm",
      method: ["visual"],
    });
    expect(drag([])).toMatchObject({ state: "normal", method: [] });
  });
  test("not to be able to tell is never normal", () => {
    for (const mode of ["uneasy", "blind", "cannotTell"] as const)
      expect(
        valueAt(signalKDelta({ report: { ...report, mode } }), "notifications.navigation.anchor"),
      ).toMatchObject({ state: "warn" });
  });
  test("distances are to the middle of the vessel", () => {
    const delta = signalKDelta({ report, antennaAbaftMiddleM: 4 });
    expect(valueAt(delta, "navigation.anchor.currentRadius")).toBe(20);
    expect(valueAt(delta, "navigation.anchor.maxRadius")).toBe(34);
  });
  test("refuses NaN for a distance", () => {
    expect(() => signalKDelta({ report: { ...report, distanceM: NaN } })).toThrow(InputError);
  });
});

const delta = (values: [string, unknown][], more: object = {}) => ({
  updates: [
    {
      timestamp: "2026-06-01T12:00:00.000Z",
      values: values.map(([path, value]) => ({ path, value })),
      ...more,
    },
  ],
});
const position: [string, unknown] = ["navigation.position", { latitude: 50, longitude: -5 }];

describe("Signal K in", () => {
  test("position with course and speed of the same update, radians to degrees", () => {
    const { events } = eventsFromDelta(
      delta([
        position,
        ["navigation.speedOverGround", 0.5],
        ["navigation.courseOverGroundTrue", Math.PI],
      ]),
    );
    expect(events).toEqual([
      {
        kind: "fix",
        timeMs: noon,
        latDeg: 50,
        lonDeg: -5,
        sogMps: 0.5,
        cogDeg: 180,
      },
    ]);
  });
  test("another vessel's position never reaches the watch", () => {
    const other = {
      context: "vessels.urn:mrn:imo:mmsi:230099999",
      ...delta([position]),
    };
    expect(eventsFromDelta(other).events).toEqual([]);
    expect(eventsFromDelta(other, { self: other.context }).events).toHaveLength(1);
    expect(eventsFromDelta({ ...other, context: "vessels.self" }).events).toHaveLength(1);
  });
  test("null, timed out, out of range, wrong type: missing, not nil", () => {
    const one = (value: unknown, more: object = {}) =>
      eventsFromDelta({
        updates: [
          {
            timestamp: "2026-06-01T12:00:00Z",
            values: [{ path: "environment.depth.belowSurface", value, ...more }],
          },
        ],
      }).events;
    expect(one(3)).toEqual([{ kind: "depth", timeMs: noon, depthM: 3 }]);
    expect(one(null)).toEqual([]);
    expect(one(3, { state: { timedOut: true } })).toEqual([]);
    expect(one(-1)).toEqual([]);
    expect(one("3")).toEqual([]);
    expect(
      eventsFromDelta(delta([["navigation.position", { latitude: 91, longitude: 0 }]])),
    ).toMatchObject({
      events: [],
      refused: 1,
    });
    expect(eventsFromDelta(delta([["navigation.position", null]])).events).toEqual([]);
  });
  test("simulated positions do not pass", () => {
    const { events } = eventsFromDelta(
      delta([["navigation.gnss.methodQuality", "Simulator mode"], position]),
    );
    expect(events).toEqual([]);
  });
  test("an update without time is dated by the caller's clock or left out", () => {
    const undated = {
      updates: [{ values: [{ path: position[0], value: position[1] }] }],
    };
    expect(eventsFromDelta(undated)).toMatchObject({ events: [], refused: 1 });
    expect(eventsFromDelta(undated, { receivedMs: noon }).events).toHaveLength(1);
  });
  test("magnetic heading needs a variation; the wind from the bow needs a heading and the way", () => {
    const first = eventsFromDelta(delta([["navigation.headingMagnetic", Math.PI / 2]]));
    expect(first.events).toEqual([]);
    const { events } = eventsFromDelta(
      delta([
        ["navigation.magneticVariation", -Math.PI / 180],
        ["navigation.headingMagnetic", Math.PI / 2],
        ["navigation.speedOverGround", 0],
        ["environment.wind.angleApparent", -Math.PI / 2],
        ["environment.wind.speedApparent", 8],
      ]),
    );
    expect(events.map((e) => e.kind)).toEqual(["heading", "wind"]);
    expect(events[0]?.kind === "heading" && events[0].headingDeg).toBeCloseTo(89, 9);
    expect(events[1]?.kind === "wind" && events[1].windFromDeg).toBeCloseTo(359, 9);
  });
  test("gear tells what the engine does", () => {
    const gear = (value: string) =>
      eventsFromDelta(delta([["propulsion.port.transmission.gear", value]])).events;
    expect(gear("Reverse")).toEqual([{ kind: "engine", timeMs: noon, engine: "astern" }]);
    expect(gear("Fault")).toEqual([]);
  });
  test("descriptions of paths are passed over", () => {
    expect(eventsFromDelta({ updates: [{ meta: [] }] }).refused).toBe(0);
  });
});

describe("browser positions", () => {
  const coords = {
    latitude: 50,
    longitude: -5,
    accuracy: 4.895493661361633,
    heading: NaN,
    speed: 0,
  };
  test("a heading of NaN, as browsers give at rest, is none", () => {
    expect(eventFromGeolocation({ coords, timestamp: noon })).toEqual({
      kind: "fix",
      timeMs: noon,
      latDeg: 50,
      lonDeg: -5,
      sigmaM: expect.closeTo(2, 9) as number,
      sogMps: 0,
    });
  });
  test.each([
    [{ ...coords, latitude: NaN }],
    [{ ...coords, longitude: 181 }],
    [{ ...coords, accuracy: -1 }],
  ])("refuses %j", (bad) => {
    expect(() => eventFromGeolocation({ coords: bad, timestamp: noon })).toThrow(InputError);
  });
});

describe("tracks", () => {
  const track = (inside: string) =>
    eventsFromGpx({ text: `<gpx><trk><trkseg>${inside}</trkseg></trk></gpx>` });
  test("with a namespace prefix, or blanks in its tags, a point reads the same", () => {
    const plain = '<trkpt lat="50.5" lon="-5"><time>2026-06-01T12:00:00Z</time></trkpt>';
    const want = track(plain);
    expect(want.events).toHaveLength(1);
    expect(track(plain.replace(/<(\/?)(?=\w)/g, "<$1gpx:"))).toEqual(want);
    expect(track(plain.replaceAll("time>", "time >").replace("/trkpt>", "/trkpt\n>"))).toEqual(
      want,
    );
    // Of another namespace neither the point nor its parts count.
    expect(
      track(plain.replace("</trkpt>", "<x:time>2020-01-01T00:00:00Z</x:time></trkpt>")),
    ).toEqual(want);
  });
  test("what stands in the extensions of a point is not its own", () => {
    const within = "<fix>none</fix><time>2020-01-01T00:00:00Z</time><hdop>9</hdop>";
    const text = `<trkpt lat="50.5" lon="-5"><time>2026-06-01T12:00:00Z</time><extensions>${within}</extensions><hdop>1</hdop></trkpt>`;
    const without = text.replace(/<extensions>.*<\/extensions>/, "");
    expect(track(text)).toEqual(track(without));
    expect(track(text).events).toHaveLength(1);
  });
  test("time, position and dilution, in any order of attributes", () => {
    expect(
      track(
        `<trkpt lon='-5' lat="50.5"><ele>3</ele><time>2026-06-01T12:00:00Z</time><hdop>1.0</hdop></trkpt>`,
      ).events,
    ).toEqual([
      {
        kind: "fix",
        timeMs: noon,
        latDeg: 50.5,
        lonDeg: -5,
        sigmaM: 4 / Math.SQRT2,
      },
    ]);
  });
  test.each([
    ["no time", '<trkpt lat="50" lon="-5"></trkpt>'],
    ["no time, closed at once", '<trkpt lat="50" lon="-5"/>'],
    ["a time without a zone", '<trkpt lat="50" lon="-5"><time>2026-06-01T12:00:00</time></trkpt>'],
    ["no fix", '<trkpt lat="50" lon="-5"><time>2026-06-01T12:00:00Z</time><fix>none</fix></trkpt>'],
    [
      "latitude over ninety",
      '<trkpt lat="90.1" lon="-5"><time>2026-06-01T12:00:00Z</time></trkpt>',
    ],
  ])("%s: left out and counted", (_, point) => {
    expect(track(point)).toEqual({ events: [], refused: 1 });
  });
  test("a comment is no track", () => {
    expect(
      track('<!-- <trkpt lat="50" lon="-5"><time>2026-06-01T12:00:00Z</time></trkpt> -->'),
    ).toEqual({
      events: [],
      refused: 0,
    });
  });
});
