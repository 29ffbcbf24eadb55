import type { VesselKind } from "./vessel.js";

/** Kinematic viscosity of sea water at 15 °C, m²/s (UFC 4-159-03 worked examples; ITTC 7.5-02-01-03 gives 1.188e-6). */
export const SEA_WATER_VISCOSITY_M2_PER_S = 1.19e-6;

/** Form drag coefficient of a hull lying head to stream, on beam × draught (UFC 4-159-03, Eq. 16). */
export const FORM_COEFFICIENT = 0.1;

/** Drag coefficient of a stopped propeller, on blade area (UFC 4-159-03, Eq. 20; the value 1.0 from memory). */
export const PROPELLER_COEFFICIENT = 1;

/** Beam-on stream coefficient as the keel touches the bed (UFC 4-159-03, Eq. 11, "C1 = 3.2"). */
export const GROUNDED_CROSS_COEFFICIENT = 3.2;

/** Exponent of draught over depth in the same formula (UFC 4-159-03, Eq. 11, "K = 2"). */
export const SHALLOW_EXPONENT = 2;

/** Drag coefficients of shapes in the wind: flat and oblique plates and round spars (trade technical page); parts of a yacht, Larsson and Eliasson, Principles of Yacht Design, fig. 9.2. */
export const SHAPES = {
  flat: 1.2,
  round: 1,
  oblique: 0.7,
  hull: 0.5,
  mast: 1,
  wire: 1.2,
} as const;

/** Peak gust over the ten-minute mean wind. */
export const GUSTS = {
  /** Bureau of Meteorology answer on sustained winds: about +25 % on the open sea. */
  openSea: 1.25,
  /** Near land; 1.4 to 1.6, from memory. */
  nearLand: 1.4,
  /** Under high land; the upper end of 1.4 to 1.6, from memory. */
  underHighLand: 1.6,
} as const;

/** One-minute over ten-minute mean wind on the open sea (same answer). */
export const ONE_MINUTE = 1.12;

/** Wind profile exponent over open water: the 1/7 power law, common engineering practice. */
export const PROFILE_EXPONENT = 1 / 7;

/**
 * Yawing to either side of the mean heading of a vessel lying to wind, degrees: 30 is reported by a
 * trade technical page, 20 to 40 is from memory. An envelope, not a prediction.
 */
export const YAW_DEG = { low: 20, likely: 30, high: 40 } as const;

/** Proportions of a vessel kind. Plausible round figures of our own, each to be replaced by a measured one. */
export interface Proportions {
  readonly hulls: 1 | 2;
  readonly waterline: number;
  /** Beam = beamBaseM + beamPerLength × length. */
  readonly beamBaseM: number;
  readonly beamPerLength: number;
  /** Immersed beam over beam: less than one where the beam spans two hulls. */
  readonly immersedBeam: number;
  readonly draught: number;
  readonly hullDraught: number;
  /** Displacement over length cubed, kg/m³. */
  readonly displacement: number;
  readonly freeboard: number;
  readonly house: number;
  readonly bow: number;
  /** Areas over length squared. */
  readonly front: number;
  readonly side: number;
  readonly propeller: number;
  readonly frontCoefficient: number;
  readonly sideCoefficient: number;
  readonly streamCoefficient: number;
  /** Centres aft of the bow over length. */
  readonly windCentre: number;
  readonly lateralCentre: number;
  /** Share of the waterline that a keel, skeg or rudder fills below the hull. */
  readonly keel: number;
}

/** Proportions by kind, as shares of the length unless said otherwise. No source: our own judgement. */
export const PROPORTIONS: Record<VesselKind, Proportions> = {
  yacht: {
    hulls: 1,
    waterline: 0.87,
    beamBaseM: 0.95,
    beamPerLength: 0.24,
    immersedBeam: 1,
    draught: 0.16,
    hullDraught: 0.046,
    displacement: 5.2,
    freeboard: 0.1,
    house: 0.2,
    bow: 0.11,
    front: 0.06,
    side: 0.14,
    propeller: 0.0008,
    frontCoefficient: 0.72,
    sideCoefficient: 0.9,
    streamCoefficient: 0.9,
    windCentre: 0.36,
    lateralCentre: 0.43,
    keel: 0.42,
  },
  motorBoat: {
    hulls: 1,
    waterline: 0.88,
    beamBaseM: 0.9,
    beamPerLength: 0.26,
    immersedBeam: 1,
    draught: 0.075,
    hullDraught: 0.045,
    displacement: 5,
    freeboard: 0.115,
    house: 0.28,
    bow: 0.13,
    front: 0.07,
    side: 0.18,
    propeller: 0.0014,
    frontCoefficient: 0.8,
    sideCoefficient: 0.9,
    streamCoefficient: 0.7,
    windCentre: 0.42,
    lateralCentre: 0.43,
    keel: 0.1,
  },
  catamaran: {
    hulls: 2,
    waterline: 0.97,
    beamBaseM: 0,
    beamPerLength: 0.55,
    immersedBeam: 0.36,
    draught: 0.1,
    hullDraught: 0.045,
    displacement: 4.6,
    freeboard: 0.13,
    house: 0.24,
    bow: 0.12,
    front: 0.11,
    side: 0.17,
    propeller: 0.0012,
    frontCoefficient: 0.7,
    sideCoefficient: 0.9,
    streamCoefficient: 0.8,
    windCentre: 0.42,
    lateralCentre: 0.47,
    keel: 0.12,
  },
  workboat: {
    hulls: 1,
    waterline: 0.93,
    beamBaseM: 0.9,
    beamPerLength: 0.28,
    immersedBeam: 1,
    draught: 0.13,
    hullDraught: 0.11,
    displacement: 9,
    freeboard: 0.12,
    house: 0.3,
    bow: 0.15,
    front: 0.075,
    side: 0.14,
    propeller: 0.003,
    frontCoefficient: 0.9,
    sideCoefficient: 1,
    streamCoefficient: 0.8,
    windCentre: 0.42,
    lateralCentre: 0.48,
    keel: 0.5,
  },
};

/** Fullness of a hull's own lateral plane below water; ours. */
export const HULL_FULLNESS = 0.85;
/** Lateral plane of two hulls over that of one: the lee hull is partly sheltered; ours. */
export const TWO_HULLS = 1.3;
