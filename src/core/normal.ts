import { exp, log } from "./elementary.js";

const polynomial = (c: readonly number[], x: number): number => {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * x + c[i]!;
  return sum;
};

const MIDDLE_TOP = [
  3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
  45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
];
const MIDDLE_LOW = [
  1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
  39307.89580009271061, 28729.085735721942674, 5226.495278852854561,
];
const SIDE_TOP = [
  1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
  1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833,
  7.7454501427834140764e-4,
];
const SIDE_LOW = [
  1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
  0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
];
const TAIL_TOP = [
  6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
  0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5,
  2.01033439929228813265e-7,
];
const TAIL_LOW = [
  1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
  7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7,
  2.04426310338993978564e-15,
];

/**
 * Sigmas from the middle of a normal spread below which a share `u` of it lies; coefficients from memory, tested
 * against SciPy.
 *
 * @source M. J. Wichura, Applied Statistics 37 (1988) 477–484, algorithm AS 241, PPND16; relative error about 1e-16
 */
export function normalAt(u: number): number {
  const d = u - 0.5;
  if (Math.abs(d) <= 0.425) {
    const r = 0.180625 - d * d;
    return (d * polynomial(MIDDLE_TOP, r)) / polynomial(MIDDLE_LOW, r);
  }
  const r = Math.sqrt(-log(d < 0 ? u : 1 - u));
  const x =
    r <= 5
      ? polynomial(SIDE_TOP, r - 1.6) / polynomial(SIDE_LOW, r - 1.6)
      : polynomial(TAIL_TOP, r - 5) / polynomial(TAIL_LOW, r - 5);
  return d < 0 ? -x : x;
}

const SHARE_TOP = [
  220.206867912376, 221.213596169931, 112.079291497871, 33.912866078383, 6.37396220353165,
  0.700383064443688, 0.0352624965998911,
];
const SHARE_LOW = [
  440.413735824752, 793.826512519948, 637.333633378831, 296.564248779674, 86.7807322029461,
  16.064177579207, 1.75566716318264, 0.0883883476483184,
];
const ROOT_TWO_PI = 2.5066282746310002;

/**
 * Share of a normal spread below `x` sigmas from its middle, within 3e-16; coefficients from memory, tested against
 * SciPy.
 *
 * @source J. F. Hart et al., Computer Approximations (1968), as given by G. West, Wilmott Magazine (2005)
 */
export function normalShare(x: number): number {
  const z = Math.abs(x);
  if (Number.isNaN(z)) return NaN;
  const e = exp((-z * z) / 2);
  const beyond =
    z < 7.07106781186547
      ? (e * polynomial(SHARE_TOP, z)) / polynomial(SHARE_LOW, z)
      : e / (z + 1 / (z + 2 / (z + 3 / (z + 4 / (z + 0.65))))) / ROOT_TWO_PI;
  return x > 0 ? 1 - beyond : beyond;
}
