import { outfit, row, type SizeInput, type SizeRow } from "./outfit.js";
import {
  CODE_SOURCE,
  codeLeastKg,
  codeRow,
  CRAFT_SOURCE,
  EQUIPMENT_CONDITIONS,
  EQUIPMENT_SOURCE,
  equipmentNumber,
  equipmentRow,
  FISHING_SOURCE,
  fishingAnchors,
  LINE_SOURCE,
  ORDINARY_ANCHOR,
  recreationalLine,
} from "./rules.js";
import { ANCHORS } from "./tables.js";

/** The small commercial vessel code, by mean length; ordinary anchors a third heavier. */
export function codeMethod(i: SizeInput): SizeRow {
  const found = codeRow((i.vessel.lengthM + i.vessel.waterlineM) / 2);
  if (found === null)
    return row("codeTable", {
      applies: false,
      note: "longer than the table's 24 m",
      basis: [CODE_SOURCE],
    });
  const least = codeLeastKg(found, i.areaCategory);
  const heavier = ANCHORS[i.anchorType].highHolding ? 1 : ORDINARY_ANCHOR;
  return row("codeTable", {
    note:
      heavier > 1
        ? "a third more for an ordinary anchor; more for high windage"
        : "more for high windage",
    bower: outfit({
      massKg: least.mainKg * heavier,
      chainMm: found.mainChainMm,
      ropeMm: found.mainRopeMm,
    }),
    kedge: outfit({
      massKg: least.kedgeKg === null ? null : least.kedgeKg * heavier,
      chainMm: found.kedgeChainMm,
      ropeMm: found.kedgeRopeMm,
    }),
    basis: heavier > 1 ? [CODE_SOURCE, CRAFT_SOURCE] : [CODE_SOURCE],
  });
}

/** The equipment number and its table of stockless anchors. */
export function equipmentMethod(i: SizeInput): SizeRow {
  const number = equipmentNumber(
    i.vessel.displacementKg / 1000,
    i.vessel.beamM,
    i.vessel.houseHeightM,
    i.vessel.windageSideM2,
  );
  const found = equipmentRow(number);
  const base = {
    equipmentNumber: number,
    conditions: EQUIPMENT_CONDITIONS,
    basis: [EQUIPMENT_SOURCE],
  };
  if (found === null)
    return row("equipmentNumber", {
      ...base,
      applies: false,
      note:
        number < 50 ? "below the table, which starts at 50" : "beyond the table, which ends at 205",
    });
  return row("equipmentNumber", {
    ...base,
    note: `stockless anchors, ${found.anchors} carried; stud-link chain, grade 1`,
    bower: outfit({
      massKg: found.bowerKg,
      chainMm: found.chainGrade1Mm,
      chainM: found.chainM,
    }),
    kedge: outfit({ massKg: found.streamAnchorKg }),
  });
}

/** The fishing vessel rule by length x breadth x depth. */
export function fishingMethod(i: SizeInput): SizeRow {
  const { vessel: v } = i;
  const depthM = i.depthM ?? v.freeboardM + v.hullDraughtM;
  const { totalKg, patentKg, mainKg } = fishingAnchors(v.lengthM * v.beamM * depthM);
  const patent = ANCHORS[i.anchorType].highHolding;
  const all = patent ? patentKg : totalKg;
  return row("fishingVesselRule", {
    note: patent
      ? "made for fishing vessels; 40 % less for approved patent anchors"
      : "made for fishing vessels",
    bower: outfit({ massKg: mainKg === null ? all : 0.6 * all }),
    kedge: outfit({ massKg: mainKg === null ? null : 0.4 * all }),
    basis: [FISHING_SOURCE],
  });
}

/** The line that recreational craft carry. */
export function lineMethod(i: SizeInput): SizeRow {
  const { chainM, lineM } = recreationalLine(i.vessel.lengthM);
  return row("recreationalLine", {
    note: "lengths only; made for recreational craft with a high-holding-power anchor",
    bower: outfit({ chainM, ropeM: lineM }),
    basis: [LINE_SOURCE],
  });
}
