import { linearAt } from "../core/series.js";
import { holdingOf, type Holding } from "../holding/holding.js";
import type { CheckedStay } from "./input.js";

type Anchor = CheckedStay["tackle"]["anchor"];
type Bed = Parameters<typeof holdingOf>[0]["seabed"];

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

/** Holding of an anchor in a bed over the pull angle. */
export function gripOf(
  anchor: Anchor,
  seabed: Bed,
  provedN: number | undefined,
): Grip {
  // What was proved was proved along the bottom: a lifted pull has the figures of the tables alone.
  const rows = ANGLES.map((pullAngleDeg) =>
    holdingOf({
      anchor,
      seabed,
      pullAngleDeg,
      ...(provedN !== undefined && pullAngleDeg === 0 && { set: { provedN } }),
    }),
  );
  const column = (end: "low" | "likely"): Float64Array =>
    Float64Array.from(rows, (r) => r.ultimateN?.[end] ?? NaN);
  const [low, likely] = [column("low"), column("likely")];
  const at = (y: Float64Array) => (angleDeg: number) =>
    linearAt(ANGLES, y, Math.min(90, Math.max(0, angleDeg)));
  return { flat: rows[0]!, low: at(low), likely: at(likely) };
}
