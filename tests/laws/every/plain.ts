/** Everything a result holds, taken out of generators. */
export async function settled(result: unknown): Promise<unknown> {
  if (typeof result === "object" && result !== null && Symbol.asyncIterator in result) {
    const all: unknown[] = [];
    for await (const part of result as AsyncIterable<unknown>) all.push(part);
    return all;
  }
  return result;
}

/** First place where a result is not plain, finite JSON; null where there is none. */
export function notPlain(value: unknown, at = "result"): string | null {
  switch (typeof value) {
    case "string":
    case "boolean":
      return null;
    case "number":
      return Number.isFinite(value) ? null : `${at} is ${value}`;
    case "object":
      break;
    default:
      return `${at} is ${typeof value}`;
  }
  if (value === null) return null;
  if (Array.isArray(value) || ArrayBuffer.isView(value)) {
    const list = value as unknown as ArrayLike<unknown>;
    for (let i = 0; i < list.length; i++) {
      const found = notPlain(list[i], `${at}[${i}]`);
      if (found !== null) return found;
    }
    return null;
  }
  const made = Object.getPrototypeOf(value) as unknown;
  if (made !== Object.prototype && made !== null) return `${at} is not a plain object`;
  for (const [key, inner] of Object.entries(value)) {
    // JSON leaves out what is undefined: a field that was given as undefined may be handed on so.
    if (inner === undefined) continue;
    const found = notPlain(inner, `${at}.${key}`);
    if (found !== null) return found;
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
