import * as z from "zod/mini";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import type { Interval } from "../core/judgement.js";
import type { Metres } from "../core/units.js";
import { rankChecked } from "../shelter/rankShelter.js";
import { stayInput, type StayInput } from "./input.js";
import type { Danger } from "./judge.js";
import { planChecked, type StayPlan } from "./planStay.js";
import { ranked, type Key, type Placed } from "./ranking.js";
import type { Verdict } from "./types.js";

const options = z.strictObject({
  /** What the stop is for: a lunch stop can be left when it turns bad, a night cannot. */
  purpose: z.enum(["lunch", "night"]),
});
/** Options of {@link compareBerths}. */
export type CompareOptions = z.infer<typeof options>;

const inputs = z.array(stayInput).check(z.minLength(1), z.maxLength(50));

/** Figures berths are held against each other by; null where not known. */
export interface BerthFigures {
  /** Hours from letting go until it first stops being safe; null where it does not, or that is not known. */
  safeForH: number | null;
  /** Place by shelter alone, 1 the best; null where the sea cannot be reckoned. */
  shelterRank: number | null;
  /** Lowest credible holding over the hardest pull. */
  holding: number | null;
  /** Least water under the keel, metres. */
  underKeelM: Metres | null;
  /** Least room to anything, metres. */
  roomM: Metres | null;
  /** Share of the stay at which the way out is open; null where no route was given, or it is not known. */
  wayOpenShare: number | null;
}

/** One berth in its place. */
export interface RankedBerth {
  /** What you call it, or its place in the list. */
  name: string;
  /** Its place in the list given, from 0. */
  index: number;
  /** Its place, 1 the best; equal berths share a place. */
  rank: number;
  /** Whether another berth shares it. */
  tied: boolean;
  /** How good it is for the stay. */
  verdict: Verdict;
  /** When, and by what, it first stops being safe. */
  danger: Danger;
  /** What could not be judged, as codes. */
  unknown: string[];
  /** Figures it was placed by. */
  figures: BerthFigures;
  /** Why it stands where it does: what decides against the neighbours in the ranking. */
  because: Because[];
}

/** What decides between a berth and one next to it in the ranking. */
export interface Because {
  /** The other berth. */
  other: string;
  /** Whether this one stands before it, after it, or level. */
  stands: "before" | "after" | "level";
  /** What decided: `compare.verdict`, `.danger`, `.shelter`, `.holding`, `.room`, `.depth`, `.wayOut`; `compare.equal` where nothing did. */
  code: string;
  /** The figure of this berth; null where it is not known. */
  value: number | string | null;
  /** That of the other. */
  against: number | string | null;
  /** The rule, and how far figures may differ and still count as equal. */
  basis: string;
}

/** Berths in order. */
export interface BerthComparison {
  /** Version of this form. */
  version: 1;
  /** What the stop is for. */
  purpose: CompareOptions["purpose"];
  /** The stay they were held against each other for. */
  stay: Interval;
  /** The berths, best first. */
  berths: RankedBerth[];
  /** Rules and sources. */
  basis: string[];
}

/** A berth with what decides its place. */
interface Berth {
  name: string;
  index: number;
  plan: StayPlan;
  figures: BerthFigures;
}

/** Best first. What is not known to be safe is not better than what is known to need care. */
const VERDICTS: readonly Verdict[] = ["suitable", "withCare", "cannotTell", "unsuitable"];

const HOUR = 3_600_000;
/** A figure of which more is better up to what is enough; what is not known is the worst. */
const wanting = (
  code: string,
  figure: "holding" | "roomM" | "underKeelM" | "wayOpenShare",
  enough: number,
  equalWithin: number,
  basis: string,
): Key<Berth> => ({
  code,
  of: ({ figures }) => -Math.min(figures[figure] ?? -Infinity, enough),
  shown: ({ figures }) => figures[figure],
  equalWithin,
  basis,
});

const BY_VERDICT: Key<Berth> = {
  code: "compare.verdict",
  of: (b) => VERDICTS.indexOf(b.plan.verdict),
  shown: (b) => b.plan.verdict,
  equalWithin: 0,
  basis: "suitable, with care, cannot tell, unsuitable, in this order",
};
const BY_DANGER: Key<Berth> = {
  code: "compare.danger",
  of: ({ plan, figures }) =>
    figures.safeForH === null ? (plan.danger.known ? -Infinity : 0) : -figures.safeForH,
  shown: (b) => b.figures.safeForH,
  equalWithin: 0.5,
  basis: "hours until it first stops being safe; within half an hour equal",
};
const BY_SHELTER: Key<Berth> = {
  code: "compare.shelter",
  of: (b) => b.figures.shelterRank ?? Infinity,
  shown: (b) => b.figures.shelterRank,
  equalWithin: 0,
  basis: "place by shelter alone: the sea over the stay, ties within the error of the model",
};
const BY_HOLDING = wanting(
  "compare.holding",
  "holding",
  2,
  0.25,
  "lowest credible holding over the pull when she yaws wide; within 0.25 equal, above 2 enough",
);
const BY_ROOM = wanting(
  "compare.room",
  "roomM",
  25,
  5,
  "least room to anything; within 5 m equal, above 25 m enough",
);
const BY_DEPTH = wanting(
  "compare.depth",
  "underKeelM",
  1.5,
  0.2,
  "least water under the keel; within 0.2 m equal, above 1.5 m enough",
);
const BY_WAY_OUT = wanting(
  "compare.wayOut",
  "wayOpenShare",
  1,
  0.1,
  "share of the stay at which the way out is open; within a tenth equal",
);

