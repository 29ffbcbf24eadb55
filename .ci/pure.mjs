// What a module of the library works out while it loads (a table, a schema) changes nothing outside it; bundlers cannot
// know that and keep all of it. This plugin of the build tells them: each initialiser that does anything becomes a
// function called at once and marked pure, so that what nobody asks for is left away with everything it stands on. An
// arrow would do, but the builder writes its value in its place, and the mark is lost.
import { readFileSync } from "node:fs";
import ts from "typescript";

/** Whether evaluating does more than name a value: a call, a construction, a property, a spread. */
function works(node) {
  if (ts.isFunctionLike(node)) return false;
  return (
    ts.isCallExpression(node) ||
    ts.isNewExpression(node) ||
    ts.isPropertyAccessExpression(node) ||
    ts.isElementAccessExpression(node) ||
    ts.isSpreadAssignment(node) ||
    ts.isSpreadElement(node) ||
    (ts.forEachChild(node, works) ?? false)
  );
}

/** The source with its working initialisers marked. */
export function markPure(file, text) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const marks = source.statements
    .filter(ts.isVariableStatement)
    .flatMap((s) => [...s.declarationList.declarations])
    .map((d) => d.initializer)
    .filter((i) => i !== undefined && works(i));
  let marked = text;
  for (const { start, end } of marks
    .map((i) => ({ start: i.getStart(source), end: i.end }))
    .reverse())
    marked = `${marked.slice(0, start)}/* @__PURE__ */ (function () { return (${marked.slice(start, end)}); })()${marked.slice(end)}`;
  return marked;
}

export const pure = {
  name: "pure",
  setup(build) {
    build.onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => ({
      contents: markPure(path, readFileSync(path, "utf8")),
      loader: "ts",
    }));
  },
};

/** What zod shares by way of the global object, and what stands for it in our files. */
const SHARED = [
  [
    "(_a = globalThis).__zod_globalConfig ?? (_a.__zod_globalConfig = {});\nexport const globalConfig = globalThis.__zod_globalConfig;",
    "export const globalConfig = {};",
  ],
  ["globalThis.__zod_globalConfig?.postProcessor", "globalConfig.postProcessor"],
];

/**
 * The zod inside our files is ours alone. Its own settings lie on the global object, where every other zod of a program
 * reads and writes them: another's wording would come into our messages, and its hooks would see our schemas.
 */
export const apart = {
  name: "apart",
  setup(build) {
    build.onLoad({ filter: /[\\/]zod[\\/]v4[\\/]core[\\/]core\.js$/ }, ({ path }) => {
      let contents = readFileSync(path, "utf8");
      for (const [shared, own] of SHARED) {
        if (!contents.includes(shared)) throw new Error(`${path} no longer has: ${shared}`);
        contents = contents.replace(shared, own);
      }
      if (contents.includes("globalThis.__zod")) throw new Error(`${path} shares more than it did`);
      return { contents, loader: "js" };
    });
  },
};
