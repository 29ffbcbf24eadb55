import { describe, expect, test } from "vitest";
import {
  acesAdjustedWind,
  type Blow,
  durationOf,
  grow,
  growAlike,
  type Growth,
  GROWTH_METHODS,
  type GrowthMethod,
} from "../../src/shelter/growth.js";

// The laws of growth reckoned again as they are printed, with the gravity of their tables: where a short blow, the
// depth or the wind itself is the limit, and for waves off the wind.

const G = 9.81;
const blowOf = (more: Partial<Blow> = {}): Blow => ({
  windMps: 12,
  cosine: 1,
  fetchM: 20_000,
  depthM: Infinity,
  durationS: Infinity,
  ...more,
});
const empty = (): Growth => ({ hm0M: NaN, periodS: NaN, minDurationS: NaN });
function sea(method: GrowthMethod, more: Partial<Blow> = {}): Growth {
  const out = empty();
  grow(method, blowOf(more), out);
  return out;
}
function alike(method: GrowthMethod, chosen: "acesRestricted" | "acesOpen", more: Partial<Blow>) {
  const out = empty();
  const blow = blowOf(more);
  growAlike(method, chosen, blow, out);
  expect(blow).toEqual(blowOf(more));
  return out;
}
/** Holds a figure to ten digits. */
const near = (got: number, want: number) => {
  expect(got / want).toBeCloseTo(1, 10);
};

// ACES Technical Reference (1992) 1-1: coefficients of the open and of the restricted fetch.
const FORMS = {
  acesOpen: { d: 68.8, dTo: 2 / 3, h: 8.51e-5, hTo: 5 / 7, t: 0.0702, tTo: 0.411 },
  acesRestricted: { d: 51.09, dTo: 0.72, h: 1.03e-4, hTo: 0.69, t: 0.082, tTo: 0.39 },
} as const;
const BOTH = ["acesOpen", "acesRestricted"] as const;
/** Adjusted wind of ACES along waves off the wind. */
const adjusted = (windMps: number, cosine: number) =>
  windMps * (0.75 + 0.067 * windMps) ** 0.5 * cosine;
/** Fetch that has its least duration after a time. */
function fetchAfter(method: (typeof BOTH)[number], seconds: number, u: number): number {
  const { d, dTo } = FORMS[method];
  return ((G * seconds) / (d * u)) ** (1 / dTo) * (u ** 2 / G);
}

describe("laws of the Shore Protection Manual", () => {
  test.each(BOTH)("%s: a short blow is limited by its time, off the wind too", (method) => {
    const form = FORMS[method];
    for (const cosine of [1, 0.8]) {
      const u = adjusted(12, cosine);
      const got = sea(method, { cosine, durationS: 1800 });
      near(got.hm0M, form.h * ((G * 1800) / u) ** form.hTo * (u ** 2 / G));
      near(got.periodS, form.t * ((G * 1800) / u) ** form.tTo * (u / G));
      near(got.minDurationS, (form.d * ((G * 20_000) / u ** 2) ** form.dTo * u) / G);
      expect(got.minDurationS).toBeGreaterThan(1800);
    }
  });

  test.each(BOTH)("%s: the limit of time goes into the limit of depth", (method) => {
    const form = FORMS[method];
    const u = adjusted(12, 1);
    const deep = {
      h: form.h * ((G * 1800) / u) ** form.hTo,
      t: form.t * ((G * 1800) / u) ** form.tTo,
    };
    const d = (G * 1.5) / u ** 2;
    const a = 0.283 * Math.tanh(0.53 * d ** 0.75);
    const b = 7.54 * Math.tanh(0.833 * d ** 0.375);
    const got = sea(method, { depthM: 1.5, durationS: 1800 });
    near(got.hm0M, a * Math.tanh(deep.h / a) * (u ** 2 / G));
    near(got.periodS, b * Math.tanh(deep.t / b) * (u / G));
  });

  test("once the least duration is past the fetch alone is the limit", () => {
    const { minDurationS } = sea("acesOpen");
    const u = adjusted(12, 1);
    const x = (G * 20_000) / u ** 2;
    // Over this fetch the forms of time, printed to three digits, lie below those of fetch when they change over.
    for (const [method, out] of [
      ["acesOpen", sea("acesOpen", { durationS: 1.001 * minDurationS })],
      ["acesOpen", sea("acesOpen")],
    ] as const) {
      expect(FORMS[method].h * ((G * minDurationS) / u) ** (5 / 7)).toBeLessThan(1.6e-3 * x ** 0.5);
      near(out.hm0M, 1.6e-3 * x ** 0.5 * (u ** 2 / G));
      near(out.periodS, 0.2857 * x ** (1 / 3) * (u / G));
    }
  });

  test("the factor of wind stress, and of it the part along the waves", () => {
    const u = 0.71 * 12 ** 1.23 * 0.8;
    const x = (G * 20_000) / u ** 2;
    const got = sea("spm84", { cosine: 0.8 });
    near(got.hm0M, 1.6e-3 * x ** 0.5 * (u ** 2 / G));
    near(got.periodS, 0.2857 * x ** (1 / 3) * (u / G));
  });
});

