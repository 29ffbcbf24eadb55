import { defineConfig } from "tsup";

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
    tsconfig: "tsconfig.build.json",
  },
  {
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
