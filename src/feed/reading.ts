/** A position sentence: GGA, RMC or GLL. Position is null unless the receiver vouches for it. */
export interface PositionReading {
  /** Sentence. */
  type: "GGA" | "RMC" | "GLL";
  /** Whether the position may be used: there is one, it is flagged valid, and it is neither estimated, typed in nor simulated. */
  valid: boolean;
  /** Latitude of the antenna; null when not valid. */
  latDeg: number | null;
  /** Longitude of the antenna; null when not valid. */
  lonDeg: number | null;
  /** UTC time of day, s. */
  secondsOfDay: number | null;
  /** RMC: UTC epoch ms. */
  timeMs: number | null;
  /** GGA: 0 none, 1 autonomous, 2 differential, 4 fixed and 5 floating real-time kinematic, 6 estimated, 7 manual, 8 simulated. */
  quality: number | null;
  /** RMC, GLL: mode letter; null where the sender is older than the field. */
  mode: string | null;
  /** GGA: satellites in use. */
  satellites: number | null;
  /** GGA: horizontal dilution of precision. */
  hdop: number | null;
  /** GGA: antenna above mean sea level. */
  altitudeM: number | null;
  /** GGA: geoid above the ellipsoid. */
  geoidSeparationM: number | null;
  /** RMC: speed over the ground. */
  sogMps: number | null;
  /** RMC: course over the ground, true. */
  cogTrueDeg: number | null;
  /** RMC: magnetic variation, east positive. */
  variationDeg: number | null;
}

/** VTG: course and speed over the ground. */
export interface TrackReading {
  type: "VTG";
  /** Mode letter; null where the sender is older than the field. Speed and course are null unless it speaks of a measured position. */
  mode: string | null;
  /** Speed over the ground. */
  sogMps: number | null;
  /** Course over the ground, true. */
  cogTrueDeg: number | null;
  /** Course over the ground, magnetic. */
  cogMagneticDeg: number | null;
}

/** DBT, DPT: depth below the transducer. */
export interface DepthReading {
  type: "DBT" | "DPT";
  /** Depth below the transducer. */
  depthBelowTransducerM: number | null;
  /** DPT: waterline (positive) or keel (negative) from the transducer. */
  offsetM: number | null;
}

/** MWV: wind as an angle from the bow. */
export interface WindAngleReading {
  type: "MWV";
  /** Whether the sender flags it valid; else angle and speed are null. */
  valid: boolean;
  /** Clockwise from the bow, whence it blows. */
  angleDeg: number | null;
  /** `R` relative to the moving vessel, `T` to the water or ground; both from the bow. */
  reference: "R" | "T" | null;
  /** Speed. */
  speedMps: number | null;
}

/** MWD: wind as a compass direction. */
export interface WindDirectionReading {
  type: "MWD";
  /** Whence it blows, true. */
  directionTrueDeg: number | null;
  /** Whence it blows, magnetic. */
  directionMagneticDeg: number | null;
  /** Speed. */
  speedMps: number | null;
}

/** HDT, HDG: heading. */
export interface HeadingReading {
  type: "HDT" | "HDG";
  /** Heading, true; for HDG only where the sentence gives the variation. */
  headingTrueDeg: number | null;
  /** HDG: sensor heading corrected for the deviation given. */
  headingMagneticDeg: number | null;
  /** HDG: deviation, east positive. */
  deviationDeg: number | null;
  /** HDG: variation, east positive. */
  variationDeg: number | null;
}

/** VHW: heading and speed through the water. */
export interface WaterSpeedReading {
  type: "VHW";
  /** Heading, true. */
  headingTrueDeg: number | null;
  /** Heading, magnetic. */
  headingMagneticDeg: number | null;
  /** Speed through the water. */
  speedThroughWaterMps: number | null;
}

/** RPM: engine or shaft. */
export interface RevolutionsReading {
  type: "RPM";
  /** Whether the sender flags it valid; else revolutions and pitch are null. */
  valid: boolean;
  /** `S` shaft or `E` engine. */
  source: "S" | "E" | null;
  /** Number of the engine or shaft. */
  number: number | null;
  /** Revolutions a minute. */
  revolutionsPerMin: number | null;
  /** Propeller pitch in per cent, negative astern. */
  pitchPercent: number | null;
}

/** One transducer of an XDR sentence whose type, value and unit agree. */
export interface Transducer {
  /** Type letter: A angle, C temperature, D depth or displacement, P pressure, H humidity and so on. */
  type: string;
  /** Value, in `unit`. */
  value: number;
  /** Unit letter: D degrees, C Celsius, M metres, B bars, P pascals or per cent. */
  unit: string;
  /** Name given by the sender. */
  name: string;
}

/** XDR: transducers, those with a fault left out. */
export interface TransducerReading {
  type: "XDR";
  /** Transducers whose four fields agree. */
  transducers: Transducer[];
}

/** ZDA: date and time. */
export interface DateReading {
  type: "ZDA";
  /** UTC epoch ms. */
  timeMs: number | null;
}

/** What one sentence says, by its type. Null is unknown: empty, or refused. */
export type Nmea0183Content =
  | PositionReading
  | TrackReading
  | DepthReading
  | WindAngleReading
  | WindDirectionReading
  | HeadingReading
  | WaterSpeedReading
  | RevolutionsReading
  | TransducerReading
  | DateReading;
