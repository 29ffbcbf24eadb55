/** The quick watch and the plain one side by side, told the same, and held against each other after each event. */
import { toPlane } from "../src/geo/plane.js";
import { Bit, MODES, Part, Ring, Slot as m } from "../src/watch/memory.js";
import { BLOCKS } from "../src/watch/tables.js";
import { UNSTATED_SIGMA_M } from "../src/watch/statistics.js";
import {
  type StartWatchInput,
  type WatchEvent,
  type WatchState,
  startWatch,
  stepWatch,
} from "../src/watch/index.js";
import { BLOCK, type Receiver } from "./plainBlocks.js";
import { PlainWatch } from "./plainWatch.js";

type Told = Exclude<WatchEvent, { kind: "fix" }>;
const bits = (alarms: ReadonlySet<string>) =>
  (alarms.has("drag") ? Bit.DRAG : 0) |
  (alarms.has("blind") ? Bit.BLIND : 0) |
  (alarms.has("shoal") ? Bit.SHOAL : 0);

/** What every number of the quick watch ought to be, by its place. */
function* expected(p: PlainWatch): Generator<[string, number, number]> {
  const one = (slot: m, value: number): [string, number, number] => [m[slot], slot, value];
  yield one(m.NOW, p.now);
  yield one(m.BLOCK_END, p.blockEnd);
  yield one(m.REACH, p.reach);
  yield one(m.ANCHOR_X, p.anchorX);
  yield one(m.ANCHOR_Y, p.anchorY);
  yield one(m.LAST_GOOD, p.lastGood);
  yield one(m.CENTRE_X, p.centreX);
  yield one(m.CENTRE_Y, p.centreY);
  yield one(m.CENTRE_T, p.centreT);
  yield one(m.SIGMA, p.sigma);
  yield one(m.SIGMA_SEEN, p.sigmaSeen);
  yield one(m.LEARNED, p.learned);
  for (const [i, since] of p.outside.entries()) {
    yield [`notice ${i}`, m.OUTSIDE + 2 * i, since.notice];
    yield [`alarm ${i}`, m.OUTSIDE + 2 * i + 1, since.alarm];
  }
  const rad = Math.PI / 180;
  yield one(
    m.HEAD_E,
    p.headings.reduce((a, h) => a + Math.sin(h * rad), 0),
  );
  yield one(
    m.HEAD_N,
    p.headings.reduce((a, h) => a + Math.cos(h * rad), 0),
  );
  yield one(m.HEAD_COUNT, p.headings.length);
  yield one(m.MODE, MODES.indexOf(p.mode));
  yield one(m.MODE_SINCE, p.modeSince);
  yield one(m.LATCHED, bits(p.alarms));
  yield one(m.ACKNOWLEDGED, bits(p.acknowledged));
  yield one(m.QUIET_SINCE, p.quietSince);
  yield one(m.FIXES, p.fixes);
  yield one(m.DUPLICATES, p.duplicates);
  yield one(m.LATE, p.late);
  yield one(m.JUMPS, p.jumps);
  yield one(m.FROZEN_FIXES, p.frozenFixes);
  yield one(m.THINNED, p.thinned);
  yield one(m.CADENCE, p.cadence);
  yield one(m.USED, p.used);
  yield one(m.DISAGREE_SINCE, p.disagreeSince);
  yield one(m.DISAGREE_BLOCKS, p.disagreeBlocks);
  yield one(m.OFFSET, p.offset);
  yield one(m.OFFSET_BLOCKS, p.offsetBlocks);
  yield one(m.GAP_MS, p.gapMs);
  for (const [i, w] of p.windows.entries()) {
    yield [`window ${i} excess`, m.WINDOW + 3 * i, w.excess];
    yield [`window ${i} spreads`, m.WINDOW + 3 * i + 1, w.spreads];
    yield [`window ${i} blocks`, m.WINDOW + 3 * i + 2, w.blocks];
  }
  yield one(m.OUTWARD, p.outward);
  yield one(m.OUTWARD_T, p.outwardT);
  yield one(m.BASE, p.base);
  yield one(m.BASE_UNTIL, p.baseUntil);
  yield one(m.TAIL_SEEN, p.tailSeen);
  yield one(m.TAIL, p.tail);
  yield one(m.ASTRAY, p.astray);
  yield one(m.FAST, p.fast);
  yield one(m.HEARD, p.heard);
  yield one(m.RUN_SINCE, p.runSince);
  yield one(m.RUN_FROM, p.runFrom);
  yield one(m.RUN_TOP, p.runTop);
  yield one(m.PART_SINCE, p.partSince);
  yield one(m.PART_TOP, p.partTop);
  yield one(m.LAST_EXCESS, p.lastExcess);
  yield one(m.LEAPT, p.leapt);
  yield one(m.LEAPT_T, p.leaptT);
  for (const k of [0, 1] as const) yield* ofReceiver(p.receivers[k], k);
}

