import { describe, expect, test } from "vitest";
import {
  type StartWatchInput,
  type WatchEvent,
  type WatchReport,
  type WatchState,
  resumeWatch,
  saveWatch,
  startWatch,
  stepWatch,
} from "../../src/watch/index.js";
import { InputError } from "../../src/core/errors.js";
import { planeAt, positionOf } from "../../src/geo/plane.js";

const START = Date.UTC(2026, 5, 1, 20);
const ANCHOR = { latDeg: 50, lonDeg: -4 };
const plane = planeAt(ANCHOR);

const options = (extra: Partial<StartWatchInput> = {}): StartWatchInput => ({
  startMs: START,
  anchor: { known: true, position: ANCHOR, sigmaM: 2 },
  limits: {
    rows: [
      {
        timeMs: START,
        greatestDistanceM: 40,
        leastDepthM: 4,
        greatestDepthM: 8,
      },
    ],
    distanceSigmaM: 1,
  },
  ...extra,
});

/** A fix so many seconds in, metres east and north of the anchor, with a little scatter of its own. */
const fix = (s: number, eastM: number, northM: number, extra: object = {}): WatchEvent => ({
  kind: "fix",
  timeMs: START + s * 1000,
  ...positionOf(plane, eastM + 0.3 * Math.sin(s * 1.7), northM + 0.3 * Math.cos(s * 2.3)),
  sigmaM: 1.5,
  ...extra,
});
const clock = (s: number): WatchEvent => ({
  kind: "clock",
  timeMs: START + s * 1000,
});

function run(
  state: WatchState,
  events: Iterable<WatchEvent>,
): { state: WatchState; report: WatchReport } {
  let report = state.report;
  for (const e of events) ({ state, report } = stepWatch(state, e));
  return { state, report };
}
/** Fixes every 5 s from one second to another. */
function* lying(
  fromS: number,
  toS: number,
  at: (s: number) => [number, number],
  extra: object = {},
): Generator<WatchEvent> {
  for (let s = fromS; s <= toS; s += 5) yield fix(s, ...at(s), extra);
}
const still = (): [number, number] => [0, -35];
const codes = (report: WatchReport) => report.alarms.map((a) => a.code);
const reasons = (report: WatchReport) => report.reasons.map((r) => r.code);

describe("how she lies", () => {
  test("inside the greatest distance she lies, once a block has been compared", () => {
    const first = stepWatch(startWatch(options()), fix(0, 0, -35));
    expect(first.report.mode).toBe("cannotTell");
    const { report } = run(startWatch(options()), lying(0, 3600, still));
    expect(report.mode).toBe("lying");
    expect(report.distanceM).toBeCloseTo(35, 0);
    expect(report.moved).toBeNull();
  });

  test("a drag of a knot after a quiet hour is an alarm that stays until acknowledged and quiet", () => {
    const quiet = run(startWatch(options()), lying(0, 7200, still));
    const dragged = run(
      quiet.state,
      lying(7205, 7500, (s) => [0, -35 - (s - 7200) * 0.514]),
    );
    expect(dragged.report.mode).toBe("dragging");
    expect(codes(dragged.report)).toContain("drag");
    expect(dragged.report.moved!.atLeastM).toBeGreaterThan(50);
    // 154 m have been dragged; the lower end must not claim more.
    expect(dragged.report.moved!.atLeastM).toBeLessThan(155);
    expect(dragged.report.moved!.towardsDeg).toBeCloseTo(180, -1);
    // Back inside: still dragging until acknowledged.
    const back = run(dragged.state, lying(7700, 11000, still));
    expect(back.report.mode).toBe("dragging");
    const heard = run(back.state, [{ kind: "acknowledge", timeMs: START + 11001_000 }]);
    expect(heard.report.mode).toBe("lying");
    expect(codes(heard.report)).toEqual([]);
  });

  test("acknowledging a drag that goes on does not make her lie", () => {
    const dragged = run(
      startWatch(options()),
      lying(0, 9000, (s) => [0, s < 7200 ? -35 : -35 - (s - 7200) * 0.2]),
    );
    const heard = run(dragged.state, [{ kind: "acknowledge", timeMs: START + 9001_000 }]);
    expect(heard.report.alarms[0]).toEqual({
      code: "drag",
      acknowledged: true,
    });
    const later = run(
      heard.state,
      lying(9005, 10800, (s) => [0, -35 - (s - 7200) * 0.2]),
    );
    expect(later.report.mode).toBe("dragging");
  });

  test("swinging right round the anchor is no drag", () => {
    const { report } = run(
      startWatch(options()),
      lying(0, 4 * 3600, (s) => [38 * Math.sin(s / 1500), 38 * Math.cos(s / 1500)]),
    );
    expect(report.mode).toBe("lying");
  });

  test("while she is being brought up nothing rings, and then it does", () => {
    const far = (): [number, number] => [0, -90];
    const a = run(startWatch(options({ stage: "letGo" })), lying(0, 1200, far));
    expect(a.report.mode).toBe("bringingUp");
    expect(codes(a.report)).toEqual([]);
    const b = run(a.state, [
      { kind: "stage", timeMs: START + 1201_000, stage: "broughtUp" },
      ...lying(1205, 1300, far),
    ]);
    expect(b.report.mode).toBe("dragging");
    const c = run(b.state, [{ kind: "stage", timeMs: START + 1301_000, stage: "weighing" }]);
    expect(c.report.mode).toBe("aweigh");
    expect(codes(c.report)).toEqual([]);
  });
});

