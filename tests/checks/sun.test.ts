import { utc } from "../../src/core/time.js";
import { darkness, nextSunEvent, sunEvents } from "../../src/daylight/index.js";
import type { SunEventKind } from "../../src/daylight/index.js";
import { LIMITS } from "../../src/daylight/tables.js";
import { runChecks, type Check, type Measured } from "./harness.js";

interface Place {
  latitudeDeg: number;
  longitudeDeg: number;
}

const KINDS: Record<string, SunEventKind> = {
  sunrise: "sunrise",
  sunset: "sunset",
  "civil dawn": "civilDawn",
  "civil dusk": "civilDusk",
  "nautical dawn": "nauticalDawn",
  "nautical dusk": "nauticalDusk",
};
const HOUR = 3_600_000;

const place = (c: Check) => {
  const { latitudeDeg, longitudeDeg } = c.inputs as unknown as Place;
  return { latDeg: latitudeDeg, lonDeg: longitudeDeg };
};

/** Seconds between an instant and the event of that kind nearest to it; Infinity when there is none. */
function nearest(c: Check, kind: SunEventKind, at: number): Measured {
  const events = sunEvents({
    position: place(c),
    stay: { fromMs: at - 12 * HOUR, toMs: at + 12 * HOUR },
  }).filter((e) => e.kind === kind);
  const apart = events.map((e) => Math.abs(e.timeMs - at) / 1000);
  return {
    quantity: `sun: ${kind}${Math.abs(place(c).latDeg) > 80 ? ", beyond latitude 80" : ""}`,
    got: apart.length > 0 ? Math.min(...apart) : null,
    expected: 0,
    tolerance: Number(/abs (\d+) s/.exec(c.tolerance)![1]),
    unit: "s",
  };
}

/** States and every event of one UTC day. */
function oneDay(c: Check): Measured[] {
  const { dateUtc } = c.inputs as unknown as { dateUtc: string };
  const fromMs = utc(`${dateUtc}T00:00Z`);
  const stay = { fromMs, toMs: fromMs + 24 * HOUR };
  const dark = darkness({ position: place(c), stay });
  const states = {
    sun: { never: "always up", partly: undefined, throughout: "always down" }[
      dark.sunsetToSunrise.state
    ],
    civil: { never: "always", partly: undefined, throughout: "never" }[dark.beyondCivil.state],
  };
  const listed = Object.entries(c.expected).filter(([k]) => k.endsWith("Utc"));
  const found = sunEvents({ position: place(c), stay }).filter((e) => /^sun|^civil/.test(e.kind));
  return [
    {
      quantity: "sun: state of the day",
      got: states,
      expected: { sun: c.expected["sun"], civil: c.expected["civil"] },
    },
    {
      quantity: "sun: events of the day",
      got: found.map((e) => `${e.kind}Utc`).sort(),
      expected: listed.map(([k]) => k).sort(),
    },
    ...listed.map(([k, at]) =>
      nearest(c, k.replace(/Utc$/, "") as SunEventKind, utc(at as string)),
    ),
  ];
}

runChecks("sun", (c) => {
  const { inputs, expected } = c;
  if (c.id === "definition-angles")
    return [
      "sunriseAltitudeDeg",
      "civilAltitudeDeg",
      "nauticalAltitudeDeg",
      "astronomicalAltitudeDeg",
    ].map((key, i) => ({
      quantity: "sun: altitude of the event",
      got: LIMITS[i]!.altitudeDeg,
      expected: expected[key],
      tolerance: 5e-5,
      unit: "deg",
    }));
  if ("dateUtc" in inputs) return oneDay(c);
  if ("dateLocalStandard" in inputs) {
    const { dateLocalStandard: day, zoneH } = inputs as unknown as {
      dateLocalStandard: string;
      zoneH: number;
    };
    return (["sunrise", "sunset"] as const).map((kind) =>
      nearest(c, kind, utc(`${day}T${expected[`${kind}LocalStandard`] as string}Z`) - zoneH * HOUR),
    );
  }
  const named = Object.keys(KINDS).find((k) => inputs["event"] === k || c.quantity.includes(k))!;
  const kind = KINDS[named]!;
  if ("afterUtc" in inputs) {
    const next = nextSunEvent({
      position: place(c),
      afterMs: utc(inputs["afterUtc"] as string),
      kind,
      ...(expected["timeUtc"] === null && { withinMs: 24 * HOUR }),
    });
    if (expected["timeUtc"] === null)
      return [{ quantity: "sun: no event", got: next.occurs, expected: false }];
    return [
      {
        quantity: `sun: next ${kind}`,
        got: next.occurs ? next.timeMs / 1000 : null,
        expected: utc(expected["timeUtc"] as string) / 1000,
        tolerance: Number(/abs (\d+) s/.exec(c.tolerance)![1]),
        unit: "s",
      },
    ];
  }
  return [nearest(c, kind, utc(expected["timeUtc"] as string))];
});
