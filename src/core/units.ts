/**
 * Unit-tagged numbers. A tag accepts plain literals and arithmetic results, but refuses a value
 * tagged with another unit: a speed cannot be handed over where a length belongs.
 */
interface Unit<U extends string> {
  readonly __unit?: U;
}

/** A length, height or distance in metres. */
export type Metres = number & Unit<"m">;
/** A speed in metres per second. */
export type MetresPerSecond = number & Unit<"m/s">;
/** A force in newtons. */
export type Newtons = number & Unit<"N">;
/** A weight per length in newtons per metre. */
export type NewtonsPerMetre = number & Unit<"N/m">;
/** A mass in kilograms. */
export type Kilograms = number & Unit<"kg">;
/** An angle or direction in degrees. */
export type Degrees = number & Unit<"deg">;
/** A duration in seconds. */
export type Seconds = number & Unit<"s">;
/** An instant (UTC epoch) or a duration in milliseconds. */
export type Milliseconds = number & Unit<"ms">;
/** An area in square metres. */
export type SquareMetres = number & Unit<"m2">;
/** An energy in joules. */
export type Joules = number & Unit<"J">;
/** A pressure in hectopascals (millibars). */
export type Hectopascals = number & Unit<"hPa">;

const KNOT = 1852 / 3600;
const FOOT = 0.3048;
const GRAVITY = 9.80665;

/** Knots to metres per second (1 kn = 1852 m/h, exact). */
export const knots = (value: number): MetresPerSecond => value * KNOT;
/** Metres per second to knots. */
export const toKnots = (value: MetresPerSecond): number => value / KNOT;
/** Feet to metres (1 ft = 0.3048 m, exact). */
export const feet = (value: number): Metres => value * FOOT;
/** Metres to feet. */
export const toFeet = (value: Metres): number => value / FOOT;
/** Fathoms to metres (1 fathom = 6 ft). */
export const fathoms = (value: number): Metres => value * 6 * FOOT;
/** Metres to fathoms. */
export const toFathoms = (value: Metres): number => value / (6 * FOOT);
/** International nautical miles to metres (1852 m, exact). */
export const nauticalMiles = (value: number): Metres => value * 1852;
/** Metres to international nautical miles. */
export const toNauticalMiles = (value: Metres): number => value / 1852;
/** Cables, tenths of a nautical mile, to metres (185.2 m). */
export const cables = (value: number): Metres => value * 185.2;
/** Metres to cables of 185.2 m. */
export const toCables = (value: Metres): number => value / 185.2;
/** Tonnes to kilograms. */
export const tonnes = (value: number): Kilograms => value * 1000;
/** Kilograms to tonnes. */
export const toTonnes = (value: Kilograms): number => value / 1000;
/** Kilograms-force to newtons (standard gravity, exact). */
export const kilogramsForce = (value: number): Newtons => value * GRAVITY;
/** Newtons to kilograms-force. */
export const toKilogramsForce = (value: Newtons): number => value / GRAVITY;
/** Minutes to milliseconds, for durations added to instants. */
export const minutes = (value: number): Milliseconds => value * 60_000;
/** Milliseconds to minutes. */
export const toMinutes = (value: Milliseconds): number => value / 60_000;
/** Hours to milliseconds, for durations added to instants. */
export const hours = (value: number): Milliseconds => value * 3_600_000;
/** Milliseconds to hours. */
export const toHours = (value: Milliseconds): number => value / 3_600_000;
