/** The judgement half of the plain watch: what its figures amount to. See `plainWatch.ts`. */
import {
  ACROSS,
  BLIND,
  type BoundedLimits,
  DOUBT,
  ERROR_CORRELATION_S,
  OUTWARD_SPEED,
  RECEIVER_MOST_M,
  RUN,
  TAIL_PART,
  TESTS,
  WIDTH,
  WINDOWS,
} from "../src/watch/tables.js";
import type { WatchMode } from "../src/watch/index.js";

const MINUTE = 60_000;
const clamp = (v: number, least: number, most: number) => Math.min(most, Math.max(least, v));
type Alarm = "drag" | "blind" | "shoal";

export class PlainJudge {
  started = 0;
  now = 0;
  blockEnd = 0;
  reach = 0;
  reachVar = 0;
  veered = 0;
  reachAt: (t: number) => number = () => 0;
  anchorX = 0;
  anchorY = 0;
  anchorKnown = true;
  anchorSigma = 0;
  width = 0;
  centreX = 0;
  centreY = 0;
  centreT = 0;
  lastGood = 0;
  heard = 0;
  sigma = 0;
  sigmaSeen = 0;
  learned = 0;
  tailSeen = 0;
  tail = 0;
  cadence = 5;
  fast = 0;
  base = 0;
  baseUntil = 0;
  fixes = 0;
  duplicates = 0;
  late = 0;
  jumps = 0;
  frozenFixes = 0;
  thinned = 0;
  gapMs = 0;
  used = 0;
  disagreeBlocks = 0;
  disagreeSince = 0;
  offset = 0;
  offsetBlocks = 0;
  outward = 0;
  outwardT = 0;
  runSince = 0;
  runFrom = 0;
  runTop = 0;
  partSince = 0;
  partTop = 0;
  lastExcess = 0;
  leapt = 0;
  leaptT = 0;
  /** Per test, since when every fix has lain outside by its notice, and by its alarm limit. */
  outside = TESTS.map(() => ({ notice: 0, alarm: 0 }));
  windows = WINDOWS.map(() => ({ excess: 0, spreads: 0, blocks: 0 }));
  windMps = -1;
  windT = 0;
  shoalSince = 0;
  deepSince = 0;
  transit = { t: 0, excess: 0, sigma: 0 };
  astray = 0;
  stage: "letGo" | "broughtUp" | "weighing" = "broughtUp";
  mode: WatchMode = "cannotTell";
  modeSince = 0;
  quietSince = 0;
  alarms = new Set<Alarm>();
  acknowledged = new Set<Alarm>();
  silentS = 0;
  silentWindyS = 0;
  ringSilentS = 0;

  stands = (alarm: Alarm) => this.alarms.has(alarm);
  /** Spread of the receiver as far as what it shows is believed. */
  sigmaBelieved = () => clamp(this.learned, this.sigma, 1.5 * this.sigma);
  sigmaTaken = () => Math.max(this.learned, this.sigma) * (this.disagreeSince === 0 ? 1 : 2);
  placeSpread = () =>
    Math.sqrt(
      ((this.anchorSigma * this.sigmaBelieved()) / this.sigma) ** 2 + this.reachVar + 1 ** 2,
    );
  spreadLeft = (part: number) =>
    Math.sqrt((part * this.sigmaTaken()) ** 2 + this.placeSpread() ** 2);
  /** What a mean over so many seconds leaves of an error that wanders, by its covariance summed up. */
  spreadOfMean(seconds: number): number {
    const a = seconds / ERROR_CORRELATION_S;
    return this.spreadLeft(Math.sqrt((2 * (a - 1 + Math.exp(-a))) / a ** 2));
  }

  fastSpread(): number {
    const spread = this.spreadLeft(1);
    const doubt = clamp((this.tail - DOUBT.fromM) / (DOUBT.fullM - DOUBT.fromM), 0, 1);
    const wide = Math.sqrt(spread ** 2 + (TAIL_PART * this.tail) ** 2) * (1 + DOUBT.part * doubt);
    return Math.min(wide, Math.max(DOUBT.mostM, DOUBT.most * spread));
  }

  /** A spread by which so many metres ring, or as many more as the receiver is worse than any. */
  bounded(spread: number, row: BoundedLimits): number {
    const metres = row.mostM * Math.max(1, this.sigmaTaken() / RECEIVER_MOST_M);
    return row.alarm * spread > metres ? metres / row.alarm : spread;
  }

