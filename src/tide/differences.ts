import type { Turn } from "./kinds.js";
import type { Differences } from "./difference-table.js";

const HOUR_MS = 3_600_000;
const DAY_H = 24;

/** A turn at the secondary port. */
export interface SecondaryTurn extends Turn {
  /** The standard port's height lay beyond the tabulated ones. */
  extrapolated: boolean;
}

/** Turn of a secondary port from a turn of its standard port. */
export function applyDifferences(turn: Turn, d: Differences): SecondaryTurn {
  const high = turn.kind === "high";
  const seasonal = d.seasonal ?? { standardM: 0, secondaryM: 0 };
  const standardM = turn.heightM - seasonal.standardM;
  const height = heightAt(standardM, high ? d.highHeight : d.lowHeight, d.beyond);
  return {
    timeMs:
      turn.timeMs +
      timeDifference(turn.timeMs + d.tableZoneHours * HOUR_MS, high ? d.highTime : d.lowTime),
    heightM: height.heightM + seasonal.secondaryM,
    kind: turn.kind,
    extrapolated: height.extrapolated,
  };
}

/** Time difference at a zone time, linear between hours of the day, round the clock. */
function timeDifference(zoneMs: number, rows: Differences["highTime"]): number {
  const hour = (((zoneMs / HOUR_MS) % DAY_H) + DAY_H) % DAY_H;
  const sorted = rows
    .map((r) => ({ at: r.hourOfDay % DAY_H, value: r.differenceMs }))
    .sort((a, b) => a.at - b.at);
  const before = sorted.findLast((r) => r.at <= hour) ?? sorted.at(-1)!;
  const after = sorted.find((r) => r.at > hour) ?? sorted[0]!;
  const span = (after.at - before.at + DAY_H) % DAY_H;
  if (span === 0) return before.value;
  const part = ((hour - before.at + DAY_H) % DAY_H) / span;
  return before.value + part * (after.value - before.value);
}

function heightAt(
  standardM: number,
  rule: Differences["highHeight"],
  beyond: Differences["beyond"],
): { heightM: number; extrapolated: boolean } {
  if ("ratio" in rule) return { heightM: rule.ratio * standardM + rule.addM, extrapolated: false };
  const rows = [...rule.rows].sort((a, b) => a.standardHeightM - b.standardHeightM);
  const first = rows[0]!;
  const last = rows.at(-1)!;
  if (rows.length === 1) return { heightM: standardM + first.differenceM, extrapolated: false };
  const at =
    beyond === "constant"
      ? Math.min(last.standardHeightM, Math.max(first.standardHeightM, standardM))
      : standardM;
  const i = Math.min(
    rows.length - 2,
    Math.max(
      0,
      rows.findLastIndex((r) => r.standardHeightM <= at),
    ),
  );
  const a = rows[i]!;
  const b = rows[i + 1]!;
  const part = (at - a.standardHeightM) / (b.standardHeightM - a.standardHeightM);
  return {
    heightM: standardM + a.differenceM + part * (b.differenceM - a.differenceM),
    extrapolated: !(standardM >= first.standardHeightM && standardM <= last.standardHeightM),
  };
}
