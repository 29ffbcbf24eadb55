import { linearAt } from "../core/series.js";
import type { BedName } from "../holding/beds.js";
import { holdingOf, type Holding } from "../holding/holding.js";
import type { CheckedStay } from "./input.js";

type Anchor = CheckedStay["tackle"]["anchor"];

/** Holding of the anchor at any pull angle, ready to be asked often. */
export interface Grip {
  /** Holding for a horizontal pull, with its basis and cautions. */
  flat: Holding;
  /** Lowest credible holding at a pull angle, N; NaN where no figure is honest. */
  low: (angleDeg: number) => number;
  /** Likely holding at a pull angle, N; NaN where no figure is honest. */
  likely: (angleDeg: number) => number;
}

/** Angles at which the holding is asked; between them it runs straight, as the curve of the figures does. */
const ANGLES = Array.from({ length: 91 }, (_, i) => i);

/** Holding of an anchor over the pull angle: likely in `beds`, at the lowest in any bed that is possible. */
export function gripOf(
  anchor: Anchor,
  { beds, possible }: { beds: BedName[]; possible: BedName[] },
  provedN: number | undefined,
): Grip {
  const rows = rowsOf(anchor, beds, provedN);
  const worst = rowsOf(anchor, possible, provedN);
  const at = (y: Float64Array) => (angleDeg: number) =>
    linearAt(ANGLES, y, Math.min(90, Math.max(0, angleDeg)));
  return {
    flat: rows[0]!,
    low: at(Float64Array.from(worst, (r) => r.ultimateN?.low ?? NaN)),
    likely: at(Float64Array.from(rows, (r) => r.ultimateN?.likely ?? NaN)),
  };
}

/** Holding at every angle. What was proved was proved along the bottom: a lifted pull has the figures of the tables alone. */
const rowsOf = (anchor: Anchor, seabed: BedName[], provedN: number | undefined): Holding[] =>
  ANGLES.map((pullAngleDeg) =>
    holdingOf({
      anchor,
      seabed,
      pullAngleDeg,
      ...(provedN !== undefined && pullAngleDeg === 0 && { set: { provedN } }),
    }),
  );
