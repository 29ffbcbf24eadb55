import type { LayRodeInput } from "../../src/rode/index.js";

/** What both independent methods answer. */
export interface Reference {
  reachM: number;
  bowVerticalN: number;
  anchorTensionN: number;
  onBottomM: number;
}

const RAD = Math.PI / 180;
const STEPS = 400;

/** One stretch of uniform line between weights, with the weight at its lower end. */
interface Part {
  from: number;
  to: number;
  w: number;
  ea: number;
  hung: number;
}

function partsOf(rode: LayRodeInput): Part[] {
  const parts: Part[] = [];
  let at = 0;
  for (const s of rode.segments) {
    const end = at + s.lengthM;
    const cuts = (rode.weights ?? [])
      .map((p) => p.fromAnchorM)
      .filter((m) => m > at && m < end)
      .sort((a, b) => a - b);
    for (const [i, from] of [at, ...cuts].entries()) {
      const hung = (rode.weights ?? [])
        .filter((p) => p.fromAnchorM === from)
        .reduce((sum, p) => sum + p.weightInWaterN, 0);
      parts.push({
        from,
        to: cuts[i] ?? end,
        w: s.weightInWaterNPerM,
        ea: s.axialStiffnessN,
        hung,
      });
    }
    at = end;
  }
  return parts;
}

/**
 * The cable equations in unstretched arc length, integrated from the anchor to the bow by the
 * classical Runge–Kutta method, and shooting by bisection: for the length on the bed, for the
 * lifted share of a weight at the touchdown, or for the vertical load at the anchor.
 */
export function byIntegration(rode: LayRodeInput): Reference {
  const parts = partsOf(rode);
  const h = rode.horizontalLoadN;
  const slope = (rode.seabedSlopeDeg ?? 0) * RAD;
  const mu = rode.bedFriction ?? 0;
  const length = parts.at(-1)!.to;
  const bedV = h * Math.tan(slope);
  const drag = Math.sin(slope) + mu * Math.cos(slope);

  /** From touchdown at `td` with vertical load `v` there, or from the anchor when `td` is 0. */
  const shoot = (td: number, v0: number) => {
    let [x, z, v] = [0, 0, v0];
    for (const part of parts) {
      if (part.to <= td) continue;
      const from = Math.max(part.from, td);
      if (part.from > td) v += part.hung;
      const ds = (part.to - from) / STEPS;
      const slopeAt = (vv: number) => {
        const t = Math.sqrt(h * h + vv * vv);
        return [h / t + h / part.ea, vv / t + vv / part.ea] as const;
      };
      for (let i = 0; i < STEPS; i++) {
        const a = slopeAt(v);
        const b = slopeAt(v + (part.w * ds) / 2);
        const c = slopeAt(v + part.w * ds);
        x += (ds / 6) * (a[0] + 4 * b[0] + c[0]);
        z += (ds / 6) * (a[1] + 4 * b[1] + c[1]);
        v += part.w * ds;
      }
    }
    return { x, z, v };
  };
  /** Stretched length and anchor tension of the bed part below `td`, tension falling step by step. */
  const bed = (td: number, tension: number) => {
    let stretched = 0;
    let t = Math.max(0, tension);
    for (const part of [...parts].reverse()) {
      if (part.from >= td) continue;
      const ds = (Math.min(part.to, td) - part.from) / (20 * STEPS);
      for (let i = 0; i < 20 * STEPS; i++) {
        const next = Math.max(0, t - drag * part.w * ds);
        stretched += ds * (1 + (t + next) / 2 / part.ea);
        t = next;
      }
      t = Math.max(0, t - drag * part.hung);
    }
    return { stretched, t };
  };
  const grounded = (td: number, v0: number, tension: number) => {
    const hanging = shoot(td, v0);
    const { stretched, t } = bed(td, tension);
    return {
      z: hanging.z + Math.sin(slope) * stretched,
      reachM: hanging.x + Math.cos(slope) * stretched,
      bowVerticalN: hanging.v,
      anchorTensionN: t,
      onBottomM: td,
    };
  };
  const lifted = (v0: number) => {
    const { x, z, v } = shoot(0, v0);
    const anchorTensionN = Math.sqrt(h * h + v0 * v0);
    return { z, reachM: x, bowVerticalN: v, anchorTensionN, onBottomM: 0 };
  };
  const target = rode.bowHeightAboveAnchorM;
  const bisect = <T extends { z: number }>(
    f: (u: number) => T,
    lower: number,
    upper: number,
  ): [T, number] => {
    let [a, b] = [lower, upper];
    for (let i = 0; i < 200 && b - a > 1e-15 * Math.abs(a + b); i++) {
      const m = (a + b) / 2;
      if (f(m).z < target) a = m;
      else b = m;
    }
    const m = (a + b) / 2;
    return [f(m), m];
  };

  if (lifted(bedV).z < target) return bisect((u) => lifted(bedV + u), 0, 1e7)[0];
  const onBed = (td: number) => grounded(td, bedV, h / Math.cos(slope));
  const [found, at] = bisect((u) => onBed(-u), -length, 0);
  if (Math.abs(found.z - target) < 1e-6) return found;
  // The height jumps here: a weight is at the touchdown, lifted in part.
  const weight = parts.reduce((a, b) => (Math.abs(b.from + at) < Math.abs(a.from + at) ? b : a));
  return bisect(
    (share) =>
      grounded(
        weight.from,
        bedV + share * weight.hung,
        h / Math.cos(slope) - (1 - share) * weight.hung * drag,
      ),
    0,
    1,
  )[0];
}

