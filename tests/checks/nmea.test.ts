import { utc } from "../../src/core/time.js";
import { readNmea0183Line } from "../../src/feed/index.js";
import { runChecks, type Measured } from "./harness.js";

/** Names of the check values beside ours, where they differ. */
const NAMES: Record<string, string> = {
  utcSecondsOfDayS: "secondsOfDay",
  dateUtc: "timeMs",
};

runChecks("nmea", (c) => {
  const line = readNmea0183Line(c.inputs["sentenceText"] as string);
  const content: Partial<Record<string, unknown>> = {
    ...line.content,
  };
  return Object.entries(c.expected).map(([key, expected]): Measured => {
    const quantity = `nmea: ${key}`;
    if (key in line) return { quantity, got: line[key as keyof typeof line], expected };
    const name = NAMES[key] ?? key;
    const got = content[name];
    if (name === "timeMs" && typeof expected === "string")
      return { quantity, got, expected: utc(expected) };
    if (typeof expected !== "number") return { quantity, got, expected };
    const tolerance = /^(lat|lon)Deg$/.test(key) ? 1e-7 : 1e-6;
    return { quantity, got, expected, tolerance };
  });
});
