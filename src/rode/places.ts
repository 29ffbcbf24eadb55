// Places in a prepared rode, one Float64Array: its figures, then a row for each piece from the anchor
// to the bow, then the marks. One block of memory, for a rode is often laid once and forgotten.

/** Start of the row of the uppermost piece. */
export const TOP = 0;
/** Start of the row of the lowest piece that a float keeps off the bed; past {@link TOP} without floats. */
export const FREE = 1;
/** Tangent of the bed's slope. */
export const TAN = 2;
/** Its sine. */
export const SIN = 3;
/** Its cosine. */
export const COS = 4;
/** One over its cosine. */
export const SEC = 5;
/** Tension lost towards the anchor for a newton of rode on the bed. */
export const DRAG_PER_N = 6;
/** Whole unstretched length, m. */
export const TOTAL_M = 7;
/** Stretch of the whole rode for a newton of even tension, m. */
export const STRETCH_PER_N = 8;
/** Unstretched length of all but the lowest piece, m. */
export const UPPER_M = 9;
/** Its stretch for a newton of even tension, m. */
export const UPPER_STRETCH_PER_N = 10;
/** Weight below a point of the rode, averaged over its length, N. */
export const MEAN_BELOW_N = 11;
/** How that weight is spread about its mean: its variance over the length, N². */
export const SPREAD_BELOW = 12;
/** Length of the heaviest piece that weighs a newton, m. */
export const LEAST_M_PER_N = 13;
/** Weight in water of all that a float keeps off the bed, floats included, N; 0 without floats. */
export const FLOATED_N = 14;
/** How much more than its length less the height a rode may reach while slack, at most, m; Infinity unless the bed is level and there are no floats. */
export const SLACK_STRETCH_M = 15;
// What the plain rodes need stands next to their rows, for memory is read by the line.
/** Number of pieces where one or two lie on a level bed without friction or anything hung on them, else 0. */
export const PLAIN = 16;
/** Whole weight in water, weights and floats included, N. */
export const TOTAL_N = 17;
/** Weight of all but the lowest piece, weights included, N. */
export const UPPER_N = 18;
/** Start of the row of the lowest piece. */
export const PIECES = 19;
/** Start of the row of the second piece: {@link PIECES} and {@link ROW}, a number for the builder to put in its place. */
export const SECOND = 24;

// Places within the row of a piece.
/** Unstretched length, m. */
export const LENGTH = 0;
/** Weight in water, N per unstretched metre. */
export const WEIGHT = 1;
/** Metres of piece for a newton of weight. */
export const M_PER_N = 2;
/** Strain per newton. */
export const STRAIN = 3;
/** Weight in water hung at its lower end, N; negative for a float. */
export const HUNG = 4;
/** Length of a row. */
export const ROW = 5;

/** Start of the row of piece `k`, counted from the anchor. */
export const startOf = (k: number): number => PIECES + ROW * k;
