import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { publicFunctions, type PublicFunction } from "./every/calls.js";
import {
  HEAVY,
  kindOf,
  placesIn,
  SMALL,
  STRANGE_KEYS,
  valueAt,
  withAt,
  withKey,
  type Place,
} from "./every/hostile.js";
import { HANDED_BACK, isArithmetic, listed, NOT_REFUSED } from "./every/exceptions.js";
import { frozen, notPlain, same, settled } from "./every/plain.js";

// Laws that hold for whatever the subpaths export: a new function is under them from its first day.

const functions = await publicFunctions();
/** Processor time for one call, whatever it is given; the machine may have more to do. */
const BOUND_MS = 5000;
const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** A chart and a coast are indexes in typed columns: they survive a structured clone, and are not JSON. */
const made = (f: PublicFunction): boolean =>
  ["chart.readChart", "shelter.prepareCoast"].includes(f.name);

const name = (f: PublicFunction): [string, PublicFunction] => [f.name, f];

/** What is wrong with the outcome of a hostile call; null where it is refused or answered properly. */
async function fault(f: PublicFunction, args: unknown[], mustRefuse: boolean) {
  const started = cpuMs();
  let wrong: string | null;
  try {
    const result = await settled(f.run(...args));
    wrong = mustRefuse ? "is accepted" : made(f) ? null : notPlain(result);
  } catch (error) {
    wrong =
      error instanceof InputError
        ? error.issues.length > 0
          ? null
          : "is refused without an issue"
        : `throws ${String(error).slice(0, 200)}`;
  }
  const ms = cpuMs() - started;
  return wrong ?? (ms > BOUND_MS ? `takes ${(ms / 1000).toFixed(1)} s` : null);
}

const show = (place: Place): string => place.join(".");

/** Places of the arguments where something may be put. */
const placesOf = (f: PublicFunction, args: unknown[]): Place[] =>
  placesIn(args).filter((p) => p.length > 0 && !listed(HANDED_BACK, f.name, p, true));

const refusesAt = (f: PublicFunction, place: Place): boolean =>
  !listed(NOT_REFUSED, f.name, place) && !listed(HANDED_BACK, f.name, place);

test("every public function has a call that can be recorded", () => {
  expect(functions.length).toBeGreaterThan(90);
  expect(functions.filter((f) => f.calls.length === 0).map((f) => f.name)).toEqual([]);
});

describe.each(functions.map(name))("%s", (_, f) => {
  test("is plain, the same twice, and leaves its input alone", async () => {
    for (const args of f.calls) {
      const kept = structuredClone(args);
      const first = await settled(f.run(...frozen(args)));
      if (!made(f)) expect(notPlain(first)).toBeNull();
      expect(same(first, await settled(f.run(...structuredClone(kept))))).toBe(true);
      expect(same(args, kept)).toBe(true);
      if (!made(f)) expect(same(JSON.parse(JSON.stringify(first)), first)).toBe(true);
    }
  });

  test.skipIf(isArithmetic(f.name) !== null)("refuses small nonsense in any place", async () => {
    const faults: string[] = [];
    for (const args of f.calls)
      for (const place of placesOf(f, args)) {
        const was = valueAt(args, place);
        for (const { what, value, never } of SMALL) {
          const must = never === true && typeof was === "number" && refusesAt(f, place);
          const wrong = await fault(f, withAt(args, place, value) as unknown[], must);
          if (wrong !== null) faults.push(`${what} at ${show(place)} ${wrong}`);
        }
      }
    expect(faults).toEqual([]);
  });

  test("is not hung by huge and deep input, nor by none", async () => {
    const faults: string[] = [];
    for (const args of f.calls.slice(0, 1)) {
      for (const place of placesOf(f, args)) {
        const was = valueAt(args, place);
        for (const { what, kind, make } of HEAVY) {
          if (kind !== kindOf(was)) continue;
          const wrong = await fault(f, withAt(args, place, make(was)) as unknown[], false);
          if (wrong !== null) faults.push(`${what} at ${show(place)} ${wrong}`);
        }
      }
      const wrong = await fault(f, [], false);
      if (wrong !== null && isArithmetic(f.name) === null) faults.push(`no argument ${wrong}`);
    }
    expect(faults).toEqual([]);
  });

  test("refuses keys that no input has", async () => {
    const faults: string[] = [];
    for (const args of f.calls)
      for (const place of placesOf(f, args)) {
        const was = valueAt(args, place);
        if (typeof was !== "object" || was === null || Array.isArray(was)) continue;
        for (const key of STRANGE_KEYS) {
          const put = withAt(args, place, withKey(was, key)) as unknown[];
          const wrong = await fault(f, put, refusesAt(f, place));
          if (wrong !== null) faults.push(`${key} at ${show(place)} ${wrong}`);
        }
      }
    expect(faults).toEqual([]);
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test.runIf(HANDED_BACK[f.name] !== undefined)(
    "answers what went through JSON as before, or refuses it",
    async () => {
      for (const args of f.calls) {
        const before = await settled(f.run(...structuredClone(args)));
        try {
          const after = await settled(f.run(...(JSON.parse(JSON.stringify(args)) as unknown[])));
          expect(same(after, before)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
      }
    },
  );
});