describe("laws for deep water", () => {
  test("the wind of the simpler laws is its part along the waves", () => {
    for (const method of GROWTH_METHODS.slice(3)) {
      const off = sea(method, { cosine: 0.8, depthM: 4, durationS: 7200 });
      const along = sea(method, { windMps: 12 * 0.8, depthM: 4, durationS: 7200 });
      near(off.hm0M, along.hm0M);
      near(off.periodS, along.periodS);
    }
  });

  test("Coastal Engineering Manual: a short blow is an equivalent fetch (II-2-38)", () => {
    const u = 12 * (0.001 * (1.1 + 0.035 * 12)) ** 0.5;
    const x = 5.23e-3 * ((G * 1800) / u) ** 1.5;
    const got = sea("cem", { durationS: 1800 });
    near(got.hm0M, 4.13e-2 * x ** 0.5 * (u ** 2 / G));
    near(got.periodS, 0.651 * x ** (1 / 3) * (u / G));
    expect(x).toBeLessThan((G * 20_000) / u ** 2);
  });

  test("Wilson: a short blow is the fetch whose least duration it is", () => {
    const u = 12;
    const fetchM = 3000;
    const least = (43 * fetchM ** 0.73) / (u ** 0.46 * G ** 0.27);
    const x = (G * fetchM) / u ** 2;
    const got = sea("wilson", { durationS: least });
    near(got.hm0M, 0.3 * (1 - (1 + 0.004 * x ** 0.5) ** -2) * (u ** 2 / G));
    near(got.periodS, 8.61 * (1 - (1 + 0.008 * x ** (1 / 3)) ** -5) * (u / G));
    near(sea("wilson", { fetchM }).minDurationS, least);
  });

  test.each(["jonswap", "kahmaCalkoen"] as const)("%s grows no further than the full sea", (m) => {
    const got = sea(m, { fetchM: 5e6 });
    near(got.hm0M, 0.2433 * (12 ** 2 / G));
    near(got.periodS, 8.134 * (12 / G));
    const partway = sea(m, { fetchM: 5000 });
    const x = (G * 5000) / 12 ** 2;
    const energy = m === "jonswap" ? 1.6e-7 * x : 5.2e-7 * x ** 0.9;
    const t = m === "jonswap" ? x ** 0.33 / 3.5 : (2 * Math.PI * x ** 0.27) / 13.7;
    near(partway.hm0M, 4 * energy ** 0.5 * (12 ** 2 / G));
    near(partway.periodS, t * (12 / G));
  });
});

describe("Young & Verhagen", () => {
  const form = (chi: number, delta: number) => {
    const [a1, b1] = [Math.tanh(0.493 * delta ** 0.75), 3.13e-3 * chi ** 0.57];
    const [a2, b2] = [Math.tanh(0.331 * delta ** 1.01), 5.215e-4 * chi ** 0.73];
    return {
      energy: 3.64e-3 * (a1 * Math.tanh(b1 / a1)) ** 1.74,
      nu: 0.133 * (a2 * Math.tanh(b2 / a2)) ** -0.37,
    };
  };

  test("the period of a long fetch is held by the depth (Young & Babanin 2006)", () => {
    const [windMps, depthM, fetchM] = [20, 1, 1e6];
    const delta = (G * depthM) / windMps ** 2;
    const least = 0.2 * delta ** -0.375;
    expect(form((G * fetchM) / windMps ** 2, delta).nu).toBeLessThan(least);
    near(sea("youngVerhagen", { windMps, depthM, fetchM }).periodS, windMps / (G * least));
  });

  test("the energy never comes to the limit of the same authors, at any depth", () => {
    for (let log = -6; log < 6; log += 0.01) {
      const delta = Math.exp(log);
      expect(form(1e12, delta).energy).toBeLessThan(1e-3 * delta ** 1.2);
    }
  });

  test("no depth, no sea; a depth that is not known is no calm", () => {
    const none = sea("youngVerhagen", { depthM: 0 });
    expect([none.hm0M, none.periodS]).toEqual([0, 0]);
    expect(sea("youngVerhagen", { depthM: NaN }).hm0M).toBeNaN();
  });
});