describe("what explains an excess", () => {
  const outside = run(
    startWatch(options()),
    lying(0, 9000, (s) => [0, s < 7200 ? -38 : -62]),
  );

  test("without an explanation it is an alarm", () => {
    expect(outside.report.mode).toBe("dragging");
  });

  test("rode veered moves the limits from then on", () => {
    const veered = run(
      startWatch(options()),
      (function* () {
        yield* lying(0, 7200, still);
        yield { kind: "veered", timeMs: START + 7201_000, byM: 25 };
        yield* lying(7205, 10800, () => [0, -62]);
      })(),
    );
    expect(veered.report.mode).toBe("lying");
    expect(veered.report.greatestDistanceM).toBe(65);
    const late = run(outside.state, [
      { kind: "veered", timeMs: START + 9001_000, byM: 25 },
      ...lying(9005, 9100, () => [0, -62]),
    ]);
    expect(late.report.mode).toBe("lying");
  });

  test("too little rode veered does not", () => {
    const late = run(outside.state, [{ kind: "veered", timeMs: START + 9001_000, byM: 1 }]);
    expect(late.report.mode).toBe("dragging");
  });

  test("new limits, or the anchor's true place, do too", () => {
    const limits = options().limits;
    const wider = run(outside.state, [
      {
        kind: "limits",
        timeMs: START + 9001_000,
        limits: {
          ...limits,
          rows: [{ ...limits.rows[0]!, greatestDistanceM: 66 }],
        },
      },
    ]);
    expect(wider.report.mode).toBe("lying");
    const moved = run(outside.state, [
      {
        kind: "anchor",
        timeMs: START + 9001_000,
        position: positionOf(plane, 0, -25),
        sigmaM: 2,
      },
    ]);
    expect(moved.report.mode).toBe("lying");
    expect(moved.report.anchor?.sigmaM).toBe(2);
  });
});

describe("a run outward", () => {
  /** A receiver that has strayed by 45 m for two minutes, every quarter of an hour. */
  const straying = (s: number): [number, number] => [0, s % 900 < 120 ? -80 : -38];
  const dragged = (mps: number, to: number) => {
    const { state } = run(startWatch(options()), lying(0, 7100, straying));
    return run(
      state,
      lying(7105, 7100 + to, (s) => [0, -38 - mps * (s - 7100)]),
    ).report;
  };

  test("is heard however little the receiver is trusted", () => {
    const report = dragged(0.514, 120);
    expect(report.mode).toBe("dragging");
    expect(reasons(report)).toContain("distance.run");
  });

  test("leaps and excursions that fill and flag are none", () => {
    const filling = (s: number): [number, number] => {
      const out = s % 900 < 150 ? 1 - Math.exp(-(s % 900) / 20) : Math.exp(-((s % 900) - 150) / 20);
      return [0, -38 - 40 * out];
    };
    for (const way of [straying, filling]) {
      let state = startWatch(options());
      for (const e of lying(0, 7000, way)) {
        state = stepWatch(state, e).state;
        const run = state.report.reasons.find((r) => r.code === "distance.run");
        expect(run?.severity).not.toBe("stop");
      }
    }
  });
});

