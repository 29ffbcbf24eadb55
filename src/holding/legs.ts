/** Where a vessel on two legs lies and what each bears. */
export interface Legs {
  /** Position along the line from the first anchor to the second, m from the first. */
  alongM: number;
  /** Position across that line, to the left, m. */
  acrossM: number;
  /** Pull on the first leg, N. */
  firstN: number;
  /** Pull on the second leg, N. */
  secondN: number;
}

/**
 * Vessel on two taut legs of reach `r1` and `r2` from anchors `apart`, under a pull whose direction is
 * given along and across their line. She lies as far the way she is pulled as both legs allow: at the
 * end of one leg, or in the corner where both are tight.
 */
export function onTwoLegs(
  apart: number,
  r1: number,
  r2: number,
  pullN: number,
  along: number,
  across: number,
): Legs {
  const end1 = { alongM: r1 * along, acrossM: r1 * across };
  if (within(end1.alongM - apart, end1.acrossM, r2)) return { ...end1, firstN: pullN, secondN: 0 };
  const end2 = { alongM: apart + r2 * along, acrossM: r2 * across };
  if (within(end2.alongM, end2.acrossM, r1)) return { ...end2, firstN: 0, secondN: pullN };
  return inCorner(apart, r1, r2, pullN, along, across);
}

const within = (x: number, y: number, r: number): boolean => x * x + y * y <= r * r * (1 + 1e-12);

/** Corner where both circles meet, on the side of the pull; the pull shared between the legs. */
function inCorner(
  apart: number,
  r1: number,
  r2: number,
  pullN: number,
  along: number,
  across: number,
): Legs {
  const alongM = (apart * apart + r1 * r1 - r2 * r2) / (2 * apart);
  const height = Math.sqrt(Math.max(0, r1 * r1 - alongM * alongM));
  const acrossM = across < 0 ? -height : height;
  // Unit vectors of the legs, anchor to bow; T1 u1 + T2 u2 = F.
  const [u1, v1] = [alongM / r1, acrossM / r1];
  const [u2, v2] = [(alongM - apart) / r2, acrossM / r2];
  const det = u1 * v2 - u2 * v1;
  return {
    alongM,
    acrossM,
    firstN: (pullN * (along * v2 - across * u2)) / det,
    secondN: (pullN * (across * u1 - along * v1)) / det,
  };
}

/** Area common to two circles, m²: where a bow on two legs can be. */
export function lensArea(apart: number, r1: number, r2: number): number {
  if (apart >= r1 + r2) return 0;
  const least = Math.min(r1, r2);
  if (apart <= Math.abs(r1 - r2)) return Math.PI * least * least;
  const segment = (r: number, d: number) =>
    r * r * Math.acos(d / r) - d * Math.sqrt(Math.max(0, r * r - d * d));
  const d1 = (apart * apart + r1 * r1 - r2 * r2) / (2 * apart);
  return segment(r1, d1) + segment(r2, apart - d1);
}
