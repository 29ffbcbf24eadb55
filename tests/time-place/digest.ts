import { createHash } from "node:crypto";
import { darkness, nextSunEvent, sunEvents } from "../../src/daylight/index.js";
import { eventsFromGpx, readNmea0183 } from "../../src/feed/index.js";
import { destination, distance } from "../../src/geo/index.js";
import { briefText, planStay, stayGeoJson } from "../../src/plan/index.js";
import { signalsOver } from "../../src/signals/index.js";
import { tideSeries, tideTurns, type TideSource } from "../../src/tide/index.js";
import { demo } from "../scenario.js";

// Run as a program of its own under one time zone: prints a digest of each answer.

const HOUR = 3_600_000;
const tide: TideSource = {
  kind: "constituents",
  constituents: [
    { name: "M2", amplitudeM: 2, phaseDeg: 100 },
    { name: "S2", amplitudeM: 0.6, phaseDeg: 140 },
    { name: "K1", amplitudeM: 0.2, phaseDeg: 60 },
  ],
  meanLevelM: 3,
  nodes: "midYear",
  datum: "LAT",
};
// A leap day, both changes of the clocks of either hemisphere, the turn of a year.
const starts = [
  Date.UTC(2028, 1, 28, 12),
  Date.UTC(2026, 2, 28, 18),
  Date.UTC(2026, 3, 4, 6),
  Date.UTC(2026, 9, 24, 18),
  Date.UTC(2026, 11, 31, 12),
];
const places = [
  { latDeg: 0, lonDeg: 0 },
  { latDeg: 47.2, lonDeg: -20.4 },
  { latDeg: -38, lonDeg: 179.999 },
  { latDeg: 80, lonDeg: -179.999 },
];

const answers: Record<string, unknown> = {};
for (const fromMs of starts) {
  const stay = { fromMs, toMs: fromMs + 48 * HOUR };
  answers[`tide ${fromMs}`] = [
    tideTurns(tide, stay),
    Array.from(tideSeries(tide, { ...stay, stepMs: HOUR })),
  ];
  for (const position of places)
    answers[`sun ${fromMs} ${position.latDeg}`] = [
      sunEvents({ position, stay }),
      darkness({ position, stay }),
      nextSunEvent({ position, afterMs: fromMs, kind: "nauticalDusk" }),
      signalsOver({
        vessel: { lengthM: 11 },
        position,
        stay,
        situation: "anchored",
        nearTraffic: true,
      }),
    ];
}
const plan = planStay(demo());
answers["plan"] = plan;
answers["brief"] = briefText(plan);
answers["geojson"] = stayGeoJson(plan);
answers["gpx"] = eventsFromGpx({
  text: '<gpx><trk><trkseg><trkpt lat="50" lon="-4"><time>2026-03-29T01:30:00Z</time></trkpt></trkseg></trk></gpx>',
});
answers["nmea"] = readNmea0183(
  "$GPRMC,013000,A,5000.000,N,00400.000,W,0.1,054.7,290326,020.3,E*6D\r\n",
);
answers["geo"] = places.map((from) => [
  destination({ from, bearingDeg: 80, distanceM: 50_000 }),
  distance({ from, to: { latDeg: 10, lonDeg: -170 } }),
]);

for (const [name, answer] of Object.entries(answers))
  console.log(name, createHash("sha256").update(JSON.stringify(answer)).digest("hex"));
