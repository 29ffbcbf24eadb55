/**
 * Root of a continuous `f` in a bracket, by Chandrupatla's method: bisection, with inverse
 * quadratic steps where three values prove them safe. NaN when the ends do not straddle zero.
 *
 * @source T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145–149
 */
export function bracketedRoot(
  f: (x: number) => number,
  lower: number,
  upper: number,
  tolerance = 0,
): number {
  let [a, b] = [lower, upper];
  let [fa, fb] = [f(a), f(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 === fb > 0 && !Number.isNaN(fa - fb))) return NaN;
  let t = 0.5;
  for (let i = 0; i < 200; i++) {
    const x = a + t * (b - a);
    const fx = f(x);
    const sameSide = fx > 0 === fa > 0;
    const c = sameSide ? a : b;
    const fc = sameSide ? fa : fb;
    if (!sameSide) [b, fb] = [a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const least = (2 * Number.EPSILON * Math.abs(best) + tolerance / 2) / Math.abs(b - a);
    if (fx === 0 || least > 0.5) return best;
    t = nextPart(a, b, c, fa, fb, fc);
    t = Math.min(1 - least, Math.max(least, t));
  }
  return a;
}

/** Part of the bracket a..b at which to look next: quadratic where it is safe, else the middle. */
function nextPart(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (
    (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
  );
}
