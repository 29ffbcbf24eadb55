import { AREA_CODES } from "./area-codes.js";
import { SURVEY_CODES } from "./survey-codes.js";

/** One listed value of an attribute. */
export interface CodeValue {
  /** The number. */
  readonly code: number;
  /** What it means. */
  readonly meaning: string;
  /** Where the value is listed: S-57 edition 3.1, or its supplements and S-101 edition 2.0.0. */
  readonly listedIn: "S-57" | "S-101";
}

/** An attribute with listed values. */
export interface CodedAttribute {
  /** Six-letter acronym. */
  readonly acronym: string;
  /** Name of the attribute. */
  readonly name: string;
  /** Whether it carries one value or a list. */
  readonly holds: "one" | "list";
  /** The listed values. */
  readonly values: readonly CodeValue[];
}

function read(): CodedAttribute[] {
  const attributes: (CodedAttribute & { values: CodeValue[] })[] = [];
  for (const line of `${AREA_CODES}${SURVEY_CODES}`.trim().split("\n")) {
    const [head, second, name] = line.split("|").map((f) => f.trim());
    if (head!.startsWith("# "))
      attributes.push({
        acronym: head!.slice(2),
        name: name!,
        holds: second === "L" ? "list" : "one",
        values: [],
      });
    else {
      const space = head!.indexOf(" ");
      attributes.at(-1)!.values.push({
        code: Number(head!.slice(0, space)),
        meaning: head!.slice(space + 1),
        listedIn: second === "S-101" ? "S-101" : "S-57",
      });
    }
  }
  return attributes;
}

/**
 * Attributes with listed values that bear on anchoring, with what each value means.
 *
 * @source IHO S-57 edition 3.1 (2000) as carried by GDAL 3.6.2, s57expectedinput.csv; S-101 feature catalogue 2.0.0 (2024) for values of the supplements
 */
export const codedAttributes: readonly CodedAttribute[] = /* @__PURE__ */ read();

const MEANING: ReadonlyMap<unknown, ReadonlyMap<unknown, string>> = /* @__PURE__ */ new Map(
  codedAttributes.map((a) => [a.acronym, new Map(a.values.map((v) => [v.code, v.meaning]))]),
);

/** What a value of an attribute means; null where the value is not listed. */
export const meaningOf = (attribute: string, code: number): string | null =>
  MEANING.get(attribute)?.get(code) ?? null;
