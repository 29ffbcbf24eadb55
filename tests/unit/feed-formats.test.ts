import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import {
  eventFromGeolocation,
  eventsFromDelta,
  eventsFromGpx,
  signalKDelta,
} from "../../src/feed/index.js";
import { noon, report, type Report } from "./feed-support.js";

const RAD = Math.PI / 180;

describe("browser positions", () => {
  const coords = { latitude: 50, longitude: -5, accuracy: 5 };
  const fix = (more: object, share?: 0.95 | 0.68) =>
    eventFromGeolocation({ coords: { ...coords, ...more }, timestamp: noon }, share);
  test("speed and course where given, the course within a turn", () => {
    expect(fix({ heading: 370 - 720, speed: 1.5 })).toMatchObject({ cogDeg: 10, sogMps: 1.5 });
    expect(fix({ heading: 0, speed: 0 })).toMatchObject({ cogDeg: 0, sogMps: 0 });
    for (const none of [
      {},
      { heading: null, speed: null },
      { heading: NaN, speed: NaN },
      { heading: -1, speed: -1 },
    ]) {
      expect(fix(none)).not.toHaveProperty("cogDeg");
      expect(fix(none)).not.toHaveProperty("sogMps");
    }
  });
  test("the radius of 95 or 68 of a hundred of a circular Gaussian", () => {
    // 1 - exp(-r²/2) is the share within r spreads: 2.4477 and 1.5096 of them.
    expect(fix({ accuracy: 2.4477 })).toMatchObject({ sigmaM: expect.closeTo(1, 4) as number });
    expect(fix({ accuracy: 1.5096 }, 0.68)).toMatchObject({
      sigmaM: expect.closeTo(1, 4) as number,
    });
    expect(fix({ accuracy: 0 })).not.toHaveProperty("sigmaM");
    expect(fix({ accuracy: 100_000 })).toMatchObject({ sigmaM: 1000 });
  });
  test.each([[null], [undefined], [5], [{}], [{ coords: null }], [{ coords: 5 }]])(
    "refuses %j",
    (bad) => {
      expect(() => eventFromGeolocation(bad as never)).toThrow(InputError);
    },
  );
  test("names what is wrong as the interface names it", () => {
    const paths = (bad: object) => {
      try {
        eventFromGeolocation(bad as never);
      } catch (error) {
        return (error as InputError).issues.map((i) => i.path);
      }
      throw new Error("expected an InputError");
    };
    expect(
      paths({ coords: { ...coords, latitude: 91, accuracy: null }, timestamp: "now" }),
    ).toEqual(["coords.latitude", "coords.accuracy", "timestamp"]);
  });
  test("refuses another share, a time or speed that cannot be", () => {
    expect(() => fix({}, 0.5 as never)).toThrow(InputError);
    expect(() => fix({ speed: -2 })).toThrow(InputError);
    expect(() => eventFromGeolocation({ coords, timestamp: NaN })).toThrow(InputError);
  });
});

