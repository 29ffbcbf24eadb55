import { readFileSync } from "node:fs";
import { InputError } from "../core/errors.js";
import { utc } from "../core/time.js";

/** A file that cannot be read or is not JSON, told as one issue. */
const unreadable = (path: string, message: string): InputError =>
  new InputError([{ path, code: "unreadable", message }]);

/**
 * JSON of a file, with every instant written as a text (`"2026-06-16T18:00Z"` in a field whose
 * name ends in `Ms`) turned into epoch milliseconds. Bad instants are reported all at once.
 */
export function readInput(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch (error) {
    throw unreadable(file, `cannot be read (${(error as NodeJS.ErrnoException).code ?? "error"})`);
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw unreadable(file, `is not JSON: ${(error as Error).message}`);
  }
  return withInstants(value);
}

/** Nothing that is asked for nests deeper than this. */
const DEEPEST = 64;

/** The same value with texts in `…Ms` fields read as instants. */
export function withInstants(value: unknown): unknown {
  const issues: { path: string; code: string; message: string }[] = [];
  const read = (node: unknown, path: string, key: string, depth = 0): unknown => {
    if (depth > DEEPEST)
      throw new InputError([{ path, code: "too_deep", message: "nested too deep" }]);
    if (Array.isArray(node)) return node.map((n, i) => read(n, `${path}[${i}]`, "", depth + 1));
    if (typeof node === "object" && node !== null)
      return Object.fromEntries(
        Object.entries(node).map(([k, v]) => [
          k,
          read(v, path === "" ? k : `${path}.${k}`, k, depth + 1),
        ]),
      );
    if (typeof node !== "string" || !key.endsWith("Ms")) return node;
    try {
      return utc(node);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      issues.push({ path, code: "invalid_time", message: error.message });
      return node;
    }
  };
  const result = read(value, "", "");
  if (issues.length > 0) throw new InputError(issues);
  return result;
}
