import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { format } from "node:util";
import { afterEach, describe, expect, test, vi } from "vitest";

// Every fenced `ts` block of the README, the guides and the doc comments is run, and what it prints is
// compared with the comment lines that follow each console.log.

const root = path.resolve(import.meta.dirname, "../..");
const scratch = path.join(root, "temp/examples");
mkdirSync(scratch, { recursive: true });

interface Example {
  name: string;
  code: string;
}

function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(path.join(root, folder), { recursive: true })
    .map((f) => path.join(folder, String(f)))
    .filter((f) => f.endsWith(ending))
    .sort();
}

/** Fenced `ts` blocks of a text, with the leading ` * ` of doc comments taken off. */
export function blocksOf(file: string): Example[] {
  const text = readFileSync(path.join(root, file), "utf8");
  const lines = text.split("\n").map((l) => (file.endsWith(".ts") ? l.replace(/^\s*\* ?/, "") : l));
  const blocks: Example[] = [];
  let open: string[] | undefined;
  for (const line of lines) {
    if (open === undefined && /^```ts\s*$/.test(line)) open = [];
    else if (open !== undefined && line.startsWith("```")) {
      blocks.push({
        name: `${file} #${blocks.length + 1}`,
        code: open.join("\n"),
      });
      open = undefined;
    } else open?.push(line);
  }
  return blocks;
}

/** What an example promises to print: every whole-line comment from its first console.log on. */
function promised(code: string): string[] {
  const out: string[] = [];
  let printing = false;
  for (const line of code.split("\n")) {
    if (printing && /^\s*\/\//.test(line)) out.push(line.replace(/^\s*\/\/ ?/, ""));
    printing ||= line.includes("console.log(");
  }
  return out;
}

const examples = [
  ...blocksOf("README.md"),
  ...filesBelow("docs", ".md")
    .filter((f) => !f.includes("api-report"))
    .flatMap(blocksOf),
  ...filesBelow("src", ".ts").flatMap(blocksOf),
];

afterEach(() => {
  vi.restoreAllMocks();
});

describe("examples print what they say", () => {
  test.each(examples)("$name", async ({ name, code }) => {
    const file = path.join(scratch, `${name.replace(/[^a-z0-9]+/gi, "-")}.ts`);
    writeFileSync(file, `${code}\nexport {};\n`);
    const printed: string[] = [];
    vi.spyOn(console, "log").mockImplementation((...args: unknown[]) => {
      printed.push(...format(...args).split("\n"));
    });
    await import(/* @vite-ignore */ file);
    expect(printed).toEqual(promised(code));
  });
  test("there are examples", () => {
    expect(examples.length).toBeGreaterThan(0);
  });
});
