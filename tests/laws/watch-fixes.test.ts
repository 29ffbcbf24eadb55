import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Night, simulateNight } from "../../bench/simulator/night.js";
import { randomFrom } from "../../bench/simulator/random.js";
import { type WatchEvent, type WatchReport, stepWatch } from "../../src/watch/index.js";
import { begin, type Fix, fixAt, REACH_M, START } from "./watchScene.js";

/** Fixes of a simulated night; `mirror` puts east for west. */
function fixesOf(night: Night, mirror = false): Fix[] {
  const out: Fix[] = [];
  for (let i = 0; i < night.steps; i++) {
    const x = night.x[i]! - night.setX;
    if (!Number.isNaN(x))
      out.push(
        fixAt(START + i * 5000, mirror ? -x : x, night.y[i]! - night.setY, night.statedSigmaM),
      );
  }
  return out;
}
/** All reports, from the first event on. */
function reports(events: readonly WatchEvent[]): WatchReport[] {
  let state = begin();
  return events.map((e) => {
    state = stepWatch(state, e).state;
    return state.report;
  });
}
const rings = (r: WatchReport) => r.alarms.some((a) => a.code === "drag");
const firstRing = (events: readonly WatchEvent[]): number => {
  const at = reports(events).findIndex(rings);
  return at < 0 ? Infinity : events[at]!.timeMs;
};
const drag = (number: number, mPerMin: number) =>
  simulateNight(number, { receiver: "good", drag: { mPerMin }, hours: 3.6 });
const nightNumber = fc.integer({ min: 7_100_000, max: 7_100_400 });

describe("laws of the fixes", () => {
  test("east for west, nothing changes", () => {
    fc.assert(
      fc.property(nightNumber, (number) => {
        const night = drag(number, 3);
        const plain = reports(fixesOf(night)).map((r) => r.mode);
        expect(reports(fixesOf(night, true)).map((r) => r.mode)).toEqual(plain);
      }),
      { numRuns: 3 },
    );
  });

  test("told in any order within their half minute, the same middles", () => {
    fc.assert(
      fc.property(nightNumber, fc.integer({ min: 1, max: 1e6 }), (number, seed) => {
        const fixes = fixesOf(simulateNight(number, { receiver: "good", hours: 1.5 }));
        const blocks: Fix[][] = [];
        for (const f of fixes) (blocks[Math.floor((f.timeMs - START) / 30_000)] ??= []).push(f);
        expect(blocks.length).toBeGreaterThan(100);
        const r = randomFrom(seed);
        const shuffled = (block: readonly Fix[]): Fix[] => {
          const out = [...block];
          for (let i = out.length - 1; i > 0; i--) {
            const j = Math.floor(r.between(0, i + 1));
            [out[i], out[j]] = [out[j]!, out[i]!];
          }
          return out;
        };
        const mixed = blocks.flatMap(shuffled);
        const end: WatchEvent = { kind: "clock", timeMs: START + 2 * 3_600_000 };
        // What leaps or has stopped is told by what came before: such a receiver's order matters.
        const { jumps, frozen } = reports([...fixes, end]).at(-1)!.quality;
        fc.pre(jumps === 0 && frozen === 0);
        const middles = (events: WatchEvent[]) =>
          reports([...events, end])
            .at(-1)!
            .excess.map((e) => e.excessM);
        const plain = middles(fixes);
        middles(mixed).forEach((v, w) => {
          if (plain[w] === null) expect(v).toBeNull();
          else expect(v).toBeCloseTo(plain[w]!, 9);
        });
        expect(reports([...mixed, end]).some(rings)).toBe(reports([...fixes, end]).some(rings));
      }),
      { numRuns: 4 },
    );
  });

  test("split between two receivers, a quiet night stays quiet and a drag is found as it was, a block or two later", () => {
    const split = (fixes: readonly Fix[]): Fix[] =>
      fixes.map((f, i) => ({ ...f, receiver: i % 2 === 0 ? 0 : 1 }));
    fc.assert(
      fc.property(nightNumber, fc.constantFrom(3, 9, 30), (number, mPerMin) => {
        const quiet = fixesOf(simulateNight(number, { receiver: "good", hours: 3 }));
        if (firstRing(quiet) === Infinity) expect(firstRing(split(quiet))).toBe(Infinity);
        const dragging = fixesOf(drag(number, mPerMin));
        const one = firstRing(dragging);
        const two = firstRing(split(dragging));
        expect(one).toBeLessThan(Infinity);
        expect(Math.abs(two - one)).toBeLessThanOrEqual(120_000);
      }),
      { numRuns: 6 },
    );
  });
});

/** An hour at full reach, a silence, and where she is seen after it: so far outside, going on at a knot. */
function silence(silentS: number, outsideM: number, speedMps: number, seed: number): Fix[] {
  const fixes: Fix[] = [];
  const wobble = (i: number) => 0.6 * Math.sin(i * 0.7 + seed) + 0.3 * Math.cos(i * 1.9);
  for (let s = 0; s <= 3600; s += 5)
    fixes.push(fixAt(START + s * 1000, wobble(s), -(REACH_M - 1) + wobble(s + 1), 1.5));
  for (let s = 0; s <= 120; s += 5)
    fixes.push(
      fixAt(
        START + (3600 + silentS + s) * 1000,
        wobble(s),
        -(REACH_M + outsideM + speedMps * s) + wobble(s + 1),
        1.5,
      ),
    );
  return fixes;
}

describe("laws of silence", () => {
  test("what it hid rings within half a minute of the first fix", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 900 }),
        fc.double({ min: 55, max: 75, noNaN: true }),
        fc.integer({ min: 0, max: 50 }),
        (silentS, outsideM, seed) => {
          const at = firstRing(silence(silentS, outsideM, 0.5, seed));
          const seen = START + (3600 + silentS) * 1000;
          expect(at).toBeGreaterThan(seen);
          expect(at - seen).toBeLessThanOrEqual(30_000);
        },
      ),
      { numRuns: 15 },
    );
  });

  test("one or two fixes that leap as it ends ring nothing", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 900 }),
        fc.double({ min: 20, max: 200, noNaN: true }),
        fc.integer({ min: 1, max: 2 }),
        (silentS, leapM, fixes) => {
          const events = silence(silentS, -1, 0, 3).map((f, i) =>
            i > 720 && i <= 720 + fixes ? fixAt(f.timeMs, 0, -(REACH_M + leapM), 1.5) : f,
          );
          expect(firstRing(events)).toBe(Infinity);
        },
      ),
      { numRuns: 15 },
    );
  });

  test("longer than it was told to bear, she is never said to lie, whatever came before", () => {
    fc.assert(
      fc.property(
        nightNumber,
        fc.integer({ min: 50, max: 2000 }),
        fc.integer({ min: 121, max: 20_000 }),
        (number, until, silentS) => {
          const fixes = fixesOf(simulateNight(number, { receiver: "mixed", hours: 3 }));
          const before = fixes.slice(0, until);
          const clock: WatchEvent = {
            kind: "clock",
            timeMs: before.at(-1)!.timeMs + silentS * 1000,
          };
          const said = reports([...before, clock]).at(-1)!;
          expect(said.mode).toBe("blind");
          expect(said.alarms.map((a) => a.code)).toContain("blind");
        },
      ),
      { numRuns: 10 },
    );
  });
});
