// Columns that the kernels write into `out`, a Float64Array of COLUMNS entries.
/** Horizontal distance from the anchor to the bow, m. */
export const REACH = 0;
/** Height of the bow above the anchor, m. */
export const HEIGHT = 1;
/** Horizontal load at the bow, N. */
export const LOAD = 2;
/** Vertical load at the bow, N. */
export const BOW_VERTICAL = 3;
/** Tension at the bow, N. */
export const BOW_TENSION = 4;
/** Horizontal part of the pull on the anchor, N. */
export const ANCHOR_HORIZONTAL = 5;
/** Vertical part of the pull on the anchor, N, upwards. */
export const ANCHOR_VERTICAL = 6;
/** Unstretched rode on the bottom, m. */
export const ON_BOTTOM = 7;
/** Stretch of the whole rode, m. */
export const STRETCH = 8;
/** Share of the weight at the touchdown that is lifted; NaN where none hangs there. */
export const LIFTED_SHARE = 9;
/** Change of reach with horizontal load, m/N. */
export const REACH_BY_LOAD = 10;
/** Change of reach with vertical load, m/N. */
export const REACH_BY_VERTICAL = 11;
/** Change of height with vertical load, m/N. */
export const HEIGHT_BY_VERTICAL = 12;
/** Change of height with horizontal load, m/N. */
export const HEIGHT_BY_LOAD = 13;
/** Change of that change of height with vertical load, m/N². */
export const BEND = 14;
/** How far the hanging rode turns, by the metres of it that weigh a newton, m/N. */
export const TURNED = 15;
/** Stretch of what lies tight on the bottom for a newton of even tension, m/N. */
export const SOFT_ON_BOTTOM = 16;
/** Number of columns. */
export const COLUMNS = 17;

/** No horizontal load: the bow part hangs straight down. */
export const SLACK = 0;
/** Part of the rode lies on the bottom. */
export const GROUNDED = 1;
/** The rode is off the bottom down to the anchor. */
export const LIFTED = 2;
/** The bed stands as high as the bow within the rode's length: there is no such lie. */
export const AGROUND = -1;
/** A float would bring the rode down on the bottom a second time, or up above the bow: outside the model. */
export const FLOATED = -2;
