import { readFileSync } from "node:fs";
import { InputError, type InputIssue } from "../core/errors.js";
import { utc } from "../core/time.js";

/** What hinders the reading of a file, by the code of the system. */
const HINDRANCES: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  ENOTDIR: "there is no such file",
  EISDIR: "is a folder, not a file",
  EACCES: "may not be read: permission is denied",
  EPERM: "may not be read: permission is denied",
};

/** A file that is not what was hoped for, told as one issue. */
const faulty = (path: string, message: string): InputError =>
  new InputError([{ path, code: "unreadable", message }]);

/** A file that cannot be read, with the cause. */
export function unreadable(path: string, error: unknown): InputError {
  const code = (error as NodeJS.ErrnoException).code ?? "error";
  return faulty(path, HINDRANCES[code] ?? `cannot be read (${code})`);
}

/** What hinders the writing of a file, by the code of the system. */
const BARRED: Readonly<Record<string, string>> = {
  EEXIST: "is a file, not a folder",
  ENOTDIR: "is a file, not a folder",
  EACCES: "may not be written to: permission is denied",
  EPERM: "may not be written to: permission is denied",
  EROFS: "may not be written to: the disk is read only",
  ENOSPC: "cannot be written to: the disk is full",
};

/** A folder that cannot be written to, with the cause. */
export function unwritable(folder: string, error: unknown): InputError {
  const code = (error as NodeJS.ErrnoException).code ?? "error";
  return faulty(folder, BARRED[code] ?? `cannot be written to (${code})`);
}

function jsonOf(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch (error) {
    throw unreadable(file, error);
  }
  try {
    // Some editors begin a file with a mark of its encoding.
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw faulty(file, `is not JSON: ${(error as Error).message}`);
  }
}

/**
 * JSON of a file, with every instant written as a text (`"2026-06-16T18:00Z"` in a field whose
 * name ends in `Ms`) turned into epoch milliseconds. Bad instants are reported all at once.
 */
export const readInput = (file: string): unknown => withInstants(jsonOf(file));

/** The same of a file that must hold an object. */
export function readObject(file: string): object {
  const read = readInput(file);
  if (typeof read === "object" && read !== null && !Array.isArray(read)) return read;
  throw new InputError([{ path: file, code: "invalid_type", message: "expected object" }]);
}

/** What is told of a file, with its name before it. */
export const issuesOf = (file: string, issues: readonly InputIssue[]): InputIssue[] =>
  issues.map((i) => ({
    ...i,
    path: i.path === "" || i.path === file ? file : `${file}: ${i.path}`,
  }));

/** What a call gives; where it refuses its input, that is told in other words. */
export function retold<T>(
  use: () => T,
  tell: (issues: readonly InputIssue[]) => readonly InputIssue[],
): T {
  try {
    return use();
  } catch (error) {
    throw error instanceof InputError ? new InputError(tell(error.issues)) : error;
  }
}

/** What is refused of what a file holds is told with its name. */
export const toldOf = <T>(file: string, use: () => T): T =>
  retold(use, (issues) => issuesOf(file, issues));

/**
 * What a function makes of a file. Where instants in the file are bad, whatever else the function
 * would refuse is told along with them.
 */
export function readFor<T>(file: string, use: (value: unknown) => T): T {
  const { value, issues } = instantsOf(jsonOf(file));
  if (issues.length === 0) return use(value);
  const told = new Set(issues.map((i) => i.path));
  throw new InputError([...issues, ...refusals(() => use(value)).filter((i) => !told.has(i.path))]);
}

/** Everything for which a call refuses its input; nothing where it takes it. */
export function refusals(use: () => unknown): readonly InputIssue[] {
  try {
    use();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
}

/** Nothing that is asked for nests deeper than this. */
const DEEPEST = 64;

/** The same value with texts in `…Ms` fields read as instants. */
export function withInstants(given: unknown): unknown {
  const { value, issues } = instantsOf(given);
  if (issues.length > 0) throw new InputError(issues);
  return value;
}

/** The value with its instants read; a bad one stays the text it is, and is an issue. */
function instantsOf(given: unknown): { value: unknown; issues: InputIssue[] } {
  const issues: InputIssue[] = [];
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
  return { value: read(given, "", ""), issues };
}
