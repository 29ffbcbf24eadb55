// Sources of the library made into a module that this Node can run, in temp/.
import { mkdirSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = path.resolve(import.meta.dirname, "..");

/** How esbuild makes the files that are shipped. */
export const asShipped = {
  alias: { "zod/mini": path.resolve("src/core/zod.ts") },
  // Text beyond ASCII makes engines read a whole file as wide characters.
  charset: "ascii",
  // Named places in tables become numbers: an engine would look each up at every use.
  minifySyntax: true,
};

/** Bundles a file of the repository, or `{ contents, from }`, a text that stands in a folder, into temp/NAME; the answer is the file. `more` goes to esbuild as it is. */
export async function bundle(entry, name, plugins = [], more = {}) {
  const outfile = path.join(root, "temp", name);
  mkdirSync(path.dirname(outfile), { recursive: true });
  const given =
    typeof entry === "string"
      ? { entryPoints: [path.join(root, entry)] }
      : {
          stdin: {
            contents: entry.contents,
            resolveDir: path.join(root, entry.from ?? "."),
            loader: "ts",
          },
        };
  await build({
    ...given,
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "es2022",
    minifySyntax: asShipped.minifySyntax,
    packages: "external",
    plugins,
    logLevel: "error",
    ...more,
  });
  return outfile;
}

/** The same, loaded. */
export const bundled = async (entry, name) => import(pathToFileURL(await bundle(entry, name)).href);