describe("edges", () => {
  test.each(GROWTH_METHODS)(
    "%s: calm or without fetch there is no sea, and none to wait for",
    (m) => {
      const none = { hm0M: 0, periodS: 0, minDurationS: 0 };
      expect(sea(m, { windMps: 0 })).toEqual(none);
      expect(sea(m, { cosine: 0 })).toEqual(none);
      expect(sea(m, { fetchM: 0 })).toEqual(none);
      // Less than a centimetre a second along the waves.
      expect(sea(m, { windMps: 0.02, cosine: 0.4 })).toEqual(none);
      expect(sea(m, { windMps: 0.02, cosine: 0.6 }).hm0M).toBeGreaterThan(0);
    },
  );

  test.each(GROWTH_METHODS)("%s: what is not known gives no height, least of all nought", (m) => {
    for (const key of ["windMps", "cosine", "fetchM"] as const)
      expect(sea(m, { [key]: NaN }).hm0M).toBeNaN();
  });

  test("a time that is not known is a full sea, or none told", () => {
    for (const method of GROWTH_METHODS) {
      const got = sea(method, { durationS: NaN }).hm0M;
      if (method === "cem" || method === "wilson") expect(got).toBeNaN();
      else expect(got).toBe(sea(method).hm0M);
    }
  });
});

describe("the bracket under the conditions of the chosen law", () => {
  test.each(BOTH)("%s itself is as printed", (chosen) => {
    const { h, hTo } = FORMS[chosen];
    const u = adjusted(12, 0.8);
    const got = alike(chosen, chosen, { cosine: 0.8, durationS: 1800 });
    near(got.hm0M, h * ((G * 1800) / u) ** hTo * (u ** 2 / G));
  });

  test.each(BOTH)("%s: a short blow is the fetch whose least duration it is", (chosen) => {
    const fetchM = fetchAfter(chosen, 1800, adjusted(12, 0.8));
    expect(fetchM).toBeLessThan(20_000);
    for (const method of ["youngVerhagen", "kahmaCalkoen"] as const) {
      const got = alike(method, chosen, { cosine: 0.8, durationS: 1800 });
      const want = sea(method, { cosine: 0.8, fetchM });
      near(got.hm0M, want.hm0M);
      near(got.periodS, want.periodS);
    }
  });

  test("a long blow is the whole fetch", () => {
    for (const durationS of [1e6, Infinity])
      expect(alike("kahmaCalkoen", "acesOpen", { durationS }).hm0M).toBe(sea("kahmaCalkoen").hm0M);
  });

  test("a law for deep water is held to six tenths of the depth", () => {
    const more = { windMps: 20, depthM: 1 };
    expect(sea("kahmaCalkoen", more).hm0M).toBeGreaterThan(0.6);
    expect(alike("kahmaCalkoen", "acesOpen", more).hm0M).toBe(0.6);
    const deep = { windMps: 20, depthM: 50 };
    expect(alike("kahmaCalkoen", "acesOpen", deep).hm0M).toBe(sea("kahmaCalkoen", deep).hm0M);
  });

  test("a calm that has lasted for an hour is a calm", () => {
    for (const method of [...BOTH, "youngVerhagen", "kahmaCalkoen"] as const)
      for (const windMps of [0, NaN]) {
        const got = alike(method, "acesRestricted", { windMps, durationS: 3600 });
        expect(got.hm0M).toBe(windMps);
      }
  });
});

describe("time that a sea has taken", () => {
  test("a sea that blew for that time has that height", () => {
    for (const [hm0M, windMps] of [
      [0.4, 6],
      [1.2, 12],
      [2, 20],
    ] as const) {
      const u = adjusted(windMps, 1);
      expect(acesAdjustedWind(windMps)).toBeCloseTo(u, 12);
      const seconds = durationOf(hm0M, u);
      near(1.03e-4 * ((G * seconds) / u) ** 0.69 * (u ** 2 / G), hm0M);
      near(sea("acesRestricted", { windMps, fetchM: 1e6, durationS: seconds }).hm0M, hm0M);
    }
  });

  test("none of a flat sea, none in a calm, and not known of what is not known", () => {
    expect(durationOf(0, 10)).toBe(0);
    expect(durationOf(1, 0)).toBe(0);
    expect(durationOf(NaN, 10)).toBeNaN();
    expect(durationOf(1, NaN)).toBeNaN();
  });
});
