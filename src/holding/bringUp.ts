import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import type { Range3, Source } from "../core/judgement.js";
import { kilograms, metres, newtons, plain, seconds, speed } from "../core/schema.js";
import type { Metres, Seconds } from "../core/units.js";

/** Speed at which an anchor and its cable run down, m/s; from memory, 1 to 3. */
const FALL_MPS = { low: 3, likely: 2, high: 1 } as const;
/** Added mass of a hull moving ahead or astern, over its own: 5 to 10 %, from memory. */
const ADDED_MASS = 0.1;
/** Share of the holding that an anchor gives on the average while it digs in; ours. */
const WHILE_SETTING = { low: 0.7, likely: 0.5, high: 0.3 } as const;
/** Distance an anchor is dragged before it bites, m; ours. */
const BITE_M = { low: 1, likely: 3, high: 10 } as const;

/** Below this speed a vessel is as good as stopped, m/s; ours. */
const STILL_MPS = 0.01;

const holdingRange = z
  .strictObject({
    /** Least holding. */
    low: newtons(),
    /** Likely holding. */
    likely: newtons(),
    /** Greatest holding. */
    high: newtons(),
  })
  .check(
    z.refine((r) => r.low <= r.likely && r.likely <= r.high, "expected low <= likely <= high"),
  );

export const bringUpInput = z.strictObject({
  /** Speed over ground as the engine fails. */
  speedMps: speed({ max: 15 }),
  /** Mass of the vessel. */
  displacementKg: kilograms(),
  /** Steady pull of wind and stream (`pullN` of `lie`). */
  pullN: newtons(),
  /** Ultimate holding (`ultimateN` of `holding`); null where the bed has no figure. */
  ultimateN: z.nullable(holdingRange),
  /** Depth of water. */
  depthM: metres({ above: 0 }),
  /** Height of the bow roller above the water; 1 m unless given. */
  bowHeightM: z._default(metres({ min: 0 }), 1),
  /** Cable that can be let run at once. */
  cableM: metres({ above: 0 }),
  /** Cable over depth and bow height to snub at; 4 unless given. */
  scope: z._default(plain({ min: 1.5, max: 15 }), 4),
  /** Time to get the anchor away; 30 s unless given, 5 s with the anchor ready. */
  readyS: z._default(seconds(), 30),
  /** Room to leeward or ahead to the nearest danger. */
  roomM: z.optional(metres({ min: 0 })),
});

/** Codes of what stands in the way of bringing up. */
export type BringUpCaution =
  "holdingUnknown" | "holdingBelowPull" | "cableTooShort" | "roomTooSmall" | "snubGently";

/** Distance to bring up. */
export interface BringUp {
  /** Distance from where the engine fails to where the vessel is brought up, m; null where she may not be. */
  distanceM: Range3<Metres> | null;
  /** Its parts, likely figures, m. */
  partsM: {
    /** Way made while the anchor is got ready. */
    ready: Metres;
    /** While it falls to the bottom. */
    fall: Metres;
    /** While cable is veered. */
    veer: Metres;
    /** While it sets and she stops. */
    setAndStop: Metres | null;
  };
  /** Time until the cable grows taut, likely, s; null for a vessel that hardly moves. */
  toSnubS: Seconds | null;
  /** Whether she is brought up in the room given; unknown is never good news. */
  verdict: "inTime" | "notInTime" | "cannotTell";
  /** What stands in the way. */
  cautions: BringUpCaution[];
  /** Sources. */
  basis: Source[];
}

