import { refuse } from "../core/errors.js";
import { numberOf, type Attributes } from "./attributes.js";
import type { ChartCell, SoundingDatum } from "./chart.js";
import { codedAttributes, meaningOf } from "./codes.js";
import type { Collected } from "./collect.js";

/** Common short names of sounding datums. */
const SHORT: Readonly<Record<string, string>> = {
  lat: "lowest astronomical tide",
  mllw: "mean lower low water",
  mlws: "mean low water springs",
  mlw: "mean low water",
  msl: "mean sea level",
};

/** A datum's name in small letters, a common short name written out. */
export const plainName = (name: string): string => {
  const low = name.trim().toLowerCase();
  return Object.hasOwn(SHORT, low) ? SHORT[low]! : low;
};

/** VERDAT code of a datum by its name; null where none has it. */
const codeOf = (name: string): number | null =>
  codedAttributes
    .find((a) => a.acronym === "VERDAT")!
    .values.find((v) => plainName(v.meaning) === plainName(name))?.code ?? null;

/** The datum the caller names, or else the one the cells state, where they agree. */
export function datumOf(
  given: string | number | undefined,
  cells: readonly ChartCell[],
): SoundingDatum {
  if (given !== undefined) {
    const code = typeof given === "number" ? given : codeOf(given);
    const name = typeof given === "number" ? meaningOf("VERDAT", given) : given;
    if (name === null) refuse("soundingDatum", "invalid_value", "expected a VERDAT code or a name");
    return { code, name, from: "caller" };
  }
  const stated = new Set(cells.map((c) => c.soundingDatum));
  const [code] = stated;
  if (stated.size !== 1 || code === null || code === undefined)
    refuse(
      "soundingDatum",
      "required",
      stated.size > 1
        ? "the cells state different sounding datums: read them apart, or name one; depths of the others are then not known"
        : "the chart does not state its sounding datum: name it",
    );
  return {
    code,
    name: meaningOf("VERDAT", code) ?? `VERDAT ${code}`,
    from: "chart",
  };
}

/** Whether a cell states a sounding datum other than the one in use. */
export const isOtherDatum = ({ soundingDatum }: ChartCell, { code }: SoundingDatum): boolean =>
  soundingDatum !== null && soundingDatum !== code;

/** Say where a cell or an area names a datum other than the one in use. */
export function datumWarnings(collected: Collected, datum: SoundingDatum): string[] {
  const out: string[] = [];
  for (const cell of collected.cells)
    if (isOtherDatum(cell, datum))
      out.push(
        `cell ${cell.name} states sounding datum ${cell.soundingDatum} (${meaningOf("VERDAT", cell.soundingDatum!) ?? "not listed"}): below ${datum.name} its depths are not known`,
      );
  for (const f of collected.features) {
    const local = f.acronym === "M_SDAT" ? numberOf(f.attributes["VERDAT"]) : null;
    if (local !== null && local !== datum.code)
      out.push(
        `within ${f.id} depths are charted to VERDAT ${local} (${meaningOf("VERDAT", local) ?? "not listed"}), not to ${datum.name}`,
      );
  }
  return out;
}

/** What the whole chart has to be in: its code, and what is told where something else is stated. */
const ONLY = {
  depthUnits: {
    code: 1,
    words:
      "the chart states depths in another unit than metres: turn them into metres, and the unit to 1",
  },
  horizontalDatum: {
    code: 2,
    words: "the chart states positions on another datum than WGS 84: shift them, and state 2",
  },
} as const;

function refuseOther(what: keyof typeof ONLY, stated: unknown): void {
  const { code, words } = ONLY[what];
  if (numberOf(stated) !== code) refuse(what, "invalid_value", words);
}

/** Refuse a cell whose header states depths in feet or fathoms, or positions off WGS 84. */
export function refuseOtherUnits(header: Attributes): void {
  const units = header["DSPM_DUNI"] ?? null;
  const datum = header["DSPM_HDAT"] ?? null;
  if (units !== null) refuseOther("depthUnits", units);
  if (datum !== null) refuseOther("horizontalDatum", datum);
}

/** Refuse an area in which units or positions are other than in the rest. */
export function refuseOtherAreas(acronym: string, attributes: Attributes): void {
  if (acronym === "M_UNIT") refuseOther("depthUnits", attributes["DUNITS"]);
  if (acronym === "M_HDAT") refuseOther("horizontalDatum", attributes["HORDAT"]);
}