function* ofReceiver(r: Receiver, k: number): Generator<[string, number, number]> {
  const at = m.RECEIVER + k * Part.SIZE;
  const one = (part: Part, value: number): [string, number, number] => [
    `receiver ${k} ${Part[part]}`,
    at + part,
    value,
  ];
  const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
  yield one(Part.T, r.t);
  yield one(Part.LAT, r.lat);
  yield one(Part.LON, r.lon);
  yield one(Part.SAME_SINCE, r.sameSince);
  yield one(Part.SAME_COUNT, r.sameCount);
  yield one(Part.JUMP_SINCE, r.jumpSince);
  yield one(Part.COUNT, r.fixes.length);
  yield one(Part.SUM_X, sum(r.fixes.map((f) => f.x)));
  yield one(Part.SUM_Y, sum(r.fixes.map((f) => f.y)));
  yield one(Part.X, r.x);
  yield one(Part.Y, r.y);
  yield one(Part.GOOD, r.good);
  yield one(Part.JUMP_X, r.jumpX);
  yield one(Part.JUMP_Y, r.jumpY);
  for (const [i, f] of r.fixes.entries()) yield [`excess ${i}`, at + Part.EXCESS + i, f.excess];
}

/** Instants to the millisecond; all else to the last figures. */
const alike = (a: number, b: number): boolean =>
  Math.abs(a) > 1e9 || Math.abs(b) > 1e9 ? a === b : Math.abs(a - b) <= 1e-8 * (1 + Math.abs(b));

export class Beside {
  state: WatchState;
  readonly plain = new PlainWatch();
  private count = 0;
  private compared: readonly number[] = [];

  constructor(input: StartWatchInput, reachAt: (t: number) => number) {
    this.state = startWatch(input);
    const p = this.plain;
    const silentS = input.silentS ?? 120;
    const stage = input.stage ?? "broughtUp";
    Object.assign(p, {
      started: input.startMs,
      now: input.startMs,
      modeSince: input.startMs,
      baseUntil: input.startMs + 1_800_000,
      sigma: UNSTATED_SIGMA_M,
      reachAt,
      reach: reachAt(input.startMs),
      reachVar: input.limits.distanceSigmaM ** 2,
      cadence: input.fixEveryS ?? 5,
      silentS,
      silentWindyS: Math.min(silentS, input.silentInWindS ?? 60),
      ringSilentS: input.ringSilentS ?? 0,
      anchorKnown: input.anchor.known,
      anchorSigma: input.anchor.known ? (input.anchor.sigmaM ?? 3) : 0,
      stage,
      mode: stage === "letGo" ? "bringingUp" : "cannotTell",
    });
    p.presume();
    p.windowsOf(Infinity);
    this.compare("the start");
  }

