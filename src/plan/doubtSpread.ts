import { evenShares } from "../core/draws.js";
import { normalAt } from "../core/normal.js";
import { hours } from "../core/units.js";

/** What is not known to the figure, in the order of its columns. */
export const UNCERTAIN = [
  "holding",
  "windSpeed",
  "set",
  "yaw",
  "gusts",
  "windDirection",
  "surge",
  "tide",
  "chartedDepth",
  "rodeOut",
  "ownPlace",
  "lift",
  "lieAtSlack",
  "neighbours",
] as const;
/** One thing that is not known to the figure. */
export type Uncertain = (typeof UNCERTAIN)[number];

/** Columns of the weather's errors: a lasting part and two that come and go. */
export const WEATHER = 5;
/** Columns of each neighbour: place (two), rode, and how she lies where nothing settles it. */
export const PER_NEIGHBOUR = 4;

/** First column of each. */
export const COLUMN = {
  holding: 0,
  windSpeed: 1,
  set: 2,
  yaw: 3,
  gusts: 4,
  windSpeedLater: 5,
  windDirection: 9,
  surge: 14,
  tide: 15,
  chartedDepth: 16,
  rodeOut: 17,
  ownPlace: 18,
  lift: 20,
  lieAtSlack: 21,
  neighbours: 22,
} as const;

/** What a column is about. */
export function aboutColumn(c: number): Uncertain {
  if (c >= COLUMN.neighbours) return "neighbours";
  if (c >= COLUMN.windSpeedLater && c < COLUMN.windDirection) return "windSpeed";
  if (c >= COLUMN.windDirection && c < COLUMN.surge) return "windDirection";
  if (c === COLUMN.ownPlace + 1) return "ownPlace";
  return UNCERTAIN.find((u) => u !== "neighbours" && COLUMN[u] === c)!;
}

/** Draws: shares in (0, 1), and the same as sigmas of a normal spread; one column a dimension. */
export interface Draws {
  count: number;
  share: Float64Array[];
  sigmas: Float64Array[];
}

/** Draw `count` cases. */
export function drawsOf(count: number, seed: number, neighbours: number): Draws {
  const share = evenShares(COLUMN.neighbours + PER_NEIGHBOUR * neighbours, count, seed);
  return { count, share, sigmas: share.map((c) => c.map(normalAt)) };
}

/** Columns in which nothing is off: the figures as they are likely. */
export function noDoubt(neighbours: number): Draws {
  const columns = COLUMN.neighbours + PER_NEIGHBOUR * neighbours;
  const fill = (x: number) => Array.from({ length: columns }, () => Float64Array.of(x));
  const share = fill(0.5);
  // At the very place given.
  share[COLUMN.ownPlace]![0] = 0;
  for (let k = 0; k < neighbours; k++) share[COLUMN.neighbours + PER_NEIGHBOUR * k]![0] = 0;
  return { count: 1, share, sigmas: fill(0) };
}

/** Share of a forecast's error that lasts over the stay; the rest comes and goes within these times. Our own judgement. */
const LASTING = 0.6;
const PASSING: readonly (readonly [share: number, periodMs: number])[] = [
  [0.25, hours(24)],
  [0.15, hours(9)],
];

/** Weight of each column of the weather at instants: rows of {@link WEATHER}; the squares of a row sum to 1. */
export function weatherWeights(timeMs: readonly number[]): Float64Array {
  const start = timeMs[0]!;
  return Float64Array.from(
    timeMs.flatMap((t) => [
      Math.sqrt(LASTING),
      ...PASSING.flatMap(([part, periodMs]) => {
        const turn = (2 * Math.PI * (t - start)) / periodMs;
        return [Math.sqrt(part) * Math.cos(turn), Math.sqrt(part) * Math.sin(turn)];
      }),
    ]),
  );
}

/** Sigmas at which the ends of `{low, likely, high}` stand: one in twenty lies beyond each. */
export const END_SIGMAS = 1.6448536269514722;
/** Sigmas of an error that holds 95 of 100. */
export const ERROR_SIGMAS = 1.959963984540054;

/** A figure with unlike sides, so many sigmas off its middle. */
export const offMiddle = (down: number, up: number, sigmas: number): number =>
  sigmas < 0 ? down * sigmas : up * sigmas;

/** Run-to-run spread of holding as a share, one sigma: runs of one anchor in one place differ by half, nineteen in twenty times. */
export const SET_SIGMA = Math.log(1.5) / ERROR_SIGMAS;
/** Spread of gusts over what is forecast or taken for the place, as a share, one sigma. Our own judgement. */
export const GUST_SIGMA = 0.1;
/** Spread of a neighbour's rode as a share, one sigma: told, and by rule of thumb. Our own judgement. */
export const NEIGHBOUR_RODE = { told: 0.1, guessed: 0.25 } as const;
/** Spread of the own length out, as a share, where none is given. */
export const RODE_SIGMA = 0.03;
