import { readFileSync } from "node:fs";
import path from "node:path";
import { build, type Options } from "tsup";

const root = path.resolve(import.meta.dirname, "../..");

/** The library's entry points by name, read from their sources. */
export const entries: Record<string, string> = Object.fromEntries(
  Object.keys(
    (JSON.parse(readFileSync(path.join(root, "package.json"), "utf8")) as { exports: object })
      .exports,
  )
    .filter((key) => !key.endsWith(".json"))
    .map((key) => [
      key.replace(".", "hawse"),
      path.join(root, "src", key.replace(".", ""), "index.ts"),
    ]),
);

/** Bundles one file with the library's sources into one module. */
export async function bundle(
  file: string,
  out: string,
  platform: Options["platform"] = "node",
): Promise<void> {
  await build({
    entry: { [path.basename(out).replace(/\.\w+$/, "")]: path.resolve(root, file) },
    config: false,
    format: ["esm"],
    platform,
    target: "es2022",
    outDir: path.dirname(out),
    outExtension: () => ({ js: path.extname(out) }),
    noExternal: [/.*/],
    tsconfig: path.join(root, "tsconfig.build.json"),
    silent: true,
    dts: false,
    clean: false,
    esbuildOptions(options) {
      options.alias = entries;
    },
  });
}
