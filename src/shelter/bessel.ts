/**
 * Bessel functions J of orders mu, mu + 1, … by Miller's downward recurrence, scaled by the
 * Neumann expansion of (x/2)^mu. `mu` in [0, 1), `x` above 0; fills all of `out`.
 *
 * @source NIST Digital Library of Mathematical Functions, 10.6.1 and 10.23.15
 */
export function besselLadder(mu: number, x: number, out: Float64Array): void {
  const top = startOrder(x, out.length);
  const gamma = gammaOnePlus(mu);
  let above = 0;
  let here = 1e-280;
  let sum = 0;
  // Weight of J of order mu + 2k in the expansion: (mu + 2k) Γ(mu + k) / k!
  let weight = topWeight(mu, top / 2, gamma);
  for (let n = top; n >= 0; n--) {
    if (n < out.length) out[n] = here;
    if (n % 2 === 0) {
      const k = n / 2;
      sum += (k === 0 ? gamma : weight * (mu + n)) * here;
      if (k > 1) weight *= k / (mu + k - 1);
    }
    const below = ((2 * (mu + n)) / x) * here - above;
    above = here;
    here = below;
    if (Math.abs(here) > 1e250) {
      here *= 1e-250;
      above *= 1e-250;
      sum *= 1e-250;
      for (let i = n; i < out.length; i++) out[i]! *= 1e-250;
    }
  }
  const scale = Math.exp(mu * Math.log(0.5 * x)) / sum;
  for (let i = 0; i < out.length; i++) out[i]! *= scale;
}

/** Even order far enough above both the argument and the last order wanted for the recurrence to forget its start. */
function startOrder(x: number, wanted: number): number {
  const from = Math.max(wanted, Math.ceil(x));
  return 2 * Math.ceil((from + 20 + 6 * Math.cbrt(from + 1)) / 2);
}

/** Γ(mu + k)/k! for k at the top of the ladder. */
function topWeight(mu: number, k: number, gamma: number): number {
  let weight = gamma;
  for (let i = 1; i < k; i++) weight *= (mu + i) / (i + 1);
  return weight;
}

/** Γ(1 + mu), by Stirling's series sixteen steps up (DLMF 5.11.1). */
function gammaOnePlus(mu: number): number {
  const z = mu + 17;
  const z2 = 1 / (z * z);
  const tail = (1 / 12 - z2 * (1 / 360 - z2 * (1 / 1260 - z2 / 1680))) / z;
  let product = 1;
  for (let i = 1; i <= 16; i++) product *= mu + i;
  const log = (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + tail;
  return Math.exp(log) / product;
}
