import { check } from "../core/check.js";
import { descriptionOf } from "./describe.js";
import { sweepInput, type SweepInput } from "./input.js";
import { layOut } from "./layout.js";
import { sweepLaid, type SweepPart } from "./sweep.js";
import { csvForm, jsonLinesForm, type TextForm } from "./text.js";

/** Forms of text a sweep can be written in. */
export const TEXT_FORMS: Readonly<Record<"csv" | "jsonl", TextForm>> = {
  csv: csvForm,
  jsonl: jsonLinesForm,
};

/**
 * Runs a sweep as the text of a file, piece by piece: comma-separated values, or JSON lines.
 *
 * The first line holds the description of the sweep: behind a `#`, or as `metadata`. Numbers are
 * written in full, so that read back they are the same; no figure is an empty field, or null.
 *
 * *Valid*: any sweep. *Accuracy*: exact.
 *
 * @throws InputError as `sweep`.
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
  const l = layOut(check(sweepInput, input));
  const d = descriptionOf(l);
  yield TEXT_FORMS[form].head(d);
  for await (const chunk of sweepLaid(l, part)) yield TEXT_FORMS[form].lines(d, chunk);
}
