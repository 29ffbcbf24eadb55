import type { Reason } from "../core/judgement.js";
import type { Quality } from "./codes.js";
import type { Seabed } from "./seabed.js";

const caution = (
  code: string,
  severity: Reason["severity"],
  value: string | null,
  basis: string,
): Reason => ({ code: `seabed.${code}`, severity, value, limit: null, basis });

const STRENGTH: ReadonlySet<Quality> = new Set(["soft", "sticky", "stiff", "hard"]);

/** Whether mud is charted at the surface with nothing said of its firmness. */
const plainMud = ({ layers }: Seabed): boolean =>
  layers[0]?.materials.some(
    (m, i) => m === "mud" && !layers[0]!.qualities[i]!.some((q) => STRENGTH.has(q)),
  ) === true;

const seagrass = () =>
  caution(
    "protected",
    "warning",
    "seagrass",
    "many beds of seagrass are protected: IHO S-101 Annex A 2.0.0, clause 12.3",
  );
const coral = () =>
  caution(
    "protected",
    "warning",
    "coral",
    "anchoring breaks coral, and most of it is protected (common practice, no source)",
  );
const kelp = () =>
  caution(
    "kelp",
    "caution",
    "kelp",
    "kelp usually means rock beneath: IHO S-101 Annex A 2.0.0, clause 12.2.1",
  );
const notCharted = () =>
  caution("notCharted", "warning", null, "what is not charted is rated as the worst bed there is");
const firmness = () =>
  caution(
    "firmnessUnknown",
    "caution",
    "mud",
    "mud says nothing of strength: rated as commonly taught for mud, with soft mud as the low end",
  );
const anySize = () =>
  caution(
    "anySize",
    "note",
    "stones",
    "stones are of any size from gravel to boulders: IHO S-57 edition 3.1, NATSUR",
  );

/** Whether the bed is of a kind that is often protected. */
export const isProtected = ({ layers, weed }: Seabed): boolean =>
  weed.includes("seagrass") || layers.some((l) => l.materials.includes("coral"));

/** What to mind at a seabed; `known` tells whether every constituent is charted. */
export function cautionsOf(seabed: Seabed, known: boolean): Reason[] {
  const materials = seabed.layers.flatMap((l) => l.materials);
  const out = [...seabed.notes];
  if (seabed.weed.includes("seagrass")) out.push(seagrass());
  if (materials.includes("coral")) out.push(coral());
  if (seabed.weed.includes("kelp")) out.push(kelp());
  if (!known) out.push(notCharted());
  if (plainMud(seabed)) out.push(firmness());
  if (materials.includes("stones")) out.push(anySize());
  for (const { attribute, code } of seabed.unknown)
    out.push(
      caution(
        "unknownCode",
        "warning",
        `${attribute} ${code}`,
        "a code that is not in the list is read as not charted",
      ),
    );
  return out;
}
