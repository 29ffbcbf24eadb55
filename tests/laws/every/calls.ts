import { existsSync, readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import ts from "typescript";
import { extraCalls } from "./extra.js";

/** A public function under its subpath, with arguments it accepts. */
export interface PublicFunction {
  name: string;
  run: (...args: unknown[]) => unknown;
  /** Arguments of calls that succeed, as documented or as {@link extraCalls} gives them. */
  calls: unknown[][];
}

const root = path.resolve(import.meta.dirname, "../../..");
const src = path.join(root, "src");

/** Fenced `ts` blocks of the doc comments of a file. */
function examplesOf(file: string): string[] {
  const text = readFileSync(file, "utf8").replace(/^\s*\* ?/gm, "");
  return [...text.matchAll(/^```ts\s*\n([^]*?)^```/gm)].map((m) => m[1]!);
}

/** Subpaths with their exported names. */
export type Rooms = Record<string, Record<string, unknown>>;

/** The public names with functions replaced by ones that keep a copy of what they were called with. */
function recording(rooms: Rooms, keep: (name: string, args: unknown[]) => void): Rooms {
  const wrapped = Object.entries(rooms).map(([room, names]) => [
    room,
    Object.fromEntries(
      Object.entries(names).map(([name, value]) => {
        if (typeof value !== "function" || name === "InputError") return [name, value];
        const run = value as (...args: unknown[]) => unknown;
        const recorded = (...args: unknown[]): unknown => {
          const copy = structuredClone(args);
          const result = run(...args);
          keep(`${room}.${name}`, copy);
          return result;
        };
        return [name, recorded];
      }),
    ),
  ]);
  const out = Object.fromEntries(wrapped) as Rooms;
  // The root has every name of every room.
  out[""] = Object.assign({}, ...Object.values(out)) as Record<string, unknown>;
  return out;
}

type AsyncFunction = (rooms: Rooms, console: object) => Promise<void>;
const AsyncFunction = (
  Object.getPrototypeOf(async () => {
    // only its constructor is wanted
  }) as { constructor: new (...names: string[]) => AsyncFunction }
).constructor;

/** Run one documented example on the given names. */
async function runExample(code: string, rooms: Rooms): Promise<void> {
  const js = ts.transpileModule(code, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  }).outputText;
  const body = js
    .replace(/^export \{\};$/gm, "")
    .replace(
      /import \{([^}]*)\} from "hawse(?:\/([\w/]+))?";/g,
      (_, names: string, room: string | undefined) =>
        `const {${names.replace(/\bas\b/g, ":")}} = rooms[${JSON.stringify(room ?? "")}];`,
    );
  await new AsyncFunction("rooms", "console", body)(rooms, { log: () => undefined });
}

/** What each subpath exports. */
export async function publicRooms(): Promise<Rooms> {
  const rooms: Rooms = {};
  for (const room of [...readdirSync(src), "sweep/node"].sort()) {
    const index = path.join(src, room, "index.ts");
    if (existsSync(index))
      rooms[room] = (await import(/* @vite-ignore */ index)) as Record<string, unknown>;
  }
  return rooms;
}

/** Every public function, found by looking at what the subpaths export. */
export async function publicFunctions(rooms: Rooms): Promise<PublicFunction[]> {
  const calls = new Map<string, unknown[][]>();
  const keep = (name: string, args: unknown[]): void => {
    const kept = calls.get(name) ?? [];
    if (kept.length < 3) calls.set(name, [...kept, args]);
  };
  const recorded = recording(rooms, keep);
  for (const folder of Object.keys(rooms).sort())
    for (const file of readdirSync(path.join(src, folder)).sort())
      if (file.endsWith(".ts"))
        for (const code of examplesOf(path.join(src, folder, file)))
          // An example that fails is the business of tests/docs.
          await runExample(code, recorded).catch(() => undefined);
  for (const [name, args] of extraCalls(rooms)) keep(name, args);
  return Object.entries(rooms).flatMap(([room, names]) =>
    Object.entries(names)
      .filter(([name, value]) => typeof value === "function" && name !== "InputError")
      .map(([name, value]) => ({
        name: `${room}.${name}`,
        run: value as PublicFunction["run"],
        calls: calls.get(`${room}.${name}`) ?? [],
      })),
  );
}
