import { describe, expect, test } from "vitest";
import { readNmea0183 } from "../../src/feed/index.js";
import {
  type WatchEvent,
  type WatchReport,
  resumeWatch,
  saveWatch,
  startWatch,
  stepWatch,
} from "../../src/watch/index.js";
import { begin, type Fix, fixAt, HOME, plane, REACH_M, START } from "../laws/watchScene.js";
import { positionOf } from "../../src/geo/plane.js";

/** 1024 weeks: what a receiver's date is off by after its week number has rolled over. */
const ROLL_S = 1024 * 7 * 86_400;
const KNOT = 1852 / 3600;

const wobble = (s: number) => 0.4 * Math.sin(1.7 * s) + 0.2 * Math.cos(2.3 * s);
const fix = (s: number, outM = -3, leapS = 0): Fix =>
  fixAt(START + (s + leapS) * 1000, wobble(s), -(REACH_M + outM) + wobble(s + 1), 1.5);
const clock = (s: number): WatchEvent => ({ kind: "clock", timeMs: START + s * 1000 });
/** A fix and the host's clock every 5 s of true time; the receiver's own is off by so much. */
function* told(
  fromS: number,
  toS: number,
  outM: (s: number) => number = () => -3,
  leapS = 0,
  lagS = 0,
): Generator<WatchEvent> {
  for (let s = fromS; s < toS; s += 5) {
    yield fix(s, outM(s), leapS);
    yield clock(s + 1 - lagS);
  }
}
/** What was said after each event. */
function said(events: Iterable<WatchEvent>, state = begin()): WatchReport[] {
  const out: WatchReport[] = [];
  for (const e of events) {
    state = stepWatch(state, e).state;
    out.push(state.report);
  }
  return out;
}
const codes = (r: WatchReport) => r.alarms.map((a) => a.code);
const modes = (reports: readonly WatchReport[]) => [...new Set(reports.map((r) => r.mode))];
const dragFrom = (s: number) => (at: number) => -3 + Math.max(0, at - s) * KNOT;

describe("a receiver whose clock is wrong", () => {
  test.each([
    ["rolls over to a week of twenty years ago", -ROLL_S],
    ["goes back an hour", -3600],
  ])("%s: its fixes are late, and soon she is blind, never said to lie", (_, leapS) => {
    const reports = said([...told(0, 1800), ...told(1800, 3600, dragFrom(1800), leapS)]);
    expect(codes(reports.at(-1)!)).toContain("blind");
    expect(modes(reports.slice(-600))).toEqual(["blind"]);
    expect(reports.at(-1)!.quality.late).toBeGreaterThan(300);
  });

  test.each([
    ["an hour", 3600],
    ["a week number", ROLL_S],
  ])(
    "one fix of the future, by %s, does not hide what follows: blind in three minutes",
    (_, leapS) => {
      const leap = fix(1802, -3, leapS);
      const reports = said([...told(0, 1800), leap, ...told(1805, 3600, dragFrom(1800))]);
      const after = reports.slice(-2 * ((3600 - 1805) / 5));
      const blindAt = after.findIndex((r) => r.mode === "blind");
      expect(blindAt).toBeGreaterThan(0);
      expect(blindAt).toBeLessThanOrEqual(2 * (180 / 5));
      expect(modes(after.slice(blindAt))).toEqual(["blind"]);
      expect(codes(after.at(-1)!)).toContain("blind");
    },
  );

  test("that goes back 13 s goes on as soon as it has caught up", () => {
    const quiet = said([...told(0, 1800), ...told(1800, 5400, undefined, -13)]);
    expect(modes(quiet.slice(20))).toEqual(["lying"]);
    const reports = said([...told(0, 1800), ...told(1800, 2100, dragFrom(1800), -13)]);
    expect(codes(reports.at(-1)!)).toContain("drag");
  });

  test("that leads for good: what it shows counts, by its own time", () => {
    const reports = said([...told(0, 1800), ...told(1800, 2400, dragFrom(1800), ROLL_S)]);
    expect(codes(reports.at(-1)!)).toContain("drag");
  });
});