describe("when it cannot see", () => {
  test("silence is an alarm by the clock, and sooner in a breeze", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    expect(stepWatch(state, clock(715)).report.mode).toBe("lying");
    const blind = stepWatch(state, clock(725));
    expect(blind.report.mode).toBe("blind");
    expect(codes(blind.report)).toEqual(["blind"]);
    const windy = stepWatch(state, {
      kind: "wind",
      timeMs: START + 600_000,
      windMps: 12,
      windFromDeg: 0,
    });
    expect(stepWatch(windy.state, clock(665)).report.mode).toBe("blind");
  });

  test("the host says how long silence may last, and a breeze never makes it longer", () => {
    const after = (silentS: number, s: number, windMps = 0) => {
      const { state } = run(startWatch(options({ silentS })), [
        ...lying(0, 600, still),
        { kind: "wind", timeMs: START + 600_000, windMps, windFromDeg: 0 },
      ]);
      return stepWatch(state, clock(s)).report.mode;
    };
    expect([after(300, 890), after(300, 905)]).toEqual(["lying", "blind"]);
    expect([after(30, 625), after(30, 635)]).toEqual(["lying", "blind"]);
    expect(after(30, 635, 12)).toBe("blind");
    expect(after(300, 665, 12)).toBe("blind");
    const saved = saveWatch(run(startWatch(options({ silentS: 300 })), lying(0, 600, still)).state);
    expect(stepWatch(resumeWatch(saved), clock(890)).report.mode).toBe("lying");
  });

  test("silence that falls while she lies outside rings soonest", () => {
    const { state } = run(startWatch(options()), [
      ...lying(0, 7200, still),
      ...lying(7205, 7225, (s) => [0, -35 - 1.2 * (s - 7200)]),
    ]);
    expect(stepWatch(state, clock(7250)).report.mode).not.toBe("blind");
    expect(stepWatch(state, clock(7260)).report.mode).toBe("blind");
  });

  test("a watch that never had a fix goes blind", () => {
    expect(stepWatch(startWatch(options()), clock(121)).report.mode).toBe("blind");
  });

  test("the blind alarm stays after sight returns, the mode does not; the gap is told", () => {
    const { state } = run(startWatch(options()), [...lying(0, 600, still), clock(800)]);
    const { report } = run(state, lying(900, 960, still));
    expect(report.mode).toBe("lying");
    expect(codes(report)).toEqual(["blind"]);
    expect(reasons(report)).toContain("fixes.gap");
  });

  test("she is compared at once after a gap", () => {
    const { state } = run(startWatch(options()), [...lying(0, 7200, still), clock(10800)]);
    const { report } = run(
      state,
      lying(10805, 10900, () => [0, -110]),
    );
    expect(report.mode).toBe("dragging");
  });

  test("a frozen receiver neither reassures nor alarms, and soon counts as none", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    const held = fix(600, 0, -35) as WatchEvent & { kind: "fix" };
    const frozen = (toS: number) =>
      run(
        state,
        (function* () {
          for (let s = 605; s <= toS; s += 5) yield { ...held, timeMs: START + s * 1000 };
        })(),
      ).report;
    expect(frozen(720).mode).toBe("blind");
    expect(frozen(720).quality.frozen).toBeGreaterThan(10);
  });

  test("a slow source is not blind between its reports", () => {
    let state = startWatch(options({ fixEveryS: 180 }));
    for (let s = 0; s <= 4 * 3600; s += 180) {
      state = stepWatch(state, fix(s, 0, -35)).state;
      const { report } = stepWatch(state, clock(s + 175));
      expect(report.mode).not.toBe("blind");
    }
    expect(state.report.mode).toBe("lying");
    for (let s = 4 * 3600 + 180; s <= 5.5 * 3600; s += 180)
      state = stepWatch(state, fix(s, 0, -80)).state;
    expect(state.report.mode).toBe("dragging");
  });
});

