import type { Metres, Milliseconds } from "../core/units.js";

/** A high or low water. */
export interface Turn {
  /** Instant, UTC epoch milliseconds. */
  timeMs: Milliseconds;
  /** Height above the datum. */
  heightM: Metres;
  /** High or low water. */
  kind: "high" | "low";
}

interface Row {
  timeMs: number;
  heightM: number;
  kind?: "high" | "low" | undefined;
}

/** Kind of each turn: as stated, else by the neighbours; level neighbours alternate. */
export function withKinds(rows: readonly Row[]): Turn[] {
  const out: Turn[] = [];
  rows.forEach(({ timeMs, heightM, kind }, i) => {
    const up = above(rows, i, i - 1) + above(rows, i, i + 1);
    const byNeighbours = up > 0 ? "high" : "low";
    const opposite = out[i - 1]?.kind === "high" ? "low" : "high";
    out.push({
      timeMs,
      heightM,
      kind: kind ?? (up === 0 ? opposite : byNeighbours),
    });
  });
  return out;
}

const above = (rows: readonly Row[], i: number, j: number): number =>
  j in rows ? rows[i]!.heightM - rows[j]!.heightM : 0;

/**
 * Turns a printed table would keep: pairs of turns that differ by less than a share of the range
 * (its 90th percentile) are dropped, the least first.
 */
export function majorTurns(turns: readonly Turn[], share: number): Turn[] {
  const kept = [...turns];
  const ranges = kept
    .slice(1)
    .map((t, i) => Math.abs(t.heightM - kept[i]!.heightM))
    .sort((a, b) => a - b);
  const least = share * (ranges[Math.floor(0.9 * (ranges.length - 1))] ?? 0);
  for (;;) {
    let at = -1;
    let smallest = least;
    for (let i = 0; i + 1 < kept.length; i++) {
      const r = Math.abs(kept[i + 1]!.heightM - kept[i]!.heightM);
      if (r < smallest) [at, smallest] = [i, r];
    }
    if (at < 0) return kept;
    if (at === 0) kept.shift();
    else if (at + 2 === kept.length) kept.pop();
    else kept.splice(at, 2);
  }
}

/** Nearer than this two low waters belong to the same tide. */
const SAME_TIDE_MS = 7.5 * 3_600_000;

/** Low waters without a lower one close by: the dip of a double high water is left out. */
export const mainLows = (turns: readonly Turn[]): Turn[] => {
  const lows = turns.filter((t) => t.kind === "low");
  return lows.filter((t, i) =>
    lows.every(
      (o, j) =>
        i === j ||
        Math.abs(o.timeMs - t.timeMs) > SAME_TIDE_MS ||
        o.heightM > t.heightM ||
        (o.heightM === t.heightM && j > i),
    ),
  );
};