describe("tracks", () => {
  const read = (text: string, rangeErrorM = 4) => eventsFromGpx({ text, rangeErrorM });
  const time = "<time>2026-06-01T12:00:00Z</time>";
  const point = (lat: string, lon: string, inside = time) =>
    `<trkpt lat="${lat}" lon="${lon}">${inside}</trkpt>`;
  const only = (text: string) => {
    const { events, refused } = read(text);
    expect([events.length, refused]).toEqual([1, 0]);
    return events[0]! as { latDeg: number; lonDeg: number; timeMs: number; sigmaM?: number };
  };
  const refused = (text: string) => {
    expect(read(text)).toEqual({ events: [], refused: 1 });
  };

  test.each([
    ["50", 50],
    ["+50.5", 50.5],
    ["-50.", -50],
    [".25", 0.25],
    ["90", 90],
    ["-90", -90],
    ["0", 0],
  ])("latitude %s", (text, latDeg) => {
    expect(only(point(text, "0")).latDeg).toBe(latDeg);
  });
  test.each([
    "90.001",
    "-91",
    "x50",
    "50x",
    "1e1",
    "",
    " ",
    "0x10",
    "NaN",
    "--5",
    ".",
    "5,5",
    ".x",
  ])("latitude %j is none", (text) => {
    refused(point(text, "0"));
  });
  test("longitude to 180 either way", () => {
    expect(only(point("0", "180")).lonDeg).toBe(180);
    expect(only(point("0", "-180")).lonDeg).toBe(-180);
    refused(point("0", "180.01"));
    refused(point("0", "west"));
  });
  test("attributes in any order, spacing and quotes; one missing is no position", () => {
    for (const tag of [
      `<trkpt lon='-5' lat='50'>`,
      `<trkpt lat = "50"  lon = "-5" >`,
      `<trkpt\n\tlat="50"\n\tlon="-5">`,
      `<trkpt lat="50" lon="-5" x:y="1">`,
    ])
      expect(only(`${tag}${time}</trkpt>`)).toMatchObject({ latDeg: 50, lonDeg: -5 });
    refused(`<trkpt lat="50">${time}</trkpt>`);
    refused(`<trkpt lon="-5">${time}</trkpt>`);
    refused(`<trkpt latx="50" lon="-5">${time}</trkpt>`);
    refused(`<trkpt lat="50" lonx="-5">${time}</trkpt>`);
    refused(`<trkpt lat=x"50" lon="-5">${time}</trkpt>`);
    refused(`<trkpt lat="50" lon=x"-5">${time}</trkpt>`);
  });
  test("points end where the next begins, at their end tag, and at the end of the text", () => {
    const two = `<trkpt lat="1" lon="0">${time}<trkpt lat="2" lon="0">${time}`;
    expect(read(two).events.map((e) => e.kind === "fix" && e.latDeg)).toEqual([1, 2]);
    // What stands after the end tag is not the point's.
    expect(only(`${point("1", "0")}<hdop>2</hdop><fix>none</fix>`)).not.toHaveProperty("sigmaM");
    expect(read(`<trkpt lat="1" lon="0"/>${time}${point("2", "0")}`)).toMatchObject({
      events: [{ latDeg: 2 }],
      refused: 1,
    });
    // A tag closed at once within a point does not end it.
    expect(only(`<trkpt lat="1" lon="0"><ele/>${time}</trkpt>`).latDeg).toBe(1);
    // Before any point, elements are no one's.
    expect(read(`${time}<hdop>1</hdop></trkpt>`)).toEqual({ events: [], refused: 0 });
    // Other points of the document are no track.
    expect(
      read(`<wpt lat="1" lon="0">${time}</wpt><xtrkpt lat="1" lon="0">${time}</xtrkpt>`),
    ).toEqual({ events: [], refused: 0 });
  });
  test("comments and character data are passed over", () => {
    const hidden = point("9", "9");
    expect(only(`<!-- ${hidden} -->${point("1", "0")}`).latDeg).toBe(1);
    expect(only(`<![CDATA[ ${hidden} ]]>${point("1", "0")}`).latDeg).toBe(1);
    expect(only(`<![CDATA[ ${hidden}${hidden} ]]>${point("1", "0")}`).latDeg).toBe(1);
    expect(only(`<!--> ${hidden} -->${point("1", "0")}`).latDeg).toBe(1);
    expect(read(`<!-- ${hidden}`)).toEqual({ events: [], refused: 0 });
    expect(read(`${point("1", "0")}<unfinished`)).toMatchObject({ refused: 0 });
    expect(read("<")).toEqual({ events: [], refused: 0 });
  });
  test("time with a zone, with blanks round it, in the years a watch knows", () => {
    const at = (text: string) => read(point("1", "0", `<time>${text}</time>`)).events[0]?.timeMs;
    expect(at(" 2026-06-01T12:00:00Z\n")).toBe(noon);
    expect(at("2026-06-01T14:00:00+02:00")).toBe(noon);
    expect(at("1900-01-01T00:00:00Z")).toBe(Date.UTC(1900, 0, 1));
    expect(at("2200-01-01T00:00:00Z")).toBe(Date.UTC(2200, 0, 1));
    for (const bad of [
      "1899-12-31T23:59:59Z",
      "2200-01-01T00:00:01Z",
      "2026-06-01T12:00:00",
      "2026-02-30T12:00:00Z",
      "noon",
      "",
    ])
      expect([bad, at(bad)]).toEqual([bad, undefined]);
  });
  test("no fix is none; other kinds are", () => {
    refused(point("1", "0", `${time}<fix>none</fix>`));
    for (const kind of ["2d", "3d", "dgps", "pps"])
      expect(only(point("1", "0", `${time}<fix>${kind}</fix>`)).latDeg).toBe(1);
  });
  test("dilution times range error over √2, where it can be", () => {
    const sigma = (hdop: string, error = 4) =>
      (read(point("1", "0", `${time}<hdop>${hdop}</hdop>`), error).events[0] as { sigmaM?: number })
        .sigmaM;
    expect(sigma("2")).toBeCloseTo(8 / Math.SQRT2, 12);
    expect(sigma("2", 3)).toBeCloseTo(6 / Math.SQRT2, 12);
    expect(sigma("350")).toBeCloseTo(1400 / Math.SQRT2, 9);
    for (const none of ["0", "-1", "x", "", "354"]) expect(sigma(none)).toBeUndefined();
  });
});

