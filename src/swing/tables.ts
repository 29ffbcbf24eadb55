/** Beam taken where none is given, as a part of the length: on the wide side for a single hull of 6 to 20 m; our own round figure, no source. */
export const BEAM_PER_LENGTH = 0.4;
/** Turn between two moments beyond which a vessel may have swung either way round, degrees; our own choice, no source. */
export const EITHER_WAY_DEG = 90;
/** Step in which a turn is followed, degrees; the sag of the chords is added to the outline. */
export const TURN_STEP_DEG = 3;
