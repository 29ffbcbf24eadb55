import type { Range3 } from "../core/judgement.js";
import { linearAt } from "../core/series.js";
import type { BedName } from "../holding/beds.js";
import { holdingOf, type Holding } from "../holding/holding.js";
import type { CheckedStay } from "./input.js";

type Anchor = CheckedStay["tackle"]["anchor"];

/** Holding of the anchor at any pull angle, ready to be asked often. */
export interface Grip {
  /** Holding for a horizontal pull, with its basis and cautions. */
  flat: Holding;
  /** Holding for a horizontal pull by the tables alone, the low end in the worst bed that is possible; NaN where no figure is honest. */
  spreadN: Range3;
  /** Share of the horizontal holding left at a pull angle. */
  left: (angleDeg: number, end: keyof Range3) => number;
  /** Lowest credible holding at a pull angle, N; NaN where no figure is honest. */
  low: (angleDeg: number) => number;
  /** Likely holding at a pull angle, N; NaN where no figure is honest. */
  likely: (angleDeg: number) => number;
}

/** Angles at which the share left is asked; between them it runs straight, as the curve of the figures does. */
const ANGLES = Array.from({ length: 91 }, (_, i) => i);

/** Holding of an anchor over the pull angle: likely in `beds`, at the lowest in any bed that is possible. */
export function gripOf(
  anchor: Anchor,
  { beds, possible }: { beds: BedName[]; possible: BedName[] },
  provedN: number | undefined,
): Grip {
  const onBed = (seabed: BedName[], pullAngleDeg: number) =>
    holdingOf({ anchor, seabed, pullAngleDeg });
  const shares = ANGLES.map((deg) => onBed(beds, deg).upliftShare);
  const columns = {
    low: shares.map((s) => s.low),
    likely: shares.map((s) => s.likely),
    high: shares.map((s) => s.high),
  };
  const left = (angleDeg: number, end: keyof Range3): number =>
    linearAt(ANGLES, columns[end], Math.min(90, Math.max(0, angleDeg)));
  const likely = onBed(beds, 0).ultimateN;
  const spreadN = {
    low: onBed(possible, 0).ultimateN?.low ?? NaN,
    likely: likely?.likely ?? NaN,
    high: likely?.high ?? NaN,
  };
  // What was proved along the bed is the least; of a lifted pull, the share that is left.
  const at = (end: "low" | "likely") => (angleDeg: number) =>
    Math.max(spreadN[end], provedN ?? 0) * left(angleDeg, end);
  return {
    flat: holdingOf({
      anchor,
      seabed: beds,
      pullAngleDeg: 0,
      ...(provedN !== undefined && { set: { provedN } }),
    }),
    spreadN,
    left,
    low: at("low"),
    likely: at("likely"),
  };
}
