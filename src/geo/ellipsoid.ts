/** Equatorial radius of WGS 84, m (NGA.STND.0036, defining parameter). */
export const EQUATOR_M = 6378137;
/** Flattening of WGS 84 (NGA.STND.0036, defining parameter). */
export const FLATTENING = 1 / 298.257223563;
/** Polar radius, m. */
export const POLE_M = EQUATOR_M * (1 - FLATTENING);
/** First eccentricity squared. */
export const E2 = FLATTENING * (2 - FLATTENING);
/** Second eccentricity squared. */
export const E2_SECOND = E2 / (1 - E2);
