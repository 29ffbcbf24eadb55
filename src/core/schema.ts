import * as z from "zod/mini";
import type {
  Degrees,
  Hectopascals,
  Kilograms,
  Metres,
  MetresPerSecond,
  Milliseconds,
  Newtons,
  NewtonsPerMetre,
  Seconds,
  SquareMetres,
} from "./units.js";

/** Allowed span of a number: `min` and `max` included, `above` excluded. */
export interface Bounds {
  min?: number;
  max?: number;
  above?: number;
}

/** Sizes past which no figure is meant: products and quotients of a few of them still are finite. */
const SMALLEST = 1e-30;
const LARGEST = 1e30;

/** A size too small to be meant counts as nothing, and so does the sign of nothing. */
const nothing = z.overwrite<number>((x) => (Math.abs(x) < SMALLEST ? 0 : x));

/** Finite number in the given span, tagged with its unit. */
function tagged<T extends number>(base: Bounds = {}) {
  return (own: Bounds = {}): z.ZodMiniType<T, T> => {
    const { min = -LARGEST, max = LARGEST, above } = { ...base, ...own };
    const checks: z.core.$ZodCheck<number>[] = [nothing, z.lte(max)];
    if (above === undefined || min > above) checks.push(z.gte(min));
    if (above !== undefined) checks.push(z.gt(above));
    return z.number().check(...(checks as [])) as unknown as z.ZodMiniType<T, T>;
  };
}

/** A finite number without a unit. */
export const plain = tagged<number>();
/** A length, height or depth in metres; no bounds unless given. */
export const metres = tagged<Metres>();
/** A speed in metres per second, not negative. */
export const speed = tagged<MetresPerSecond>({ min: 0 });
/** A force in newtons, not negative. */
export const newtons = tagged<Newtons>({ min: 0 });
/** A weight per length in newtons per metre; negative floats. */
export const newtonsPerMetre = tagged<NewtonsPerMetre>();
/** A mass in kilograms, more than zero. */
export const kilograms = tagged<Kilograms>({ above: 0 });
/** A direction in degrees from true north, [0, 360]; 360 is read as 0. */
export const direction = tagged<Degrees>({ min: 0, max: 360 });
/** An angle in degrees; no bounds unless given. */
export const degrees = tagged<Degrees>();
/** A duration in seconds, not negative. */
export const seconds = tagged<Seconds>({ min: 0 });
/** An instant in UTC epoch milliseconds, years 1900 to 2200. */
export const instant = tagged<Milliseconds>({
  min: Date.UTC(1900, 0, 1),
  max: Date.UTC(2200, 0, 1),
});
/** A duration in milliseconds, not negative. */
export const duration = tagged<Milliseconds>({ min: 0 });
/** An area in square metres, not negative. */
export const squareMetres = tagged<SquareMetres>({ min: 0 });
/** A pressure in hectopascals that air can have at sea level. */
export const hectopascals = tagged<Hectopascals>({ min: 850, max: 1100 });
/** A share from 0 to 1. */
export const share = tagged<number>({ min: 0, max: 1 });

/** Position on WGS 84, degrees; longitude east, may be given up to ±360. */
export const position = z.strictObject({
  /** Latitude, north positive. */
  latDeg: degrees({ min: -90, max: 90 }),
  /** Longitude, east positive. */
  lonDeg: degrees({ min: -360, max: 360 }),
});
/** Position on WGS 84, degrees. */
export type Position = z.infer<typeof position>;

/** Longest span that is looked through moment by moment: a cycle of the moon's nodes and a year. */
const LONGEST_MS = 20 * 366 * 86_400_000;

/** A span of time of at most twenty years that does not end before it starts. */
export const interval = z
  .strictObject({
    /** Start, UTC epoch milliseconds. */
    fromMs: instant(),
    /** End, UTC epoch milliseconds. */
    toMs: instant(),
  })
  .check(
    z.refine((i) => i.toMs >= i.fromMs, "toMs is before fromMs"),
    z.refine((i) => !(i.toMs - i.fromMs > LONGEST_MS), "expected at most twenty years"),
  );

/** Low, likely and high values in ascending order. */
export const range3 = z
  .strictObject({
    /** Lower end. */
    low: plain(),
    /** Value to expect. */
    likely: plain(),
    /** Upper end. */
    high: plain(),
  })
  .check(
    z.refine((r) => r.low <= r.likely && r.likely <= r.high, "expected low <= likely <= high"),
  );