  restartTests(): void {
    this.runSince = 0;
    this.outside = TESTS.map(() => ({ notice: 0, alarm: 0 }));
  }

  private longOutside = (since: number, seconds: number) =>
    since !== 0 && this.lastGood - since >= 1000 * seconds;

  anyTestFailed(alarm: boolean): boolean {
    if (this.runSince === 0) return false;
    const sigma = this.sigmaBelieved();
    const limit = clamp(
      Math.max(RUN.gainSpreads * sigma, RUN.tailPart * this.tail),
      RUN.gainM,
      RUN.mostM,
    );
    const lasts = clamp(RUN.leastSPerM * sigma, RUN.leastS, RUN.leastMostS);
    const gained = this.longOutside(this.runSince, lasts) ? this.runTop - this.runFrom : 0;
    if (gained >= (alarm ? limit : RUN.notice * limit)) return true;
    const failed = TESTS.some((row, i) => {
      const since = this.outside[i]!;
      return this.longOutside(alarm ? since.alarm : since.notice, row.forS);
    });
    const driven =
      this.outward >= OUTWARD_SPEED.leastMps && this.now - this.outwardT <= OUTWARD_SPEED.freshMs;
    const since = this.outside[OUTWARD_SPEED.test]!.notice;
    return failed || (driven && this.longOutside(since, OUTWARD_SPEED.forS));
  }

  private evidence(alarm: boolean): number {
    const all = [0, this.anyTestFailed(alarm) ? 1 : 0];
    WINDOWS.forEach((row, i) => {
      const { blocks, spreads } = this.windows[i]!;
      if (blocks > 0) all.push(spreads / (alarm ? row.alarm : row.notice));
    });
    if (!this.anchorKnown) all.push(this.width / (alarm ? WIDTH.alarm : WIDTH.notice));
    const { t, excess, sigma } = this.transit;
    if (t !== 0 && this.now - t <= 15 * MINUTE) all.push(excess / sigma / (alarm ? 5 : 3));
    return Math.max(...all);
  }

  private breeze = () => this.windMps > BLIND.windMps && this.now - this.windT < 60 * MINUTE;
  private lastOutside = () =>
    this.runSince !== 0 && this.lastExcess > BLIND.outsideSpreads * this.fast;
  private silentFor = () => this.now - Math.max(this.lastGood, this.started);

  private isBlind(): boolean {
    const repeats = this.heard > this.lastGood + 5000;
    let bears = this.breeze() || repeats ? this.silentWindyS : this.silentS;
    if (this.lastOutside()) bears = Math.min(bears, BLIND.outsideS);
    return this.silentFor() > 1000 * Math.max(bears, 2.5 * this.cadence);
  }

  judge(): void {
    if (this.stage === "weighing") {
      this.alarms.clear();
      this.acknowledged.clear();
      this.setMode("aweigh");
      return;
    }
    const blind = this.isBlind();
    const rings =
      this.breeze() || this.lastOutside() || this.silentFor() >= 1000 * this.ringSilentS;
    if (blind && rings) this.alarms.add("blind");
    if (!blind) this.release("blind");
    if (this.lasted(this.shoalSince, 3 * MINUTE)) this.alarms.add("shoal");
    if (this.shoalSince === 0) this.release("shoal");
    const near = this.stage === "letGo" ? 0 : this.evidence(true);
    if (near >= 1) this.alarms.add("drag");
    if (near >= 0.7) this.quietSince = 0;
    else if (this.quietSince === 0) this.quietSince = this.now;
    if (this.lasted(this.quietSince, 5 * MINUTE)) this.release("drag");
    this.setMode(blind ? "blind" : this.seeing());
  }

  private seeing(): WatchMode {
    if (this.stands("drag")) return "dragging";
    if (this.stage === "letGo") return "bringingUp";
    const uneasy =
      this.evidence(false) >= 1 ||
      this.lasted(this.deepSince, 3 * MINUTE) ||
      this.astray >= ACROSS.blocks ||
      this.stands("shoal");
    if (uneasy) return "uneasy";
    return this.anchorKnown && this.centreT !== 0 ? "lying" : "cannotTell";
  }

  private lasted = (since: number, ms: number) => since !== 0 && this.now - since >= ms;

  private release(alarm: Alarm): void {
    if (!this.acknowledged.has(alarm)) return;
    this.alarms.delete(alarm);
    this.acknowledged.delete(alarm);
  }

  private setMode(mode: WatchMode): void {
    if (this.mode !== mode) this.modeSince = this.now;
    this.mode = mode;
  }
}
