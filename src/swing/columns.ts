import type { LieColumns } from "./kernel.js";
import type { Anchored } from "./vessel.js";

/** Moments of a vessel as columns; a direction that is not known becomes NaN. */
export function columnsOf(moments: Anchored["moments"]): LieColumns {
  const column = (of: (m: Anchored["moments"][number]) => number | null) =>
    Float64Array.from(moments, (m) => of(m) ?? NaN);
  return {
    reachM: column((m) => m.reachM),
    pullTowardsDeg: column((m) => m.pullTowardsDeg),
    headingDeg: column((m) => m.headingDeg),
    sheerDeg: column((m) => m.sheerDeg),
    yawDeg: column((m) => m.yawDeg ?? m.sheerDeg),
  };
}

/** Greatest reach of a vessel over her stay. */
export const greatestReach = (v: Anchored): number =>
  v.moments.reduce((most, m) => Math.max(most, m.reachM), v.reachM ?? 0);

/** Columns of a vessel at given times, ascending; at a time that is not among her moments she may lie anywhere in her greatest reach. */
export function columnsAt(v: Anchored, timesMs: readonly number[]): LieColumns {
  const reach = greatestReach(v);
  const known = new Map(v.moments.map((m) => [m.timeMs as number, m]));
  return columnsOf(
    timesMs.map(
      (timeMs) =>
        known.get(timeMs) ?? {
          timeMs,
          reachM: reach,
          pullTowardsDeg: null,
          headingDeg: null,
          sheerDeg: 0,
        },
    ),
  );
}