describe("Signal K in", () => {
  const update = (values: [string, unknown][], more: object = {}) => ({
    timestamp: "2026-06-01T12:00:00.000Z",
    values: values.map(([path, value]) => ({ path, value })),
    ...more,
  });
  const read = (values: [string, unknown][], options = {}) =>
    eventsFromDelta({ updates: [update(values)] }, options);
  const position: [string, unknown] = ["navigation.position", { latitude: 50, longitude: -5 }];

  test.each([
    [90, 180, 1],
    [-90, -180, 1],
    [90.1, 0, 0],
    [0, 180.1, 0],
    [NaN, 0, 0],
    ["50", -5, 0],
    [50, "-5", 0],
    [undefined, -5, 0],
    [50, null, 0],
  ])("position %s %s", (latitude, longitude, fixes) => {
    const got = read([["navigation.position", { latitude, longitude }]]);
    expect([got.events.length, got.refused]).toEqual([fixes, 1 - fixes]);
  });
  test("an update without a position refuses none", () => {
    expect(read([["navigation.speedOverGround", 1]])).toMatchObject({ events: [], refused: 0 });
    expect(read([["navigation.position", 5]]).refused).toBe(1);
  });
  test("what is malformed is counted", () => {
    for (const [delta, refused] of [
      [null, 1],
      [5, 1],
      [{}, 1],
      [{ updates: 5 }, 1],
      [{ updates: [] }, 0],
      [{ updates: [null] }, 1],
      [{ updates: [{}] }, 1],
      [{ updates: [{ meta: [] }] }, 0],
      [{ updates: [{ values: [], meta: [], timestamp: "x" }] }, 1],
      [{ updates: [{ timestamp: "2026-06-01T12:00:00Z" }] }, 1],
      [{ updates: [update([])] }, 0],
      [{ updates: [update([], { values: [null, 5, {}, { path: 5 }] })] }, 4],
      [{ updates: [update([], { timestamp: "x".repeat(50) })] }, 1],
      [{ updates: [update([], { timestamp: 5 })] }, 1],
    ] as const)
      expect([delta, eventsFromDelta(delta)]).toMatchObject([delta, { events: [], refused }]);
  });
  test("the vessel's own data, by any of its names", () => {
    const context = "vessels.urn:mrn:imo:mmsi:230099999";
    const count = (more: object, options = {}) =>
      eventsFromDelta({ ...more, updates: [update([position])] }, options).events.length;
    expect([count({}), count({ context }), count({ context }, { self: context })]).toEqual([
      1, 0, 1,
    ]);
    expect(count({ context: "vessels.self" }, { self: context })).toBe(1);
    expect(count({}, { self: context })).toBe(1);
    expect(count({ context: null })).toBe(0);
  });
  test("angles to a turn either way, speeds to 100 m/s; beyond is refused", () => {
    const cog = (value: unknown) => {
      const { events, refused } = read([
        position,
        ["navigation.speedOverGround", 1],
        ["navigation.courseOverGroundTrue", value],
      ]);
      return [events[0]!.kind === "fix" && events[0].cogDeg, refused];
    };
    expect(cog(2 * Math.PI)[1]).toBe(0);
    expect(cog(-2 * Math.PI)[1]).toBe(0);
    expect(cog(-Math.PI / 2)[0]).toBeCloseTo(270, 9);
    expect(cog(6.3)).toEqual([undefined, 1]);
    expect(cog(-6.3)).toEqual([undefined, 1]);
    const sog = (value: unknown) => read([position, ["navigation.speedOverGround", value]]);
    expect(sog(100)).toMatchObject({ events: [{ sogMps: 100 }], refused: 0 });
    expect(sog(0)).toMatchObject({ events: [{ sogMps: 0 }], refused: 0 });
    for (const bad of [100.1, -0.1, "1", NaN]) expect(sog(bad).refused).toBe(1);
  });
  test("null and timed out are missing", () => {
    const stale = { path: "navigation.headingTrue", value: 1, state: { timedOut: true } };
    expect(eventsFromDelta({ updates: [update([], { values: [stale] })] }).events).toEqual([]);
    const fresh = { ...stale, state: { timedOut: false } };
    expect(eventsFromDelta({ updates: [update([], { values: [fresh] })] }).events).toHaveLength(1);
    expect(read([["navigation.headingTrue", null]])).toMatchObject({ events: [], refused: 0 });
  });
  test("course and speed of other updates of the same seconds, and no older ones", () => {
    const at = (s: number) => ({ timestamp: new Date(noon + 1000 * s).toISOString() });
    const fixes = (...updates: object[]) =>
      eventsFromDelta({ updates }).events.filter((e) => e.kind === "fix");
    const cog = (s: number, deg: number) =>
      update([["navigation.courseOverGroundTrue", deg * RAD]], at(s));
    const sog = (s: number, mps: number) => update([["navigation.speedOverGround", mps]], at(s));
    expect(fixes(sog(0, 2), cog(0, 90), update([position], at(1)))[0]).toMatchObject({
      sogMps: 2,
      cogDeg: expect.closeTo(90, 9) as number,
    });
    expect(fixes(update([position], at(1)))[0]).not.toHaveProperty("sogMps");
    // A speed of long ago does not come back with a new course.
    const later = fixes(sog(0, 2), cog(60, 90), update([position], at(60)))[0];
    expect(later).not.toHaveProperty("sogMps");
    expect(later).toMatchObject({ cogDeg: expect.closeTo(90, 9) as number });
    const other = fixes(cog(0, 90), sog(60, 2), update([position], at(60)))[0];
    expect(other).not.toHaveProperty("cogDeg");
    expect(other).toMatchObject({ sogMps: 2 });
    // An update without either leaves them.
    expect(
      fixes(
        sog(0, 2),
        update([["navigation.headingTrue", 1]], at(2)),
        update([position], at(4)),
      )[0],
    ).not.toHaveProperty("sogMps");
  });
  test("dilution and method of the receiver", () => {
    const hdop = (value: number, options = {}) =>
      read([["navigation.gnss.horizontalDilution", value], position], options).events[0];
    expect(hdop(1.5)).toMatchObject({ sigmaM: 6 / Math.SQRT2 });
    expect(hdop(1.5, { rangeErrorM: 2 })).toMatchObject({ sigmaM: 3 / Math.SQRT2 });
    expect(hdop(0)).not.toHaveProperty("sigmaM");
    for (const [quality, fixes] of [
      ["GNSS Fix", 1],
      ["DGNSS fix", 1],
      ["RTK Float", 1],
      ["no GPS", 0],
      ["Estimated (DR) mode", 0],
      ["Manual input", 0],
      ["Simulator mode", 0],
      ["Error", 0],
      [5, 1],
    ] as const)
      expect([
        quality,
        read([["navigation.gnss.methodQuality", quality], position]).events.length,
      ]).toEqual([quality, fixes]);
  });
  test("a true heading goes before a magnetic one; west variation comes as a negative or as most of a turn", () => {
    const heading = (values: [string, unknown][]) =>
      read(values).events.map((e) => e.kind === "heading" && Math.round(e.headingDeg));
    const magnetic: [string, unknown] = ["navigation.headingMagnetic", 100 * RAD];
    const variation = (deg: number): [string, unknown] => [
      "navigation.magneticVariation",
      deg * RAD,
    ];
    expect(heading([variation(-5), magnetic])).toEqual([95]);
    expect(heading([variation(355), magnetic])).toEqual([95]);
    expect(heading([variation(5), magnetic])).toEqual([105]);
    expect(heading([variation(-5), magnetic, ["navigation.headingTrue", 97 * RAD]])).toEqual([97]);
    // A variation stands for the updates that follow.
    const first = read([variation(-5)]).state;
    const [later] = read([magnetic], { state: first }).events;
    expect(later?.kind === "heading" && later.headingDeg).toBeCloseTo(95, 9);
    expect(read([variation(-5)]).state.variationDeg).toBeCloseTo(-5, 9);
    expect(read([variation(5)]).state.variationDeg).toBeCloseTo(5, 9);
  });
  test("wind by the nearest source that is there", () => {
    const wind = (values: [string, unknown][]) =>
      read(values.map(([leaf, v]) => [leaf.includes(".") ? leaf : `environment.wind.${leaf}`, v]))
        .events.filter((e) => e.kind === "wind")
        .map((e) => [Math.round(e.windFromDeg), e.windMps]);
    const heading: [string, unknown] = ["navigation.headingTrue", 40 * RAD];
    expect(
      wind([
        ["directionTrue", 90 * RAD],
        ["speedOverGround", 6],
        ["speedTrue", 7],
      ]),
    ).toEqual([[90, 6]]);
    expect(
      wind([
        ["directionTrue", 90 * RAD],
        ["speedTrue", 7],
      ]),
    ).toEqual([[90, 7]]);
    expect(wind([["directionTrue", 90 * RAD]])).toEqual([]);
    expect(wind([heading, ["angleTrueGround", -20 * RAD], ["speedOverGround", 6]])).toEqual([
      [20, 6],
    ]);
    expect(wind([heading, ["angleTrueWater", 20 * RAD], ["speedTrue", 7]])).toEqual([[60, 7]]);
    expect(
      wind([
        ["angleTrueWater", 20 * RAD],
        ["speedTrue", 7],
      ]),
    ).toEqual([]);
  });
  test("depth from the surface, else below the transducer with its depth", () => {
    const depth = (values: [string, unknown][], options = {}) =>
      read(
        values.map(([leaf, v]) => [`environment.depth.${leaf}`, v]),
        options,
      ).events.map((e) => e.kind === "depth" && e.depthM);
    expect(
      depth([
        ["belowSurface", 5],
        ["belowTransducer", 4],
        ["surfaceToTransducer", 0.5],
      ]),
    ).toEqual([5]);
    expect(
      depth([
        ["belowTransducer", 4],
        ["surfaceToTransducer", 0.5],
      ]),
    ).toEqual([4.5]);
    expect(depth([["belowTransducer", 4]], { transducerDepthM: 0.25 })).toEqual([4.25]);
    expect(depth([["belowTransducer", 4]])).toEqual([]);
    // Nil is a sounder without an echo.
    expect(depth([["belowSurface", 0]])).toEqual([]);
    expect(
      depth([
        ["belowSurface", 0],
        ["belowTransducer", 4],
        ["surfaceToTransducer", 0.5],
      ]),
    ).toEqual([4.5]);
    expect(depth([["belowSurface", 12_000]])).toEqual([12_000]);
    expect(depth([["belowSurface", 12_001]])).toEqual([]);
  });
  test("gear of any engine, and of no other path", () => {
    const gear = (path: string, value: unknown) => {
      const { events, refused } = read([[path, value]]);
      return [events.map((e) => e.kind === "engine" && e.engine), refused];
    };
    const path = "propulsion.port.transmission.gear";
    expect(gear(path, "Forward")).toEqual([["ahead"], 0]);
    expect(gear(path, "Reverse")).toEqual([["astern"], 0]);
    expect(gear(path, "Neutral")).toEqual([["stopped"], 0]);
    expect(gear(path, "Fault")).toEqual([[], 1]);
    for (const other of [
      `x.${path}`,
      `${path}.x`,
      "propulsion.port.main.transmission.gear",
      "propulsion..transmission.gear",
    ])
      expect(gear(other, "Forward")).toEqual([[], 0]);
  });
});

