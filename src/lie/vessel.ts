import * as z from "zod/mini";
import { check } from "../core/check.js";
import { kilograms, metres, plain, squareMetres } from "../core/schema.js";
import { HULL_FULLNESS, PROPORTIONS, TWO_HULLS, type Proportions } from "./tables.js";

const length = () => metres({ above: 0, max: 100 });
const coefficient = () => plain({ min: 0.05, max: 4 });

const figures = {
  /** Number of hulls, 1 or 2. */
  hulls: z.literal([1, 2]),
  /** Length on the waterline. */
  waterlineM: length(),
  /** Greatest beam. */
  beamM: length(),
  /** Beam of the immersed hull or hulls together. */
  immersedBeamM: length(),
  /** Draught to the lowest point of the keel. */
  draughtM: length(),
  /** Draught of the hull without keel. */
  hullDraughtM: length(),
  /** Mass of the vessel with stores. */
  displacementKg: kilograms(),
  /** Freeboard amidships. */
  freeboardM: length(),
  /** Height of the top of the uppermost house above the waterline. */
  houseHeightM: length(),
  /** Height of the bow roller above the waterline. */
  bowHeightM: length(),
  /** Area shown to a wind from ahead, rig included. */
  windageFrontM2: squareMetres({ above: 0 }),
  /** Area shown to a wind from abeam, rig included. */
  windageSideM2: squareMetres({ above: 0 }),
  /** Drag coefficient on the front windage. */
  windFrontCoefficient: coefficient(),
  /** Drag coefficient on the side windage. */
  windSideCoefficient: coefficient(),
  /** Centre of the side wind force, aft of the bow roller. */
  windCentreAftOfBowM: length(),
  /** Lateral plane: area of hull and keel below water seen from abeam. */
  lateralPlaneM2: squareMetres({ above: 0 }),
  /** Drag coefficient on the lateral plane, beam-on in deep water. */
  streamSideCoefficient: coefficient(),
  /** Centre of the lateral plane, aft of the bow roller. */
  lateralCentreAftOfBowM: length(),
  /** Blade area of fixed propellers; 0 where they fold or feather. */
  propellerAreaM2: squareMetres(),
} as const;

const head = {
  /** What kind of vessel. */
  kind: z.enum(["yacht", "motorBoat", "catamaran", "workboat"]),
  /** Length overall. */
  lengthM: metres({ min: 2, max: 60 }),
};

/** A vessel as it lies to her anchor; {@link vesselFrom} fills one in from few figures. */
export const vessel = z.strictObject({
  ...head,
  ...figures,
  /** Names of the figures that were guessed from the kind and length. */
  assumed: z.optional(z.array(z.string())),
});
/** A vessel as it lies to her anchor. */
export type Vessel = z.infer<typeof vessel>;
/** Kind of vessel. */
export type VesselKind = Vessel["kind"];

/** Kind and length of a vessel, and any figures known of her. */
export const vesselSketch = z.extend(z.partial(z.strictObject(figures)), head);
/** Kind and length of a vessel, and any figures known of her. */
export type VesselSketch = z.infer<typeof vesselSketch>;

/**
 * Fills in a vessel's figures from her kind, her length and whatever else is known of her.
 *
 * Each missing figure is a round proportion of the length, or of the figures given: the lateral plane
 * follows the draughts, the immersed beam the beam. Leaves out everything individual: the proportions are
 * our own and match no particular design.
 *
 * *Valid*: ordinary craft of 4 to 24 m. *Accuracy*: areas and levers within about 30 %; give measured ones where they matter.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source plausible round figures, no source
 * @example
 * ```ts
 * import { vesselFrom } from "hawse";
 * const yacht = vesselFrom({ kind: "yacht", lengthM: 12, displacementKg: 9000 });
 * console.log(yacht.windageSideM2.toFixed(1), yacht.lateralPlaneM2.toFixed(1));
 * // 20.2 10.9
 * console.log(yacht.assumed?.includes("displacementKg"));
 * // false
 * ```
 */
export const vesselFrom = (sketch: VesselSketch): Vessel => fillVessel(check(vesselSketch, sketch));

/** {@link vesselFrom} without the check. */
export function fillVessel(sketch: VesselSketch): Vessel {
  const known = Object.fromEntries(
    Object.entries(sketch).filter(([, value]) => value !== undefined),
  );
  const guessed = guess(sketch);
  const assumed = Object.keys(guessed).filter((key) => !(key in known));
  return { ...guessed, ...(known as VesselSketch), assumed } as Vessel;
}

function guess(sketch: VesselSketch): Omit<Vessel, "kind" | "lengthM"> {
  const p = PROPORTIONS[sketch.kind];
  const l = sketch.lengthM;
  const beamM = sketch.beamM ?? p.beamBaseM + p.beamPerLength * l;
  return {
    hulls: p.hulls,
    waterlineM: p.waterline * l,
    beamM,
    immersedBeamM: p.immersedBeam * beamM,
    draughtM: p.draught * l,
    hullDraughtM: hullDraught(sketch, p),
    displacementKg: p.displacement * l * l * l,
    freeboardM: p.freeboard * l,
    houseHeightM: p.house * l,
    bowHeightM: p.bow * l,
    windageFrontM2: p.front * l * l,
    windageSideM2: p.side * l * l,
    windFrontCoefficient: p.frontCoefficient,
    windSideCoefficient: p.sideCoefficient,
    windCentreAftOfBowM: p.windCentre * l,
    lateralPlaneM2: lateralPlane(sketch, p),
    streamSideCoefficient: p.streamCoefficient,
    lateralCentreAftOfBowM: p.lateralCentre * l,
    propellerAreaM2: p.propeller * l * l,
  };
}

const hullDraught = (sketch: VesselSketch, p: Proportions): number =>
  Math.min(p.hullDraught * sketch.lengthM, sketch.draughtM ?? Infinity);

/** Lateral plane of hull and keel from the draughts: a deeper keel is what makes a vessel lie to the stream. */
function lateralPlane(sketch: VesselSketch, p: Proportions): number {
  const hull = sketch.hullDraughtM ?? hullDraught(sketch, p);
  const draught = sketch.draughtM ?? p.draught * sketch.lengthM;
  const depth = HULL_FULLNESS * hull + p.keel * Math.max(0, draught - hull);
  const one = (sketch.waterlineM ?? p.waterline * sketch.lengthM) * depth;
  return (sketch.hulls ?? p.hulls) === 2 ? one * TWO_HULLS : one;
}
