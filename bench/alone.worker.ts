/** Runs a sweep in this thread and writes the milliseconds it took, compiling left out. */
import { sweep } from "../src/sweep/sweep.js";
import { drawn } from "../tests/sweepSpecs.js";

async function millisecondsOf(rows: number): Promise<number> {
  const started = performance.now();
  for await (const c of sweep(drawn(true, rows), { sameMemory: true }))
    if (Number.isNaN(c.rows)) throw new Error("no figure");
  return performance.now() - started;
}

await millisecondsOf(1_000_000);
console.log(await millisecondsOf(Number(process.argv[2])));
