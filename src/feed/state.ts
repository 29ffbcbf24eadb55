import { LONGEST } from "./scan.js";

/** What a reader of NMEA 0183 or Signal K remembers from one piece of text to the next: plain, and of fixed size. */
export interface NmeaState {
  /** Version of the layout. */
  readonly version: 1;
  /** A sentence broken off by the end of the text. */
  partial: string;
  /** Latest instant told by the receiver. */
  timeMs: number | null;
  /** When that came, by the clock of the caller, if he gave one. */
  timeReceivedMs: number | null;
  /** Whether the date of that came with a valid position. */
  daySure: boolean;
  /** Instant of the latest fix handed on. */
  fixMs: number | null;
  /** Instant of the latest position that a receiver called estimated, typed in, simulated or none. */
  poorMs: number | null;
  /** Latest speed and course over the ground, and when. */
  sogMps: number | null;
  cogDeg: number | null;
  trackMs: number | null;
  /** Latest horizontal dilution of precision, and when. */
  hdop: number | null;
  hdopMs: number | null;
  /** Latest magnetic variation. */
  variationDeg: number | null;
  /** Latest true heading, when, and how near the source: 2 gyro or corrected compass, 1 log. */
  headingDeg: number | null;
  headingMs: number | null;
  headingRank: number;
  /** When the latest wind came, and how near the source: 3 measured from the bow and corrected, 2 compass, 1 true from the bow. */
  windMs: number | null;
  windRank: number;
  /** Latest offset of the transducer from the waterline. */
  transducerDepthM: number | null;
}

/** A reader that has read nothing. */
export const freshState = (): NmeaState => ({
  version: 1,
  partial: "",
  timeMs: null,
  timeReceivedMs: null,
  daySure: false,
  fixMs: null,
  poorMs: null,
  sogMps: null,
  cogDeg: null,
  trackMs: null,
  hdop: null,
  hdopMs: null,
  variationDeg: null,
  headingDeg: null,
  headingMs: null,
  headingRank: 0,
  windMs: null,
  windRank: 0,
  transducerDepthM: null,
});

/** Whether a thing can be such a state. */
export function isState(x: unknown): boolean {
  const { version, partial } = (x ?? {}) as Partial<NmeaState>;
  return version === 1 && typeof partial === "string" && partial.length <= 2 * LONGEST;
}
