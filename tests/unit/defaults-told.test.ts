import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

// The comment of a field is all that an editor and the API pages show of it: its default has to stand there.

const root = path.resolve(import.meta.dirname, "../../src");
const sources = readdirSync(root, { recursive: true })
  .map(String)
  .filter((f) => f.endsWith(".ts"));

/** Fields with a default other than nothing, with their comments. */
function fieldsOf(file: string): { name: string; comment: string }[] {
  const text = readFileSync(path.join(root, file), "utf8");
  const fields = text.matchAll(/(\/\*\*(?:[^*]|\*(?!\/))*\*\/)\s+(\w+): z\._default\(/g);
  return [...fields]
    .filter((m) => !/^\s*(\[\]|\{\}|null)\s*$/.test(lastOf(text, m.index + m[0].length)))
    .map((m) => ({ name: `${file} ${m[2]!}`, comment: m[1]! }));
}

/** The last argument of the call whose arguments begin at a place. */
function lastOf(text: string, from: number): string {
  let [depth, last] = [1, from];
  for (let i = from; i < text.length; i++) {
    const c = text[i]!;
    if ("([{".includes(c)) depth += 1;
    if (")]}".includes(c)) depth -= 1;
    if (depth === 1 && c === "," && !/^\s*\)/.test(text.slice(i + 1))) last = i + 1;
    if (depth === 0) return text.slice(last, i).replace(/,\s*$/, "");
  }
  return "";
}

test("every default but of lists and forms stands in the words of its field", () => {
  const fields = sources.flatMap(fieldsOf);
  expect(fields.length).toBeGreaterThan(100);
  const untold = fields.filter(
    ({ name, comment }) =>
      // The number of a form says of itself what it is; the parts of `signals` and `limits` have words of their own.
      !/ (version|signals|limits)$/.test(name) &&
      !/unless|default|left out|none is taken/i.test(comment),
  );
  expect(untold.map(({ name }) => name)).toEqual([]);
});
