import type { PieceData, RodeData } from "../src/rode/prepare.js";

const RAD = Math.PI / 180;

/** How a rode lies, by {@link lieByBisection}. */
export interface Lie {
  reachM: number;
  heightM: number;
  bowVerticalN: number;
  anchorHorizontalN: number;
  anchorVerticalN: number;
  onBottomM: number;
  stretchM: number;
  /** Share of a weight at the touchdown that is lifted; NaN without one. */
  liftedShare: number;
  /** Whether it keeps off the bed above the touchdown, and below the bow; asked where something floats. */
  clear: boolean;
}

interface Part extends PieceData {
  /** Weight hung at its lower end. */
  hungN: number;
}

/** Parts from the bow to the anchor, cut where something hangs. */
function partsOf(rode: RodeData): Part[] {
  const parts: Part[] = [];
  let from = 0;
  for (const s of rode.segments) {
    const to = from + s.lengthM;
    const hung = (rode.weights ?? []).filter((w) => w.fromAnchorM >= from && w.fromAnchorM < to);
    const cuts = [...new Set([from, ...hung.map((w) => w.fromAnchorM), to])].sort((a, b) => a - b);
    for (const [k, at] of cuts.slice(0, -1).entries()) {
      const here = hung.filter((w) => w.fromAnchorM === at);
      const hungN = here.reduce((sum, w) => sum + w.weightInWaterN, 0);
      parts.push({ ...s, lengthM: cuts[k + 1]! - at, hungN });
    }
    from = to;
  }
  return parts.reverse();
}

/** asinh(b / h) - asinh(a / h), by the addition theorem where both have one sign. */
function turn(h: number, a: number, b: number, ta: number, tb: number): number {
  if (a < 0 && b > 0) return Math.asinh(b / h) - Math.asinh(a / h);
  return a < b ? Math.asinh(((b - a) * (a + b)) / (b * ta + a * tb)) : 0;
}

/** Elastic catenary of `l` metres whose vertical load grows to `vb` at the upper end: how far across and up, and its stretch. */
function span(
  { weightInWaterNPerM: w, axialStiffnessN: ea }: Part,
  l: number,
  h: number,
  vb: number,
) {
  const va = vb - w * l;
  const [ta, tb] = [Math.sqrt(h * h + va * va), Math.sqrt(h * h + vb * vb)];
  if (!(l > 0)) return { x: 0, z: 0, stretch: 0, va, ta };
  const across = h > 0 ? (h / w) * turn(h, va, vb, ta, tb) : 0;
  const up = ((va + vb) / (ta + tb)) * l;
  const spread = (ta + tb + ((va + vb) * (va + vb)) / (ta + tb)) * l;
  return {
    x: across + (h * l) / ea,
    z: up + ((va + vb) * l) / (2 * ea),
    stretch: (spread / 2 + h * across) / (2 * ea),
    va,
    ta,
  };
}

/** The bed beneath a rode: its slope, and the tension lost along it for a newton of rode. */
interface Bed {
  sin: number;
  cos: number;
  tan: number;
  drag: number;
}

/** The parts along the bed from `top` down, `l` metres of the first; `tension` where they begin. */
function alongBed(parts: Part[], top: number, l: number, tension: number, bed: Bed) {
  let [onBottomM, stretch, t] = [0, 0, tension];
  for (const [k, part] of parts.slice(top).entries()) {
    const length = k === 0 ? l : part.lengthM;
    const lost = bed.drag * part.weightInWaterNPerM;
    const tight = lost > 0 ? Math.min(length, t / lost) : length;
    const end = t - lost * tight;
    stretch += (tight * (t + end)) / 2 / part.axialStiffnessN;
    onBottomM += length;
    t = Math.max(0, end - bed.drag * part.hungN);
  }
  return { onBottomM, stretch, t };
}

