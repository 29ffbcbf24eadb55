import * as z from "zod/mini";
import { parseArgs } from "node:util";
import { forFiles } from "./fileSchema.js";
import { STAY_PLAN } from "./planResult.js";
import type { Command } from "./run.js";
import { SCHEMAS } from "./schemas.js";

/** Results that have a schema, by name. */
const RESULTS: Readonly<Record<string, z.ZodMiniType>> = { StayPlan: STAY_PLAN };

const NOTE =
  "Order in time, datums that agree and the like are looked at as well, but no JSON Schema can say so.";
const OF_FILES =
  " For files that the hawse command reads: an instant is a text with a zone, or epoch milliseconds. The functions take milliseconds only.";

/**
 * JSON Schema (draft 2020-12) of a file that holds an input, or of a result, by name; undefined where
 * there is none.
 */
export function schemaOf(name: string): Record<string, unknown> | undefined {
  const [table, io] = Object.hasOwn(SCHEMAS, name)
    ? [SCHEMAS, "input" as const]
    : [RESULTS, "output" as const];
  if (!Object.hasOwn(table, name)) return undefined;
  const schema = z.toJSONSchema(table[name]!, { io, unrepresentable: "any" });
  return io === "output"
    ? { ...schema, title: name, $comment: NOTE }
    : { ...(forFiles(schema, name) as object), title: name, $comment: NOTE + OF_FILES };
}

/** Names that have a schema. */
export const schemaNames = (): string[] => [...Object.keys(SCHEMAS), ...Object.keys(RESULTS)];

/** `hawse schema [NAME]` */
export const schemaCommand: Command = (args, { out, err }) => {
  const { positionals } = parseArgs({ args, options: {}, allowPositionals: true });
  const [name, ...more] = positionals;
  if (more.length > 0)
    throw Object.assign(new Error("one name at a time"), { code: "ERR_PARSE_ARGS_MORE" });
  if (name === undefined) {
    out(`${schemaNames().join("\n")}\n`);
    return 0;
  }
  const schema = schemaOf(name);
  if (schema === undefined) {
    err(`hawse: there is no schema "${name}"; hawse schema lists them\n`);
    return 2;
  }
  out(`${JSON.stringify(schema, null, 1)}\n`);
  return 0;
};
