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

/** What a field of the caller's own throws when it is read; it is the caller's to catch. */
export const OWN_ERROR = new Error("a field of the caller's that cannot be read");
const unreadable: object = Object.defineProperty({}, "kind", {
  enumerable: true,
  get: () => {
    throw OWN_ERROR;
  },
});

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
  { what: "an object whose field throws", value: unreadable },
  { what: "a list with a hole", value: new Array<unknown>(3) },
  { what: "half a sign", value: "\ud800" },
];

/** A row of a list some places on: its times later, a bare number larger. */
function later(row: unknown, places: number): unknown {
  if (typeof row === "number") return row + places;
  if (!isPlain(row)) return row;
  return Object.fromEntries(
    Object.entries(row as object).map(([key, value]: [string, unknown]) => [
      key,
      typeof value === "number" && /ms$/i.test(key) ? value + places * 1000 : value,
    ]),
  );
}

/** A value heavy enough to hang a careless reader, made when wanted; it goes where its kind is looked for. */
export interface Heavy {
  what: string;
  kind: "text" | "list" | "object";
  make: (was: unknown) => unknown;
}

/** An object whose parts are all objects of its own kind, level by level. */
export const IN_ITSELF = "its own kind in itself";

/** Heavy values of so many entries or levels; texts are a hundred times as long. */
export const heavyOf = (many: number): readonly Heavy[] => [
  { what: "a long text", kind: "text", make: () => "a".repeat(100 * many) },
  { what: "a long row of signs", kind: "text", make: () => "$,(*.\n<&".repeat(12.5 * many) },
  { what: "a long row of codes", kind: "text", make: () => "1,4/".repeat(25 * many) },
  {
    what: "a long list",
    kind: "list",
    make: (was): unknown => Array.from({ length: many }, () => (was as unknown[])[0]),
  },
  {
    what: "a long list in order",
    kind: "list",
    make: (was): unknown => Array.from({ length: many }, (_, i) => later((was as unknown[])[0], i)),
  },
  { what: "a long list of nothings", kind: "list", make: () => new Array<unknown>(many) },
  {
    what: "lists in lists",
    kind: "list",
    make: () => nested(many, (inner) => [inner]),
  },
  {
    what: "objects in objects",
    kind: "object",
    make: () => nested(many, (inner) => ({ standard: inner, geometries: [inner] })),
  },
  {
    what: IN_ITSELF,
    kind: "object",
    make: (was) =>
      nested(many, (inner) =>
        Object.fromEntries(
          Object.entries(was as object).map(([k, v]) => [k, isPlain(v) ? inner : (v as unknown)]),
        ),
      ),
  },
  {
    what: "many keys",
    kind: "object",
    make: (was) => ({
      ...(was as object),
      ...Object.fromEntries(Array.from({ length: many }, (_, i) => [`k${i}`, i])),
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

/** Where in the arguments of a call: the number of the argument, then field by field. */
export type Place = readonly (string | number)[];

/** A place with every element of a list counted as one. */
export const patternOf = (place: Place): string =>
  place.map((key, i) => (i > 0 && typeof key === "number" ? "*" : key)).join(".");

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

/** A value whose fields are all read through accessors. */
export function withAccessors(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withAccessors);
  if (!isPlain(value) || ArrayBuffer.isView(value)) return value;
  const out = {};
  for (const [key, inner] of Object.entries(value as object)) {
    const held = withAccessors(inner);
    Object.defineProperty(out, key, { enumerable: true, get: () => held });
  }
  return out;
}

/** Keys that no input has. */
export const STRANGE_KEYS = ["__proto__", "constructor", "prototype", "toString", "notAField"];
