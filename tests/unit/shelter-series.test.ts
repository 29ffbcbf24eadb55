import { describe, expect, test } from "vitest";
import { diffract, seriesOrders, tipAt } from "../../src/shelter/diffraction.js";

// The series of the wedge summed as it is printed, its Bessel functions by quadrature of Schläfli's integral
// (DLMF 10.9.6), and the cases that have a closed form.

const RAD = Math.PI / 180;

/** Simpson's rule. */
function simpson(f: (t: number) => number, to: number, steps: number): number {
  const h = to / steps;
  let sum = f(0) + f(to);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 0 ? 2 : 4) * f(i * h);
  return (sum * h) / 3;
}

/** J of any order, from 0 up. */
function bessel(order: number, x: number): number {
  const wave = simpson((t) => Math.cos(order * t - x * Math.sin(t)), Math.PI, 3000);
  const tail = simpson((t) => Math.exp(-x * Math.sinh(t) - order * t), Math.asinh(40 / x), 3000);
  return (wave - Math.sin(order * Math.PI) * tail) / Math.PI;
}

/** (2/ν)[J₀ + 2 Σ exp(inπ/2ν) J_{n/ν} cos(nα/ν) cos(nθ/ν)], to orders far beyond the argument. */
function printed(kr: number, wedgeDeg: number, thetaDeg: number, alphaDeg: number) {
  const nu = (360 - wedgeDeg) / 180;
  let [re, im] = [bessel(0, kr), 0];
  for (let n = 1; n / nu < kr + 30 + 8 * Math.cbrt(kr); n++) {
    const size =
      2 *
      bessel(n / nu, kr) *
      Math.cos((n * alphaDeg * RAD) / nu) *
      Math.cos((n * thetaDeg * RAD) / nu);
    re += size * Math.cos((n * Math.PI) / (2 * nu));
    im += size * Math.sin((n * Math.PI) / (2 * nu));
  }
  return { re: (2 / nu) * re, im: (2 / nu) * im };
}

function factor(kr: number, wedgeDeg: number, thetaDeg: number, alphaDeg: number) {
  const out = { re: NaN, im: NaN };
  diffract(tipAt(kr, wedgeDeg), thetaDeg, alphaDeg, out);
  return out;
}
const near = ({ re, im }: { re: number; im: number }, digits = 8) => ({
  re: expect.closeTo(re, digits) as number,
  im: expect.closeTo(im, digits) as number,
});

describe("wedge series", () => {
  test.each([0.3, 2, 9, 25])("at kr %d as printed, in size and phase", (kr) => {
    for (const wedgeDeg of [90, 47])
      expect(factor(kr, wedgeDeg, 250, 70)).toEqual(near(printed(kr, wedgeDeg, 250, 70)));
  });

  test("orders are J of n/ν, also where none share a ladder", () => {
    for (const [kr, wedgeDeg] of [
      [1.5, 90],
      [6, 61],
    ] as const)
      seriesOrders(kr, wedgeDeg).forEach((j, n) => {
        expect(j).toBeCloseTo(bessel((180 * n) / (360 - wedgeDeg), kr), 8);
      });
  });

  test("a straight shore throws the whole wave back", () => {
    for (const kr of [0.01, 1, 7, 60])
      for (const [theta, alpha] of [
        [30, 80],
        [140, 20],
      ] as const) {
        const [a, b] = [theta - alpha, theta + alpha].map((deg) => kr * Math.cos(deg * RAD));
        const [re, im] = [Math.cos(a!) + Math.cos(b!), Math.sin(a!) + Math.sin(b!)];
        expect(factor(kr, 180, theta, alpha)).toEqual(near({ re, im }));
      }
  });

  test("at the tip itself the wave is 360° over the angle of the water", () => {
    for (const wedgeDeg of [0, 30, 90, 170])
      expect(factor(0, wedgeDeg, 100, 60)).toEqual(near({ re: 360 / (360 - wedgeDeg), im: 0 }, 2));
  });
});

describe("thin wall", () => {
  test("far in its shadow the sea falls on with the distance, past ten wavelengths too", () => {
    // Keller's coefficient of the edge of a wall that reflects (Geometrical theory of diffraction, 1962).
    for (const lengths of [5, 20, 80])
      for (const [theta, alpha] of [
        [330, 60],
        [300, 40],
      ] as const) {
        const kr = 2 * Math.PI * lengths;
        const { re, im } = factor(kr, 0, theta, alpha);
        const [minus, plus] = [theta - alpha, theta + alpha].map((d) => Math.cos((d * RAD) / 2));
        const keller = Math.abs(1 / minus! + 1 / plus!) / (2 * Math.sqrt(2 * Math.PI * kr));
        expect(Math.sqrt(re * re + im * im) / keller).toBeCloseTo(1, 1);
      }
  });
});
