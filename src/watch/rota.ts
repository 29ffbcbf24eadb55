import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Interval } from "../core/judgement.js";
import { duration, instant, interval, metres, speed } from "../core/schema.js";
import type { Metres, MetresPerSecond, Milliseconds } from "../core/units.js";
import { darkSpans } from "./stay.js";

/** Schema of {@link watchRota}. */
export const watchRotaInput = z.strictObject({
  /** Who stands a watch. */
  crew: z.array(z.string()).check(
    z.minLength(1, "expected at least 1 of the crew"),
    z.refine((c) => new Set(c).size === c.length, "somebody is named twice"),
  ),
  /** Time to be covered. */
  stay: interval,
  /** When to look how she lies, from `checkTimes`. */
  checks: z._default(
    z.array(
      z.object({
        /** When to look. */
        timeMs: instant(),
        /** What to look at. */
        look: z._default(z.array(z.string()), []),
      }),
    ),
    [],
  ),
  /** Longest watch; three hours unless given. */
  longestMs: z._default(duration({ min: 600_000 }), 3 * 3_600_000),
  /** Spans of darkness, to be shared fairly. */
  dark: z._default(darkSpans, []),
  /** When the skipper is called. */
  callAt: z._default(
    z.strictObject({
      /** Distance from the anchor. */
      distanceM: z.optional(metres({ above: 0 })),
      /** Least depth. */
      depthM: z.optional(metres({ min: 0 })),
      /** Wind. */
      windMps: z.optional(speed()),
    }),
    {},
  ),
});
/** Input of {@link watchRota}. */
export type WatchRotaInput = Given<typeof watchRotaInput>;

/** One watch. */
export interface RotaWatch {
  /** Who stands it. */
  who: string;
  /** When it begins. */
  fromMs: Milliseconds;
  /** When it ends. */
  toMs: Milliseconds;
  /** Part of it in the dark. */
  darkMs: Milliseconds;
  /** Checks that fall in it. */
  checks: {
    timeMs: Milliseconds;
    /** What to look at. */
    look: string[];
  }[];
}

/** When the watch-keeper calls the skipper. */
export type CallWhen =
  | { when: "distanceOver"; valueM: Metres }
  | { when: "depthUnder"; valueM: Metres }
  | { when: "windOver"; valueMps: MetresPerSecond }
  | { when: "bearingsDraw" | "neighbourCloses" | "watchBlind" | "inDoubt" };

/** Answer of {@link watchRota}. */
export interface WatchRota {
  /** Watches, one after the other over the whole stay. */
  watches: RotaWatch[];
  /** Time on watch and in the dark, one a head. */
  shares: {
    /** Who. */
    who: string;
    /** Time on watch. */
    onWatchMs: Milliseconds;
    /** Of it, between sunset and sunrise. */
    darkMs: Milliseconds;
  }[];
  /** When to call the skipper. */
  callWhen: CallWhen[];
  /** `oneAlone`: nobody relieves her, the watch can only be called by an alarm. */
  cautions: "oneAlone"[];
}

/**
 * A rota of equal watches over a stay, the dark hours shared, nobody two watches running.
 *
 * The stay is cut into the fewest equal watches that go evenly round the crew and are no longer than
 * asked; within each round those who have had least of the dark take the darkest. Leaves out who
 * sleeps badly when. *Valid*: any crew. *Accuracy*: times on watch equal to the millisecond's rounding.
 *
 * @throws InputError when somebody is named twice or no crew is given.
 * @source common practice, no source
 * @example
 * ```ts
 * import { watchRota } from "hawse/watch";
 * const rota = watchRota({ crew: ["skipper", "mate"], stay: { fromMs: 0, toMs: 8 * 3600000 } });
 * console.log(rota.watches.map((w) => w.who).join(" "));
 * // skipper mate skipper mate
 * ```
 */
