import type { FixEvent } from "./events.js";

const MIN_MS = Date.UTC(1900, 0, 1);
const MAX_MS = Date.UTC(2200, 0, 1);
/** What the schema reads as nothing is left to the schema. */
const SMALLEST = 1e-30;

const among = (x: unknown, min: number, max: number): boolean =>
  typeof x === "number" && x >= min && x <= max && (Math.abs(x) >= SMALLEST || Object.is(x, 0));

/**
 * Whether an input is a fix as plain as can be, which `fixEvent` would give back unchanged. Anything
 * else, good or bad, is for the schema to say: a `false` decides nothing.
 */
export function isPlainFix(input: unknown): input is FixEvent {
  if (typeof input !== "object" || input === null) return false;
  if (Object.getPrototypeOf(input) !== Object.prototype) return false;
  let needed = 0;
  for (const key in input) {
    const value = (input as Record<string, unknown>)[key];
    switch (key) {
      case "kind":
        if (value !== "fix") return false;
        needed++;
        break;
      case "timeMs":
        if (!among(value, MIN_MS, MAX_MS)) return false;
        needed++;
        break;
      case "latDeg":
        if (!among(value, -90, 90)) return false;
        needed++;
        break;
      case "lonDeg":
        if (!among(value, -360, 360)) return false;
        needed++;
        break;
      case "sigmaM":
        if (!(among(value, 0, 1000) && value !== 0)) return false;
        break;
      case "sogMps":
        if (!among(value, 0, 100)) return false;
        break;
      case "cogDeg":
        if (!among(value, 0, 360)) return false;
        break;
      case "receiver":
        if (value !== 0 && value !== 1) return false;
        break;
      default:
        return false;
    }
  }
  return needed === 4;
}
