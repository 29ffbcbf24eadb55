import * as z from "zod/mini";
import { check } from "../core/check.js";
import { descriptionOf } from "./describe.js";
import { sweepInput, type SweepInput } from "./input.js";
import { layOut } from "./layout.js";
import { checkedPart, sweepLaid, type SweepPart } from "./sweep.js";
import { csvForm, jsonLinesForm, type TextForm } from "./text.js";

/** Forms of text a sweep can be written in. */
export const TEXT_FORMS: Readonly<Record<"csv" | "jsonl", TextForm>> = {
  csv: csvForm,
  jsonl: jsonLinesForm,
};
const formSchema = z.enum(["csv", "jsonl"]);

/**
 * Runs a sweep as the text of a file, piece by piece: comma-separated values, or JSON lines.
 *
 * The first line holds the description of the sweep: behind a `#`, or as `metadata`. Numbers are
 * written in full, so that read back they are the same; no figure is an empty field, or null.
 *
 * *Valid*: any sweep. *Accuracy*: exact.
 *
 * @throws InputError as `sweep`, and for a form that is neither.
 * @source RFC 4180 for the fields, with a comment in front
 * @example
 * ```ts
 * import { sweepText } from "hawse/sweep";
 *
 * let text = "";
 * const pieces = sweepText(
 *   {
 *     statics: { vessel: { kind: "yacht", lengthM: 11 }, rode: { chainMm: 10 } },
 *     axes: [{ name: "depthM", values: [4, 8] }],
 *     fixed: { windMps: 5, scope: 4 },
 *     seed: 1,
 *     outputs: ["leadsAlongBed"],
 *   },
 *   "csv",
 * );
 * for await (const piece of pieces) text += piece;
 * console.log(text.split("\n").slice(1, 4).join(" / "));
 * // scenario,depthM,leadsAlongBed / 0,4,1 / 1,8,1
 * ```
 */
export async function* sweepText(
  input: SweepInput,
  form: "csv" | "jsonl",
  part: SweepPart = {},
): AsyncGenerator<string> {
  const { head, lines } = TEXT_FORMS[check(formSchema, form)];
  const l = layOut(check(sweepInput, input));
  const d = descriptionOf(l);
  const chunks = sweepLaid(l, { ...checkedPart(part), sameMemory: true });
  yield head(d);
  for await (const chunk of chunks) yield lines(d, chunk);
}
