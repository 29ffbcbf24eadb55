import type { Range3 } from "../core/judgement.js";
import type { BedName } from "../holding/beds.js";
import { holdingOf, upliftAt, type Holding } from "../holding/holding.js";
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

/** Share left at every whole degree; between them it runs straight, as the curve of the figures does. */
const LEFT = /* @__PURE__ */ Array.from({ length: 91 }, (_, deg) => upliftAt(deg));

function left(angleDeg: number, end: keyof Range3): number {
  if (Number.isNaN(angleDeg)) return NaN;
  const angle = Math.min(90, Math.max(0, angleDeg));
  const i = Math.floor(angle);
  const here = LEFT[i]![end];
  return i === angle ? here : here + (angle - i) * (LEFT[i + 1]![end] - here);
}

/** Holding of an anchor over the pull angle: likely in `beds`, at the lowest in any bed that is possible. */
export function gripOf(
  anchor: Anchor,
  { beds, possible }: { beds: BedName[]; possible: BedName[] },
  provedN: number | undefined,
): Grip {
  const onBed = (seabed: BedName[]) => holdingOf({ anchor, seabed, pullAngleDeg: 0 });
  const likely = onBed(beds).ultimateN;
  const spreadN = {
    low: onBed(possible).ultimateN?.low ?? NaN,
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
