import path from "node:path";
import { defineConfig } from "vitest/config";

export default defineConfig({
  resolve: {
    alias: [
      // As in the build: schemas are made when they are first asked for.
      { find: /^zod\/mini$/, replacement: path.resolve(import.meta.dirname, "src/core/zod.ts") },
      {
        find: /^hawse$/,
        replacement: path.resolve(import.meta.dirname, "src/index.ts"),
      },
      {
        find: /^hawse\/(.+)$/,
        replacement: path.resolve(import.meta.dirname, "src/$1/index.ts"),
      },
    ],
  },
  test: {
    include: ["tests/**/*.test.ts"],
    // The laws of every public function take minutes: `npm run laws:every`, or in short `npm run laws:short`.
    exclude: process.env["HAWSE_EVERY"] === undefined ? ["tests/laws/every-function.test.ts"] : [],
    setupFiles: ["tests/setup.ts"],
    testTimeout: 60_000,
    coverage: {
      provider: "v8",
      include: ["src/**/*.ts"],
      reporter: ["text-summary", "json-summary"],
      thresholds: { lines: 95, branches: 90 },
    },
  },
});
