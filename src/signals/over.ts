import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Interval } from "../core/judgement.js";
import { interval, position } from "../core/schema.js";
import { CIVIL_DEG, SUNSET_DEG, sunBelow } from "../geo/sun.js";
import { signalsDueUnchecked } from "./due.js";
import type { SignalsDue } from "./types.js";
import { circumstances, lengthOverall, situation } from "./vessel.js";

/** Input of `signalsOver`. */
export const input = z.strictObject({
  ...circumstances,
  /** The vessel. */
  vessel: z.strictObject({
    /** Length overall. */
    lengthM: lengthOverall,
  }),
  /** Where she lies. */
  position,
  /** The stay. */
  stay: interval,
  /** Lying to an anchor unless said to be aground. */
  situation: z._default(situation, "anchored"),
  /** Spans of restricted visibility; where the forecast is silent, none is taken. */
  restrictedVisibility: z._default(z.array(interval), []),
});
/** Input of {@link signalsOver}. */
export type SignalsOverInput = Given<typeof input>;
/** Input of {@link signalsOver}, checked and with its defaults. */
export type CheckedSignalsOver = z.output<typeof input>;

/** What is due for one part of a stay. */
export interface SignalsSpan {
  /** Start. */
  fromMs: number;
  /** End. */
  toMs: number;
  /** Day, the twilight of the night, or the rest of the night. */
  period: "day" | "twilight" | "night";
  /** Whether visibility is restricted. */
  restrictedVisibility: boolean;
  /** What is due. */
  due: SignalsDue;
}

/** A moment at which something must be hoisted, lit, struck or begun. */
export interface SignalChange {
  /** When. */
  atMs: number;
  /** Signals that begin to be due. */
  begin: string[];
  /** Signals that cease to be due. */
  end: string[];
}

/** Signals over a stay. */
export interface SignalsOver {
  /** What to show when, without gap or overlap. */
  timeline: SignalsSpan[];
  /** What to do when; the first is the start of the stay. */
  changes: SignalChange[];
}

/**
 * What to show when: the signals of a vessel at anchor or aground over a stay.
 *
 * Lights from sunset to sunrise, shapes by day. The rules do not say when day begins: shapes are
 * asked for in civil twilight too, when lights are owed and shapes can still be seen. In spans of
 * restricted visibility the sound signals are added, and by day the lights.
 *
 * *Valid*: any latitude; where the sun does not set no lights are due, where it does not rise they
 * are due throughout.
 * *Accuracy*: sunset within 31 s of printed tables; the paragraphs as in `signalsDue`.
 *
 * @throws InputError for a stay that ends before it starts, or an unknown field.
 * @source COLREGS 1972 as amended, Rules 20, 22, 30, 35
 * @example
 * ```ts
 * import { utc } from "hawse";
 * import { signalsOver } from "hawse/signals";
 *
 * const { changes } = signalsOver({
 *   vessel: { lengthM: 11 },
 *   position: { latDeg: 50, lonDeg: -4 },
 *   stay: { fromMs: utc("2026-06-01T18:00Z"), toMs: utc("2026-06-02T03:00Z") },
 *   nearTraffic: true,
 * });
 * for (const c of changes)
 *   console.log(new Date(c.atMs).toISOString().slice(11, 16), c.begin, c.end);
 * // 18:00 [ '1 black ball' ] []
 * // 20:16 [ '1 white light' ] []
 * // 20:59 [] [ '1 black ball' ]
 * ```
 */
export function signalsOver(given: SignalsOverInput): SignalsOver {
  return signalsOverUnchecked(check(input, given));
}

/** {@link signalsOver} for input already checked. */
export function signalsOverUnchecked(c: CheckedSignalsOver): SignalsOver {
  const { vessel, position: p, stay, restrictedVisibility, ...rest } = c;
  const below = (altitudeDeg: number) =>
    sunBelow(p.latDeg, p.lonDeg, stay.fromMs, stay.toMs, altitudeDeg);
  const night = below(SUNSET_DEG);
  const dark = below(CIVIL_DEG);
  const timeline = cuts(stay, [...night, ...dark, ...restrictedVisibility]).map(
    ({ fromMs, toMs }): SignalsSpan => {
      const at = fromMs + (toMs - fromMs) / 2;
      const period = within(dark, at) ? "night" : within(night, at) ? "twilight" : "day";
      const poor = within(restrictedVisibility, at);
      const due = signalsDueUnchecked({
        ...rest,
        lengthM: vessel.lengthM,
        period,
        restrictedVisibility: poor,
      });
      return { fromMs, toMs, period, restrictedVisibility: poor, due };
    },
  );
  return { timeline, changes: changesOf(timeline) };
}

const within = (spans: readonly Interval[], at: number): boolean =>
  spans.some((s) => at >= s.fromMs && at <= s.toMs);

/** The stay cut at every end of the spans that lies within it. */
function cuts(stay: Interval, spans: readonly Interval[]): Interval[] {
  const inside = spans
    .flatMap((s) => [s.fromMs, s.toMs])
    .filter((t) => t > stay.fromMs && t < stay.toMs);
  const ends = [...new Set(inside), stay.toMs].sort((a, b) => a - b);
  return ends.map((toMs, i) => ({
    fromMs: i === 0 ? stay.fromMs : ends[i - 1]!,
    toMs,
  }));
}

/** What is due, in words that compare from one span to the next. */
const wordsOf = (due: SignalsDue): string[] => [
  ...due.lights.map(
    (l) => `${l.count} ${l.colour} light${l.count > 1 ? "s" : ""}${WHERE[l.place]}`,
  ),
  ...due.shapes.map((s) => `${s.count} black ${s.shape}${s.count > 1 ? "s" : ""}`),
  ...(due.deckLights.obligation === "owed" ? ["deck lights"] : []),
  ...(due.sound ? ["sound signal"] : []),
];

const WHERE: Record<SignalsDue["lights"][number]["place"], string> = {
  bestSeen: "",
  forePart: " forward",
  nearStern: " at the stern",
  verticalLine: " in a vertical line",
  asRuled: "",
};

function changesOf(timeline: readonly SignalsSpan[]): SignalChange[] {
  let shown: string[] = [];
  const out: SignalChange[] = [];
  for (const span of timeline) {
    const now = wordsOf(span.due);
    const begin = now.filter((w) => !shown.includes(w));
    const end = shown.filter((w) => !now.includes(w));
    if (begin.length + end.length > 0) out.push({ atMs: span.fromMs, begin, end });
    shown = now;
  }
  return out;
}