describe("a host's clock that is wrong", () => {
  test.each([5, 90, 3600, ROLL_S])("%d s behind: nothing changes while fixes come", (lagS) => {
    const plain = said(told(0, 3600, dragFrom(3300)));
    const reports = said(told(0, 3600, dragFrom(3300), 0, lagS));
    // A clock that is right tells the second after the fix as well.
    const fixes = (all: WatchReport[]) => all.filter((_, i) => i % 2 === 0).map((r) => r.mode);
    expect(fixes(reports)).toEqual(fixes(plain));
    expect(codes(reports.at(-1)!)).toContain("drag");
  });

  test.each([0, 90, 3600, ROLL_S])("%d s behind: silence is heard by what it has gone", (lagS) => {
    let state = begin();
    for (const e of told(0, 1800, undefined, 0, lagS)) state = stepWatch(state, e).state;
    let rang = NaN;
    for (let s = 1800; s < 2400 && Number.isNaN(rang); s += 5) {
      state = stepWatch(state, clock(s - lagS)).state;
      if (codes(state.report).includes("blind")) rang = s - 1795;
    }
    expect(rang).toBeGreaterThan(115);
    expect(rang).toBeLessThanOrEqual(130);
  });

  test("set right in one step of an hour: at most a minute of it counts", () => {
    const events = [...told(0, 1800, undefined, 0, 3600), clock(1801 - 3599), clock(1801)];
    for (const r of said([...events, ...told(1805, 3600)]))
      expect(["cannotTell", "lying"]).toContain(r.mode);
  });

  test.each([5, 31, 45, 100])(
    "%d s ahead: she is held against her limits all the same",
    (leadS) => {
      const { quality, mode, excess } = said(told(0, 3600, undefined, 0, -leadS)).at(-1)!;
      expect([mode, quality.blocks]).toEqual(["lying", 60]);
      for (const e of excess) expect(Math.abs(e.excessM! + 3)).toBeLessThan(0.3);
    },
  );

  test("it survives a crash in between, to the bit", () => {
    let whole = begin();
    let broken = begin();
    for (const e of [...told(0, 600, undefined, 0, 900), clock(-280), clock(-200), clock(-150)]) {
      whole = stepWatch(whole, e).state;
      broken = resumeWatch(saveWatch(stepWatch(broken, e).state));
    }
    expect(saveWatch(broken)).toBe(saveWatch(whole));
    expect(whole.report.mode).toBe("blind");
  });

  test("the old state stays as it was when a lagging clock closes a half minute", () => {
    let state = begin();
    for (const e of told(0, 900, undefined, 0, 600)) state = stepWatch(state, e).state;
    state = stepWatch(state, clock(310)).state;
    const before = JSON.stringify(state);
    stepWatch(state, clock(360));
    expect(JSON.stringify(state)).toBe(before);
  });
});

describe("what is told late or seldom", () => {
  const driven = (s: number, sogMps: number, lateS = 0): Fix => ({
    ...fix(s, -3, -lateS),
    ...{ sogMps, cogDeg: 180 },
  });
  const outward = (r: WatchReport) => r.reasons.some((reason) => reason.code === "speed.outward");

  test("a speed told 20 s late, a little less than those before, is no way made now", () => {
    const events = Array.from({ length: 40 }, (_, i) => driven(1000 + i, 0.15));
    const late = [0.05, 0.05, 0.05].map((sogMps, i) => driven(1040 + i, sogMps, 20));
    expect(said([...events, ...late, clock(1044)]).some(outward)).toBe(false);
  });

  test("a speed told four hours late does not silence those that follow", () => {
    const after = Array.from({ length: 60 }, (_, i) => driven(1002 + i, 0.5));
    const events = [driven(1000, 0.1), driven(1001, 0.2, 4 * 3600), ...after, clock(1063)];
    expect(outward(said(events).at(-1)!)).toBe(true);
  });

  test.each([60, 90, 120, 180])(
    "a fix every %d s: the half hour speaks, whenever she began",
    (everyS) => {
      for (const firstS of [0, 1, 31, 61, 91]) {
        const fixes = Array.from({ length: 7200 / everyS }, (_, i) => fix(firstS + i * everyS));
        const { excess } = said(fixes, begin({ fixEveryS: everyS })).at(-1)!;
        expect(excess[1]!.excessM, String(firstS)).toBeCloseTo(-3, 0);
      }
    },
  );
});

