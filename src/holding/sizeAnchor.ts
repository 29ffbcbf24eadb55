import type * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Range3 } from "../core/judgement.js";
import type { Kilograms } from "../core/units.js";
import { pullMethod, tableMethod } from "./byLoad.js";
import { codeMethod, equipmentMethod, fishingMethod, lineMethod } from "./byRule.js";
import { sizeAnchorInput, type SizeInput, type SizeMethod, type SizeRow } from "./outfit.js";

/** Sizes of anchors by every method. */
export interface AnchorSizes {
  /** One row a method, applicable or not. */
  rows: SizeRow[];
  /** Heaviest bower anchor asked for and by whom; null where no method applies. */
  strictestBower: {
    /** The method that asks for most. */
    method: SizeMethod;
    /** What it asks for. */
    massKg: Kilograms;
  } | null;
  /** Heaviest kedge asked for and by whom; null where no method applies. */
  strictestKedge: {
    /** The method that asks for most. */
    method: SizeMethod;
    /** What it asks for. */
    massKg: Kilograms;
  } | null;
  /** Spread of the methods over the bower anchor, kg; null where no method applies. */
  bowerSpreadKg: Range3<Kilograms> | null;
  /** Figures that were taken for want of given ones. */
  assumed: string[];
}

/**
 * Bower anchor, kedge and cables by every published method side by side, the strictest marked.
 *
 * The tabulated load and the reckoned pull turned into a mass through the holding of this type on this
 * bed; the equipment number; the small commercial vessel code; a fishing vessel rule; and the line that
 * recreational craft carry. The methods differ by a factor of several because they assume different
 * loads, beds and anchors; no mean of them is offered. Leaves out what one skipper can weigh by hand.
 *
 * *Valid*: each row where it says that it applies. *Accuracy*: rules exact; load methods a factor of two.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source IACS Recommendation 10; small commercial vessel code, Table 20.1; Fishing Vessel Safety Regulations, s. 43; Loads on Ground Tackle
 * @example
 * ```ts
 * import { knots, sizeAnchor, vesselFrom } from "hawse";
 * const vessel = vesselFrom({ kind: "yacht", lengthM: 12 });
 * const sizes = sizeAnchor({ vessel, designWindMps: knots(30), seabed: "sand, firm", anchorType: "rollBarScoop" });
 * for (const row of sizes.rows) if (row.applies) console.log(row.method, row.bower.massKg?.toFixed(0) ?? "-", row.bower.chainMm ?? "-");
 * // loadTable 19 7
 * // codeTable 18 8
 * // fishingVesselRule 31 -
 * // recreationalLine - -
 * ```
 */
export const sizeAnchor = (input: Given<typeof sizeAnchorInput>): AnchorSizes =>
  anchorSizes(check(sizeAnchorInput, input));

/** {@link sizeAnchor} without the check. */
export function anchorSizes(given: z.output<typeof sizeAnchorInput>): AnchorSizes {
  const input: SizeInput = { ...given, anchorType: given.anchorType ?? "claw" };
  const rows = [
    tableMethod(input),
    pullMethod(input),
    codeMethod(input),
    equipmentMethod(input),
    fishingMethod(input),
    lineMethod(input),
  ];
  const bower = heaviest(rows, (r) => r.bower.massKg);
  const kedge = heaviest(rows, (r) => r.kedge.massKg);
  bower?.row.strictest.push("bower");
  kedge?.row.strictest.push("kedge");
  heaviest(rows, (r) => r.bower.chainMm)?.row.strictest.push("bowerChain");
  heaviest(rows, (r) => r.kedge.chainMm)?.row.strictest.push("kedgeChain");
  const masses = rows
    .flatMap((r) => (r.applies && r.bower.massKg !== null ? [r.bower.massKg] : []))
    .sort((a, b) => a - b);
  return {
    rows,
    strictestBower: named(bower),
    strictestKedge: named(kedge),
    bowerSpreadKg:
      masses.length === 0
        ? null
        : {
            low: masses[0]!,
            likely: masses[masses.length >> 1]!,
            high: masses[masses.length - 1]!,
          },
    assumed: [
      ...(given.anchorType === undefined ? ["anchorType"] : []),
      ...(given.depthM === undefined ? ["depthM"] : []),
    ],
  };
}

interface Found {
  row: SizeRow;
  value: number;
}

function heaviest(rows: SizeRow[], of: (row: SizeRow) => number | null): Found | null {
  let best: Found | null = null;
  for (const row of rows) {
    const value = row.applies ? of(row) : null;
    if (value !== null && (best === null || value > best.value)) best = { row, value };
  }
  return best;
}

const named = (found: Found | null) => found && { method: found.row.method, massKg: found.value };
