import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import path from "node:path";
import { unwritable } from "./readInput.js";

/** Write files into a folder, each first under a name of its own and then renamed: none is ever seen half-written. */
export function writeAll(folder: string, files: Readonly<Record<string, string>>): string[] {
  const names = Object.keys(files);
  try {
    mkdirSync(folder, { recursive: true });
    for (const name of names) writeFileSync(path.join(folder, `.${name}.part`), files[name]!);
    for (const name of names)
      renameSync(path.join(folder, `.${name}.part`), path.join(folder, name));
  } catch (error) {
    throw unwritable(folder, error);
  }
  return names.map((name) => path.join(folder, name));
}
