import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD, wrap360 } from "../core/angles.js";
import { check } from "../core/check.js";
import { direction, instant, metres, position, type Position } from "../core/schema.js";
import { planeAt, positionOf } from "../geo/plane.js";
import { BEAMS, CARRIED, REACH_SHARE, RODE_PER_DEPTH } from "./tables.js";
import type { AnchoredVessel } from "./vessel.js";

/** Input of {@link neighbourGuess}. */
export const neighbourGuessInput = z.strictObject({
  /** What she is. */
  kind: z.enum(["yacht", "motorBoat", "catamaran", "workboat"]),
  /** Her length overall. */
  lengthM: metres({ above: 0, max: 200 }),
  /** What she lies to; chain and rope, the longer of the two, where it is not known; not known unless given. */
  make: z._default(z.enum(["chain", "chainAndRope", "unknown"]), "unknown"),
  /** Where she is, about. */
  position,
  /** Whether that is where the vessel is seen, by her middle, or where her anchor lies; the vessel unless given. */
  positionIs: z._default(z.enum(["vessel", "anchor"]), "vessel"),
  /** How far off that may be; one length of hers where it is not given. */
  positionErrorM: z.optional(metres({ min: 0, max: 5000 })),
  /** Length of rode she has out, where it is known. */
  lengthOutM: z.optional(metres({ above: 0, max: 2000 })),
  /** Greatest depth where she lies over the stay, to guess the length out by. */
  depthM: z.optional(metres({ above: 0, max: 200 })),
  /** How she lies, moment by moment, as worked out for her kind in the wind and stream of the place. */
  lies: z._default(
    z.array(
      z.strictObject({
        /** When. */
        timeMs: instant(),
        /** Direction from her anchor to her bow. */
        pullTowardsDeg: direction(),
        /** Where her bow points. */
        headingDeg: direction(),
      }),
    ),
    [],
  ),
  /** Which way she pulled when she was seen, from her anchor; without it the anchor may lie anywhere round her. */
  seenPullTowardsDeg: z.optional(direction()),
});
/** Input of {@link neighbourGuess}. */
export type NeighbourGuessInput = Given<typeof neighbourGuessInput>;

/** A neighbour as far as she can be guessed. */
export interface NeighbourGuess {
  /** The neighbour, ready for {@link swingGap}. */
  neighbour: AnchoredVessel;
  /** Disc she keeps within at her worst, whatever wind and stream do. */
  worst: {
    /** Middle of the disc. */
    centre: Position;
    /** Its radius. */
    radiusM: number;
  };
  /** Length of rode she was taken to have out. */
  lengthOutM: number;
  /** What was assumed, and by which rule. */
  assumed: string[];
}

/**
 * A neighbour of whom only the kind, the length and a rough place are known, as an anchored vessel to keep clear of.
 *
 * Her beam and the length of her rode are guessed on the long side: by the depth where it is given, else by what a vessel of
 * her length carries. Her anchor lies where she pulls from, if that is known, else anywhere round her. Where her
 * lies are not given she may lie any way round. *Valid*: small craft on one anchor. *Accuracy*: a guess, on the safe side
 * for a vessel within these figures; one that has more rode out than guessed is not.
 *
 * @throws InputError when a figure is missing or out of range.
 * @source common practice, no source (rode by depth); our own round figures (beam, rode carried)
 * @example
 * ```ts
 * import { neighbourGuess } from "hawse/swing";
 * const { worst, lengthOutM } = neighbourGuess({
 *   kind: "motorBoat", lengthM: 9, make: "chain", depthM: 6,
 *   position: { latDeg: 50, lonDeg: -4 }, positionIs: "anchor", positionErrorM: 10,
 * });
 * console.log(lengthOutM, worst.radiusM.toFixed(1));
 * // 36 55.2
 * ```
 */
export const neighbourGuess = (input: NeighbourGuessInput): NeighbourGuess =>
  guessNeighbour(check(neighbourGuessInput, input));

/** Where the anchor is, how far off, and the reach that goes with it. */
interface AnchorGuess {
  anchor: Position;
  anchorErrorM: number;
  reachM: number;
  how: string;
}

type Known = z.output<typeof neighbourGuessInput>;

/** {@link neighbourGuess} without the check. */
export function guessNeighbour(known: Known): NeighbourGuess {
  const { lengthM, lies } = known;
  const { lengthOutM, by } = rodeOf(known);
  const beamM = BEAMS[known.kind] * lengthM;
  const guess = anchorOf(known, lengthOutM);
  const { anchor, anchorErrorM, reachM } = guess;
  const assumed = [`beam ${BEAMS[known.kind]} of the length`, by, guess.how, "no sheer and no yaw"];
  if (known.positionErrorM === undefined) assumed.push("place known to one length of hers");
  if (lies.length === 0) assumed.push("lies any way round");
  return {
    neighbour: {
      anchor,
      anchorErrorM,
      vessel: { lengthM, beamM },
      moments: lies.map((lie) => ({ ...lie, reachM })),
      reachM,
    },
    worst: {
      centre: anchor,
      radiusM: anchorErrorM + reachM + Math.sqrt(lengthM * lengthM + (beamM * beamM) / 4),
    },
    lengthOutM,
    assumed,
  };
}

function rodeOf({ make, lengthM, lengthOutM, depthM }: Known): {
  lengthOutM: number;
  by: string;
} {
  if (lengthOutM !== undefined) return { lengthOutM, by: "rode out as given" };
  if (depthM !== undefined) {
    const times = RODE_PER_DEPTH[make];
    return {
      lengthOutM: times * depthM,
      by: `rode out ${times} times the depth`,
    };
  }
  const { perLength, leastM } = CARRIED[make];
  return {
    lengthOutM: Math.max(leastM, perLength * lengthM),
    by: `rode out all she carries: ${perLength} lengths of hers, at least ${leastM} m`,
  };
}

/**
 * Her anchor from where she is seen. Her bow is within half her length of that; how far from the anchor
 * is known only between a part of the rode and all of it, so the middle is taken and the span added to the error.
 */
function anchorOf(known: Known, longest: number): AnchorGuess {
  const { position: at, lengthM, seenPullTowardsDeg: pull } = known;
  const errorM = known.positionErrorM ?? lengthM;
  if (known.positionIs === "anchor")
    return {
      anchor: at,
      anchorErrorM: errorM,
      reachM: longest,
      how: "anchor where it was given",
    };
  const seenM = errorM + lengthM / 2;
  if (pull === undefined)
    return {
      anchor: at,
      anchorErrorM: seenM + longest,
      reachM: longest,
      how: "anchor anywhere within her rode of where she is seen",
    };
  const shortest = REACH_SHARE * longest;
  const reachM = (longest + shortest) / 2;
  const back = wrap360(pull + 180) * RAD;
  return {
    anchor: positionOf(planeAt(at), reachM * Math.sin(back), reachM * Math.cos(back)),
    anchorErrorM: seenM + longest - shortest,
    reachM,
    how: `anchor where she pulls from, ${REACH_SHARE} to all of her rode away`,
  };
}
