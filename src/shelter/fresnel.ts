/** A complex number that a kernel writes its answer to. */
export interface Complex {
  re: number;
  im: number;
}

/** Below this the power series of the Fresnel integrals is exact to the last digits. */
const SERIES_TO = 2;

/**
 * Fresnel integrals C + iS of ∫₀ˣ exp(iπt²/2) dt: power series near zero, beyond it the continued
 * fraction of the complementary error function. Good to 1e-12.
 *
 * @source NIST Digital Library of Mathematical Functions, 7.2(iii), 7.6.4–7.6.6, 7.9.1
 */
export function fresnel(x: number, out: Complex): void {
  const t = Math.abs(x);
  if (t <= SERIES_TO) nearZero(t, out);
  else far(t, out);
  if (x < 0) {
    out.re = -out.re;
    out.im = -out.im;
  }
}

function nearZero(x: number, out: Complex): void {
  const z = 0.5 * Math.PI * x * x;
  let term = x;
  let re = x;
  let im = 0;
  // Terms x (iz)^n / (n! (2n+1)): even ones are real, odd ones imaginary.
  for (let n = 1; n < 60; n++) {
    term *= z / n;
    const part = term / (2 * n + 1);
    const sign = n % 4 < 2 ? 1 : -1;
    if (n % 2 === 0) re += sign * part;
    else im += sign * part;
    if (part < 1e-17) break;
  }
  out.re = re;
  out.im = im;
}

/** erfc(z) √π e^{z²} = 1/(z + ½/(z + 1/(z + (3/2)/(z + …)))) with z = x (1 − i)√π/2, taken from the tail up. */
function far(x: number, out: Complex): void {
  const c = 0.5 * Math.sqrt(Math.PI) * x;
  const terms = 12 + Math.ceil(320 / (x * x));
  let re = c;
  let im = -c;
  for (let n = terms; n > 0; n--) {
    const scale = (0.5 * n) / (re * re + im * im);
    re = c + re * scale;
    im = -c - im * scale;
  }
  const size = Math.sqrt(Math.PI) * (re * re + im * im);
  const wr = re / size;
  const wi = -im / size;
  // e^{-z²} = e^{iπx²/2}; C + iS = (1 + i)/2 · (1 − erfc z).
  const angle = 0.5 * Math.PI * x * x;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const er = 1 - (cos * wr - sin * wi);
  const ei = -(cos * wi + sin * wr);
  out.re = 0.5 * (er - ei);
  out.im = 0.5 * (er + ei);
}