/**
 * Distance to bring up when the engine fails: from that moment until the anchor has stopped the vessel.
 *
 * She runs on at her speed while the anchor is got away and falls and the cable runs out to the scope;
 * then the anchor is dragged a little before it bites and takes up her energy with a part of its holding,
 * less the steady pull. Leaves out the slowing by her own resistance, which is on the safe side, waves,
 * and a windlass that jams.
 *
 * *Valid*: moderate speeds; above 2 knots the cable may run out or part. *Accuracy*: an estimate; times
 * of falling and setting are from memory or our own.
 *
 * @throws InputError when a figure is missing, out of range or unknown.
 * @source work and energy; times: common practice, no source
 * @example
 * ```ts
 * import { bringUp, knots } from "hawse";
 * const stop = bringUp({ speedMps: knots(2), displacementKg: 9000, pullN: 400, depthM: 6, cableM: 40,
 *   ultimateN: { low: 2000, likely: 4000, high: 8000 }, readyS: 10, roomM: 100 });
 * console.log(Math.round(stop.distanceM?.likely ?? NaN), stop.verdict);
 * // 44 inTime
 * ```
 */
export const bringUp = (input: Given<typeof bringUpInput>): BringUp =>
  bringUpOf(check(bringUpInput, input));

type Parsed = z.output<typeof bringUpInput>;

/** {@link bringUp} without the check. */
export function bringUpOf(i: Parsed): BringUp {
  const height = i.depthM + i.bowHeightM;
  const lengthM = Math.min(i.scope * height, i.cableM);
  const veer = Math.sqrt(Math.max(0, lengthM * lengthM - height * height));
  const fall = (fallMps: number) => (i.speedMps * i.depthM) / fallMps;
  const ready = i.speedMps * i.readyS;
  const stops = {
    low: setAndStop(i, "low"),
    likely: setAndStop(i, "likely"),
    high: setAndStop(i, "high"),
  };
  const total = (end: "low" | "likely" | "high") =>
    // The cable runs out while she moves on: what ran out in the fall is not run again.
    ready + Math.max(fall(FALL_MPS[end]), veer) + (stops[end] ?? 0);
  const distanceM =
    stops.high === null || lengthM <= height
      ? null
      : { low: total("low"), likely: total("likely"), high: total("high") };
  const fallM = fall(FALL_MPS.likely);
  return {
    distanceM,
    partsM: {
      ready,
      fall: fallM,
      veer: Math.max(0, veer - fallM),
      setAndStop: stops.likely,
    },
    toSnubS:
      i.speedMps < STILL_MPS
        ? null
        : i.readyS + Math.max(i.depthM / FALL_MPS.likely, veer / i.speedMps),
    verdict: verdictOf(i, distanceM),
    cautions: cautionsOf(i, lengthM, distanceM),
    basis: [
      { title: "work and energy", provenance: "computed" },
      { title: "common practice, no source", provenance: "commonPractice" },
    ],
  };
}

/** Distance dragged until the anchor has taken up the vessel's energy; null where the pull may be too much for it. */
function setAndStop(i: Parsed, end: "low" | "likely" | "high"): number | null {
  // The short distance goes with the good holding.
  const holdN = i.ultimateN?.[end === "low" ? "high" : end === "high" ? "low" : end];
  if (holdN === undefined) return null;
  const netN = holdN * WHILE_SETTING[end] - i.pullN;
  if (!(netN > 0)) return null;
  const energyJ = 0.5 * i.displacementKg * (1 + ADDED_MASS) * i.speedMps * i.speedMps;
  return BITE_M[end] + energyJ / netN;
}

function verdictOf(i: Parsed, distanceM: Range3 | null): BringUp["verdict"] {
  if (i.roomM === undefined) return "cannotTell";
  if (distanceM !== null && distanceM.high <= i.roomM) return "inTime";
  if (distanceM === null || distanceM.low <= i.roomM) return "cannotTell";
  return "notInTime";
}

function cautionsOf(i: Parsed, lengthM: number, distanceM: Range3 | null): BringUpCaution[] {
  const cautions: [BringUpCaution, boolean][] = [
    ["holdingUnknown", i.ultimateN === null],
    ["holdingBelowPull", i.ultimateN !== null && distanceM === null],
    ["cableTooShort", lengthM < i.scope * (i.depthM + i.bowHeightM)],
    ["roomTooSmall", i.roomM !== undefined && !(distanceM !== null && distanceM.high <= i.roomM)],
    ["snubGently", i.speedMps > 1],
  ];
  return cautions.flatMap(([code, applies]) => (applies ? [code] : []));
}