/**
 * A chain of straight elastic bars on a stiff bed without friction, brought to its least potential
 * energy by Newton's method with a line search. It knows no catenary, no branch and no state.
 */
export function byLeastEnergy(rode: LayRodeInput, barsPerPart = 24): Reference {
  const parts = partsOf(rode);
  const h = rode.horizontalLoadN;
  const slope = (rode.seabedSlopeDeg ?? 0) * RAD;
  const [sin, cos] = [Math.sin(slope), Math.cos(slope)];
  const bars: { l: number; ea: number }[] = [];
  const weight = [0];
  for (const part of parts) {
    const l = (part.to - part.from) / barsPerPart;
    weight[weight.length - 1]! += part.hung;
    for (let i = 0; i < barsPerPart; i++) {
      bars.push({ l, ea: part.ea });
      weight[weight.length - 1]! += (part.w * l) / 2;
      weight.push((part.w * l) / 2);
    }
  }
  const n = bars.length;
  const bedStiffness = 1e5;
  const size = 2 * n;
  // Unknowns: x and z of nodes 1..n; the height of the last is given.
  const total = bars.reduce((sum, b) => sum + b.l, 0);
  const u = new Float64Array(size);
  for (let i = 0, s = 0; i < n; i++) {
    s += bars[i]!.l;
    u[2 * i] = (s / total) * Math.sqrt(total ** 2 - rode.bowHeightAboveAnchorM ** 2);
    u[2 * i + 1] = (s / total) * rode.bowHeightAboveAnchorM;
  }
  const at = (q: Float64Array, node: number): [number, number] =>
    node === 0 ? [0, 0] : [q[2 * node - 2]!, q[2 * node - 1]!];
  const energy = (q: Float64Array): number => {
    let e = 0;
    e -= h * q[size - 2]!;
    for (let i = 0; i < n; i++) {
      const [a, b] = [at(q, i), at(q, i + 1)];
      const strain = Math.hypot(b[0] - a[0], b[1] - a[1]) / bars[i]!.l - 1;
      if (strain > 0) e += 0.5 * bars[i]!.ea * bars[i]!.l * strain * strain;
      e += weight[i + 1]! * b[1];
      const depth = b[0] * sin - b[1] * cos;
      if (depth > 0) e += 0.5 * bedStiffness * depth * depth;
    }
    return e;
  };
  for (let step = 0; step < 400; step++) {
    const g = new Float64Array(size);
    const k = Array.from({ length: size }, () => new Float64Array(size));
    const add = (node: number, f: [number, number]) => {
      if (node === 0) return;
      g[2 * node - 2]! += f[0];
      g[2 * node - 1]! += f[1];
    };
    const stiffen = (a: number, b: number, m: number[]) => {
      if (a === 0 || b === 0) return;
      for (const r of [0, 1])
        for (const c of [0, 1]) k[2 * a - 2 + r]![2 * b - 2 + c]! += m[2 * r + c]!;
    };
    g[size - 2]! -= h;
    for (let i = 0; i < n; i++) {
      const [a, b] = [at(u, i), at(u, i + 1)];
      const { l, ea } = bars[i]!;
      const [dx, dz] = [b[0] - a[0], b[1] - a[1]];
      const long = Math.hypot(dx, dz);
      const [cx, cz] = [dx / long, dz / long];
      const t = Math.max(0, ea * (long / l - 1));
      const axial = t > 0 ? ea / l : 1e-6;
      const across = Math.max(t / long, 1e-6);
      const m = [
        axial * cx * cx + across * cz * cz,
        (axial - across) * cx * cz,
        (axial - across) * cx * cz,
        axial * cz * cz + across * cx * cx,
      ];
      const minus = m.map((v) => -v);
      stiffen(i, i, m);
      stiffen(i + 1, i + 1, m);
      stiffen(i, i + 1, minus);
      stiffen(i + 1, i, minus);
      add(i, [-t * cx, -t * cz]);
      add(i + 1, [t * cx, t * cz]);
      add(i + 1, [0, weight[i + 1]!]);
      const depth = b[0] * sin - b[1] * cos;
      if (depth > 0) {
        const f = bedStiffness * depth;
        add(i + 1, [f * sin, -f * cos]);
        const ks = bedStiffness;
        stiffen(i + 1, i + 1, [ks * sin * sin, -ks * sin * cos, -ks * sin * cos, ks * cos * cos]);
      }
    }
    // The bow's height is held.
    g[size - 1] = 0;
    k[size - 1]!.fill(0);
    for (const row of k) row[size - 1] = 0;
    k[size - 1]![size - 1] = 1;
    const d = solveBanded(k, g, 4);
    const slopeDown = g.reduce((sum, gi, i) => sum - gi * d[i]!, 0);
    if (Math.sqrt(g.reduce((s, v) => s + v * v, 0)) < 1e-7) break;
    const e0 = energy(u);
    let scale = 1;
    const trial = new Float64Array(size);
    for (let j = 0; j < 40; j++, scale /= 2) {
      for (let i = 0; i < size; i++) trial[i] = u[i]! - scale * d[i]!;
      if (energy(trial) <= e0 + 1e-4 * scale * slopeDown) break;
    }
    u.set(trial);
  }
  const first = at(u, 1);
  const last = [at(u, n - 1), at(u, n)] as const;
  const tension = (a: readonly number[], b: readonly number[], i: number) =>
    bars[i]!.ea * (Math.hypot(b[0]! - a[0]!, b[1]! - a[1]!) / bars[i]!.l - 1);
  const bowT = tension(last[0], last[1], n - 1);
  let onBottomM = 0;
  for (let i = 0; i < n; i++) {
    const [x, z] = at(u, i + 1);
    if (x * sin - z * cos > 0) onBottomM += bars[i]!.l;
  }
  return {
    reachM: at(u, n)[0],
    bowVerticalN:
      (bowT * (last[1][1] - last[0][1])) /
        Math.hypot(last[1][0] - last[0][0], last[1][1] - last[0][1]) +
      weight[n]!,
    anchorTensionN: tension([0, 0], first, 0),
    onBottomM,
  };
}

/** Gaussian elimination of a symmetric positive banded system. */
function solveBanded(k: Float64Array[], g: Float64Array, band: number): Float64Array {
  const n = g.length;
  const x = g.slice();
  for (let i = 0; i < n; i++)
    for (let r = i + 1; r < Math.min(n, i + band); r++) {
      const f = k[r]![i]! / k[i]![i]!;
      if (f === 0) continue;
      for (let c = i; c < Math.min(n, i + band); c++) k[r]![c]! -= f * k[i]![c]!;
      x[r]! -= f * x[i]!;
    }
  for (let i = n - 1; i >= 0; i--) {
    for (let c = i + 1; c < Math.min(n, i + band); c++) x[i]! -= k[i]![c]! * x[c]!;
    x[i]! /= k[i]![i]!;
  }
  return x;
}
