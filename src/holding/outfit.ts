import * as z from "zod/mini";
import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import type { Source } from "../core/judgement.js";
import { kilograms, metres, newtons, plain, speed, squareMetres } from "../core/schema.js";
import type { Kilograms, Metres, Newtons } from "../core/units.js";
import { bed } from "./holding.js";
import type { DesignConditions } from "./rules.js";

export const sizeAnchorInput = z.strictObject({
  /** The vessel, or the figures of her that the methods use; other fields are passed over. */
  vessel: z.object({
    /** Kind of vessel; a catamaran or motor boat counts as of high windage. */
    kind: z.optional(z.string()),
    /** Length overall. */
    lengthM: metres({ above: 0, max: 100 }),
    /** Length on the waterline. */
    waterlineM: metres({ above: 0, max: 100 }),
    /** Greatest beam. */
    beamM: metres({ above: 0, max: 50 }),
    /** Mass of the vessel with stores. */
    displacementKg: kilograms(),
    /** Height of the top of the uppermost house above the waterline. */
    houseHeightM: metres({ above: 0 }),
    /** Freeboard amidships. */
    freeboardM: metres({ above: 0 }),
    /** Draught of the hull without keel. */
    hullDraughtM: metres({ above: 0 }),
    /** Area shown to a wind from abeam. */
    windageSideM2: squareMetres({ above: 0 }),
  }),
  /** Wind to design for. */
  designWindMps: speed({ max: 60 }),
  /** The bed to design for, by name; firm sand is what the rule methods assume. */
  seabed: bed,
  /** Type of anchor; a claw unless given, which holds least of the high-holding types. */
  anchorType: z.optional(z.enum(ANCHOR_TYPES)),
  /** Greatest pull reckoned for the vessel, gusts and yawing included (`peakPullN` of `lie`). */
  pullN: z.optional(newtons({ above: 0 })),
  /** Factor on that pull; 2 unless given. */
  factor: z._default(plain({ min: 1, max: 10 }), 2),
  /** Moulded depth; freeboard and hull draught together unless given. */
  depthM: z.optional(metres({ above: 0 })),
  /** Area of operation of the small vessel code, 0 (anywhere) to 6; 0 unless given. */
  areaCategory: z._default(z.literal([0, 1, 2, 3, 4, 5, 6]), 0),
});
type Checked = z.output<typeof sizeAnchorInput>;
/** Checked input of {@link sizeAnchor}, the anchor's type settled. */
export type SizeInput = Checked & {
  anchorType: NonNullable<Checked["anchorType"]>;
};

/** Name of a sizing method. */
export type SizeMethod =
  | "loadTable"
  | "reckonedPull"
  | "equipmentNumber"
  | "codeTable"
  | "fishingVesselRule"
  | "recreationalLine";

/** An anchor and its cable by one method. */
export interface Outfit {
  /** Mass of the anchor, kg; null where the method gives none. */
  massKg: Kilograms | null;
  /** Mass if the bed or the anchor holds better (low) or worse (high) than likely, kg; null where a rule gives one figure. */
  spreadKg: { low: Kilograms; high: Kilograms | null } | null;
  /** Diameter of chain, mm. */
  chainMm: number | null;
  /** Diameter of polyamide rope, mm. */
  ropeMm: number | null;
  /** Length of chain, m. */
  chainM: Metres | null;
  /** Length of rope, m. */
  ropeM: Metres | null;
}

/** One method's answer. */
export interface SizeRow {
  /** The method. */
  method: SizeMethod;
  /** Whether the method covers this vessel, anchor and bed. */
  applies: boolean;
  /** Why not, or what to know; empty where nothing. */
  note: string;
  /** Load designed for, N; null where the method has none. */
  loadN: Newtons | null;
  /** Equipment number, for that method. */
  equipmentNumber: number | null;
  /** Main anchor. */
  bower: Outfit;
  /** Kedge. */
  kedge: Outfit;
  /** Mass of each of two alike anchors in place of bower and kedge, kg; null where the method does not say. */
  twoAlikeKg: Kilograms | null;
  /** Weather the method is meant for; null where it names none. */
  conditions: DesignConditions | null;
  /** Where this method asks for most. */
  strictest: ("bower" | "kedge" | "bowerChain" | "kedgeChain")[];
  /** Sources. */
  basis: Source[];
}

const NOTHING: Outfit = {
  massKg: null,
  spreadKg: null,
  chainMm: null,
  ropeMm: null,
  chainM: null,
  ropeM: null,
};

/** An outfit with the figures a method gives. */
export const outfit = (given: Partial<Outfit>): Outfit => ({
  ...NOTHING,
  ...given,
});

/** A row with the figures a method gives. */
export const row = (method: SizeMethod, given: Partial<SizeRow>): SizeRow => ({
  method,
  applies: true,
  note: "",
  loadN: null,
  equipmentNumber: null,
  twoAlikeKg: null,
  conditions: null,
  bower: NOTHING,
  kedge: NOTHING,
  strictest: [],
  basis: [],
  ...given,
});
