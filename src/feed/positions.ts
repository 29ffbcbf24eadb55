import {
  eastWest,
  isEmpty,
  latitude,
  letter,
  longitude,
  number,
  secondsOfDay,
  shortDate,
} from "./fields.js";
import type { PositionReading } from "./reading.js";
import type { Sentence } from "./scan.js";
import { A, KNOT, M, MOST, bearing, orNull, wholeNumber, withLetter } from "./values.js";

const blankPosition = (type: PositionReading["type"]): PositionReading => ({
  type,
  valid: false,
  latDeg: null,
  lonDeg: null,
  secondsOfDay: null,
  timeMs: null,
  quality: null,
  mode: null,
  satellites: null,
  hdop: null,
  altitudeM: null,
  geoidSeparationM: null,
  sogMps: null,
  cogTrueDeg: null,
  variationDeg: null,
});

/** Put the position in, if the receiver vouches for it and both parts are whole. */
function place(r: PositionReading, s: Sentence, i: number, vouched: boolean): void {
  const lat = latitude(s, i);
  const lon = longitude(s, i + 2);
  r.valid = vouched && !Number.isNaN(lat + lon);
  if (!r.valid) return;
  r.latDeg = lat;
  r.lonDeg = lon;
}

/** Qualities that are measured: not estimated, typed in, or simulated. */
const measured = (quality: number): boolean => quality >= 1 && quality <= 5;

/** GGA. */
export function gga(s: Sentence): PositionReading {
  const r = blankPosition("GGA");
  const quality = wholeNumber(s, 6, 8);
  r.secondsOfDay = orNull(secondsOfDay(s, 1));
  r.quality = orNull(quality);
  r.satellites = orNull(wholeNumber(s, 7, 99));
  r.hdop = orNull(number(s, 8, 0, MOST.hdop));
  r.altitudeM = orNull(withLetter(s, 9, M, -1000, MOST.heightM));
  r.geoidSeparationM = orNull(withLetter(s, 11, M, -200, 200));
  place(r, s, 2, measured(quality));
  return r;
}

/** Mode letter: null where the sender tells none, N for what is not a mode. */
export function modeOf(s: Sentence, i: number): string | null {
  if (isEmpty(s, i)) return null;
  const code = letter(s, i);
  // A autonomous, D differential, E estimated, F float, M manual, N none, P precise, R fixed, S simulated.
  if (code >= A && code <= 83) return String.fromCharCode(code);
  s.faults++;
  return "N";
}

/** Whether a mode letter speaks of a measured position; senders that tell no mode are taken at their status. */
export const modeMeasured = (mode: string | null): boolean =>
  mode === null || mode === "A" || mode === "D" || mode === "F" || mode === "P" || mode === "R";

/** RMC. */
export function rmc(s: Sentence): PositionReading {
  const r = blankPosition("RMC");
  const seconds = secondsOfDay(s, 1);
  const date = shortDate(s, 9);
  const active = letter(s, 2) === A;
  r.mode = modeOf(s, 12);
  const vouched = active && modeMeasured(r.mode);
  r.secondsOfDay = orNull(seconds);
  r.timeMs = orNull(Math.round(date + seconds * 1000));
  if (vouched) {
    r.sogMps = orNull(number(s, 7, 0, MOST.sogKn) * KNOT);
    r.cogTrueDeg = bearing(s, 8);
  }
  r.variationDeg = orNull(eastWest(s, 10, MOST.variationDeg));
  place(r, s, 3, vouched);
  return r;
}

/** GLL. */
export function gll(s: Sentence): PositionReading {
  const r = blankPosition("GLL");
  r.secondsOfDay = orNull(secondsOfDay(s, 5));
  r.mode = modeOf(s, 7);
  // The oldest form has neither time nor status.
  const active = letter(s, 6) === A;
  place(r, s, 1, active && modeMeasured(r.mode));
  return r;
}
