import type { Interval } from "../core/judgement.js";
import { minutes } from "../core/units.js";
import type { Judgement } from "./judge.js";
import { hardestOf, holdingWith, type Hardest } from "./adviceHold.js";
import { clearAdvice } from "./adviceRoom.js";
import { kedgeAdvice } from "./adviceKedge.js";
import { snubberAdvice } from "./adviceSnubber.js";
import type { Advice } from "./adviceTypes.js";
import type { Study } from "./study.js";
import type { Tipping } from "./tipping.js";

export type { Advice, Gain } from "./adviceTypes.js";

/** Time wanted in hand before a thing is needed (common practice, no source). */
const IN_HAND_MS = minutes(30);

/** In good time before an instant, but not before letting go. */
const before = (s: Study, atMs: number): number => Math.max(s.input.stay.fromMs, atMs - IN_HAND_MS);

/** When holding first falls short, or else the hardest pull. */
const shortFrom = (s: Study, j: Judgement, h: Hardest): number =>
  before(s, j.reasons.find((r) => r.code.startsWith("holding."))?.fromMs ?? h.timeMs);

const WEAK: readonly string[] = ["holding.less", "holding.thin", "holding.worst"];

/** Lengths of rode that a limit of room leaves: the shortest of them, and which. */
function roomFor(tipping: readonly Tipping[], lengthM: number): string | null {
  const tight = tipping.find((t) => t.mostRodeM !== null && t.mostRodeM < lengthM);
  return tight === undefined ? null : `${tight.code}${tight.of === null ? "" : `: ${tight.of}`}`;
}

/** More rode: what both rules ask beyond what is out, or what makes the anchor hold with half as much in hand. */
function veerAdvice(s: Study, j: Judgement, tipping: readonly Tipping[], h: Hardest): Advice[] {
  const { rode } = s;
  const thin = tipping.find((t) => t.code === "holding.thin")?.leastRodeM ?? 0;
  const wantedM = Math.min(
    rode.aboardM,
    Math.max(rode.lengthOutM + (rode.given ? rode.toVeerM : 0), thin),
  );
  if (!(wantedM >= rode.lengthOutM + 1)) return [];
  const lifts = s.lie.angleDeg.findIndex((a) => a > 0.05);
  const atMs = lifts < 0 ? shortFrom(s, j, h) : before(s, s.scene.timeMs[lifts]!);
  return [
    {
      code: "veer.more",
      atMs,
      value: wantedM - rode.lengthOutM,
      buys: {
        of: "holdingOverPull",
        from: holdingWith(s, rode.lengthOutM, h),
        to: holdingWith(s, wantedM, h),
      },
      against: roomFor(tipping, wantedM),
      basis: "elastic catenary and the share of holding left at the pull angle",
    },
  ];
}

/** What the anchor has to be proved to. */
function proveAdvice(s: Study, h: Hardest): Advice[] {
  if (s.grip === null || s.input.tackle.provedN !== undefined) return [];
  const low = s.grip.low(h.angleDeg);
  const left = s.grip.left(h.angleDeg, "low");
  // To the pull as usual; where the lowest figure has that already, to the pull when she yaws as far as is reported.
  const value = h.pullN * left > low ? h.pullN : h.pullHighN;
  const to = value * left;
  // A rode that lifts the anchor out leaves nothing of what was proved.
  if (!(low < h.pullHighN && to > low)) return [];
  return [
    {
      code: "prove.astern",
      value,
      buys: { of: "leastHoldingN", from: low, to },
      against: null,
      basis: "a pull the anchor has stood is the least it holds along the bottom",
    },
  ];
}

/** When to be gone: when it stops being safe, by nightfall before that, and before the way out is shut. */
function moveAdvice(
  s: Study,
  j: Judgement,
  dark: readonly Interval[],
  shut: readonly Interval[],
): Advice[] {
  const { atMs, code } = j.danger;
  if (atMs === null || code === null) return [];
  const { fromMs } = s.input.stay;
  const elsewhere = (against: string | null): Advice => ({
    code: "lie.elsewhere",
    atMs: fromMs,
    value: code,
    buys: null,
    against,
    basis:
      "not safe from letting go on, or the way out shut before it stops being safe: search the chart for another berth",
  });
  if (!(atMs > fromMs)) return [elsewhere(null)];
  const night = dark.find((d) => atMs > d.fromMs && atMs <= d.toMs);
  const light = night !== undefined && night.fromMs > fromMs;
  const byMs = light ? night.fromMs : atMs;
  const closed = shut.find((span) => byMs > span.fromMs && byMs <= span.toMs);
  if (closed !== undefined && !(closed.fromMs > fromMs)) return [elsewhere("way.shut")];
  return [
    {
      code: light ? "move.byNightfall" : "move.by",
      atMs: closed?.fromMs ?? byMs,
      value: code,
      buys: null,
      against: closed === undefined ? null : "way.shut",
      basis:
        "before it stops being safe; by daylight where that comes at night (common practice, no source)",
    },
  ];
}

/** How much deeper to lie. */
function waterAdvice(s: Study, j: Judgement): Advice[] {
  const shoal = j.reasons.find((r) => r.code.startsWith("depth."));
  if (shoal === undefined || typeof shoal.value !== "number") return [];
  const worst = s.underKeelLeastM.reduce((a, b) => Math.min(a, b), Infinity);
  const moreM = s.input.limits.underKeelM - worst;
  if (!(moreM > 0)) return [];
  return [
    {
      code: "lie.deeper",
      value: moreM,
      buys: { of: "underKeelM", from: worst, to: s.input.limits.underKeelM },
      against: null,
      basis:
        "water wanted under the keel at the worst, over the shoalest charted ground in the swing",
    },
  ];
}

/** What can be done, the weightiest first. */
export function adviceOf(
  s: Study,
  j: Judgement,
  tipping: readonly Tipping[],
  dark: readonly Interval[],
  shut: readonly Interval[],
): Advice[] {
  const h = hardestOf(s);
  const weak = j.reasons.some((r) => WEAK.includes(r.code));
  return [
    ...moveAdvice(s, j, dark, shut),
    ...clearAdvice(s),
    ...waterAdvice(s, j),
    ...(h === null
      ? []
      : [
          ...veerAdvice(s, j, tipping, h),
          ...proveAdvice(s, h),
          ...(weak ? kedgeAdvice(s, h, shortFrom(s, j, h)) : []),
          ...snubberAdvice(s, h, before(s, h.timeMs)),
        ]),
  ];
}
