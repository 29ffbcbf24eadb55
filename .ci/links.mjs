// Every link in the Markdown files that stays on this machine must lead somewhere: files, and headings in them.
import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import path from "node:path";

const root = path.resolve(import.meta.dirname, "..");
const SKIP = new Set([
  "node_modules",
  "dist",
  "site",
  "out",
  "temp",
  "coverage",
  "reports",
  ".git",
]);

function markdownBelow(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (SKIP.has(entry.name) || entry.name.startsWith(".")) return [];
    const full = path.join(folder, entry.name);
    if (entry.isDirectory()) return markdownBelow(full);
    return entry.name.endsWith(".md") ? [full] : [];
  });
}

/** Headings of a Markdown text as the fragments they get. */
function fragmentsOf(text) {
  const seen = new Map();
  return new Set(
    [...text.replace(/^```[\s\S]*?^```/gm, "").matchAll(/^#{1,6} +(.+)$/gm)].map(([, heading]) => {
      const slug = heading
        .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
        .toLowerCase()
        .replace(/[^\p{L}\p{N} _-]/gu, "")
        .trim()
        .replaceAll(" ", "-");
      const before = seen.get(slug) ?? 0;
      seen.set(slug, before + 1);
      return before === 0 ? slug : `${slug}-${before}`;
    }),
  );
}

/** What is wrong with a link; nothing where it leads somewhere. */
function fault(file, target) {
  if (/^(https?:|mailto:)/.test(target)) return URL.canParse(target) ? undefined : "no address";
  const [name, fragment] = target.split("#");
  const to = name === "" ? file : path.resolve(path.dirname(file), decodeURIComponent(name));
  if (!to.startsWith(root)) return "leads out of the repository";
  if (!existsSync(to)) return "no such file";
  if (fragment === undefined || !to.endsWith(".md") || statSync(to).isDirectory()) return undefined;
  return fragmentsOf(readFileSync(to, "utf8")).has(fragment) ? undefined : "no such heading";
}

let links = 0;
let broken = 0;
const files = markdownBelow(root);
for (const file of files) {
  const text = readFileSync(file, "utf8").replace(/^```[\s\S]*?^```/gm, "");
  const targets = [
    ...text.matchAll(/(?<!`)\[[^\]]*\]\(<?([^)\s>]+)>?(?: "[^"]*")?\)/g),
    ...text.matchAll(/^\[[^\]]+\]: +(\S+)/gm),
    ...text.matchAll(/<(?:a|img)[^>]* (?:href|src)="([^"]+)"/g),
  ].map((m) => m[1]);
  for (const target of targets) {
    links += 1;
    const wrong = fault(file, target);
    if (wrong === undefined) continue;
    broken += 1;
    console.log(`${path.relative(root, file)}: ${target}: ${wrong}`);
  }
}
console.log(`${links} links in ${files.length} files, ${broken} broken`);
process.exitCode = broken > 0 ? 1 : 0;
