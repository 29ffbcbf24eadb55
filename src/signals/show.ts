import { intensityFor } from "./intensity.js";
import { ALL_ROUND, HEIGHT, LENGTH, RANGE, SHAPE } from "./tables.js";
import type { LightDue, ShapeDue } from "./types.js";
import { named, type Vessel } from "./vessel.js";

/** US Inland asks for the signals of a vessel aground "if practicable". */
const aground = (v: Vessel): LightDue["obligation"] =>
  v.regime === "usInland" ? "ifPracticable" : "owed";

/** An all-round light of the range that the length asks for. */
function allRound(
  v: Vessel,
  light: Pick<LightDue, "place" | "placement" | "rule"> & Partial<LightDue>,
): LightDue {
  const leastRangeM = v.lengthM >= LENGTH.twoLightsM ? RANGE.longM : RANGE.shortM;
  return {
    colour: "white",
    count: 1,
    arcDeg: 360,
    leastRangeM,
    leastIntensityCd: intensityFor(leastRangeM),
    leastSpacingM: null,
    heights: [],
    mostHiddenDeg: null,
    obligation: "owed",
    ...light,
  };
}

/** White lights of Rule 30(a) and (b). */
export function whiteLights(v: Vessel): LightDue[] {
  if (v.lengthM < LENGTH.twoLightsM)
    return [
      allRound(v, {
        place: "bestSeen",
        placement: "where it can best be seen",
        rule: named(v, "30(b)"),
      }),
    ];
  return [
    allRound(v, {
      place: "forePart",
      placement: "in the fore part",
      heights: [
        { leastM: HEIGHT.foreAboveHullM, above: "hull" },
        { leastM: HEIGHT.foreAboveAfterM, above: "afterLight" },
      ],
      rule: named(v, "30(a)"),
    }),
    allRound(v, {
      place: "nearStern",
      placement: "at or near the stern, lower than the fore light",
      rule: named(v, "30(a)"),
    }),
  ];
}

/** The two red lights of a vessel aground, Rule 30(d)(i). */
export function agroundLights(v: Vessel): LightDue {
  const small = v.lengthM < LENGTH.bellM;
  return allRound(v, {
    colour: "red",
    count: 2,
    place: "verticalLine",
    placement: "one above the other, where they can best be seen",
    leastSpacingM: small || v.regime === "usInland" ? HEIGHT.smallSpacingM : HEIGHT.spacingM,
    heights: [
      small
        ? { leastM: HEIGHT.lowestAboveGunwaleM, above: "gunwale" }
        : { leastM: HEIGHT.lowestAboveHullM, above: "hull" },
    ],
    mostHiddenDeg: ALL_ROUND.mostHiddenDeg,
    obligation: aground(v),
    rule: named(v, "30(d)(i)"),
  });
}

/** Balls of the size that the length asks for. */
function balls(
  v: Vessel,
  shape: Pick<ShapeDue, "count" | "placement" | "rule" | "obligation">,
): ShapeDue {
  const small = v.lengthM < LENGTH.bellM;
  return {
    shape: "ball",
    colour: "black",
    leastDiameterM: small ? null : SHAPE.ballM,
    leastSpacingM: small || shape.count === 1 ? null : SHAPE.spacingM,
    mayBeSmaller: small,
    ...shape,
  };
}

/** The ball of a vessel at anchor, Rule 30(a)(i): 30(b) relaxes the lights only. */
export const anchorShapes = (v: Vessel): ShapeDue =>
  balls(v, {
    count: 1,
    placement: "in the fore part, where it can best be seen",
    obligation: "owed",
    rule: named(v, "30(a)(i)"),
  });

/** The three balls of a vessel aground, Rule 30(d)(ii). */
export const agroundShapes = (v: Vessel): ShapeDue =>
  balls(v, {
    count: 3,
    placement: "in a vertical line, where they can best be seen",
    obligation: aground(v),
    rule: named(v, "30(d)(ii)"),
  });
