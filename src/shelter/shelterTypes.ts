import type { Reason } from "../core/judgement.js";
import type { Degrees, Metres, MetresPerSecond, Milliseconds, Seconds } from "../core/units.js";
import type { ComfortClass } from "./comfort.js";

/** A berth hour by hour, one array a quantity, all of the same length; null where it is not known. */
export interface ShelterHours {
  /** Instants, UTC epoch milliseconds; the last is the end of the stay. */
  timeMs: Milliseconds[];
  /** Significant height, wind sea and swell together: passed in nine cases of ten, expected, passed in one of ten. */
  heightM: {
    low: (Metres | null)[];
    likely: (Metres | null)[];
    high: (Metres | null)[];
  };
  /** Greatest expected height over the directions the wind may take. */
  worstM: (Metres | null)[];
  /** Wind direction that brings it. */
  worstFromDeg: (Degrees | null)[];
  /** Wind sea alone, expected. */
  windSeaM: (Metres | null)[];
  /** Swell alone, with what is left of an older sea. */
  swellM: (Metres | null)[];
  /** Peak period of the wind sea, or of the swell where it is higher; 0 in a flat calm. */
  periodS: (Seconds | null)[];
  /** Direction that sea comes from. */
  fromDeg: (Degrees | null)[];
  /** Probability that the height passes the limit. */
  overLimit: (number | null)[];
  /** Probability of a class worse than tolerable. */
  poor: (number | null)[];
  /** Probability of a class worse than poor. */
  untenable: (number | null)[];
  /** Class of the expected sea. */
  comfort: ComfortClass[];
  /** Mean wind. */
  windMps: (MetresPerSecond | null)[];
  /** Direction it blows from. */
  windFromDeg: (Degrees | null)[];
  /** Gusts as forecast. */
  gustMps: (MetresPerSecond | null)[];
}

/** Winds that bring a sea worse than tolerable to a berth, at the strongest wind of the stay. */
export interface OpenSector {
  /** Wind from here, clockwise. */
  fromDeg: Degrees;
  /** To here. */
  toDeg: Degrees;
  /** Greatest height in the sector. */
  worstM: Metres;
  /** Wind that brings it. */
  worstFromDeg: Degrees;
}

/** The hour of a stay at which the berth is most in doubt. */
export interface RiskiestHour {
  /** When. */
  timeMs: Milliseconds;
  /** Class of the expected sea then. */
  comfort: ComfortClass;
  /** Expected height; null where it is not known. */
  heightM: Metres | null;
  /** Probability that the berth is untenable then; null where it is not known. */
  untenable: number | null;
  /** Wind direction that would be worst then; null where it is not known. */
  worstFromDeg: Degrees | null;
}

/** Least change of the forecast that makes a berth untenable. */
export interface SeaTipping {
  /** Hour at which the least change does it. */
  atMs: Milliseconds;
  /** Turn of the wind, clockwise positive; null for a rise of the wind. */
  turnDeg: Degrees | null;
  /** Mean wind it then is. */
  windMps: MetresPerSecond;
  /** Direction it then blows from. */
  windFromDeg: Degrees;
}

/** Shelter of a berth over a stay. */
export interface Shelter {
  /** Hour by hour. */
  hours: ShelterHours;
  /** Height held against in `overLimit`. */
  limitM: Metres;
  /** Winds the place is open to, at the strongest wind of the stay; empty too where no wind of it is known. */
  opensTo: OpenSector[];
  /** When the berth is most in doubt. */
  riskiestHour: RiskiestHour;
  /** What the forecast would have to do to make it untenable; null where nothing up to 40 m/s, or no turn, does. */
  toUntenable: {
    /** How far the wind would have to turn, degrees. */
    turn: SeaTipping | null;
    /** How much it would have to rise. */
    rise: SeaTipping | null;
  };
  /** The stay in a few figures, for ranking. An hour not known counts as untenable. */
  summary: {
    /** Greatest probability of an untenable hour. */
    untenable: number;
    /** Greatest probability of an hour worse than tolerable. */
    poor: number;
    /** Mean of that probability over the stay. */
    meanPoor: number;
    /** Mean expected height over the hours that are known; null where none is. */
    meanHeightM: Metres | null;
    /** Hours of which nothing is known. */
    unknownHours: number;
    /** Share of people the waves could make ill over the stay, an upper bound: the hull follows every wave. */
    sicknessShareMost: number;
  };
  /** Cautions, warnings and what is not known. */
  reasons: Reason[];
  /** Defaults used. */
  assumed: string[];
  /** Rules and sources. */
  basis: string[];
}