const ORDER: Record<CompareOptions["purpose"], readonly Key<Berth>[]> = {
  night: [BY_VERDICT, BY_DANGER, BY_SHELTER, BY_HOLDING, BY_ROOM, BY_DEPTH, BY_WAY_OUT],
  // Somebody is on deck all the time and the engine starts at once: comfort comes before what is in hand.
  lunch: [BY_VERDICT, BY_SHELTER, BY_DANGER, BY_ROOM, BY_DEPTH, BY_HOLDING, BY_WAY_OUT],
};

/**
 * Berths in order for a lunch stop or a night, with the reason for each place.
 *
 * Each is planned for itself. They are ordered by verdict; then, for a night, by the hour at which they stop being safe,
 * by shelter, holding, room, depth and the way out, each only where those before leave them equal; a lunch stop puts shelter
 * first and holding last. What lies within the error of the figures is equal, and stays so. Leaves out how crowded, pretty or
 * handy a place is.
 *
 * *Valid* for berths planned for the same stay. *Accuracy*: the order is proposed, not published; each figure as in its plan.
 *
 * @throws InputError for a stay that is not well formed, or stays at different hours.
 * @source common practice, no source
 * @example
 * ```ts
 * import { compareBerths } from "hawse/plan";
 * const noon = Date.UTC(2026, 5, 1, 12);
 * const berth = (name: string, chartedDepthM: number) => ({
 *   name,
 *   chartedDepthM,
 *   position: { latDeg: 40, lonDeg: -30 },
 *   stay: { fromMs: noon, toMs: noon + 14_400_000 },
 *   vessel: { kind: "yacht" as const, lengthM: 10, draughtM: 1.8 },
 *   tackle: {
 *     anchor: { type: "claw" as const, massKg: 15 },
 *     rode: [{ kind: "chain" as const, diameterMm: 8, lengthM: 60 }],
 *   },
 *   tide: {
 *     kind: "turns" as const,
 *     datum: "LAT",
 *     turns: [4, 1, 4].map((heightM, i) => ({ timeMs: noon + 22_320_000 * (i - 1), heightM })),
 *   },
 * });
 * const { berths } = compareBerths([berth("shoal", 0.1), berth("pool", 2.5)], { purpose: "lunch" });
 * console.log(berths.map((b) => `${b.rank} ${b.name}: ${b.verdict}`).join(", "));
 * // 1 pool: cannotTell, 2 shoal: unsuitable
 * console.log(berths[0].because[0].code);
 * // compare.verdict
 * ```
 */
export function compareBerths(stays: readonly StayInput[], given: CompareOptions): BerthComparison {
  const { purpose } = check(options, given);
  const checked = check(inputs, stays);
  const { stay } = checked[0]!;
  checked.forEach((s, i) => {
    if (s.stay.fromMs !== stay.fromMs || s.stay.toMs !== stay.toMs)
      refuse(`[${i}].stay`, "order", "berths are compared over one and the same stay");
  });
  const plans = checked.map(planChecked);
  const names = plans.map((p, i) => nameOf(p, i, plans));
  const shelterRanks = shelterOf(plans, names, purpose);
  const berths = plans.map((plan, index): Berth => {
    const name = names[index]!;
    return { name, index, plan, figures: figuresOfBerth(plan, shelterRanks.get(name) ?? null) };
  });
  return {
    version: 1,
    purpose,
    stay: { ...stay },
    berths: ranked(berths, ORDER[purpose]).map(told),
    basis: [
      "order of what counts, and how far figures may differ and still be equal: proposed, no source",
      ...new Set(plans.flatMap((p) => p.basis)),
    ],
  };
}

/** Names that tell the berths apart. */
function nameOf(plan: StayPlan, i: number, plans: readonly StayPlan[]): string {
  const name = plan.name ?? `berth ${i + 1}`;
  return plans.some((p, k) => k !== i && p.name === plan.name) ? `${name} (${i + 1})` : name;
}

/** Places by shelter alone, by name; berths whose sea cannot be reckoned have none. */
function shelterOf(
  plans: readonly StayPlan[],
  names: readonly string[],
  purpose: CompareOptions["purpose"],
): Map<string, number> {
  const berths = plans.flatMap(({ shelter }, i) =>
    shelter === null ? [] : [{ name: names[i]!, shelter }],
  );
  if (berths.length === 0) return new Map();
  return new Map(rankChecked(berths, purpose).map((r) => [r.name, r.rank]));
}

function figuresOfBerth(plan: StayPlan, shelterRank: number | null): BerthFigures {
  const { danger, limiting, stay, wayOut } = plan;
  const totalMs = stay.toMs - stay.fromMs;
  const openMs = wayOut?.open.reduce((sum, o) => sum + o.toMs - o.fromMs, 0);
  return {
    safeForH: danger.atMs === null ? null : (danger.atMs - stay.fromMs) / HOUR,
    shelterRank,
    holding: limiting.holding.value,
    underKeelM: limiting.depth.value,
    roomM: limiting.room.value,
    wayOpenShare: openMs === undefined || totalMs === 0 ? null : openMs / totalMs,
  };
}

function told({ entry, rank, tied, against }: Placed<Berth>): RankedBerth {
  const { name, index, plan, figures } = entry;
  const { verdict, danger, unknown } = plan;
  return {
    name,
    index,
    rank,
    tied,
    verdict,
    danger,
    unknown,
    figures,
    because: against.map(({ other, stands, key }) => ({
      other: other.name,
      stands,
      code: key?.code ?? "compare.equal",
      value: key?.shown(entry) ?? null,
      against: key?.shown(other) ?? null,
      basis: key?.basis ?? "nothing differs by more than the figures are good for",
    })),
  };
}
