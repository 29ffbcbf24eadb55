import { bracketedRoot } from "../core/roots.js";
import { tabulatedLoad } from "./designLoad.js";
import { holdingOf } from "./holding.js";
import {
  outfit,
  row,
  type Outfit,
  type SizeInput,
  type SizeMethod,
  type SizeRow,
} from "./outfit.js";
import { CRAFT_SOURCE, NAVAL_CONDITIONS, SECOND_ANCHOR, TWO_ALIKE } from "./rules.js";

import { SAFETY_FACTORS } from "./tables.js";

/** Breaking stress of short-link chain of grade 30 on both sides of the link, Pa. */
const CHAIN_STRESS_PA = 300e6;
/** Working load of chain over its breaking load (DIN practice). */
const CHAIN_WORKING_SHARE = 0.25;
/** Breaking load of three-strand polyamide rope over its diameter squared, Pa; from memory. */
const ROPE_STRESS_PA = 208e6;
/** What is left of polyamide rope when wet (UFC 4-159-03, Table 3-7). */
const WET = 0.85;
/** Chain diameters made, mm (DIN 766). */
const CHAINS_MM = [6, 7, 8, 10, 12, 13, 14, 16, 18, 20, 22, 24, 26];
/** Rope diameters made, mm. */
const ROPES_MM = [10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 36, 40, 44, 48];

const nextUp = (sizes: readonly number[], mm: number): number | null =>
  sizes.find((size) => size >= mm) ?? null;

const chainFor = (loadN: number): number | null =>
  nextUp(
    CHAINS_MM,
    1000 * Math.sqrt((2 * loadN) / (CHAIN_WORKING_SHARE * CHAIN_STRESS_PA * Math.PI)),
  );

const ropeFor = (loadN: number): number | null =>
  nextUp(
    ROPES_MM,
    1000 * Math.sqrt((SAFETY_FACTORS.syntheticRope * loadN) / (WET * ROPE_STRESS_PA)),
  );

/** Mass that holds a load, at the low, likely or high holding of its kind; null where none up to 5 t does. */
function massFor(i: SizeInput, loadN: number, end: "low" | "likely" | "high"): number | null {
  const excess = (logMass: number) =>
    (holdingOf({
      anchor: { type: i.anchorType, massKg: Math.exp(logMass) },
      seabed: i.seabed,
      pullAngleDeg: 0,
    }).ultimateN?.[end] ?? 0) - loadN;
  const [least, most] = [Math.log(0.1), Math.log(5000)];
  if (!(excess(most) >= 0)) return null;
  if (excess(least) >= 0) return 0.1;
  return Math.exp(bracketedRoot(excess, least, most, 1e-9));
}

function outfitFor(i: SizeInput, holdN: number, loadN: number): Outfit {
  const massKg = massFor(i, holdN, "likely");
  const low = massFor(i, holdN, "high");
  return outfit({
    massKg,
    spreadKg: massKg === null ? null : { low: low ?? massKg, high: massFor(i, holdN, "low") },
    chainMm: chainFor(loadN),
    ropeMm: ropeFor(loadN),
  });
}

function loadRow(
  method: SizeMethod,
  i: SizeInput,
  loadN: number,
  factor: number,
  given: Partial<SizeRow>,
): SizeRow {
  const bower = outfitFor(i, loadN * factor, loadN);
  const applies = bower.massKg !== null;
  return row(method, {
    ...given,
    basis: [...(given.basis ?? []), CRAFT_SOURCE],
    applies,
    note: applies ? (given.note ?? "") : "no honest figure of holding for this anchor and bed",
    loadN,
    twoAlikeKg: bower.massKg === null ? null : TWO_ALIKE * bower.massKg,
    bower,
    kedge: outfitFor(i, loadN * factor * SECOND_ANCHOR, loadN * SECOND_ANCHOR),
  });
}

/** The tabulated load by length and wind, through the holding of this anchor and bed. */
export function tableMethod(i: SizeInput): SizeRow {
  const high = i.vessel.kind === "catamaran" || i.vessel.kind === "motorBoat";
  const { loadN, basis } = tabulatedLoad({
    lengthM: i.vessel.lengthM,
    windMps: i.designWindMps,
    windage: high ? "high" : "traditional",
  });
  if (loadN === null)
    return row("loadTable", {
      applies: false,
      note: "longer than the table's 70 ft",
      basis: [basis],
    });
  return loadRow("loadTable", i, loadN, SAFETY_FACTORS.shipAnchoring, {
    note: high
      ? "half as much again for high windage; surge and yawing are in the table"
      : "surge and yawing are in the table",
    basis: [basis],
  });
}

/** The pull reckoned for the vessel, with its factor. */
export function pullMethod(i: SizeInput): SizeRow {
  if (i.pullN === undefined) return row("reckonedPull", { applies: false, note: "no pull given" });
  return loadRow("reckonedPull", i, i.pullN, i.factor, {
    note: `factor ${i.factor} on the pull; naval ships reckon with the weather beside`,
    conditions: NAVAL_CONDITIONS,
    basis: [
      {
        title: "UFC 4-159-03, Design: Moorings",
        where: "Table 3-7: 2.0 on high-efficiency drag anchors",
        provenance: "read",
      },
    ],
  });
}
