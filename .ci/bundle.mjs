// Sources of the library made into a module that this Node can run, in temp/.
import { mkdirSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = path.resolve(import.meta.dirname, "..");

/** Bundles a file of the repository, or `{ contents, from }`, a text that stands in a folder, into temp/NAME; the answer is the file. */
export async function bundle(entry, name, plugins = []) {
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
    // As the library is built: named places in tables become numbers.
    minifySyntax: true,
    packages: "external",
    plugins,
    logLevel: "error",
  });
  return outfile;
}

/** The same, loaded. */
export const bundled = async (entry, name) => import(pathToFileURL(await bundle(entry, name)).href);
