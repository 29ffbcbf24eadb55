// The watch on simulated nights, and the page of what came of it. `page` words the kept results anew; `sensitivity`
// tries the sheet of errors anew, `replay` the error of a real receiver where its log lies beside the project; two numbers, nights without a drag and drags a scenario, try everything (hours).
import { readFileSync, writeFileSync } from "node:fs";
import * as prettier from "prettier";
import { bundled } from "../.ci/bundle.mjs";

const page = "docs/watch-accuracy.md";
if (process.argv.length < 3) {
  console.error("usage: npm run accuracy -- page | sensitivity | replay | NIGHTS DRAGS");
  process.exit(1);
}
await bundled("bench/simulator/run.ts", "accuracy.mjs");
const config = await prettier.resolveConfig(page);
writeFileSync(
  page,
  await prettier.format(readFileSync(page, "utf8"), { ...config, parser: "markdown" }),
);
const { user, system } = process.cpuUsage();
console.log(`${page}: ${((user + system) / 1e6).toFixed(0)} s of the processor`);
