import { readFileSync, writeFileSync } from "node:fs";
import { defineConfig, type Options } from "tsup";
// @ts-expect-error -- plain JavaScript, as the scripts of the gate are
import { asShipped } from "./.ci/bundle.mjs";
// @ts-expect-error -- the same
import { apart as apartPlugin, pure as purePlugin } from "./.ci/pure.mjs";

type Plugin = NonNullable<Options["esbuildPlugins"]>[number];
const pure = purePlugin as Plugin;
const apart = apartPlugin as Plugin;

/**
 * zod/mini and suncalc go into the files, cut down to what is used: the packages' own entries take longer to load than the
 * library. Their types stay theirs. Schemas are built when they are first asked for (`src/core/zod.ts`).
 */
const inside: Options = {
  noExternal: [/^zod\//, "suncalc"],
  esbuildPlugins: [pure, apart],
  esbuildOptions(options) {
    Object.assign(options, asShipped);
  },
};

/** Their licences ask that the text goes wherever the code goes. */
function licenceTexts(): void {
  const texts = ["zod", "suncalc"].map(
    (name) => `${name}\n\n${readFileSync(`node_modules/${name}/LICENSE`, "utf8").trim()}\n`,
  );
  writeFileSync("dist/THIRD-PARTY.txt", `Built into these files:\n\n${texts.join("\n\n")}`);
}

const rooms = [
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
  "figure",
  "feed",
  "geo",
];

export default defineConfig([
  {
    ...inside,
    entry: {
      index: "src/index.ts",
      ...Object.fromEntries(rooms.map((r) => [r, `src/${r}/index.ts`])),
    },
    format: ["esm", "cjs"],
    target: "es2022",
    platform: "neutral",
    // tsup 8 sets `baseUrl` for its declarations pass; TypeScript 6 calls that an error unless silenced here.
    dts: { compilerOptions: { ignoreDeprecations: "6.0", types: [] } },
    splitting: true,
    treeshake: true,
    sourcemap: true,
    clean: true,
    onSuccess: () => {
      licenceTexts();
      return Promise.resolve();
    },
    tsconfig: "tsconfig.build.json",
  },
  {
    ...inside,
    // Node only: worker threads and files. The worker is a file of its own.
    entry: {
      "sweep-node": "src/sweep/node/index.ts",
      "sweep-worker": "src/sweep/node/worker.ts",
    },
    format: ["esm"],
    target: "es2022",
    platform: "node",
    dts: {
      entry: { "sweep-node": "src/sweep/node/index.ts" },
      compilerOptions: { ignoreDeprecations: "6.0", types: ["node"] },
    },
    splitting: false,
    sourcemap: true,
    tsconfig: "tsconfig.build.json",
  },
  {
    ...inside,
    entry: { cli: "src/cli/main.ts" },
    format: ["esm"],
    target: "es2022",
    platform: "node",
    dts: false,
    splitting: false,
    sourcemap: true,
    banner: { js: "#!/usr/bin/env node" },
    tsconfig: "tsconfig.build.json",
  },
]);
