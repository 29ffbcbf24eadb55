import * as z from "zod/mini";
import type { Reason } from "../core/judgement.js";
import { MATERIALS, QUALITIES, WEEDS } from "./codes.js";

const layer = z
  .strictObject({
    /** What the layer is made of, the main constituent first. */
    materials: z.array(z.enum(MATERIALS)).check(z.minLength(1), z.maxLength(64)),
    /** Qualifying terms of each material, in the order of `materials`. */
    qualities: z.array(z.array(z.enum(QUALITIES))),
  })
  .check(
    z.refine(
      (l) => l.materials.length === l.qualities.length,
      "expected one list of qualities for each material",
    ),
  );

/** Schema of a {@link Seabed}. */
export const seabedSchema = z.strictObject({
  /** Layers, the surface first; empty where no material is charted. */
  layers: z.array(layer).check(z.maxLength(16)),
  /** Growth on the bed; empty where none is charted. */
  weed: z.array(z.enum(WEEDS)),
  /** Whether each quality surely belongs to the material it stands with. */
  pairing: z.enum(["certain", "uncertain"]),
  /** Codes that are not in the list, kept as they came. */
  unknown: z.array(
    z.strictObject({
      /** Attribute that carries the code. */
      attribute: z.enum(["NATSUR", "NATQUA", "CATWED"]),
      /** The code. */
      code: z.string(),
      /** Index of the layer. */
      layer: z.number(),
      /** Index of the slot in the layer. */
      slot: z.number(),
    }),
  ),
  /** What the reader noticed. */
  notes: z.array(z.custom<Reason>((v: unknown) => typeof v === "object" && v !== null)),
});

/** A seabed as charted: layers from the surface down, each a mixture with its main constituent first. */
export type Seabed = z.infer<typeof seabedSchema>;
/** One layer of a {@link Seabed}. */
export type SeabedLayer = Seabed["layers"][number];
