/** A hostile stand-in for a value somewhere in an input. */
export interface Hostile {
  what: string;
  value: unknown;
  /** No schema may let it pass where a number was; elsewhere it may be a fair value. */
  never?: boolean;
}

const parsed = (json: string): unknown => JSON.parse(json) as unknown;

/** Objects `depth` deep, and lists. */
function nested(depth: number, wrap: (inner: unknown) => unknown): unknown {
  let value: unknown = 1;
  for (let i = 0; i < depth; i++) value = wrap(value);
  return value;
}

const cyclic: Record<string, unknown> = { kind: "turns" };
cyclic["self"] = cyclic;

/** Small wrong values, tried at every place of every input. */
export const SMALL: readonly Hostile[] = [
  { what: "NaN", value: NaN, never: true },
  { what: "Infinity", value: Infinity, never: true },
  { what: "-Infinity", value: -Infinity, never: true },
  { what: "undefined", value: undefined },
  { what: "null", value: null },
  { what: "true", value: true },
  { what: "a text", value: "x" },
  { what: "no text", value: "" },
  { what: "a number as text", value: "7" },
  { what: "minus zero", value: -0 },
  { what: "the largest number", value: Number.MAX_VALUE },
  { what: "minus the largest number", value: -Number.MAX_VALUE },
  { what: "the least number", value: 5e-324 },
  { what: "a tiny number", value: 1e-29 },
  { what: "a huge number", value: 1e29 },
  { what: "a large whole number", value: 2 ** 53 },
  { what: "a bigint", value: 7n },
  { what: "a symbol", value: Symbol("x") },
  { what: "a function", value: () => 7 },
  { what: "an empty list", value: [] },
  { what: "a list of nothing", value: [undefined, null] },
  { what: "an empty object", value: {} },
  { what: "an object without prototype", value: Object.create(null) },
  { what: "a Date", value: new Date(0) },
  { what: "a Map", value: new Map([["kind", "turns"]]) },
  { what: "typed numbers", value: new Float64Array([NaN, 1]) },
  { what: "a number object", value: Object(7) as unknown },
  { what: "the name __proto__", value: "__proto__" },
  { what: "the name constructor", value: "constructor" },
  { what: "the name toString", value: "toString" },
  { what: "the name hasOwnProperty", value: "hasOwnProperty" },
  { what: "a key __proto__", value: parsed('{"__proto__":{"polluted":true}}') },
  { what: "a key constructor", value: parsed('{"constructor":{"prototype":{"polluted":true}}}') },
  { what: "an object that holds itself", value: cyclic },
];

const MANY = 100_000;

/** Values heavy enough to hang a careless reader, made when wanted; each goes where its kind is looked for. */
export const HEAVY: readonly {
  what: string;
  kind: "text" | "list" | "object";
  make: (was: unknown) => unknown;
}[] = [
  { what: "a text of 10 MB", kind: "text", make: () => "a".repeat(100 * MANY) },
  { what: "10 MB of signs", kind: "text", make: () => "$,(*.\n<&".repeat(12.5 * MANY) },
  {
    what: "a list of 100 000",
    kind: "list",
    make: (was): unknown => Array.from({ length: MANY }, () => (was as unknown[])[0]),
  },
  { what: "a list of 100 000 nothings", kind: "list", make: () => new Array<unknown>(MANY) },
  {
    what: "lists 100 000 deep",
    kind: "list",
    make: () => nested(100_000, (inner) => [inner]),
  },
  {
    what: "objects 100 000 deep",
    kind: "object",
    make: () => nested(100_000, (inner) => ({ standard: inner, geometries: [inner] })),
  },
  {
    what: "its own kind 100 000 deep",
    kind: "object",
    make: (was) =>
      nested(100_000, (inner) =>
        Object.fromEntries(
          Object.entries(was as object).map(([k, v]) => [k, isPlain(v) ? inner : (v as unknown)]),
        ),
      ),
  },
  {
    what: "100 000 keys",
    kind: "object",
    make: (was) => ({
      ...(was as object),
      ...Object.fromEntries(Array.from({ length: MANY }, (_, i) => [`k${i}`, i])),
    }),
  },
];

const isPlain = (value: unknown): boolean =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What kind of heavy value a place looks for. */
export const kindOf = (value: unknown): "text" | "list" | "object" | null =>
  typeof value === "string"
    ? "text"
    : Array.isArray(value)
      ? "list"
      : isPlain(value)
        ? "object"
        : null;

export type Place = readonly (string | number)[];

/** Places in a value, itself included; of a long list the first, second and last element stand for all. */
export function placesIn(value: unknown, at: Place = []): Place[] {
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return [at];
  if (Array.isArray(value)) {
    const picks = [...new Set([0, 1, value.length - 1])].filter((i) => i >= 0 && i < value.length);
    return [at, ...picks.flatMap((i) => placesIn(value[i], [...at, i]))];
  }
  return [at, ...Object.entries(value).flatMap(([k, v]) => placesIn(v, [...at, k]))];
}

export const valueAt = (value: unknown, place: Place): unknown =>
  place.reduce<unknown>((v, key) => (v as Record<string | number, unknown>)[key], value);

/** The value with another put in at one place; only what stands on the way there is copied. */
export function withAt(value: unknown, place: Place, put: unknown): unknown {
  if (place.length === 0) return put;
  const [key, ...rest] = place;
  const copy = (
    Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }
  ) as Record<string | number, unknown>;
  copy[key!] = withAt(copy[key!], rest, put);
  return copy;
}

/** A plain object with one own key more, even where that key is `__proto__`. */
export function withKey(value: object, key: string): object {
  const copy = { ...value };
  Object.defineProperty(copy, key, {
    value: { polluted: true },
    enumerable: true,
    configurable: true,
    writable: true,
  });
  return copy;
}

/** Keys that no input has. */
export const STRANGE_KEYS = ["__proto__", "constructor", "prototype", "toString", "notAField"];
