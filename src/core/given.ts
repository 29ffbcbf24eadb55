import type * as z from "zod/mini";

/** What stands in an input as it is: numbers with their units, words, functions, columns. */
type Whole =
  number | string | boolean | null | undefined | ArrayBufferView | ((...given: never[]) => unknown);

declare const made: unique symbol;

/** What one function of the library makes and another takes back: its lists are as they are. */
export type Made<T> = T & { readonly [made]?: true };

/** An object that may have more fields than are read: those with names of their own will do, for an `interface` has no field for every name. */
type Open<T> = string extends keyof T
  ? { [K in keyof T as string extends K ? never : K]: T[K] } extends infer N
    ? keyof N extends never
      ? T
      : T | N
    : never
  : T;

/** A type with every list in it read only, however deep. */
type Lists<T> = T extends Whole
  ? T
  : T extends readonly unknown[]
    ? { readonly [K in keyof T]: Lists<T[K]> }
    : T extends object
      ? typeof made extends keyof T
        ? T
        : Open<{ [K in keyof T]: Lists<T[K]> }>
      : T;

/** What a schema takes; its lists are only read, so that a constant one will do. */
export type Given<S extends z.ZodMiniType> = Lists<z.input<S>>;
