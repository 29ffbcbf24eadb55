export { readNmea0183, type NmeaRead, type ReadNmea0183Options } from "./nmea.js";
export type {
  DateReading,
  DepthReading,
  HeadingReading,
  Nmea0183Content,
  PositionReading,
  RevolutionsReading,
  TrackReading,
  Transducer,
  TransducerReading,
  WaterSpeedReading,
  WindAngleReading,
  WindDirectionReading,
} from "./reading.js";
export { readNmea0183Line, type Nmea0183Line } from "./sentence.js";
export type { NmeaState } from "./state.js";
export {
  signalKDelta,
  type SignalKDelta,
  type SignalKDeltaInput,
  type SignalKValue,
} from "./delta.js";
export { eventFromGeolocation, type GeolocationFix } from "./geolocation.js";
export { eventsFromGpx, type EventsFromGpxInput, type GpxRead } from "./gpx.js";
export { eventsFromDelta, type EventsFromDeltaOptions } from "./signalk.js";
export type { DeltaRead } from "./signalkinstruments.js";