describe("Signal K out", () => {
  const out = (more: Partial<Report>, antennaAbaftMiddleM = 0) => {
    const { updates } = signalKDelta({ report: { ...report, ...more }, antennaAbaftMiddleM });
    return new Map(updates[0]!.values.map((v) => [v.path, v.value]));
  };
  const notice = (path: string, more: Partial<Report>) => out(more).get(`notifications.${path}`);

  test("a vessel that drags, or has weighed, is not at anchor", () => {
    for (const mode of ["lying", "uneasy", "blind", "cannotTell"] as const)
      expect(out({ mode }).get("navigation.state")).toBe("anchored");
    for (const mode of ["aweigh", "dragging"] as const)
      expect(out({ mode }).has("navigation.state")).toBe(false);
  });
  test("the anchor and its radii while it is down and known", () => {
    const paths = (more: Partial<Report>) =>
      [...out(more).keys()].filter((p) => p.startsWith("navigation.anchor."));
    expect(paths({})).toHaveLength(3);
    expect(paths({ distanceM: null })).toEqual([
      "navigation.anchor.position",
      "navigation.anchor.maxRadius",
    ]);
    expect(paths({ anchor: null })).toEqual([]);
    expect(paths({ mode: "aweigh" })).toEqual([]);
    expect(
      out({ anchor: { position: { latDeg: 1, lonDeg: 190 } } }).get("navigation.anchor.position"),
    ).toEqual({ latitude: 1, longitude: -170 });
  });
  test("no radius is less than nil", () => {
    expect(out({ distanceM: 3 }, 5).get("navigation.anchor.currentRadius")).toBe(0);
    expect(out({ distanceM: 3 }, -5).get("navigation.anchor.currentRadius")).toBe(8);
  });
  test("each alarm goes to its own notification", () => {
    const paths = {
      drag: "navigation.anchor",
      blind: "navigation.position",
      shoal: "environment.depth.belowSurface",
    } as const;
    for (const code of ["drag", "blind", "shoal"] as const)
      for (const other of ["drag", "blind", "shoal"] as const)
        expect(
          notice(paths[code], { alarms: [{ code: other, acknowledged: false }] }),
        ).toMatchObject(
          code === other
            ? { state: "alarm", method: ["visual", "sound"] }
            : { state: "normal", method: [] },
        );
  });
  test("dragging alarms even where no alarm is listed, doubt warns, and the words tell the distance", () => {
    const anchor = (more: Partial<Report>) => notice("navigation.anchor", more);
    expect(anchor({ mode: "dragging" })).toEqual({
      state: "alarm",
      method: ["visual", "sound"],
      message: "the anchor drags: 24 m from the anchor, greatest while it holds 38 m",
    });
    // An alarm acknowledged is not heard, though she drags still.
    expect(
      anchor({ mode: "dragging", alarms: [{ code: "drag", acknowledged: true }] }),
    ).toMatchObject({ state: "alarm", method: ["visual"] });
    for (const mode of ["uneasy", "blind", "cannotTell"] as const)
      expect(anchor({ mode })).toMatchObject({ state: "warn", method: ["visual"] });
    expect(anchor({ distanceM: null })).toEqual({
      state: "normal",
      method: [],
      message: "distance from the anchor unknown",
    });
    expect(anchor({})).toMatchObject({ message: expect.stringMatching(/^24 m from/) as string });
  });
});
