/**
 * What one elementary operation costs on this machine, the loop round it included: the goals in
 * nanoseconds were set where a logarithm of the engine takes about 5 ns.
 *
 * Each case has a loop of its own: one loop for all would call what it times through a pointer.
 */
import { atan2, log } from "../src/core/elementary.js";

const COUNT = 4096;
/** Values in (0, 1), spread by the golden section, the same every run. */
const x = Float64Array.from({ length: COUNT }, (_, i) => ((i + 1) * 0.6180339887498949) % 1);

/** Cases: a name and a run of `n` operations. */
export const cases = [
  {
    name: "division",
    run(n: number): number {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += 1 / (x[i & (COUNT - 1)]! + 1);
      return sum;
    },
  },
  {
    name: "square root",
    run(n: number): number {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += Math.sqrt(x[i & (COUNT - 1)]!);
      return sum;
    },
  },
  {
    name: "logarithm of the engine",
    run(n: number): number {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += Math.log(x[i & (COUNT - 1)]!);
      return sum;
    },
  },
  {
    name: "logarithm, own",
    run(n: number): number {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += log(x[i & (COUNT - 1)]!);
      return sum;
    },
  },
  {
    name: "atan2, own",
    run(n: number): number {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += atan2(x[i & (COUNT - 1)]!, 0.5);
      return sum;
    },
  },
];
