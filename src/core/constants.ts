/** Standard gravity, m/s² (3rd CGPM, 1901; exact). */
export const GRAVITY_MPS2 = 9.80665;
/** One pound in kilograms (exact). */
export const POUND_KG = 0.45359237;
/** One pound-force in newtons (exact). */
export const POUND_FORCE_N = POUND_KG * GRAVITY_MPS2;
/** Density of sea water, kg/m³; the usual design figure for 35 g/kg near 10 °C. */
export const SEA_WATER_KG_PER_M3 = 1025;
/** Density of air at 15 °C and 1013.25 hPa, kg/m³ (ISO 2533 standard atmosphere). */
export const AIR_KG_PER_M3 = 1.225;
/** Standard sea-level pressure, hPa (ISO 2533). */
export const STANDARD_PRESSURE_HPA = 1013.25;
