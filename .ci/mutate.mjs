// Mutation testing of kernels and judgements, one domain at a time: `node .ci/mutate.mjs rode` changes the
// files of that domain, one small change a run, and listens whether a test notices. What it finds is kept in
// reports/mutation/DOMAIN.json; docs/mutation.md is written from all that is there. With --again only changes
// are run anew that survived, or whose code or tests have changed since: good where nothing else has. With
// --page only the page is written; with --check the run fails where a domain is under 90 %.
import { spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  writeFileSync,
} from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const kept = path.join(root, "reports/mutation");
const stryker = path.join(root, "node_modules/.bin/stryker");
const LEAST = 90;

/** Kernels and judgements of each domain. */
const FILES = {
  rode: ["kernel", "solve", "reach"],
  tide: [
    "table",
    "knots",
    "cubic",
    "secondary-curve",
    "harmonic",
    "depth",
    "span",
    "kinds",
    "gaps",
    "error",
    "height",
    "secondary",
    "differences",
    "turns",
    "prepare",
    "pressure",
  ],
  stream: ["kernel", "at", "turns", "below", "fit", "subordinate"],
  core: ["roots", "series", "angles", "time", "units", "schema"],
  lie: ["kernel"],
  holding: ["kernel", "holding"],
  swing: [
    "kernel",
    "sweep",
    "swing-envelope",
    "swing-gap",
    "swing-circle",
    "swing-clearance",
    "clearance-reasons",
    "depth-under",
    "nearest",
    "neighbour-guess",
    "two-anchor-envelope",
    "columns",
  ],
  seabed: ["rate-anchors", "parse-seabed", "seabed-from-codes", "beds", "cautions"],
  chart: [
    "anchoring-at",
    "effects",
    "in-force",
    "depths-in",
    "hazards-in",
    "hazard-depth",
    "coverage-of",
    "quality",
  ],
  signals: ["due", "over", "show", "sound"],
  watch: ["judge", "block", "kernel", "middle", "plainfix"],
  shelter: ["growth", "history", "rays", "diffraction"],
  plan: ["criteria", "margins", "safeUntil"],
  daylight: ["darkness", "events"],
  feed: [
    "scan",
    "fields",
    "values",
    "sentence",
    "decode",
    "positions",
    "instruments",
    "events",
    "nmea",
    "state",
    "instant",
    "gpx",
    "geolocation",
    "signalk",
    "signalkinstruments",
    "delta",
  ],
};

/** Why a change that no test notices may stand: by file, then by the text changed and what it became. */
const reasonsFile = path.join(root, ".ci/survivors.json");
const reasons = existsSync(reasonsFile) ? JSON.parse(readFileSync(reasonsFile, "utf8")) : {};

function mutate(domain) {
  const files = FILES[domain];
  if (files === undefined)
    throw new Error(`no such domain: ${domain}; one of ${Object.keys(FILES).join(" ")}`);
  const list = files.map((f) => `src/${domain}/${f}.ts`).join(",");
  const report = path.join(kept, `${domain}.json`);
  const again = process.argv.includes("--again") && existsSync(report);
  const more = again ? ["--incremental", "--incrementalFile", report] : [];
  const run = spawnSync(stryker, ["run", "--mutate", list, ...more], {
    cwd: root,
    env: { ...process.env, HAWSE_MUTATE: domain },
    stdio: ["ignore", "inherit", "inherit"],
  });
  if (run.status !== 0) throw new Error(`the mutation run of ${domain} failed`);
  mkdirSync(kept, { recursive: true });
  renameSync(path.join(kept, "mutation.json"), report);
}

const DEAD = new Set(["Killed", "Timeout"]);
const ALIVE = new Set(["Survived", "NoCoverage"]);
const plain = (text) => text.replace(/\s+/g, " ").trim();
const cell = (text) => text.replace(/\|/g, "\\|");

/** Text of the source between two places, as Stryker counts them. */
function textAt(source, { start, end }) {
  const lines = source.split("\n").slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines.at(-1).slice(0, end.column - 1);
  lines[0] = lines[0].slice(start.column - 1);
  return lines.join(" ");
}