  /** Tell both, and hear what they say. */
  tell(e: WatchEvent): WatchState["report"] {
    this.state = stepWatch(this.state, e).state;
    this.count++;
    if (e.kind === "fix") this.fix(e);
    else {
      this.placing();
      this.plain.advance(e.timeMs);
      this.told(e);
      this.plain.judge();
    }
    this.compare(e.kind);
    return this.state.report;
  }

  private fix(e: WatchEvent & { kind: "fix" }): void {
    const xy = new Float64Array(2);
    toPlane(this.state.plane, e.latDeg, e.lonDeg, xy, 0);
    const [x, y] = [xy[0]!, xy[1]!];
    const p = this.plain;
    if (e.sogMps !== undefined && e.cogDeg !== undefined)
      p.speed(e.timeMs, x, y, e.sogMps, e.cogDeg);
    this.placing();
    const at = { x, y, lat: e.latDeg, lon: e.lonDeg };
    p.fix(e.receiver ?? 0, e.timeMs, at, e.sigmaM ?? UNSTATED_SIGMA_M);
  }

  /** What the closing of a block may have made of an unknown anchor. */
  private placing(): void {
    const { open } = this.state;
    this.plain.width = open[m.WIDTH]!;
    if (!this.plain.anchorKnown && open[m.ANCHOR_KIND] === 2)
      this.plain.placed = {
        x: open[m.ANCHOR_X]!,
        y: open[m.ANCHOR_Y]!,
        sigma: open[m.ANCHOR_SIGMA]!,
      };
  }

  private told(e: Told): void {
    const p = this.plain;
    const { open } = this.state;
    if (e.kind === "heading") p.headings.push(e.headingDeg);
    else if (e.kind === "wind") Object.assign(p, { windMps: e.windMps, windT: e.timeMs });
    else if (e.kind === "stage") p.stage = e.stage;
    else if (e.kind === "acknowledge") p.acknowledged = new Set(p.alarms);
    else if (e.kind === "depth")
      Object.assign(p, { shoalSince: open[m.SHOAL_SINCE]!, deepSince: open[m.DEEP_SINCE]! });
    else if (e.kind === "transit") {
      const excess = (Math.abs(e.openedDeg) - e.swingOpenDeg) * e.metresPerDegree;
      p.transit = { t: e.timeMs, excess, sigma: (e.sigmaDeg ?? 1) * e.metresPerDegree };
    } else if (e.kind === "veered") {
      p.veered += e.byM;
      p.reach = Math.max(0, p.reachAt(e.timeMs) + p.veered);
      p.shift(e.byM);
    } else if (e.kind === "anchor") {
      p.setAnchor({ x: open[m.ANCHOR_X]!, y: open[m.ANCHOR_Y]!, sigma: e.sigmaM });
      p.shift(0);
    }
  }

  private compare(what: string): void {
    const { open, ring } = this.state;
    const wrong = (name: string, got: number, want: number) => {
      throw new Error(`${name} after event ${this.count} (${what}): ${got}, expected ${want}`);
    };
    for (const [name, slot, want] of expected(this.plain))
      if (!alike(open[slot]!, want)) wrong(name, open[slot]!, want);
    const { blocks, blockEnd, started } = this.plain;
    if (blockEnd === 0 || ring === this.compared) return;
    this.compared = ring;
    for (let back = 0; back < BLOCKS; back++) {
      const end = blockEnd - back * BLOCK;
      const slot = ((end - started) / BLOCK + BLOCKS) % BLOCKS;
      const block = blocks.get(end);
      if ((ring[Ring.T + slot] === end) !== (block !== undefined))
        wrong("block", ring[Ring.T + slot]!, end);
      if (block === undefined) continue;
      const columns = [Ring.E, Ring.X, Ring.Y, Ring.HE, Ring.HN];
      [block.excess, block.x, block.y, block.headE, block.headN].forEach((want, i) => {
        const got = ring[columns[i]! + slot]!;
        if (!alike(got, want)) wrong(Ring[columns[i]!], got, want);
      });
    }
  }
}
