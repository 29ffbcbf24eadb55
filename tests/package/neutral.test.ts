import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { builtinModules } from "node:module";
import os from "node:os";
import path from "node:path";
import { createContext, runInContext } from "node:vm";
import { build, type Options } from "tsup";
import { afterAll, describe, expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, shared with the build
import { apart } from "../../.ci/pure.mjs";
import { entries } from "./bundle.js";

// React Native and other engines have neither Node's modules nor a page: the library must ask for none of them. Each
// entry point is bundled for no platform at all and run in an empty realm that has the language and nothing else.

const scratch = mkdtempSync(path.join(os.tmpdir(), "hawse-neutral-"));
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
});

const names = Object.keys(entries).filter((name) => name !== "hawse/sweep/node");

/** Names that a bare JavaScript engine may lack. */
const FOREIGN =
  /\b(?:require\(|process\.|Buffer\b|document\.|window\.|navigator\.|localStorage|XMLHttpRequest|fetch\(|structuredClone|TextEncoder|TextDecoder|btoa|atob|performance\.|crypto\.|console\.|setTimeout\(|setInterval\(|import\.meta|__dirname)/;

describe("bundled for no platform", () => {
  test.each(names)("%s asks for nothing but the language", async (name) => {
    const out = path.join(scratch, name.replaceAll("/", "-"));
    await build({
      entry: { bundle: entries[name]! },
      config: false,
      format: ["iife"],
      globalName: "hawse",
      platform: "neutral",
      target: "es2022",
      outDir: out,
      outExtension: () => ({ js: ".js" }),
      noExternal: [/.*/],
      tsconfig: "tsconfig.build.json",
      silent: true,
      dts: false,
      esbuildPlugins: [apart as NonNullable<Options["esbuildPlugins"]>[number]],
    });
    expect(readdirSync(out)).toEqual(["bundle.js"]);
    const code = readFileSync(path.join(out, "bundle.js"), "utf8");
    const imports = [...code.matchAll(/(?:from|import|require)\s*\(?["']([^"'\n]+)["']/g)].map(
      (m) => m[1]!.replace("node:", ""),
    );
    expect(imports.filter((i) => builtinModules.includes(i))).toEqual([]);
    // Strings and comments may name them; what is run may not reach for them.
    const run = code.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "").replace(/"(?:[^"\\\n]|\\.)*"/g, '""'); // prettier-ignore
    const reached = FOREIGN.exec(run);
    expect(reached === null ? "" : run.slice(reached.index - 60, reached.index + 60)).toBe("");
    const realm = createContext(Object.create(null) as object, {
      codeGeneration: { strings: false, wasm: false },
    });
    const before = runInContext("Reflect.ownKeys(globalThis).length", realm) as number;
    const count = runInContext(`${code};Object.keys(hawse).length`, realm) as number;
    expect(count).toBeGreaterThan(0);
    // A wrong input, so that schemas are made and asked; nothing but the bundle's own name has come into the realm.
    runInContext(
      "for (const f of Object.values(hawse)) if (typeof f === 'function') try { f({})?.catch?.(() => {}) } catch {}",
      realm,
    );
    expect(runInContext("Reflect.ownKeys(globalThis).length", realm)).toBe(before + 1);
  });
});
