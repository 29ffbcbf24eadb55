import type { RodeWeight, Segment } from "../src/rode/index.js";
import { prepareRode, type PreparedRode } from "../src/rode/prepare.js";

/** A rode drawn at random, with a height and a load to lay it to. */
export interface RandomRode {
  /** What was drawn, for a report of a failure. */
  segments: Segment[];
  weights: RodeWeight[];
  seabedSlopeDeg: number;
  bedFriction: number;
  heightM: number;
  loadN: number;
  prepared: PreparedRode;
}

/** Numbers in [0, 1) that follow from the seed alone. */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Rodes over the whole range of the trade and well beyond it: one to four segments of chain and
 * rope in any order, up to two weights or floats, level, rising and falling beds, friction, bow
 * from nearly on the bed to higher than the rode is long, loads from a hundredth of a newton to ten
 * tonnes and none at all.
 */
export function randomRode(random: () => number): RandomRode {
  const even = (a: number, b: number) => a + (b - a) * random();
  const spread = (a: number, b: number) => Math.exp(even(Math.log(a), Math.log(b)));
  const count = 1 + Math.floor(random() * 4);
  const segments = Array.from({ length: count }, (): Segment => {
    const chain = random() < 0.5;
    return {
      kind: chain ? "chain" : "rope",
      lengthM: spread(0.5, 150),
      weightInWaterNPerM: chain ? even(5, 60) : spread(0.005, 1.5),
      axialStiffnessN: chain ? spread(1e6, 2e7) : spread(2e4, 1e6),
    };
  });
  const lengthM = segments.reduce((sum, s) => sum + s.lengthM, 0);
  const hung = random() < 0.4 ? 1 + Math.floor(random() * 2) : 0;
  const weights = Array.from({ length: hung }, () => ({
    fromAnchorM: even(0.01, 0.99) * lengthM,
    weightInWaterN: random() < 0.8 ? spread(5, 500) : -spread(5, 100),
  }));
  const seabedSlopeDeg = random() < 0.5 ? 0 : even(-15, 15);
  const bedFriction = random() < 0.6 ? 0 : even(0, 2);
  const heightM = random() < 0.9 ? Math.min(lengthM * even(0.02, 1.05), 60) : spread(0.1, 100);
  const loadN = random() < 0.02 ? 0 : spread(0.01, 1e5);
  const made = { segments, weights, seabedSlopeDeg, bedFriction };
  return { ...made, heightM, loadN, prepared: prepareRode(made) };
}
