// The public surface of each subpath, one text a subpath in docs/api-report/, as api-extractor sees the built
// declarations. With --check a difference fails. Whatever is gone or changed since the last release (`.ci/released.mjs`) needs a
// changeset that names it; --released, after a release, takes the surface as it is for that of the release.
import { Extractor, ExtractorConfig } from "@microsoft/api-extractor";
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync } from "node:fs";
import path from "node:path";
import { keepReleased, unspokenSinceRelease } from "./released.mjs";

const root = path.resolve(import.meta.dirname, "..");
const reports = path.join(root, "docs/api-report");
const manifest = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
const check = process.argv.includes("--check");
const temp = path.join(root, "temp/api");
rmSync(temp, { recursive: true, force: true });
mkdirSync(temp, { recursive: true });
mkdirSync(reports, { recursive: true });

/** Keep or compare the report of one subpath. */
function reportOf(subpath) {
  const types = manifest.exports[subpath].import.types;
  const name = subpath === "." ? "hawse" : subpath.slice(2).replaceAll("/", "-");
  const config = ExtractorConfig.prepare({
    configObject: {
      projectFolder: root,
      mainEntryPointFilePath: path.join(root, types),
      compiler: {
        overrideTsconfig: {
          compilerOptions: {
            target: "ES2022",
            lib: ["ES2023"],
            module: "NodeNext",
            moduleResolution: "NodeNext",
            strict: true,
            types: ["node"],
            skipLibCheck: true,
          },
          files: [path.join(root, types)],
        },
      },
      apiReport: {
        enabled: true,
        reportFolder: reports,
        reportTempFolder: temp,
        reportFileName: `${name}.api.md`,
      },
      docModel: { enabled: false },
      dtsRollup: { enabled: false },
      tsdocMetadata: { enabled: false },
      messages: {
        compilerMessageReporting: { default: { logLevel: "none" } },
        extractorMessageReporting: { default: { logLevel: "none" } },
        tsdocMessageReporting: { default: { logLevel: "none" } },
      },
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: path.join(root, "package.json"),
  });
  const result = Extractor.invoke(config, {
    localBuild: !check,
    messageCallback: (m) => {
      m.handled = true;
    },
  });
  return { name, changed: result.apiReportChanged };
}

const subpaths = Object.keys(manifest.exports).filter((key) => !key.endsWith(".json"));
const outcomes = [];
for (const subpath of subpaths) {
  const types = manifest.exports[subpath].import.types;
  if (!existsSync(path.join(root, types))) {
    console.error(`api: ${types} is not built`);
    process.exit(1);
  }
  outcomes.push(reportOf(subpath));
}
const known = new Set(outcomes.map((o) => `${o.name}.api.md`));
const stray = readdirSync(reports).filter((f) => !known.has(f));
for (const file of stray) if (!check) rmSync(path.join(reports, file));

const changed = outcomes.filter((o) => o.changed).map((o) => o.name);
if (check && (changed.length > 0 || stray.length > 0)) {
  console.error(
    `api: docs/api-report is not what is built (${[...changed, ...stray].join(", ")}); run npm run api`,
  );
  process.exitCode = 1;
}
if (process.argv.includes("--released")) keepReleased(root);
const silent = unspokenSinceRelease(root);
if (silent.length > 0) {
  console.error(
    `api: gone or changed since the last release, and no changeset names them: ${silent.join(", ")}`,
  );
  process.exitCode = 1;
}
console.log(
  `api: ${outcomes.length} subpaths, ${changed.length} ${check ? "not as reported" : "reports written"}`,
);
