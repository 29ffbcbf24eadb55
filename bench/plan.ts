/**
 * Planning a stay: without draws, with 2,000 draws, and a search of a square kilometre at 25 m.
 *
 * Each case runs `n` operations and returns a sum so that no work can be left out.
 */
import { readInput } from "../src/cli/readInput.js";
import { planStay, seekBerth, type StayInput } from "../src/plan/index.js";

const stay = readInput("shared/scenarios/gannick-bay.json") as StayInput;

const repeat =
  (of: () => number) =>
  (n: number): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += of();
    return sum;
  };
const draws = (count: number) => () =>
  planStay({ ...stay, draws: { count, seed: 1 } }).doubt?.any.atLeast ?? 0;

// The figure is asked for after warm-up: an engine needs some hundred plans to settle.
for (let i = 0; i < 150; i++) planStay(stay);

export const cases = [
  { name: "plan of a night", goalNs: 20e6, run: repeat(() => planStay(stay).reasons.length) },
  { name: "plan of a night with 2,000 draws", goalNs: 400e6, run: repeat(draws(2000)) },
  {
    name: "search of a square kilometre at 25 m",
    goalNs: 1e9,
    run: repeat(
      () =>
        seekBerth({ ...stay, area: { centre: stay.position, radiusM: 564 }, spacingM: 25 }).count,
    ),
  },
];
