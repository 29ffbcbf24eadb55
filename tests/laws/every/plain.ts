/** Everything a result holds, taken out of generators. */
export async function settled(result: unknown): Promise<unknown> {
  if (typeof result === "object" && result !== null && Symbol.asyncIterator in result) {
    const all: unknown[] = [];
    for await (const part of result as AsyncIterable<unknown>) all.push(part);
    return all;
  }
  return result;
}

/** What stands in a text where a figure was none. */
const NO_FIGURE = /\b(?:NaN|-?Infinity|undefined)\b/;

/** What is wrong with one value by itself; null where nothing is. */
function wrongWith(value: unknown): string | null {
  switch (typeof value) {
    case "string":
      return NO_FIGURE.test(value) ? `says ${NO_FIGURE.exec(value)![0]}` : null;
    case "boolean":
      return null;
    case "number":
      return Number.isFinite(value) ? null : `is ${value}`;
    case "object":
      break;
    default:
      return `is ${typeof value}`;
  }
  if (value === null || Array.isArray(value) || ArrayBuffer.isView(value)) return null;
  const made = Object.getPrototypeOf(value) as unknown;
  return made === Object.prototype || made === null ? null : "is not a plain object";
}

/**
 * First place where a result is not plain, finite JSON; null where there is none. However deep, the stack holds it; what
 * stands in many places is looked at once.
 */
export function notPlain(result: unknown): string | null {
  const left: [value: unknown, at: string][] = [[result, "result"]];
  const seen = new Set<unknown>();
  for (let next = left.pop(); next !== undefined; next = left.pop()) {
    const [value, at] = next;
    const wrong = wrongWith(value);
    if (wrong !== null) return `${at.slice(0, 80)} ${wrong}`;
    if (typeof value !== "object" || value === null || seen.has(value)) continue;
    seen.add(value);
    if (Array.isArray(value) || ArrayBuffer.isView(value)) {
      const list = value as unknown as ArrayLike<unknown>;
      for (let i = list.length - 1; i >= 0; i--) left.push([list[i], `${at}[${i}]`]);
    } else
      for (const [key, inner] of Object.entries(value))
        // JSON leaves out what is undefined: a field that was given as undefined may be handed on so.
        if (inner !== undefined) left.push([inner, `${at}.${key}`]);
  }
  return null;
}

/** Whether two plain values hold the same; typed columns count as lists, and -0 as 0. */
export function same(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null)
    return a === b || (Number.isNaN(a) && Number.isNaN(b));
  const [ea, eb] = [Object.entries(a), Object.entries(b)];
  return ea.length === eb.length && ea.every(([k, v], i) => eb[i]![0] === k && same(v, eb[i]![1]));
}

/** Freeze a value and all in it, so that writing to it throws; typed columns cannot be frozen. */
export function frozen<T>(value: T): T {
  if (typeof value === "object" && value !== null && !ArrayBuffer.isView(value)) {
    for (const inner of Object.values(value)) frozen(inner);
    Object.freeze(value);
  }
  return value;
}
