import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import {
  type WatchEvent,
  type WatchReport,
  type WatchState,
  resumeWatch,
  saveWatch,
  stepWatch,
} from "../../src/watch/index.js";
import { begin, type Fix, fixAt, HOME, REACH_M, START } from "./watchScene.js";

const fix = (s: number, x: number, y: number): Fix => fixAt(START + s * 1000, x, y, 1.5);
const clock = (s: number): WatchEvent => ({ kind: "clock", timeMs: START + s * 1000 });
const wobble = (s: number, seed: number) =>
  0.6 * Math.sin(s * 0.7 + seed) + 0.3 * Math.cos(s * 1.9 + seed);
/** Lying at so many metres inside her reach from one second to another. */
const lying = (fromS: number, toS: number, insideM: number, seed: number) =>
  Array.from({ length: (toS - fromS) / 5 }, (_, i) => {
    const s = fromS + 5 * i;
    return fix(s, wobble(s, seed), -(REACH_M - insideM) + wobble(s + 1, seed));
  });
const after = (events: readonly WatchEvent[], state = begin()): WatchState => {
  for (const e of events) state = stepWatch(state, e).state;
  return state;
};
const codes = (r: WatchReport) => r.alarms.map((a) => a.code);
const seeds = fc.integer({ min: 0, max: 1000 });

describe("laws of what is said", () => {
  test("dragging farther never lowers the excess, nor what it is in spreads", () => {
    fc.assert(
      fc.property(
        seeds,
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (seed, a, b) => {
          const [less, more] = a < b ? [a, b] : [b, a];
          // An hour at her place, then half an hour so much farther out; the first stretch is the same.
          const said = (outM: number) =>
            after([
              ...lying(0, 3600, 2, seed),
              ...lying(3600, 5400, 2, seed).map((e, i) =>
                fix(
                  (e.timeMs - START) / 1000,
                  wobble(i, seed),
                  -(REACH_M - 2 + Math.min(outM, i)) + wobble(i + 1, seed),
                ),
              ),
            ]).report;
          const [near, far] = [said(less), said(more)];
          near.excess.forEach((e, w) => {
            expect(far.excess[w]!.excessM!).toBeGreaterThanOrEqual(e.excessM! - 1e-9);
            expect(far.excess[w]!.spreads!).toBeGreaterThanOrEqual(e.spreads! - 1e-9);
          });
          if (codes(near).includes("drag")) expect(codes(far)).toContain("drag");
        },
      ),
      { numRuns: 25 },
    );
  });

  test("while nothing comes, what is said of the positions never grows better", () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 600, max: 5400 }), (seed, untilS) => {
        const toS = untilS - (untilS % 5);
        // From when the half minute of the last fixes has been closed.
        let state = after([...lying(0, toS, 3, seed), clock(toS + 30)]);
        let before = state.report.quality;
        for (let s = toS + 40; s <= toS + 3600; s += 10) {
          state = stepWatch(state, clock(s)).state;
          const now = state.report.quality;
          expect(now.sigmaM).toBeGreaterThanOrEqual(before.sigmaM - 1e-12);
          expect(now.silentS).toBeGreaterThanOrEqual(before.silentS);
          expect(now.blocks).toBeLessThanOrEqual(before.blocks);
          before = now;
        }
        expect(state.report.mode).toBe("blind");
      }),
      { numRuns: 6 },
    );
  });

  test("longitude told the other way about the globe, nothing changes", () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: -5, max: 30, noNaN: true }), (seed, outM) => {
        const events = lying(0, 2400, -outM, seed);
        const about = events.map((e) => ({ ...e, lonDeg: e.lonDeg + 360 }));
        expect(after(about).report.mode).toBe(after(events).report.mode);
        expect(codes(after(about).report)).toEqual(codes(after(events).report));
      }),
      { numRuns: 8 },
    );
  });

  test("without the anchor's place or a heading she is never said to lie, and why is told", () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: -30, max: 30, noNaN: true }), (seed, insideM) => {
        let state = begin({ anchor: { known: false, near: HOME } });
        for (const e of lying(0, 5400, insideM, seed)) {
          state = stepWatch(state, e).state;
          expect(["cannotTell", "blind"]).toContain(state.report.mode);
        }
        expect(state.report.mode).toBe("cannotTell");
        expect(state.report.anchor).toBeNull();
        expect(state.report.reasons.map((r) => r.code)).toContain("anchor.unknown");
      }),
      { numRuns: 8 },
    );
  });
});