describe("bad fixes", () => {
  test("a jump of one or two fixes is put by and counted", () => {
    const events = [...lying(0, 7200, still)];
    events.splice(700, 0, fix(3498, 900, 900), fix(3499, 900, 905));
    const { report } = run(startWatch(options()), events);
    expect(report.mode).toBe("lying");
    expect(report.quality.jumps).toBe(2);
  });

  test("a jump that ends a silence is put by too, and teaches nothing", () => {
    const silence = [...lying(0, 3600, still)];
    const back = lying(3750, 7200, still);
    const clean = run(startWatch(options()), [...silence, ...back]).report;
    const jumped = run(startWatch(options()), [
      ...silence,
      fix(3740, 0, -140),
      fix(3745, 0, -140),
      ...lying(3750, 7200, still),
    ]).report;
    expect(jumped.quality.jumps).toBe(2);
    expect(jumped.quality.sigmaM).toBeCloseTo(clean.quality.sigmaM, 1);
    expect(jumped.mode).toBe("lying");
  });

  test("a vessel that moves on after a silence is believed within half a minute", () => {
    const { state } = run(startWatch(options()), lying(0, 7200, still));
    const { report } = run(
      state,
      lying(7380, 7440, (s) => [0, -35 - 0.514 * (s - 7200)]),
    );
    expect(report.mode).toBe("dragging");
  });

  test("a jump that lasts is believed in the end", () => {
    const { state } = run(startWatch(options()), lying(0, 3600, still));
    const { report } = run(
      state,
      lying(3605, 4200, () => [0, -300]),
    );
    expect(report.mode).toBe("dragging");
  });

  test("repeats and stale fixes change nothing but their counts", () => {
    const events = [...lying(0, 3600, still)];
    const plain = run(startWatch(options()), events);
    const muddled = run(
      startWatch(options()),
      events.flatMap((e, i) => (i > 300 && i % 10 === 0 ? [e, e, events[i - 200]!] : [e])),
    );
    expect(muddled.report.excess).toEqual(plain.report.excess);
    expect(muddled.report.quality.duplicates).toBeGreaterThan(30);
    expect(muddled.report.quality.late).toBeGreaterThan(30);
  });

  test("the earth's origin is no place to lie: a receiver that says 0, 0 is put by", () => {
    const { state } = run(startWatch(options()), lying(0, 3600, still));
    const { report } = stepWatch(state, {
      kind: "fix",
      timeMs: START + 3605_000,
      latDeg: 0,
      lonDeg: 0,
    });
    expect(report.mode).toBe("lying");
    const more = stepWatch(state, {
      kind: "fix",
      timeMs: START + 3605_000,
      latDeg: 0,
      lonDeg: 0,
    }).state;
    expect(stepWatch(more, clock(3630)).report.quality.jumps).toBe(1);
  });

  test("events that cannot be are refused", () => {
    const state = startWatch(options());
    const bad = [
      { kind: "fix", timeMs: START, latDeg: NaN, lonDeg: 0 },
      { kind: "fix", timeMs: START, latDeg: 91, lonDeg: 0 },
      { kind: "fix", timeMs: START, latDeg: 1, lonDeg: 0, sigma: 2 },
      { kind: "fixed", timeMs: START },
    ];
    for (const e of bad) expect(() => stepWatch(state, e as WatchEvent)).toThrow(InputError);
  });
});

