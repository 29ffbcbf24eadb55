import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test, vi } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { publicFunctions, publicRooms, type PublicFunction } from "./every/calls.js";
import {
  heavyOf,
  IN_ITSELF,
  kindOf,
  OWN_ERROR,
  patternOf,
  placesIn,
  SMALL,
  STRANGE_KEYS,
  valueAt,
  withAccessors,
  withAt,
  withKey,
  type Place,
} from "./every/hostile.js";
import {
  HANDED_BACK,
  HOLDS_NAN,
  INSIDES_UNREAD,
  isArithmetic,
  listed,
  NOT_REFUSED,
  PASSED_OVER,
  STARTS_WORKERS,
  WRITES_FILES,
} from "./every/exceptions.js";
import { frozen, notPlain, same, settled } from "./every/plain.js";

// Laws that hold for whatever the subpaths export: a new function is under them from its first day.
// In full (`npm run laws:every`) every small wrong value goes to every place, and heavy input is as heavy as a
// text of 10 MB and 100 000 entries. In short (`npm run laws:short`) each place gets a third of the small values, the next place the
// next third (what is no number always), and heavy input is a tenth of that.

const full = process.env["HAWSE_EVERY"] !== "short";
const rooms = await publicRooms();
const functions = (await publicFunctions(rooms)).filter((f) => !WRITES_FILES.includes(f.name));
const HEAVY = heavyOf(full ? 100_000 : 10_000);
const IN_TURN = full ? 1 : 3;
/** A whole plan takes as long as a hundred other calls: in short each of its places gets a ninth. */
const inTurn = (f: PublicFunction): number =>
  f.name === "plan.planStay" ? IN_TURN * IN_TURN : IN_TURN;
/**
 * Processor time for one call, whatever it is given. A forecast of as many rows as are allowed, seconds apart, takes
 * more than one second; the machine may have more to do.
 */
const BOUND_MS = full ? 5000 : 3000;
/** The dearest functions are called thousands of times, on a machine that may have more to do. */
const TIMEOUT_MS = full ? 1_200_000 : 300_000;
vi.setConfig({ testTimeout: TIMEOUT_MS });
const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** A chart and a coast are indexes in typed columns: they survive a structured clone, and are not JSON. */
const notJson = (f: PublicFunction): boolean =>
  ["chart.readChart", "shelter.prepareCoast", ...HOLDS_NAN].includes(f.name);

const name = (f: PublicFunction): [string, PublicFunction] => [f.name, f];

/** What is wrong with the outcome of a hostile call; null where it is refused or answered properly. */
async function fault(f: PublicFunction, args: unknown[], mustRefuse: boolean) {
  const started = cpuMs();
  let wrong: string | null;
  try {
    const result = await settled(f.run(...args));
    wrong = mustRefuse ? "is accepted" : notJson(f) ? null : notPlain(result);
  } catch (error) {
    wrong =
      error instanceof InputError
        ? error.issues.length > 0
          ? null
          : "is refused without an issue"
        : error === OWN_ERROR
          ? null
          : `throws ${String(error).slice(0, 200)}`;
  }
  const ms = cpuMs() - started;
  return wrong ?? (ms > BOUND_MS ? `takes ${(ms / 1000).toFixed(1)} s` : null);
}

/** A call that is not refused answers as the call without what was put in. */
async function answersAlike(f: PublicFunction, put: unknown[], args: unknown[]): Promise<void> {
  let answer: unknown;
  try {
    answer = await settled(f.run(...put));
  } catch {
    return;
  }
  expect(same(answer, await settled(f.run(...structuredClone(args))))).toBe(true);
}

const show = (place: Place): string => place.join(".");

/** Places of the arguments where something may be put. */
const placesOf = (f: PublicFunction, args: unknown[]): Place[] =>
  placesIn(args).filter((p) => p.length > 0 && !listed(HANDED_BACK, f.name, p, true));