function outcomeOf(domain) {
  const report = JSON.parse(readFileSync(path.join(kept, `${domain}.json`), "utf8"));
  const out = { domain, killed: 0, alive: 0, equal: 0, survivors: [] };
  for (const [file, { source, mutants }] of Object.entries(report.files))
    for (const m of mutants) {
      if (DEAD.has(m.status)) out.killed += 1;
      if (!ALIVE.has(m.status)) continue;
      const was = plain(textAt(source, m.location));
      const became = plain(m.replacement ?? "");
      const reason =
        reasons[file]?.[`${was} -> ${became}`] ?? reasons[file]?.[`line ${m.location.start.line}`];
      out.alive += 1;
      out.survivors.push({ file, line: m.location.start.line, was, became, reason });
    }
  return out;
}

const page = path.join(root, "docs/mutation.md");

/** What the page says of a domain that has not run since: its row, and its section where it has one. */
function keptOf(domain) {
  const text = existsSync(page) ? readFileSync(page, "utf8") : "";
  const row = new RegExp(`^\\| ${domain} \\|.*$`, "m").exec(text)?.[0];
  const section = new RegExp(`^## ${domain}\\n[^]*?(?=\\n+## |\\n*$(?![^]))`, "m").exec(text)?.[0];
  return row === undefined ? null : { domain, row, section: section ?? null };
}

function writePage() {
  const domains = readdirSync(kept)
    .filter((f) => f.endsWith(".json") && f !== "mutation.json")
    .map((f) => f.slice(0, -5))
    .filter((d) => FILES[d] !== undefined)
    .sort();
  const outcomes = domains.map(outcomeOf);
  const earlier = Object.keys(FILES)
    .filter((d) => !domains.includes(d))
    .map(keptOf)
    .filter((k) => k !== null);
  const known = [...domains, ...earlier.map((k) => k.domain)].sort();
  const missing = Object.keys(FILES).filter((d) => !known.includes(d));
  const score = (o) => (100 * o.killed) / (o.killed + o.alive);
  const row = (o) =>
    `| ${o.domain} | ${FILES[o.domain].map((f) => `${f}.ts`).join(", ")} | ${o.killed + o.alive} | ${o.killed} | ${score(o).toFixed(1)} % | ${o.survivors.filter((s) => s.reason !== undefined).length} |`;
  const shown = (o) =>
    o.survivors.map(
      (s) =>
        `| ${path.basename(s.file)}:${s.line} | \`${cell(s.was.slice(0, 90))}\` | \`${cell(s.became.slice(0, 90))}\` | ${s.reason ?? "not looked into yet"} |`,
    );
  const rows = new Map([
    ...outcomes.map((o) => [o.domain, row(o)]),
    ...earlier.map((k) => [k.domain, k.row]),
  ]);
  const sections = new Map([
    ...outcomes
      .filter((o) => o.survivors.length > 0)
      .map((o) => [
        o.domain,
        `## ${o.domain}\n\n| where | was | became | why it stands |\n| --- | --- | --- | --- |\n${shown(o).join("\n")}`,
      ]),
    ...earlier.filter((k) => k.section !== null).map((k) => [k.domain, k.section]),
  ]);
  const told = (of, names) => (names.length > 0 ? `\n${of}: ${names.join(", ")}.\n` : "");
  writeFileSync(
    page,
    `# Mutation testing

Written by \`npm run mutate\`; do not edit. Kernels and judgements are changed in one small place at a time (an operator turned, a
condition forced, a block emptied), and the tests of the domain are run on each change. A change that a test notices is killed.
Texts are not changed, nor tables, which are made once as a file is loaded: their figures are held against sources in [verification.md](verification.md).

| domain | files | changes | killed | score | survivors with a reason |
| --- | --- | ---: | ---: | ---: | ---: |
${known.map((d) => rows.get(d)).join("\n")}
${told(
  "Of an earlier run, whose lines may have moved since",
  earlier.map((k) => k.domain),
)}${told("Not run", missing)}
${known
  .map((d) => sections.get(d))
  .filter((s) => s !== undefined)
  .join("\n\n")}
`,
  );
  const under = outcomes.filter((o) => !(score(o) >= LEAST));
  for (const o of outcomes) console.log(`${o.domain}: ${score(o).toFixed(1)} %`);
  if (
    process.argv.includes("--check") &&
    (under.length > 0 || outcomes.length < Object.keys(FILES).length)
  ) {
    console.error(
      `mutation: ${under.map((o) => o.domain).join(", ") || "not every domain has run"}`,
    );
    process.exitCode = 1;
  }
}

const chosen = process.argv.slice(2).filter((a) => !a.startsWith("--"));
if (!process.argv.includes("--page"))
  for (const domain of chosen.length > 0 ? chosen : Object.keys(FILES)) mutate(domain);
writePage();