describe("two receivers", () => {
  const both = function* (
    toS: number,
    second: (s: number) => [number, number],
    firstUntil = Infinity,
  ): Generator<WatchEvent> {
    for (let s = 0; s <= toS; s += 5) {
      if (s <= firstUntil) yield fix(s, ...still(), { receiver: 0 });
      yield fix(s + 1, ...second(s), { receiver: 1 });
    }
  };

  test("when the first falls silent the second takes over without a step", () => {
    // The second antenna stands 6 m farther from the anchor.
    const { report } = run(
      startWatch(options()),
      both(4000, () => [0, -41], 3600),
    );
    expect(report.quality.receiver).toBe(1);
    expect(report.mode).toBe("lying");
  });

  test("when they disagree both are trusted less", () => {
    const agree = run(
      startWatch(options()),
      both(4000, () => [1, -35]),
    ).report;
    const differ = run(
      startWatch(options()),
      both(4000, () => [25, -30]),
    ).report;
    expect(reasons(agree)).not.toContain("receivers.differ");
    expect(reasons(differ)).toContain("receivers.differ");
    expect(differ.quality.sigmaM).toBeGreaterThan(agree.quality.sigmaM);
  });
});

describe("depth, transits, speed and heading", () => {
  const depth = (s: number, depthM: number): WatchEvent => ({
    kind: "depth",
    timeMs: START + s * 1000,
    depthM,
  });

  test("shoaling beyond what the tide explains, for three minutes, rings", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    const short = run(state, [depth(600, 3.5), depth(700, 3.5)]).report;
    expect(codes(short)).toEqual([]);
    const long = run(state, [...lying(605, 790, still), depth(600, 3.5), depth(795, 3.5)]).report;
    expect(codes(long)).toEqual(["shoal"]);
    expect(reasons(long)).toContain("depth.shoal");
  });

  test("a wild sounding now and then hides no shoal; a minute and a half of good ones ends it", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    const told = (fromS: number, toS: number, of: (s: number) => number) =>
      Array.from({ length: (toS - fromS) / 2 }, (_, i) => fromS + 2 * i).flatMap((s) => [
        ...(s % 10 === 0 ? lying(s, s + 1, still) : []),
        depth(s, of(s)),
      ]);
    for (const everyS of [10, 30, 120]) {
      const wild = told(602, 1802, (s) => (s % everyS === 0 ? 6 : 3.5));
      const shoal = run(state, wild);
      expect(codes(shoal.report), String(everyS)).toEqual(["shoal"]);
      const heard = run(shoal.state, [{ kind: "acknowledge", timeMs: START + 1802_000 }]).state;
      expect(
        codes(
          run(
            heard,
            told(1804, 1900, () => 6),
          ).report,
        ),
      ).toEqual([]);
    }
    const mostlyGood = run(
      state,
      told(602, 1802, (s) => (s % 4 === 0 ? 6 : 3.5)),
    );
    expect(codes(mostlyGood.report)).toEqual([]);
  });

  test("deepening makes her uneasy, and a depth inside the band does not", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    const told = (d: number) =>
      run(state, [depth(600, d), ...lying(605, 795, still), depth(796, d)]).report.mode;
    expect(told(9)).toBe("uneasy");
    expect(told(6)).toBe("lying");
  });

  test("a transit opened beyond swinging rings without any position", () => {
    const { state } = run(startWatch(options()), lying(0, 600, still));
    const transit = (openedDeg: number) =>
      stepWatch(state, {
        kind: "transit",
        timeMs: START + 601_000,
        openedDeg,
        swingOpenDeg: 2,
        metresPerDegree: 6,
        sigmaDeg: 0.5,
      }).report.mode;
    expect(transit(1.5)).toBe("lying");
    expect(transit(8)).toBe("dragging");
    expect(transit(-8)).toBe("dragging");
  });

  test("with the Doppler speed to match, a fast drag rings sooner, never later", () => {
    const quiet = run(startWatch(options()), lying(0, 10800, still)).state;
    const firstAlarm = (extra: object) => {
      let state = quiet;
      for (const e of lying(10805, 11400, (s) => [0, -35 - (s - 10800) * 0.514], extra)) {
        state = stepWatch(state, e).state;
        if (state.report.mode === "dragging") return e.timeMs;
      }
      return Infinity;
    };
    const without = firstAlarm({});
    const withSpeed = firstAlarm({ sogMps: 0.514, cogDeg: 180 });
    expect(withSpeed).toBeLessThan(without);
    expect(firstAlarm({ sogMps: 0, cogDeg: 180 })).toBe(without);
  });

  test("lying across the line to the anchor in a breeze makes her uneasy", () => {
    const events = (headingDeg: number) =>
      (function* (): Generator<WatchEvent> {
        yield { kind: "wind", timeMs: START, windMps: 12, windFromDeg: 0 };
        for (let s = 0; s < 600; s += 5) {
          yield fix(s, 0, -35);
          yield { kind: "heading", timeMs: START + s * 1000, headingDeg };
        }
      })();
    expect(run(startWatch(options()), events(10)).report.mode).toBe("lying");
    const across = run(startWatch(options()), events(95)).report;
    expect(across.mode).toBe("uneasy");
    expect(reasons(across)).toContain("heading.across");
  });
});

