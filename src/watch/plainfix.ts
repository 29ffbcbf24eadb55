import type { FixEvent } from "./events.js";

const MIN_MS = Date.UTC(1900, 0, 1);
const MAX_MS = Date.UTC(2200, 0, 1);
/** What the schema reads as nothing is left to the schema. */
const SMALLEST = 1e-30;

const among = (x: unknown, min: number, max: number): boolean =>
  typeof x === "number" && x >= min && x <= max && (Math.abs(x) >= SMALLEST || Object.is(x, 0));

/** Whether a field of a fix is in its span, by the bounds of `fixEvent`. */
function isPlainField(key: string, value: unknown): boolean {
  switch (key) {
    case "kind":
      return value === "fix";
    case "timeMs":
      return among(value, MIN_MS, MAX_MS);
    case "latDeg":
      return among(value, -90, 90);
    case "lonDeg":
    case "cogDeg":
      return among(value, key === "lonDeg" ? -360 : 0, 360);
    case "sigmaM":
      return among(value, 0, 1000) && value !== 0;
    case "sogMps":
      return among(value, 0, 100);
    case "receiver":
      return value === 0 || value === 1;
    default:
      return false;
  }
}

/**
 * Whether an input is a fix as plain as can be, which `fixEvent` would give back unchanged. Anything
 * else, good or bad, is for the schema to say: a `false` decides nothing.
 */
export function isPlainFix(input: unknown): input is FixEvent {
  if (typeof input !== "object" || input === null) return false;
  if (Object.getPrototypeOf(input) !== Object.prototype) return false;
  for (const key in input)
    if (!isPlainField(key, (input as Record<string, unknown>)[key])) return false;
  return "kind" in input && "timeMs" in input && "latDeg" in input && "lonDeg" in input;
}
