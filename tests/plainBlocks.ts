/**
 * Blocks of the plain watch: what is kept of each half minute, learned from it and held against the windows.
 * See `plainWatch.ts`.
 */
import { ACROSS, BASE, EXCURSION_KEEP, PRESUMED, WINDOWS } from "../src/watch/tables.js";
import { PlainJudge } from "./plainJudge.js";

export const BLOCK = 30_000;
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const rad = (deg: number) => (deg * Math.PI) / 180;

/** The middle by sorting. */
function sortedMiddle(values: readonly number[]): number {
  const s = [...values].sort((a, b) => a - b);
  const k = s.length >> 1;
  return s.length % 2 === 1 ? s[k]! : (s[k - 1]! + s[k]!) / 2;
}

export class Receiver {
  t = 0;
  lat = 0;
  lon = 0;
  sameSince = 0;
  sameCount = 0;
  jumpSince = 0;
  jumpX = 0;
  jumpY = 0;
  x = 0;
  y = 0;
  good = 0;
  /** Fixes of the open block. */
  fixes: { x: number; y: number; excess: number }[] = [];
}
interface Block {
  excess: number;
  x: number;
  y: number;
  headE: number;
  headN: number;
}

export class PlainBlocks extends PlainJudge {
  readonly receivers = [new Receiver(), new Receiver()] as const;
  readonly blocks = new Map<number, Block>();
  headings: number[] = [];
  /** How the newest block placed an unknown anchor, if it did. */
  placed: { x: number; y: number; sigma: number } | null = null;

  protected openBlock(t: number): void {
    const number = Math.max(0, Math.floor((t - this.started) / BLOCK)) + 1;
    this.blockEnd = this.started + number * BLOCK;
    this.reach = Math.max(0, this.reachAt(t) + this.veered);
  }

  protected closeBlock(t: number): void {
    this.now = Math.max(this.now, this.blockEnd);
    const [a, b] = this.receivers;
    if (a.fixes.length > 0 && b.fixes.length > 0) this.compare(a, b);
    const [mine, other] = this.used === 0 ? [a, b] : [b, a];
    if (mine.fixes.length === 0 && other.fixes.length > 0) {
      this.used = 1 - this.used;
      this.restartTests();
    }
    const r = this.receivers[this.used as 0 | 1];
    if (r.fixes.length > 0) this.keepBlock(r);
    a.fixes = [];
    b.fixes = [];
    this.headings = [];
    this.windowsOf(1 + Math.floor((t - this.blockEnd) / BLOCK));
    this.judge();
    this.openBlock(t);
  }

  private compare(a: Receiver, b: Receiver): void {
    const dx = mean(a.fixes.map((f) => f.x)) - mean(b.fixes.map((f) => f.x));
    const dy = mean(a.fixes.map((f) => f.y)) - mean(b.fixes.map((f) => f.y));
    const apart = Math.sqrt(dx ** 2 + dy ** 2) > 4 * Math.SQRT2 * this.sigma + 3;
    this.disagreeBlocks = apart ? this.disagreeBlocks + 1 : 0;
    if (this.disagreeBlocks < 4) this.disagreeSince = 0;
    else if (this.disagreeSince === 0) this.disagreeSince = this.now;
    const [ea, eb] = [a, b].map((r) => sortedMiddle(r.fixes.map((f) => f.excess)));
    this.offsetBlocks++;
    this.offset += (eb! - ea! - this.offset) / Math.min(20, this.offsetBlocks);
  }

  private keepBlock(r: Receiver): void {
    const heads = this.headings.length;
    const block = {
      excess: sortedMiddle(r.fixes.map((f) => f.excess)) - (this.used === 1 ? this.offset : 0),
      x: mean(r.fixes.map((f) => f.x)),
      y: mean(r.fixes.map((f) => f.y)),
      headE: heads === 0 ? 0 : mean(this.headings.map((h) => Math.sin(rad(h)))),
      headN: heads === 0 ? 0 : mean(this.headings.map((h) => Math.cos(rad(h)))),
    };
    this.blocks.set(this.blockEnd, block);
    Object.assign(this, { centreX: block.x, centreY: block.y, centreT: this.blockEnd - BLOCK / 2 });
    if (!this.anchorKnown) {
      if (this.placed !== null) this.setAnchor(this.placed);
      return;
    }
    this.learn(block.excess);
    this.across(block);
  }

