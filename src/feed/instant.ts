import { InputError } from "../core/errors.js";
import { utc } from "../core/time.js";

/** Instants a watch can use: years 1900 to 2200, as everywhere. */
const [FIRST, LAST] = [Date.UTC(1900, 0, 1), Date.UTC(2200, 0, 1)];

/** Epoch ms of a text with a zone from outside; NaN for anything else. */
export function instantOfText(text: unknown): number {
  if (typeof text !== "string" || text.length > 40) return NaN;
  try {
    const at = utc(text);
    return at >= FIRST && at <= LAST ? at : NaN;
  } catch (e) {
    if (e instanceof InputError) return NaN;
    throw e;
  }
}
