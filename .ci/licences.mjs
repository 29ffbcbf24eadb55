// Licences of everything that is installed with the package, and a bill of materials (CycloneDX) in out/sbom.json.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const ALLOWED = new Set(["MIT", "ISC", "0BSD", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0"]);

const text = execFileSync("npm", ["sbom", "--sbom-format", "cyclonedx", "--sbom-type", "library"], {
  cwd: root,
  encoding: "utf8",
  stdio: ["ignore", "pipe", "inherit"],
  maxBuffer: 1 << 26,
});
const bill = JSON.parse(text);
const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
bill.metadata.component.name = manifest.name;

// npm's own omission of development packages loses a package that one of those needs too, so what is installed
// with the package is followed from its dependencies here.
const dependsOn = new Map(bill.dependencies.map((d) => [d.ref, d.dependsOn ?? []]));
const top = bill.metadata.component["bom-ref"];
const direct = dependsOn
  .get(top)
  .filter((ref) => Object.keys(manifest.dependencies).some((name) => ref.startsWith(`${name}@`)));
const wanted = new Set();
for (const queue = [...direct]; queue.length > 0;) {
  const ref = queue.pop();
  if (wanted.has(ref)) continue;
  wanted.add(ref);
  queue.push(...(dependsOn.get(ref) ?? []));
}
bill.components = bill.components.filter((c) => wanted.has(c["bom-ref"]));
bill.dependencies = bill.dependencies
  .filter((d) => wanted.has(d.ref) || d.ref === top)
  .map((d) => (d.ref === top ? { ...d, dependsOn: direct } : d));

/** Words by which a licence text is known, for a package that names none in its manifest. */
const TEXTS = [
  ["BSD-3-Clause", /Redistribution and use in source and binary forms[^]*Neither the name/],
  ["BSD-2-Clause", /Redistribution and use in source and binary forms/],
  ["MIT", /Permission is hereby granted, free of charge/],
  ["ISC", /Permission to use, copy, modify, and\/or distribute this software/],
];
function licenceInText(name) {
  const file = path.join(root, "node_modules", name, "LICENSE");
  if (!existsSync(file)) return "";
  const words = readFileSync(file, "utf8").replace(/\s+/g, " ");
  return TEXTS.find(([, known]) => known.test(words))?.[0] ?? "";
}
const stated = (component) =>
  (component.licenses ?? [])
    .map((l) => l.license?.id ?? l.license?.name ?? l.expression)
    .join(", ");

const faults = [];
for (const component of bill.components) {
  if (stated(component) === "") {
    const id = licenceInText(component.name);
    if (id !== "") component.licenses = [{ license: { id } }];
  }
  const licence = stated(component);
  if (!ALLOWED.has(licence))
    faults.push(`${component.name}: licence ${licence === "" ? "not stated" : licence}`);
  console.log(`${component.name} ${component.version}: ${licence}`);
}
for (const name of Object.keys(manifest.dependencies))
  if (!bill.components.some((c) => c.name === name))
    faults.push(`${name} is missing from the bill of materials`);

// What differs from run to run stays out, so that the file follows from the lockfile alone.
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