describe("a receiver that dies away", () => {
  test.each([240, 420, 590])("to a fix every %d s: she is blind in between for good", (everyS) => {
    let state = begin();
    for (const e of told(0, 1800)) state = stepWatch(state, e).state;
    for (let s = 1800; s < 1800 + 20 * everyS; s += everyS) {
      for (const e of [fix(s), clock(s + everyS - 1)]) state = stepWatch(state, e).state;
      expect(state.report.mode, String(s)).toBe("blind");
    }
  });
});

describe("a receiver that is wrong about the place", () => {
  test("0, 0 for good is never said to be lying", () => {
    const origin = (s: number): WatchEvent => ({ ...fix(s), latDeg: 0, lonDeg: 0 });
    const events = Array.from({ length: 720 }, (_, i) => origin(1800 + 5 * i));
    const reports = said([...told(0, 1800), ...events]);
    expect(modes(reports.slice(-600))).not.toContain("lying");
    expect(reports.at(-1)!.alarms.length).toBeGreaterThan(0);
  });

  test("two antennas 6 m apart that change places: no drag, and a drag after it is found", () => {
    const from = (s: number, receiver: 0 | 1, fore: boolean, outM = -8): Fix => ({
      ...fixAt(
        START + s * 1000 + receiver,
        wobble(s + receiver),
        -(REACH_M + outM + (fore ? 0 : 6)) + wobble(s + 1),
        1.5,
      ),
      receiver,
    });
    const both = (
      fromS: number,
      toS: number,
      swapped: boolean,
      outM: (s: number) => number = () => -8,
    ) =>
      Array.from({ length: (toS - fromS) / 5 }, (_, i) => fromS + 5 * i).flatMap((s) => [
        from(s, 0, !swapped, outM(s)),
        from(s, 1, swapped, outM(s)),
      ]);
    const quiet = [...both(0, 3600, false), ...both(3600, 10_800, true)];
    expect(modes(said(quiet).slice(20))).toEqual(["lying"]);
    const drag = both(10_800, 11_400, true, (s) => -8 + (s - 10_800) * KNOT);
    expect(codes(said([...quiet, ...drag]).at(-1)!)).toContain("drag");
  });

  const nowhere = (s: number): WatchEvent => ({
    kind: "fix",
    timeMs: START + s * 1000,
    latDeg: 0,
    lonDeg: s % 2 === 0 ? 0 : -0,
  });
  test("nought north and nought east is no position: no drag by it, none hidden, and with it alone she is blind", () => {
    const events = (outM?: (s: number) => number) =>
      [...told(0, 3600, outM)].map((e, i) => (i % 20 === 0 ? nowhere(2.5 * i) : e));
    const quiet = said(events());
    expect(modes(quiet.slice(100))).toEqual(["lying"]);
    const without = said([...told(0, 3600)].filter((_, i) => i % 20 !== 0)).at(-1)!;
    expect(quiet.at(-1)!.excess).toEqual(without.excess);
    expect(quiet.at(-1)!.quality.jumps).toBe(72);
    expect(codes(said(events(dragFrom(3000))).at(-1)!)).toContain("drag");
    const alone = said(Array.from({ length: 720 }, (_, k) => nowhere(5 * k)));
    expect(modes(alone)).not.toContain("lying");
    expect(codes(alone.at(-1)!)).toContain("blind");
  });

  test("jumps of 200 m, one fix in twenty, neither ring nor hide a drag", () => {
    const jumping = (fromS: number, toS: number, outM: (s: number) => number) =>
      Array.from({ length: (toS - fromS) / 5 }, (_, i) =>
        fix(fromS + 5 * i, outM(fromS + 5 * i) + (i % 20 === 7 ? 200 : 0)),
      );
    const quiet = jumping(0, 7200, () => -3);
    expect(modes(said(quiet).slice(10))).toEqual(["lying"]);
    expect(said(quiet).at(-1)!.quality.jumps).toBe(72);
    const reports = said([...quiet, ...jumping(7200, 7500, dragFrom(7200))]);
    expect(codes(reports.at(-1)!)).toContain("drag");
  });

  test("a gap of three hours: blind in it, and what it hid rings at once", () => {
    let state = begin();
    for (const e of told(0, 3600)) state = stepWatch(state, e).state;
    state = stepWatch(state, clock(3600 + 3 * 3600)).state;
    expect(state.report.mode).toBe("blind");
    const lay = said(told(14_400, 14_460), state);
    expect(lay.at(-1)!.mode).toBe("lying");
    const gone = said(
      told(14_400, 14_460, () => 60),
      state,
    );
    expect(codes(gone.at(-1)!)).toContain("drag");
  });
});