/** The same, one element standing for all of its list. */
function kindsOfPlace(f: PublicFunction, args: unknown[]): Place[] {
  const first = new Map<string, Place>();
  for (const place of placesOf(f, args))
    if (!first.has(patternOf(place))) first.set(patternOf(place), place);
  return [...first.values()];
}

const refusesAt = (f: PublicFunction, place: Place): boolean =>
  !listed(NOT_REFUSED, f.name, place) && !listed(HANDED_BACK, f.name, place);

test("every subpath of the package is looked at, and the root has every name of them", async () => {
  const root = path.resolve(import.meta.dirname, "../..");
  const { exports } = JSON.parse(readFileSync(path.join(root, "package.json"), "utf8")) as {
    exports: Record<string, unknown>;
  };
  const subpaths = Object.keys(exports).filter((key) => key !== "./package.json" && key !== ".");
  // `core` is of the root alone.
  expect(["./core", ...subpaths].sort()).toEqual(
    Object.keys(rooms)
      .map((room) => `./${room}`)
      .sort(),
  );
  const ofRoot = Object.keys(await import("../../src/index.js"));
  const ofRooms = Object.entries(rooms).flatMap(([room, names]) =>
    room === "sweep/node" ? [] : Object.keys(names),
  );
  expect(ofRoot.sort()).toEqual([...new Set(ofRooms)].sort());
});

test("every public function has a call that can be recorded", () => {
  expect(functions.length).toBeGreaterThan(90);
  expect(functions.filter((f) => f.calls.length === 0).map((f) => f.name)).toEqual([]);
});

describe.each(functions.map(name))("%s", (_, f) => {
  test("is plain, the same twice, and leaves its input alone", async () => {
    for (const args of f.calls) {
      const kept = structuredClone(args);
      const first = await settled(f.run(...frozen(args)));
      if (!notJson(f)) expect(notPlain(first)).toBeNull();
      expect(same(first, await settled(f.run(...structuredClone(kept))))).toBe(true);
      expect(same(args, kept)).toBe(true);
      if (!notJson(f)) expect(same(JSON.parse(JSON.stringify(first)), first)).toBe(true);
    }
  });

  test("reads fields that are accessors as any others", async () => {
    for (const args of f.calls) {
      const before = await settled(f.run(...structuredClone(args)));
      const read = args.map((a, i) =>
        listed(HANDED_BACK, f.name, [i, ""], true) ? a : withAccessors(a),
      );
      expect(same(await settled(f.run(...read)), before)).toBe(true);
    }
  });

  test.skipIf(isArithmetic(f.name) !== null)("refuses small nonsense in any place", async () => {
    const faults: string[] = [];
    for (const args of f.calls)
      for (const [turn, place] of placesOf(f, args).entries()) {
        const was = valueAt(args, place);
        for (const [i, { what, value, never }] of SMALL.entries()) {
          const must = never === true && typeof was === "number" && refusesAt(f, place);
          if (!must && (i + turn) % inTurn(f) !== 0) continue;
          if (!must && listed(STARTS_WORKERS, f.name, place)) continue;
          const wrong = await fault(f, withAt(args, place, value) as unknown[], must);
          if (wrong !== null) faults.push(`${what} at ${show(place)} ${wrong}`);
        }
      }
    expect(faults).toEqual([]);
  });

  test("is not hung by huge and deep input, nor by none", async () => {
    const faults: string[] = [];
    for (const args of f.calls.slice(0, 1)) {
      for (const place of kindsOfPlace(f, args)) {
        const was = valueAt(args, place);
        for (const { what, kind, make } of HEAVY) {
          if (kind !== kindOf(was)) continue;
          if (what === IN_ITSELF && listed(INSIDES_UNREAD, f.name, place)) continue;
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
          const over = PASSED_OVER[f.name]?.[patternOf(place)] !== undefined;
          const wrong = await fault(f, put, !over && refusesAt(f, place));
          if (wrong === null && over) await answersAlike(f, put, args);
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
