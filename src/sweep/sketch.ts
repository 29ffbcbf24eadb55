import { exp, log } from "../core/elementary.js";

/**
 * Counts of values in bins whose edges grow by one per cent: quantiles within half a per cent of the
 * value, whatever the order in which values or parts of them are added.
 */
export interface Sketch {
  /** Counts by bin; negative values in bins of their own. */
  above: Map<number, number>;
  below: Map<number, number>;
  /** Values too close to 0 to tell from it. */
  zeros: number;
  count: number;
}

const LOG_STEP = log(1.01);
/** Values nearer to 0 than this count as 0. */
const TINY = 1e-12;

/** Nothing counted. */
export const emptySketch = (): Sketch => ({
  above: new Map(),
  below: new Map(),
  zeros: 0,
  count: 0,
});

/** Count a finite value. */
export function countIn(s: Sketch, value: number): void {
  s.count++;
  const size = Math.abs(value);
  if (size < TINY) {
    s.zeros++;
    return;
  }
  const side = value > 0 ? s.above : s.below;
  const bin = Math.ceil(log(size) / LOG_STEP);
  side.set(bin, (side.get(bin) ?? 0) + 1);
}

/** Middle of a bin, within half a per cent of everything in it. */
const middleOf = (bin: number): number => (2 * exp(bin * LOG_STEP)) / (1 + exp(LOG_STEP));

/** Value that a share of those counted lie at or below; null where nothing was counted. */
export function quantileIn(s: Sketch, share: number): number | null {
  if (s.count === 0) return null;
  const rank = share * (s.count - 1);
  const ordered: [number, number][] = [
    ...[...s.below]
      .sort((a, b) => b[0] - a[0])
      .map(([bin, n]): [number, number] => [-middleOf(bin), n]),
    [0, s.zeros],
    ...[...s.above]
      .sort((a, b) => a[0] - b[0])
      .map(([bin, n]): [number, number] => [middleOf(bin), n]),
  ];
  let passed = 0;
  for (const [value, n] of ordered) if ((passed += n) > rank) return value;
  return ordered[ordered.length - 1]![0];
}