export function watchRota(input: WatchRotaInput): WatchRota {
  const q = check(watchRotaInput, input);
  const heads = q.crew.length;
  const span = q.stay.toMs - q.stay.fromMs;
  const rounds = Math.max(1, Math.ceil(span / (q.longestMs * heads)));
  const count = rounds * heads;
  const edges = Array.from({ length: count + 1 }, (_, i) =>
    Math.round(q.stay.fromMs + (span * i) / count),
  );
  const dark = [...q.dark].sort((a, b) => a.fromMs - b.fromMs);
  const slots = edges.slice(0, count).map((fromMs, i) => {
    const toMs = edges[i + 1]!;
    return { fromMs, toMs, darkMs: darkIn(dark, { fromMs, toMs }) };
  });
  const who = assign(slots, heads, rounds);
  const watches = slots.map((slot, i) => ({
    who: q.crew[who[i]!]!,
    ...slot,
    checks: q.checks.filter(
      (c) =>
        c.timeMs >= slot.fromMs &&
        (c.timeMs < slot.toMs || (i === count - 1 && c.timeMs === slot.toMs)),
    ),
  }));
  const shares = q.crew.map((name, head) => ({
    who: name,
    onWatchMs: sum(slots, who, head, (s) => s.toMs - s.fromMs),
    darkMs: sum(slots, who, head, (s) => s.darkMs),
  }));
  return {
    watches,
    shares,
    callWhen: callsOf(q.callAt),
    cautions: heads === 1 ? ["oneAlone"] : [],
  };
}

interface Slot {
  fromMs: number;
  toMs: number;
  darkMs: number;
}

const sum = (slots: Slot[], who: number[], head: number, of: (slot: Slot) => number): number =>
  slots.reduce((s, slot, i) => s + (who[i] === head ? of(slot) : 0), 0);

/** Milliseconds of a span that are dark; spans of darkness in order of their beginning, which may overlap. */
function darkIn(dark: readonly Interval[], span: Interval): number {
  let counted = span.fromMs;
  let sum = 0;
  for (const d of dark) {
    const toMs = Math.min(d.toMs, span.toMs);
    sum += Math.max(0, toMs - Math.max(d.fromMs, counted));
    counted = Math.max(counted, toMs);
  }
  return sum;
}

/** Round by round: the darkest watch to whoever has had least of the dark, nobody twice running. */
function assign(slots: Slot[], heads: number, rounds: number): number[] {
  const had = Array.from({ length: heads }, () => 0);
  const who: number[] = [];
  for (let r = 0; r < rounds; r++) {
    const from = r * heads;
    const free = had.map((_, i) => i);
    const round = Array.from({ length: heads }, (_, i) => from + i);
    const darkFirst = [...round].sort((a, b) => slots[b]!.darkMs - slots[a]!.darkMs || a - b);
    const before = r === 0 ? undefined : who[from - 1];
    for (const slot of darkFirst) {
      free.sort((a, b) => had[a]! - had[b]! || a - b);
      const barred = slot === from && free.length > 1 ? before : undefined;
      // The one who has just been relieved must not be left over for the first watch of the round.
      const forced =
        heads > 1 && free.length === 2 && !(from in who) && slot !== from
          ? free.find((h) => h === before)
          : undefined;
      const head = forced ?? free.find((h) => h !== barred)!;
      free.splice(free.indexOf(head), 1);
      who[slot] = head;
      had[head]! += slots[slot]!.darkMs;
    }
  }
  return who;
}

function callsOf(at: {
  distanceM?: number | undefined;
  depthM?: number | undefined;
  windMps?: number | undefined;
}): CallWhen[] {
  const out: CallWhen[] = [];
  if (at.distanceM !== undefined) out.push({ when: "distanceOver", valueM: at.distanceM });
  if (at.depthM !== undefined) out.push({ when: "depthUnder", valueM: at.depthM });
  if (at.windMps !== undefined) out.push({ when: "windOver", valueMps: at.windMps });
  for (const when of ["bearingsDraw", "neighbourCloses", "watchBlind", "inDoubt"] as const)
    out.push({ when });
  return out;
}
