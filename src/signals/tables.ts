import { nauticalMiles } from "../core/units.js";

/** Limits of length in the rules, metres. */
export const LENGTH = {
  /** Rule 30(e): under this, relief away from channels, fairways, anchorages and traffic. */
  smallestM: 7,
  /** Rules 22(c), 30(f), 33(a), 35(j): under this a vessel is small. */
  smallM: 12,
  /** Rules 33(a), 35(i), Annex I 6(c); US Inland 30(g), 35(l). */
  bellM: 20,
  /** Rules 22(a), 30(b). */
  twoLightsM: 50,
  /** Rules 30(c), 33(a), 35(g). */
  gongM: 100,
} as const;

/** Least range of an all-round light, Rule 22. */
export const RANGE = {
  /** 22(a), vessels of 50 m and over. */
  longM: nauticalMiles(3),
  /** 22(b) and (c), shorter vessels. */
  shortM: nauticalMiles(2),
} as const;

/** Annex I, 2: heights of lights, metres. */
export const HEIGHT = {
  /** 2(k): fore anchor light above the after one. */
  foreAboveAfterM: 4.5,
  /** 2(k): fore anchor light above the hull, vessels of 50 m and over. */
  foreAboveHullM: 6,
  /** 2(i), from memory: spacing of lights in a vertical line, vessels of 20 m and over. */
  spacingM: 2,
  /** 2(i), from memory: the lowest above the hull, vessels of 20 m and over. */
  lowestAboveHullM: 4,
  /** 2(i), from memory: spacing in vessels under 20 m; US Inland at all lengths. */
  smallSpacingM: 1,
  /** 2(i), from memory: the lowest above the gunwale, vessels under 20 m. */
  lowestAboveGunwaleM: 2,
} as const;

/** Annex I, 6: shapes, metres. */
export const SHAPE = {
  /** 6(a)(i): least diameter of a ball. */
  ballM: 0.6,
  /** 6(b): least distance between shapes. */
  spacingM: 1.5,
} as const;

/** Annex I, 9(b): all-round lights. */
export const ALL_ROUND = {
  /** 9(b)(i): greatest sector hidden, degrees; anchor lights excepted. */
  mostHiddenDeg: 6,
  /** 9(b)(ii): two screened lights that appear as one at this distance do for one. */
  twoAsOneM: nauticalMiles(1),
} as const;

/** Rule 35(g) to (j): sound signals, seconds. */
export const SOUND = {
  /** Ringing of the bell, and of the gong. */
  ringS: 5,
  /** From one bell signal to the next. */
  bellIntervalS: 60,
  /** From one other efficient signal to the next. */
  otherIntervalS: 120,
  /** Separate strokes before and after the ringing, aground. */
  strokesAground: 3,
} as const;

/** Annex III, 2: bell. */
export const BELL = {
  /** Least diameter of the mouth, metres, vessels of 20 m and over. */
  mouthM: 0.3,
  /** Least sound pressure level at 1 m, dB. */
  levelDb: 110,
  /** Least mass of the striker in parts of the bell's. */
  strikerShare: 0.03,
} as const;
