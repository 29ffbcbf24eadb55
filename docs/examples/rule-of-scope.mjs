// Runs rule-of-scope.ts at full size and writes docs/rule-of-scope.csv and .svg.
import { writeFileSync } from "node:fs";
import path from "node:path";
import { build } from "esbuild";

const here = import.meta.dirname;
const out = path.join(here, "../../temp/rule-of-scope.mjs");
await build({
  entryPoints: [path.join(here, "rule-of-scope.ts")],
  outfile: out,
  bundle: true,
  format: "esm",
  platform: "node",
  logLevel: "error",
});
const { FULL, ruleOfScope, csvOf, figureOf, findings } = await import(out);
const cells = await ruleOfScope(FULL);
writeFileSync(path.join(here, "../rule-of-scope.csv"), csvOf(cells));
writeFileSync(path.join(here, "../rule-of-scope.svg"), figureOf(cells));
console.log(findings(cells).join("\n"));
