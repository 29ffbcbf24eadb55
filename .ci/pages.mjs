// Writes what the pages of docs/how, docs/sources.md and docs/doubtful-figures.md say of functions and figures from the
// comments of the sources and the provenance of the checks. With --check it writes nothing and fails where a page is stale.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import * as prettier from "prettier";

const root = path.resolve(import.meta.dirname, "..");
const read = (file) => readFileSync(path.join(root, file), "utf8");
const ROOMS = [
  "tide",
  "stream",
  "rode",
  "lie",
  "holding",
  "seabed",
  "chart",
  "swing",
  "shelter",
  "signals",
  "daylight",
  "watch",
  "plan",
  "sweep",
];
const BEGIN = "<!-- written by .ci/pages.mjs from here on -->";

const sourcesOf = (room) =>
  readdirSync(path.join(root, "src", room))
    .filter((f) => f.endsWith(".ts"))
    .sort();

/** A doc comment as plain text, without its examples. */
const plain = (comment) =>
  comment
    .replace(/^\s*\* ?/gm, "")
    .replace(/@example[\s\S]*?(?=\n@|$)/g, "")
    .replace(/\{@link ([^}]+)\}/g, "`$1`")
    .trim();

/** Every public function of a room with its comment, in the order of the room's index. */
function functionsOf(room) {
  const index = read(`src/${room}/index.ts`);
  const found = new Map();
  for (const file of sourcesOf(room)) {
    const pattern =
      /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export (?:async )?(?:function\*?|const) (\w+)/g;
    for (const [, comment, name] of read(`src/${room}/${file}`).matchAll(pattern))
      if (/\*Valid\*/.test(comment) && new RegExp(`\\b${name}\\b`).test(index))
        found.set(name, plain(comment));
  }
  return [...found].sort(
    (a, b) => index.search(new RegExp(`\\b${a[0]}\\b`)) - index.search(new RegExp(`\\b${b[0]}\\b`)),
  );
}

const sourceOf = (text) =>
  /@source ([\s\S]*?)(?=\n@|$)/.exec(text)?.[1].replace(/\s+/g, " ").trim();

/** What is reckoned, what it holds for and whence, function by function. */
function howText(room) {
  const parts = functionsOf(room).map(([name, text]) => {
    const body = text.replace(/\n@\w+ [\s\S]*$/, "").trim();
    const source = sourceOf(text);
    return `### ${name}\n\n${body}\n${source === undefined ? "" : `\nSource: ${source}.\n`}`;
  });
  return `## Function by function\n\nThe words of the code itself: what each public function of \`hawse/${room}\` reckons, for what it holds, and whence.\n\n${parts.join("\n")}`;
}

/** Sentences of the sources that own up to a figure nobody published, by room. */
const DOUBT =
  /from memory|no source|\bour own\b|not published|plausible|\bown (round )?(figures?|judgement)\b/i;

function doubtsOf(room) {
  const rows = [];
  for (const file of sourcesOf(room)) {
    const text = read(`src/${room}/${file}`);
    for (const [, comment, after] of text.matchAll(/\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*([^\n]*)/g)) {
      const words = plain(comment).replace(/@(source|throws)/g, " ").replace(/\s+/g, " ").trim(); // prettier-ignore
      if (!DOUBT.test(words)) continue;
      const sentences = words.split(/(?<=[^A-Z][.:;)]) +/).filter((s) => DOUBT.test(s));
      const name = /(?:const|function|interface|type) (\w+)|^(\w+)\??:/.exec(after);
      rows.push([file, name?.[1] ?? name?.[2] ?? "", [...new Set(sentences)].join(" ")]);
    }
  }
  return rows;
}

const cell = (text) =>
  String(text).replace(/\|/g, "\\|").replace(/</g, "&lt;").replace(/\s+/g, " ").trim();
const table = (head, rows) =>
  [head, head.map(() => "---"), ...rows]
    .map((row) => `| ${row.map(cell).join(" | ")} |`)
    .join("\n");

/** Every object in a value that names its provenance among these. */
function withProvenance(value, provenances) {
  if (typeof value !== "object" || value === null) return [];
  if (provenances.includes(value.provenance)) return [value];
  return Object.values(value).flatMap((v) => withProvenance(v, provenances));
}

/** A source in words: as it stands, or by title, year and place in it. */
const whence = (source) =>
  typeof source === "object" && source !== null
    ? [source.title, source.title.includes(source.year) ? "" : source.year, source.where]
        .filter(Boolean)
        .join(", ")
    : (source ?? "");

const checksIn = (provenances) =>
  readdirSync(path.join(root, "shared/checks"))
    .sort()
    .flatMap((file) =>
      withProvenance(JSON.parse(read(`shared/checks/${file}`)), provenances).map((v) => [
        file.replace(".json", ""),
        v.id ?? "",
        v.quantity ?? "",
        whence(v.source),
      ]),
    );

function doubtfulText() {
  const rooms = ROOMS.map((room) => {
    const rows = doubtsOf(room);
    if (rows.length === 0) return "";
    return `### ${room}\n\n${table(
      ["where", "what", "what the code says of it"],
      rows.map(([file, name, words]) => [`src/${room}/${file}`, name === "" ? "" : `\`${name}\``, words]), // prettier-ignore
    )}\n`;
  });
  const checks = checksIn(["memory", "common-practice"]);
  return `## In the code\n\n${rooms.join("\n")}\n## Among the check values\n\n${checks.length} check values rest on memory or on common practice. They show that the code does what was meant; they do not show that what was meant is right.\n\n${table(["topic", "check", "quantity", "said by"], checks)}`;
}

const sourcesText = () =>
  ROOMS.map((room) => {
    const rows = functionsOf(room).map(([name, text]) => [`\`${name}\``, sourceOf(text) ?? "own arithmetic"]); // prettier-ignore
    return rows.length === 0 ? "" : `## ${room}\n\n${table(["function", "source"], rows)}\n`;
  }).join("\n");

const pages = [
  ...ROOMS.map((room) => [`docs/how/${room}.md`, () => howText(room)]),
  ["docs/sources.md", sourcesText],
  ["docs/doubtful-figures.md", doubtfulText],
];

let stale = 0;
for (const [file, text] of pages) {
  const before = read(file);
  const head = before.split(BEGIN)[0].trimEnd();
  const config = await prettier.resolveConfig(path.join(root, file));
  const after = await prettier.format(`${head}\n\n${BEGIN}\n\n${text()}\n`, {
    ...config,
    parser: "markdown",
  });
  if (after === before) continue;
  stale += 1;
  if (process.argv.includes("--check")) console.log(`${file} is stale: node .ci/pages.mjs`);
  else writeFileSync(path.join(root, file), after);
}
console.log(process.argv.includes("--check") ? `${stale} stale pages` : `${stale} pages written`);
process.exitCode = process.argv.includes("--check") && stale > 0 ? 1 : 0;
