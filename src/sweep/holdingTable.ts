import { linearAt } from "../core/series.js";
import { anchorTypes, bedNames } from "../holding/beds.js";
import { holdingOf } from "../holding/holding.js";

/** Masses between which the holding is straight in logarithms, kg. */
const LEAST_KG = 1;
const MOST_KG = 500;
const MASSES = 2049;
const LOG_LEAST = Math.log(LEAST_KG);
const LOG_STEP = (Math.log(MOST_KG) - LOG_LEAST) / (MASSES - 1);

/** Bounds of the anchor's mass in a sweep, kg. */
export const MASS_BOUNDS = { min: LEAST_KG, max: MOST_KG } as const;

/** Holding of one type of anchor in one bed, ready to be asked often. */
export interface HoldingTable {
  /** Likely and lowest credible holding for a pull along the bed at a mass, N; NaN where no figure is honest. */
  likelyN: (massKg: number) => number;
  lowN: (massKg: number) => number;
  /** Share of it left at a pull angle, likely and low. */
  shareAt: (angleDeg: number) => number;
  lowShareAt: (angleDeg: number) => number;
}

const ANGLES = Array.from({ length: 91 }, (_, i) => i);

/** Holding of an anchor type in a bed, by their places in the lists of words. Masses not varied are exact; between masses of the table it is straight in logarithms, within 1e-4. */
export function holdingTable(type: number, bed: number, massVaries: boolean): HoldingTable {
  const at = (massKg: number, pullAngleDeg = 0) =>
    holdingOf({
      anchor: { type: anchorTypes[type]!, massKg },
      seabed: bedNames[bed]!,
      pullAngleDeg,
    });
  const shares = ANGLES.map((a) => at(15, a).upliftShare);
  const share = (of: "likely" | "low") => {
    const y = Float64Array.from(shares, (s) => s[of]);
    return (deg: number) => linearAt(ANGLES, y, Math.min(90, Math.max(0, deg)));
  };
  const byMass = (of: "likely" | "low") =>
    massVaries
      ? logTable((m) => at(m).ultimateN?.[of] ?? NaN)
      : lastOf((m) => at(m).ultimateN?.[of] ?? NaN);
  return {
    likelyN: byMass("likely"),
    lowN: byMass("low"),
    shareAt: share("likely"),
    lowShareAt: share("low"),
  };
}

/** A function that is asked the same thing again and again. */
function lastOf(f: (x: number) => number): (x: number) => number {
  let x0 = NaN;
  let y0 = NaN;
  return (x) => {
    if (x !== x0) {
      x0 = x;
      y0 = f(x);
    }
    return y0;
  };
}

/** A power law, or a few that cut each other, straight in logarithms between masses. */
function logTable(f: (massKg: number) => number): (massKg: number) => number {
  const values = Float64Array.from({ length: MASSES }, (_, i) =>
    f(Math.exp(LOG_LEAST + i * LOG_STEP)),
  );
  if (values.some((v) => !(v > 0))) return () => values[0]!;
  const logs = values.map(Math.log);
  return (massKg) => {
    const at = (Math.log(massKg) - LOG_LEAST) / LOG_STEP;
    const i = Math.min(MASSES - 2, Math.max(0, Math.floor(at)));
    return Math.exp(logs[i]! + (at - i) * (logs[i + 1]! - logs[i]!));
  };
}