describe("anchor unknown", () => {
  const unknown = () => startWatch(options({ anchor: { known: false, near: ANCHOR } }));

  test("positions alone: it cannot tell, and says why", () => {
    const { report } = run(unknown(), lying(0, 4 * 3600, still));
    expect(report.mode).toBe("cannotTell");
    expect(report.anchor).toBeNull();
    expect(report.distanceM).toBeNull();
    expect(reasons(report)).toContain("anchor.unknown");
  });

  test("positions alone: leaving a circle of twice the distance is a drag", () => {
    const { report } = run(
      unknown(),
      lying(0, 4 * 3600, (s) => [0, -0.02 * s]),
    );
    expect(report.mode).toBe("dragging");
  });

  test("with a heading the anchor is placed ahead and then watched", () => {
    const events = function* (
      toS: number,
      at: (s: number) => [number, number],
    ): Generator<WatchEvent> {
      yield { kind: "wind", timeMs: START, windMps: 10, windFromDeg: 0 };
      for (let s = 0; s < toS; s += 5) {
        yield fix(s, ...at(s));
        yield { kind: "heading", timeMs: START + s * 1000, headingDeg: 0 };
      }
    };
    const { report } = run(
      unknown(),
      events(3600, () => [0, -39]),
    );
    expect(report.mode).toBe("lying");
    expect(report.anchor?.by).toBe("estimated");
    expect(report.anchor?.position.latDeg).toBeCloseTo(ANCHOR.latDeg, 4);
    const dragged = run(
      unknown(),
      events(10800, (s) => [0, s < 7200 ? -39 : -39 - (s - 7200) / 60]),
    );
    expect(dragged.report.mode).toBe("dragging");
  });
});

describe("saving and resuming", () => {
  const { state } = run(startWatch(options()), lying(0, 2000, still));
  const text = saveWatch(state);

  test("the text is short, and gives back the same state to the bit", () => {
    expect(text.length).toBeLessThanOrEqual(8192);
    expect(resumeWatch(text)).toEqual(state);
    expect(saveWatch(resumeWatch(text))).toBe(text);
    // The letters are those of RFC 4648, here as the host writes them.
    const body = text.split(" ")[2]!;
    expect(Buffer.from(body, "base64").toString("base64")).toBe(body);
  });

  test("another version, a cut and a flipped letter are refused", () => {
    const other = text.replace("hawse-watch-3", "hawse-watch-2");
    const at = 3000;
    const flipped = text.slice(0, at) + (text[at] === "A" ? "B" : "A") + text.slice(at + 1);
    for (const bad of [other, flipped, text.slice(0, -8), "", "hawse-watch-3", `${text} A`])
      expect(() => resumeWatch(bad)).toThrow(InputError);
  });

  test("the state is plain: a round through JSON changes nothing", () => {
    const again = JSON.parse(JSON.stringify(state)) as WatchState;
    expect(again).toEqual(state);
    const next = fix(2005, 0, -36);
    expect(stepWatch(again, next)).toEqual(stepWatch(state, next));
  });
});
