// What callers of the last release may have used: every exported declaration of docs/api-report with a short hash of its text,
// kept in .ci/released.json. A declaration that is gone or reads otherwise since then is a change they may feel, and wants
// a changeset that names it. No tag and no history of the repository is needed for it.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";

const DECLARATION =
  /^export (?:declare )?(?:abstract )?(?:interface|type|function|const|class) (\w+)/m;

/** Exported declarations of one report by name; overloads stand together. */
export function declarationsOf(report) {
  const code = /^```ts\n([^]*?)^```/m.exec(report.replaceAll("\r\n", "\n"))?.[1] ?? "";
  const texts = {};
  for (const block of code.split(/^\/\/ @\w+.*$/m)) {
    const text = block.replace(/^\/\/.*$/gm, "").trim();
    const name = DECLARATION.exec(text)?.[1];
    if (name !== undefined) texts[name] = `${texts[name] ?? ""}${text}\n`;
  }
  const hash = (text) => createHash("sha256").update(text).digest("hex").slice(0, 12);
  return Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, hash(text)]));
}

/** The declarations of every report in a folder, room by room. */
export const surfaceOf = (folder) =>
  Object.fromEntries(
    readdirSync(folder)
      .filter((f) => f.endsWith(".api.md"))
      .sort()
      .map((f) => [
        f.replace(".api.md", ""),
        declarationsOf(readFileSync(path.join(folder, f), "utf8")),
      ]),
  );

/** Names that a caller of the release may have used and that are gone or read otherwise now. */
export function felt(released, now) {
  const names = Object.entries(released).flatMap(([room, were]) =>
    Object.keys(were).filter((name) => now[room]?.[name] !== were[name]),
  );
  return [...new Set(names)].sort();
}

/** Names of those that no changeset speaks of. */
export const unspoken = (names, changesets) =>
  names.filter((name) => !changesets.some((text) => new RegExp(`\\b${name}\\b`).test(text)));

/** Keeps the surface as that of a release. */
export function keepReleased(root) {
  const { version } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8"));
  const rooms = surfaceOf(path.join(root, "docs/api-report"));
  const text = JSON.stringify({ version, rooms }, null, 2);
  writeFileSync(path.join(root, ".ci/released.json"), `${text}\n`);
}

/** Names that changed since the release and that no changeset in the repository speaks of. */
export function unspokenSinceRelease(root) {
  const { rooms } = JSON.parse(readFileSync(path.join(root, ".ci/released.json"), "utf8"));
  const folder = path.join(root, ".changeset");
  const changesets = readdirSync(folder)
    .filter((f) => f.endsWith(".md") && f !== "README.md")
    .map((f) => readFileSync(path.join(folder, f), "utf8"));
  return unspoken(felt(rooms, surfaceOf(path.join(root, "docs/api-report"))), changesets);
}