  /** Hold all blocks against an anchor that lies elsewhere. */
  setAnchor({ x, y, sigma }: { x: number; y: number; sigma: number }): void {
    Object.assign(this, { anchorX: x, anchorY: y, anchorSigma: sigma, anchorKnown: true });
    this.restartTests();
    for (const b of this.blocks.values())
      b.excess = Math.sqrt((b.x - x) ** 2 + (b.y - y) ** 2) - this.reach;
  }

  /** Hold all blocks against a distance greater by so much. */
  shift(byM: number): void {
    for (const b of this.blocks.values()) b.excess -= byM;
    for (const f of this.receivers.flatMap((r) => r.fixes)) f.excess -= byM;
    this.restartTests();
    this.alarms.delete("drag");
    this.acknowledged.delete("drag");
    this.base = 0;
    this.baseUntil = this.now + BASE.forMs;
    this.windowsOf(Infinity);
  }

  private across(b: Block): void {
    const [east, north] = [this.anchorX - b.x, this.anchorY - b.y];
    const breeze = this.windMps > ACROSS.windMps && this.now - this.windT < 600_000;
    const told = (b.headE !== 0 || b.headN !== 0) && (east !== 0 || north !== 0);
    const off = Math.atan2(east, north) - Math.atan2(b.headE, b.headN);
    this.astray =
      breeze && told && Math.cos(off) < Math.cos(rad(ACROSS.offDeg)) ? this.astray + 1 : 0;
  }

  private learn(excess: number): void {
    const before = (k: number) => this.blocks.get(this.blockEnd - k * BLOCK)?.excess ?? -Infinity;
    // The change of a wandering error over three minutes, per unit of it.
    const unit = Math.sqrt(2 * (1 - Math.exp(-180 / 170)));
    if (before(6) > -3) {
      const inward = Math.max(0, before(6) - excess) / (1.75 * unit);
      if (inward > this.sigmaSeen) this.sigmaSeen += 0.2 * (Math.min(20, inward) - this.sigmaSeen);
      else this.sigmaSeen *= 0.998;
    }
    const peak = Math.max(before(1), before(2), before(3));
    const back = peak > -3 ? Math.min(60, peak - excess) : 0;
    this.tailSeen = Math.max(back, this.tailSeen * EXCURSION_KEEP);
    this.presume();
  }

  presume(): void {
    const left = 2 ** (-(this.now - this.started) / PRESUMED.halvesInMs);
    this.learned = Math.max(this.sigmaSeen, PRESUMED.sigmaM * left);
    this.tail = Math.max(this.tailSeen, PRESUMED.excursionM * left);
  }

  windowsOf(passed: number): void {
    this.fast = this.fastSpread();
    const number = (this.blockEnd - this.started) / BLOCK;
    WINDOWS.forEach((row, w) => {
      // Its turn comes with every so many blocks; a slow receiver lets several pass at once.
      const turn = Math.ceil(number / row.every) * row.every;
      if (turn >= number + passed) return;
      const held: number[] = [];
      for (let back = 0; back < row.blocks; back++) {
        const block = this.blocks.get(this.blockEnd - back * BLOCK);
        if (block !== undefined) held.push(block.excess);
      }
      // At a cadence slower than a block, as many fewer are asked for.
      const least = Math.ceil(row.least * Math.min(1, 30 / this.cadence));
      const window = this.windows[w]!;
      window.blocks = this.anchorKnown && held.length >= least ? held.length : 0;
      if (window.blocks === 0) return;
      const excess = sortedMiddle(held);
      const spread = this.bounded(this.spreadOfMean((held.length * BLOCK) / 1000), row);
      if (row.blocks === BASE.blocks && this.now <= this.baseUntil)
        this.base = Math.max(this.base, Math.min(excess, BASE.spreads * this.placeSpread()));
      window.excess = excess - this.base;
      window.spreads = window.excess / spread;
    });
  }
}