describe("laws of a silence it is told to bear", () => {
  test("blind as soon as ever, ringing only then; at once in a breeze, or from outside", () => {
    fc.assert(
      fc.property(
        seeds,
        fc.integer({ min: 150, max: 3000 }),
        fc.constantFrom("calm", "untold", "breeze", "outside"),
        (seed, ringSilentS, how) => {
          const events: WatchEvent[] = lying(0, 3600, 2, seed);
          if (how === "calm" || how === "breeze")
            events.push({
              kind: "wind",
              timeMs: START + 3_595_000,
              windMps: how === "calm" ? 3 : 12,
              windFromDeg: 0,
            });
          if (how === "outside")
            for (let s = 3600; s <= 3625; s += 5) events.push(fix(s, 0, -REACH_M - (s - 3595)));
          const last = how === "outside" ? 3625 : 3595;
          const told = after(events, begin({ ringSilentS }));
          const plain = after(events);
          for (const s of [20, 40, 59, 65, 119, 125, ringSilentS - 1, ringSilentS + 1, 3100]) {
            const said = after([clock(last + s)], told).report;
            const would = after([clock(last + s)], plain).report;
            expect(said.mode).toBe(would.mode);
            const atOnce = how === "breeze" || how === "outside";
            const rings = would.mode === "blind" && (atOnce || s >= ringSilentS);
            expect(codes(said).includes("blind")).toBe(rings);
          }
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe("laws of what is saved", () => {
  const text = saveWatch(after(lying(0, 2400, 2, 5)));

  test("cut short or with any letter changed it is refused", () => {
    fc.assert(
      fc.property(
        fc.nat(text.length - 1),
        fc.constantFrom("A", "b", "7", " ", "/"),
        (at, letter) => {
          expect(() => resumeWatch(text.slice(0, at))).toThrow(InputError);
          if (text[at] === letter) return;
          expect(() => resumeWatch(text.slice(0, at) + letter + text.slice(at + 1))).toThrow(
            InputError,
          );
        },
      ),
      { numRuns: 300 },
    );
  });

  /** Why a text is refused. */
  const refused = (bad: string): string => {
    try {
      resumeWatch(bad);
    } catch (error) {
      if (error instanceof InputError) return error.issues[0]!.code;
      throw error;
    }
    return "taken";
  };

  test("with any one bit of it flipped, or anything after it, it is refused with the reason", () => {
    const mark = text.indexOf(" ");
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.nat(7), (at, bit) => {
        const flipped = String.fromCharCode(text.charCodeAt(at) ^ (1 << bit));
        const bad = text.slice(0, at) + flipped + text.slice(at + 1);
        expect(refused(bad)).toBe(at <= mark ? "invalid_version" : "invalid_checksum");
      }),
      { numRuns: 400 },
    );
    for (const more of [" ", "\n", "A", " A", ` ${text}`])
      expect(refused(text + more)).toBe("invalid_checksum");
    expect(refused(text)).toBe("taken");
  });

  test("of another version it is refused, older or newer, whatever it holds", () => {
    const version = Number(text.slice("hawse-watch-".length, text.indexOf(" ")));
    for (let other = 0; other <= version + 3; other++)
      expect(refused(text.replace(`hawse-watch-${version}`, `hawse-watch-${other}`))).toBe(
        other === version ? "taken" : "invalid_version",
      );
  });

  test("its size is the same whatever has happened, and under 8 KiB", () => {
    const sizes = [begin(), after(lying(0, 300, 2, 1)), after(lying(0, 9000, -40, 2))].map(
      (s) => saveWatch(s).length,
    );
    expect(new Set(sizes).size).toBe(1);
    expect(sizes[0]).toBeLessThanOrEqual(8192);
  });
});
