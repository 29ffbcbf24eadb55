import * as z from "zod/mini";
import { instant } from "../core/schema.js";

/** A date and time with a zone, as the reader of files takes it. */
export const INSTANT_TEXT = {
  type: "string",
  pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})$",
  examples: ["2026-06-16T18:00Z"],
} as const;

type Json = Readonly<Record<string, unknown>>;
const isObject = (x: unknown): x is Json =>
  typeof x === "object" && x !== null && !Array.isArray(x);

/** How an instant looks in a schema: its first and last moment tell it from a duration. */
const { minimum, maximum } = z.toJSONSchema(instant(), { io: "input" });
const isInstant = (x: Json): boolean =>
  x["type"] === "number" && x["minimum"] === minimum && x["maximum"] === maximum;

/** An instant in a field of its own may be a text; entries of a list, as in columns, may not. */
function orText(schema: unknown): unknown {
  if (!isObject(schema)) return schema;
  if (isInstant(schema)) return { anyOf: [schema, INSTANT_TEXT] };
  const { anyOf } = schema;
  return Array.isArray(anyOf) && anyOf.some((m) => isObject(m) && isInstant(m))
    ? { ...schema, anyOf: [...(anyOf as unknown[]), INSTANT_TEXT] }
    : schema;
}

/** Fields of an object: those that the reader of files looks for instants in end in `Ms`. */
const fields = (properties: Json): Json =>
  Object.fromEntries(
    Object.entries(properties).map(([name, schema]) => {
      const inner = walk(schema);
      return [name, name.endsWith("Ms") ? orText(inner) : inner];
    }),
  );

function walk(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(walk);
  if (!isObject(schema)) return schema;
  return Object.fromEntries(
    Object.entries(schema).map(([key, value]) => [
      key,
      key === "properties" && isObject(value) ? fields(value) : walk(value),
    ]),
  );
}

/** Names of another file may stand where these hold a stay. */
const STAY_BY_NAME: ReadonlySet<string> = new Set(["sweep"]);

/** The schema of a function's input as that of a file: what the reader of files makes of texts is allowed as well. */
export function forFiles(schema: object, name: string): unknown {
  const read = walk(schema) as Json;
  if (!STAY_BY_NAME.has(name) || !isObject(read["properties"])) return read;
  const { stay, ...rest } = read["properties"];
  const file = { type: "string", description: "A file that holds the stay." };
  return { ...read, properties: { ...rest, stay: { anyOf: [stay, file] } } };
}
