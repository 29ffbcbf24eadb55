/** Beam taken where none is given, as a part of the length: on the wide side for a single hull of 6 to 20 m; our own round figure, no source. */
export const BEAM_PER_LENGTH = 0.4;
/** Turn between two moments beyond which a vessel may have swung either way round, degrees; our own choice, no source. */
export const EITHER_WAY_DEG = 90;
/** Step in which a turn is followed, degrees; the sag of the chords is added to the outline. */
export const TURN_STEP_DEG = 3;

/** Beam as a part of the length, on the wide side; our own round figures, no source. */
export const BEAMS = {
  yacht: 0.36,
  motorBoat: 0.4,
  catamaran: 0.6,
  workboat: 0.4,
} as const;
/**
 * Rode a neighbour is taken to have out, as a multiple of the greatest depth: half as much again as
 * the 4 and 6 times of common practice (no source).
 */
export const RODE_PER_DEPTH = {
  chain: 6,
  chainAndRope: 9,
  unknown: 9,
} as const;
/** Rode a vessel is taken to carry where no depth is given: so many lengths of hers, and not less than so much, m; our own round figures, no source. */
export const CARRIED = {
  chain: { perLength: 5, leastM: 50 },
  chainAndRope: { perLength: 7, leastM: 70 },
  unknown: { perLength: 7, leastM: 70 },
} as const;
/** Least part of the length out that the reach is taken to be when she was seen: in light airs much of it lies on the bottom; our own figure, no source. */
export const REACH_SHARE = 0.25;
