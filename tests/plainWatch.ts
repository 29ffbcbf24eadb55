/**
 * The watch written over again, slowly and plainly, for tests to hold the quick one against: lists where
 * that has sums and rings, a sort where that has a search. Limits, orders and the placing of an unknown
 * anchor are not repeated: of those it is told the outcome.
 */
import { FROZEN, JUMP, LEAP_MS, RUN, TESTS } from "../src/watch/tables.js";
import { BLOCK, PlainBlocks, type Receiver } from "./plainBlocks.js";

const rad = (deg: number) => (deg * Math.PI) / 180;

export class PlainWatch extends PlainBlocks {
  advance(t: number): void {
    if (this.blockEnd !== 0 && t >= this.blockEnd) this.closeBlock(t);
    this.now = Math.max(this.now, t);
  }

  fix(k: 0 | 1, t: number, at: { x: number; y: number; lat: number; lon: number }, sigma: number) {
    const r = this.receivers[k];
    const same = at.lat === r.lat && at.lon === r.lon;
    if (t === r.t) this.duplicates++;
    else if (t < r.t && (t < this.blockEnd - BLOCK || same)) this.late++;
    if (t === r.t || (t < r.t && (t < this.blockEnd - BLOCK || same))) return;
    this.advance(t);
    if (this.blockEnd === 0) this.openBlock(t);
    if (k === this.used) this.heard = t;
    if (t > r.t && this.stopped(r, t, at, same)) return;
    if (this.leaps(r, t, at.x, at.y)) return;
    this.accept(r, k, t, at.x, at.y, sigma);
    if (t > r.good) Object.assign(r, { x: at.x, y: at.y, good: t });
    const unheard = this.runSince !== 0 && !this.stands("drag") && this.anyTestFailed(true);
    if (this.mode === "blind" || unheard) this.judge();
  }

  /** Whether a receiver has said the same for half a minute and four fixes. */
  private stopped(r: Receiver, t: number, at: { lat: number; lon: number }, same: boolean) {
    const dt = t - r.t;
    if (dt < 240_000) this.cadence += 0.1 * (Math.min(dt / 1000, 10 * this.cadence) - this.cadence);
    r.t = t;
    if (!same) {
      Object.assign(r, { lat: at.lat, lon: at.lon, sameSince: t, sameCount: 0 });
      return false;
    }
    r.sameCount++;
    const stopped = r.sameCount >= FROZEN.fixes && t - r.sameSince >= FROZEN.afterS * 1000;
    if (stopped) this.frozenFixes++;
    return stopped;
  }

  private reachable(dx: number, dy: number, seconds: number): boolean {
    const far = JUMP.speedMps * seconds + 2 * this.sigma + JUMP.slackM;
    return dx ** 2 + dy ** 2 <= far ** 2;
  }

  private leaps(r: Receiver, t: number, x: number, y: number): boolean {
    const away = Math.abs(t - r.good) / 1000;
    const fresh = Math.max(JUMP.freshS, JUMP.freshFixes * this.cadence);
    if (r.good === 0 || this.reachable(x - r.x, y - r.y, Math.min(away, fresh))) {
      r.jumpSince = 0;
      return false;
    }
    this.jumps++;
    const agrees = (t - r.jumpSince) / 1000;
    if (r.jumpSince === 0 || !this.reachable(x - r.jumpX, y - r.jumpY, agrees)) {
      Object.assign(r, { jumpSince: t, jumpX: x, jumpY: y });
      return true;
    }
    const sailed = this.reachable(x - r.x, y - r.y, away);
    return agrees * 1000 < (sailed ? JUMP.agreeMs : JUMP.lastsMs);
  }

  private accept(r: Receiver, k: number, t: number, x: number, y: number, sigma: number): void {
    this.fixes++;
    if (this.lastGood !== 0 && t - this.lastGood > 60_000) this.gapMs = t - this.lastGood;
    this.lastGood = Math.max(this.lastGood, t);
    this.sigma = 0.98 * this.sigma + 0.02 * sigma;
    const excess = Math.sqrt((x - this.anchorX) ** 2 + (y - this.anchorY) ** 2) - this.reach;
    if (k === this.used && t > r.good) this.testFix(r, t, excess - this.base);
    const elapsed = this.now - (this.blockEnd - BLOCK);
    if (r.fixes.length >= 30 || elapsed < 1000 * r.fixes.length - 1500) this.thinned++;
    else r.fixes.push({ x, y, excess });
  }

  private testFix(r: Receiver, t: number, excess: number): void {
    if (!this.anchorKnown || excess <= 0) {
      if (this.runSince !== 0) this.restartTests();
      return;
    }
    const from = r.jumpSince === 0 ? t : r.jumpSince;
    const away = (t - r.good) / 1000;
    this.countLeaps(t, excess, RUN.leapMps * away + RUN.slackM);
    this.runOutward(t, excess, RUN.leapMps * Math.min(away, JUMP.freshS));
    TESTS.forEach((row, i) => {
      const gone = 1000 * row.forS < LEAP_MS ? excess - this.leapt : excess;
      const spread = this.bounded(this.fast, row);
      const since = this.outside[i]!;
      since.notice = gone > row.notice * spread ? since.notice || from : 0;
      since.alarm = gone > row.alarm * spread ? since.alarm || from : 0;
    });
  }

  private countLeaps(t: number, excess: number, most: number): void {
    const first = this.runSince === 0;
    if (first || t - this.leaptT > LEAP_MS) this.leapt = 0;
    const gain = excess - (first ? 0 : this.lastExcess);
    if (gain > most) {
      this.leapt += gain - most;
      this.leaptT = t;
    }
    if (gain < -most) this.leapt = Math.max(0, this.leapt - (-gain - most));
    this.lastExcess = excess;
  }

  private runOutward(t: number, excess: number, most: number): void {
    const back = RUN.slackM + RUN.slackSpreads * this.sigmaBelieved();
    if (this.runSince === 0 || this.runTop - excess > back) {
      this.startRun(t, excess);
      return;
    }
    if (excess > this.runTop) {
      const leapt = Math.max(0, excess - this.runTop - most);
      this.runFrom += leapt;
      this.partTop += leapt;
      this.runTop = excess;
    }
    const part = (t - this.partSince) / 1000;
    if (part < RUN.partS) return;
    const whole = (this.runTop - this.runFrom) / ((t - this.runSince) / 1000);
    const speed = (this.runTop - this.partTop) / part;
    if (speed < RUN.leastMps || speed < RUN.steady * whole) this.startRun(t, excess);
    this.partSince = t;
    this.partTop = this.runTop;
  }

  private startRun(t: number, excess: number): void {
    this.runSince = this.partSince = t;
    this.runFrom = this.runTop = this.partTop = excess;
  }

  speed(t: number, x: number, y: number, sogMps: number, cogDeg: number): void {
    const [dx, dy] = [x - this.anchorX, y - this.anchorY];
    const d = Math.sqrt(dx ** 2 + dy ** 2);
    if (d <= 1) return;
    // The part of the way made that leads off: speed by the cosine of the angle between.
    const out = sogMps * Math.cos(rad(cogDeg) - Math.atan2(dx, dy));
    const dt = t - this.outwardT;
    if (dt <= 0) return;
    const share = dt >= 60_000 ? 1 : 1 - Math.exp(-dt / 15_000);
    this.outward = (1 - share) * this.outward + share * out;
    this.outwardT = t;
  }
}