describe("sentences of a receiver whose week number rolls over in the night", () => {
  const sum = (body: string) => {
    let x = 0;
    for (let i = 0; i < body.length; i++) x ^= body.charCodeAt(i);
    return x.toString(16).toUpperCase().padStart(2, "0");
  };
  const two = (n: number) => String(n).padStart(2, "0");
  const angle = (deg: number, digits: number) => {
    const minutes = Math.round(Math.abs(deg) * 6_000_000);
    const rest = ((minutes % 6_000_000) / 100_000).toFixed(5).padStart(8, "0");
    return `${String(Math.floor(minutes / 6_000_000)).padStart(digits, "0")}${rest}`;
  };
  const rmc = (s: number, leapS: number): string => {
    const d = new Date(START + (s + leapS) * 1000);
    const { latDeg, lonDeg } = positionOf(plane, wobble(s), -(REACH_M - 3) + wobble(s + 1));
    const time = `${two(d.getUTCHours())}${two(d.getUTCMinutes())}${two(d.getUTCSeconds())}.00`;
    const date = `${two(d.getUTCDate())}${two(d.getUTCMonth() + 1)}${two(d.getUTCFullYear() % 100)}`;
    const body = `GPRMC,${time},A,${angle(latDeg, 2)},N,${angle(lonDeg, 3)},W,0.0,0.0,${date},,,A`;
    return `$${body}*${sum(body)}\r\n`;
  };

  test("dates of two digits are read as told, and the watch goes blind", () => {
    const seconds = Array.from({ length: 720 }, (_, i) => 5 * i);
    const text = seconds.map((s) => rmc(s, s < 1800 ? 0 : -ROLL_S)).join("");
    const { events } = readNmea0183(text);
    const fixes = events.filter((e) => e.kind === "fix");
    expect(fixes).toHaveLength(720);
    expect(fixes[0]!.timeMs).toBe(START);
    expect(fixes.at(-1)!.timeMs).toBe(START + (3595 - ROLL_S) * 1000);
    const reports = said(fixes.flatMap((e, i) => [e, clock(5 * i + 1)]));
    expect(modes(reports.slice(100, 700))).toEqual(["lying"]);
    expect(modes(reports.slice(-600))).toEqual(["blind"]);
  });

  test("a watch begun by the wrong date all night is none the worse", () => {
    const state = startWatch({
      startMs: START - ROLL_S * 1000,
      anchor: { known: true, position: HOME, sigmaM: 2 },
      limits: {
        rows: [
          {
            timeMs: START - ROLL_S * 1000,
            greatestDistanceM: REACH_M,
            leastDepthM: null,
            greatestDepthM: null,
          },
        ],
        distanceSigmaM: 1,
      },
    });
    const events = Array.from({ length: 720 }, (_, i) =>
      fix(5 * i, dragFrom(3300)(5 * i), -ROLL_S),
    );
    const reports = said(events, state);
    expect(modes(reports.slice(20, 650))).toEqual(["lying"]);
    expect(codes(reports.at(-1)!)).toContain("drag");
  });
});