/** The rode under its loads at the bow, put together from the bow down. */
function laidTo(parts: Part[], firstFree: number, bed: Bed, h: number, v: number): Lie {
  const bedV = h * bed.tan;
  const lie = {
    reachM: 0,
    heightM: 0,
    bowVerticalN: v,
    stretchM: 0,
    liftedShare: NaN,
    clear: true,
  };
  let vb = v;
  for (const [k, part] of parts.entries()) {
    const mayLie = k > firstFree;
    const whole = part.weightInWaterNPerM * part.lengthM;
    const lies = mayLie && vb - whole <= bedV;
    const l = lies ? Math.max(0, vb - bedV) / part.weightInWaterNPerM : part.lengthM;
    const { x, z, stretch, va } = span(part, l, h, vb);
    lie.reachM += x;
    lie.heightM += z;
    lie.stretchM += stretch;
    if (lies) return grounded(parts, k, part.lengthM - l, h / bed.cos, bed, lie);
    vb = va - part.hungN;
    if (mayLie && part.hungN > 0 && vb < bedV) {
      lie.liftedShare = (va - bedV) / part.hungN;
      const tension = h / bed.cos - (bedV - vb) * bed.drag;
      return grounded(parts, k + 1, parts[k + 1]!.lengthM, Math.max(0, tension), bed, lie);
    }
  }
  return { ...lie, anchorHorizontalN: h, anchorVerticalN: vb, onBottomM: 0 };
}

type Hanging = Omit<Lie, "anchorHorizontalN" | "anchorVerticalN" | "onBottomM">;

function grounded(
  parts: Part[],
  top: number,
  l: number,
  tension: number,
  bed: Bed,
  lie: Hanging,
): Lie {
  const { onBottomM, stretch, t } = alongBed(parts, top, l, tension, bed);
  return {
    ...lie,
    reachM: lie.reachM + bed.cos * (onBottomM + stretch),
    heightM: lie.heightM + bed.sin * (onBottomM + stretch),
    stretchM: lie.stretchM + stretch,
    onBottomM,
    anchorHorizontalN: t * bed.cos,
    anchorVerticalN: t * bed.sin,
  };
}

/** Whether a rode with floats keeps off the bed and below the bow: looked at in many places of what hangs. */
function isClear(parts: Part[], firstFree: number, bed: Bed, h: number, lie: Lie): boolean {
  const length = parts.reduce((sum, p) => sum + p.lengthM, 0);
  let [x, z, vb] = [lie.reachM, lie.heightM, lie.bowVerticalN];
  for (const part of parts.slice(0, firstFree + 1)) {
    for (let i = 0; i <= 100; i++) {
      const { x: across, z: up } = span(part, (part.lengthM * i) / 100, h, vb);
      if (z - up < bed.tan * (x - across) - 1e-9 * length) return false;
      if (z - up > lie.heightM + 1e-9 * length) return false;
    }
    const { x: across, z: up, va } = span(part, part.lengthM, h, vb);
    x -= across;
    z -= up;
    vb = va - part.hungN;
  }
  return true;
}

/**
 * The lie of a rode under a horizontal load by the plainest way there is: put together piece by piece
 * from the bow down, and the vertical load at the bow halved in on until two numbers next to each
 * other are left. Undefined where the height is not to be had.
 */
export function lieByBisection(rode: RodeData, heightM: number, h: number): Lie | undefined {
  const parts = partsOf(rode);
  const slope = (rode.seabedSlopeDeg ?? 0) * RAD;
  const bed = {
    sin: Math.sin(slope),
    cos: Math.cos(slope),
    tan: Math.tan(slope),
    drag: Math.sin(slope) + (rode.bedFriction ?? 0) * Math.cos(slope),
  };
  // Of what a float bears nothing comes to lie: the last, from the bow down, that one floats beneath.
  const firstFree = parts.findLastIndex((p) => p.hungN < 0);
  const borne = parts.slice(0, firstFree + 1);
  const bornN = borne.reduce((sum, p) => sum + p.hungN + p.lengthM * p.weightInWaterNPerM, 0);
  let low = h * bed.tan + bornN;
  const at = (v: number) => laidTo(parts, firstFree, bed, h, v);
  if (at(low).heightM > heightM) return undefined;
  let step = 1 + h;
  while (at(low + step).heightM < heightM) step *= 4;
  let high = low + step;
  for (;;) {
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) break;
    if (at(middle).heightM < heightM) low = middle;
    else high = middle;
  }
  const lie = at(high);
  return { ...lie, clear: firstFree < 0 || isClear(parts, firstFree, bed, h, lie) };
}
