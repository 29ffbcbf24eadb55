// Licences of everything that is installed with the package, and a bill of materials (CycloneDX) in out/sbom.json.
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const ALLOWED = new Set(["MIT", "ISC", "0BSD", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0"]);

const text = execFileSync(
  "npm",
  ["sbom", "--omit=dev", "--sbom-format", "cyclonedx", "--sbom-type", "library"],
  { cwd: root, encoding: "utf8", stdio: ["ignore", "pipe", "inherit"], maxBuffer: 1 << 26 },
);
const bill = JSON.parse(text);

const licenceOf = (component) =>
  (component.licenses ?? [])
    .map((l) => l.license?.id ?? l.license?.name ?? l.expression)
    .join(", ");
const faults = [];
for (const component of bill.components) {
  const licence = licenceOf(component);
  if (!ALLOWED.has(licence))
    faults.push(`${component.name}: licence ${licence === "" ? "not stated" : licence}`);
  console.log(`${component.name} ${component.version}: ${licence}`);
}
const declared = Object.keys(
  JSON.parse(execFileSync("npm", ["pkg", "get", "dependencies"], { cwd: root, encoding: "utf8" })),
);
for (const name of declared)
  if (!bill.components.some((c) => c.name === name))
    faults.push(`${name} is missing from the bill of materials`);

// What differs from run to run or names the machine stays out, so that the file follows from the lockfile alone.
delete bill.serialNumber;
delete bill.metadata.timestamp;
mkdirSync(path.join(root, "out"), { recursive: true });
writeFileSync(path.join(root, "out/sbom.json"), `${JSON.stringify(bill, null, 2)}\n`);
for (const fault of faults) console.error(fault);
console.log(
  faults.length === 0
    ? `licences: ${bill.components.length} packages, all allowed; bill of materials in out/sbom.json`
    : `licences: ${faults.length} faults`,
);
process.exit(faults.length === 0 ? 0 : 1);
