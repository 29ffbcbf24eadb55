import * as z from "zod/mini";
import { check } from "../core/check.js";
import type { Reason } from "../core/judgement.js";
import {
  materialRows,
  qualityRows,
  weedRows,
  type Material,
  type Quality,
  type VocabularyRow,
  type Weed,
} from "./codes.js";
import type { Seabed, SeabedLayer } from "./seabed.js";

/** Longest list of codes, in characters or entries; no chart object has a hundredth of it. */
const LONGEST = 10_000;
const code = z.string().check(z.maxLength(LONGEST));
const listForm = z.union([
  code,
  z.number(),
  z.array(z.union([code, z.number()])).check(z.maxLength(LONGEST)),
]);

/** Schema of {@link SeabedCodes}. */
export const seabedCodesSchema = z.strictObject({
  /** NATSUR, in any of its forms: `"4,1"`, `["4","1"]`, `[4,1]`, `4`; layers as `"4/1"`. */
  natsur: z.optional(z.nullable(listForm)),
  /** NATQUA, in the same forms; each slot belongs to the material in the same place. */
  natqua: z.optional(z.nullable(listForm)),
  /** CATWED of weed charted here. */
  catwed: z.optional(z.nullable(listForm)),
});
/** Seabed codes as charts carry them. */
export type SeabedCodes = z.infer<typeof seabedCodesSchema>;
type ListForm = z.infer<typeof listForm>;

/** Slots of every layer; an empty slot is an empty text. */
function slotsOf(value: ListForm | null | undefined): string[][] {
  if (value === undefined || value === null) return [];
  const text = (Array.isArray(value) ? value.join(",") : String(value)).trim();
  if (text === "") return [];
  return text.split("/").map((layer) => layer.split(",").map((slot) => slot.trim()));
}

const byCode = <T extends string>(rows: readonly VocabularyRow<T>[]) =>
  new Map(
    rows.flatMap((row) => (row.code === null ? [] : [[String(row.code), row.term] as const])),
  );
const MATERIAL_OF: ReadonlyMap<string, Material> = /* @__PURE__ */ byCode(materialRows);
const QUALITY_OF: ReadonlyMap<string, Quality> = /* @__PURE__ */ byCode(qualityRows);
const WEED_OF: ReadonlyMap<string, Weed> = /* @__PURE__ */ byCode(weedRows);

type Unknown = Seabed["unknown"];

/** A code looked up; one that is not in the list is kept aside. */
function look<T>(
  table: ReadonlyMap<string, T>,
  code: string,
  place: Omit<Unknown[number], "code">,
  unknown: Unknown,
): T | undefined {
  if (code === "") return undefined;
  const term = table.get(code.replace(/^0+(?=\d)/, ""));
  if (term === undefined) unknown.push({ ...place, code });
  return term;
}

function layerOf(
  materials: readonly string[],
  qualities: readonly string[],
  layer: number,
  unknown: Unknown,
): SeabedLayer | null {
  const out: SeabedLayer = { materials: [], qualities: [] };
  const slots = Math.max(materials.length, qualities.length);
  for (let slot = 0; slot < slots; slot++) {
    const code = materials[slot] ?? "";
    const quality = look(
      QUALITY_OF,
      qualities[slot] ?? "",
      { attribute: "NATQUA", layer, slot },
      unknown,
    );
    const material = look(MATERIAL_OF, code, { attribute: "NATSUR", layer, slot }, unknown);
    if (code === "" && (qualities[slot] ?? "") === "" && slots === 1) continue;
    out.materials.push(material ?? "unknown");
    out.qualities.push(quality === undefined ? [] : [quality]);
  }
  return out.materials.length > 0 ? out : null;
}

const lostSlots: Reason = {
  code: "seabed.slotsLost",
  severity: "caution",
  value: "a list of qualities that does not match its list of materials",
  limit: null,
  basis:
    "lists converted to arrays lose their empty slots, and with them which material a quality belongs to; keep lists as strings (GDAL: LIST_AS_STRING=ON)",
};

/** An array that has lost its empty slots shows it by its length only. */
const pairingOf = (
  natsur: readonly string[][],
  natqua: readonly string[][],
  asArray: boolean,
): Seabed["pairing"] =>
  asArray &&
  natsur.length > 0 &&
  natqua.length > 0 &&
  (natsur.length !== natqua.length || natsur.some((slots, i) => slots.length !== natqua[i]!.length))
    ? "uncertain"
    : "certain";

function weedsOf(value: SeabedCodes["catwed"], unknown: Unknown): Weed[] {
  const weeds = new Set<Weed>();
  for (const [layer, slots] of slotsOf(value).entries())
    for (const [slot, code] of slots.entries()) {
      // CATWED 4, drifting weed, does not grow on the bed.
      if (code === "4") continue;
      const weed = look(WEED_OF, code, { attribute: "CATWED", layer, slot }, unknown);
      // Of whatever kind, it is growth on the bed.
      if (code !== "") weeds.add(weed ?? "weed");
    }
  return [...weeds];
}

/**
 * The seabed meant by the codes of a chart object: NATSUR, NATQUA and, beside them, CATWED.
 *
 * Lists are read in all their forms; an empty slot stays empty, so that a quality keeps its
 * material (`NATSUR 1,17` with `NATQUA ,4` is mud with broken shells); `/` separates layers from
 * the surface down; a quality without a material is a bed whose material is not charted. Lists that
 * came as arrays and do not match in length have lost slots: the pairing is then marked uncertain.
 * Codes that are not in the list are kept and reported; one of CATWED counts as weed of some kind.
 *
 * *Valid*: S-57 edition 3.1 codes. *Accuracy*: a vocabulary, read from the catalogue; the meaning
 * of `/` is from memory. An array whose lost slots leave equal lengths cannot be told from a whole one.
 *
 * @throws InputError where an input is not a list of codes.
 * @source IHO S-57 edition 3.1, attributes NATSUR, NATQUA, CATWED
 * @example
 * ```ts
 * import { seabedFromCodes } from "hawse/seabed";
 * const { layers } = seabedFromCodes({ natsur: "1,17", natqua: ",4" });
 * console.log(layers[0].materials.join(), layers[0].qualities[1].join());
 * // mud,shells broken
 * ```
 */
export function seabedFromCodes(codes: SeabedCodes): Seabed {
  return readCodes(check(seabedCodesSchema, codes));
}

/** {@link seabedFromCodes} of codes that are already checked. */
export function readCodes(codes: SeabedCodes): Seabed {
  const unknown: Unknown = [];
  const natsur = slotsOf(codes.natsur);
  const natqua = slotsOf(codes.natqua);
  const layers: SeabedLayer[] = [];
  const deepest = natsur.findLastIndex((slots) => slots.some((slot) => slot !== ""));
  for (let i = 0; i < Math.max(natsur.length, natqua.length); i++) {
    const layer = layerOf(natsur[i] ?? [], natqua[i] ?? [], i, unknown);
    if (layer !== null) layers.push(layer);
    // Nothing over a charted layer is a layer that is not charted: what lies beneath is not the surface.
    else if (i < deepest) layers.push({ materials: ["unknown"], qualities: [[]] });
  }
  const weed = weedsOf(codes.catwed, unknown);
  const pairing = pairingOf(
    natsur,
    natqua,
    Array.isArray(codes.natsur) || Array.isArray(codes.natqua),
  );
  return {
    layers,
    weed,
    pairing,
    unknown,
    notes: pairing === "uncertain" ? [lostSlots] : [],
  };
}
