import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { bearingOf, RAD, reciprocal, turnDeg } from "../core/angles.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import type { Source } from "../core/judgement.js";
import { degrees, direction, metres, newtons } from "../core/schema.js";
import type { Degrees, Metres, Newtons, SquareMetres } from "../core/units.js";
import { lensArea, onTwoLegs } from "./legs.js";
import { onYieldingLegs, type ReachCurve } from "./yielding.js";

const reach = () => metres({ above: 0, max: 1000 });

/** Reach of a rode by load, as `loadAtReach` or `layRode` give it. */
const curve = z
  .array(
    z.strictObject({
      /** Horizontal load at the bow. */
      loadN: newtons(),
      /** Horizontal reach under it. */
      reachM: reach(),
    }),
  )
  .check(
    z.minLength(2),
    z.refine(
      (points) =>
        points[0]!.loadN === 0 &&
        points.every(
          (p, i) => i === 0 || (p.loadN > points[i - 1]!.loadN && p.reachM > points[i - 1]!.reachM),
        ),
      "loads must ascend from 0 and reaches with them",
    ),
  );

const common = {
  /** Horizontal reach of the first rode, taut: for fore-and-aft the bow's, for an open moor the one up-stream. */
  firstReachM: reach(),
  /** Horizontal reach of the second rode, taut. */
  secondReachM: reach(),
  /** Reach of both rodes by load, so that their give is reckoned with; taut legs of fixed reach unless given. */
  give: z.optional(z.strictObject({ first: curve, second: curve })),
  /** Pulls on the vessel, each with the direction it pulls; the whole round of the compass at `pullN` where not given. */
  pulls: z.optional(
    z
      .array(
        z.strictObject({
          /** Horizontal pull. */
          pullN: newtons(),
          /** Direction in which the vessel pulls. */
          pullTowardsDeg: direction(),
        }),
      )
      .check(z.minLength(1)),
  ),
  /** Pull to take all round where no pulls are given; 1 unless given, which makes the loads shares of it. */
  pullN: z._default(newtons({ above: 0 }), 1),
};

export const twoAnchorsInput = z.discriminatedUnion("kind", [
  z.strictObject({
    /** Two anchors off the bow, spread ahead. */
    kind: z.literal("vee"),
    ...common,
    /** Direction from the bow to midway between the anchors. */
    aheadDeg: direction(),
    /** Angle between the legs. */
    spreadDeg: degrees({ above: 0, max: 179 }),
  }),
  z.strictObject({
    /** One anchor off the bow and one off the stern. */
    kind: z.literal("foreAndAft"),
    ...common,
    /** Heading: direction from the stern anchor to the bow anchor. */
    headingDeg: direction(),
    /** Length between the points where the rodes are made fast. */
    lengthM: metres({ above: 0, max: 100 }),
    /** Distance between the anchors. */
    apartM: reach(),
  }),
  z.strictObject({
    /** Both anchors off the bow, one up-stream and one down-stream. */
    kind: z.literal("openMoor"),
    ...common,
    /** Direction from the second anchor to the first. */
    lineDeg: direction(),
    /** Distance between the anchors. */
    apartM: reach(),
  }),
]);

/** Codes of the cautions of {@link TwoAnchors}. */
export type TwoAnchorsCaution =
  | "legBearsMoreThanPull"
  | "oneLegSlack"
  | "flatAngle"
  | "bothLostIfFirstDrags"
  | "turnsInCable"
  | "rodesCross"
  | "beamOnCannotSwing"
  | "neighboursSwing";

/** What a second anchor is laid for. */
export type TwoAnchorsPurpose = "addHolding" | "reduceRoom" | "holdAgainstStream";

/** Loads and position under one pull. */
export interface LegLoads {
  /** The pull, N. */
  pullN: Newtons;
  /** Direction in which the vessel pulls. */
  pullTowardsDeg: Degrees;
  /** Pull on the first leg, N. */
  firstN: Newtons;
  /** Pull on the second leg, N. */
  secondN: Newtons;
  /** Bow east of the midpoint between the anchors, m. */
  bowEastM: Metres;
  /** Bow north of the midpoint between the anchors, m. */
  bowNorthM: Metres;
}

/** A vessel on two anchors. */
export interface TwoAnchors {
  /** Loads at each pull. */
  legs: LegLoads[];
  /** Greatest pull on either leg, N, and the pull that makes it. */
  worst: {
    /** Which leg. */
    leg: "first" | "second";
    /** Pull in it. */
    legN: Newtons;
    /** That over the pull of the vessel. */
    overPull: number;
  };
  /** Positions of the anchors from the midpoint between them, m. */
  anchors: {
    /** East of the middle. */
    eastM: Metres;
    /** North of the middle. */
    northM: Metres;
  }[];
  /** Room that the bow can take. */
  room: {
    /** Area the bow can be in, m². */
    bowAreaM2: SquareMetres;
    /** That area over the circle of the longer reach alone. */
    shareOfSingle: number;
    /** Greatest distance of the bow from the midpoint between the anchors, m. */
    greatestM: Metres;
  };
  /** Whether the second anchor eases the first: no leg bears as much as the pull. */
  easesAnchors: boolean;
  /** What the arrangement is laid for. */
  purposes: TwoAnchorsPurpose[];
  /** What to beware of. */
  cautions: TwoAnchorsCaution[];
  /** Sources. */
  basis: Source[];
}

const PURPOSES: Record<Arrangement["kind"], TwoAnchorsPurpose[]> = {
  vee: ["addHolding"],
  foreAndAft: ["reduceRoom"],
  openMoor: ["reduceRoom", "holdAgainstStream"],
};

const RISKS: Record<Arrangement["kind"], TwoAnchorsCaution[]> = {
  vee: ["bothLostIfFirstDrags"],
  foreAndAft: ["beamOnCannotSwing", "neighboursSwing"],
  openMoor: ["turnsInCable", "neighboursSwing"],
};

/** A leg that bears more than this many times the pull is nearly straight between the anchors; ours. */
const FLAT = 2;

type Arrangement = z.output<typeof twoAnchorsInput>;

/** Two anchors as two circles: the second anchor's distance and direction from the first. */
interface Layout {
  apartM: number;
  /** Direction from the first anchor to the second. */
  lineDeg: number;
  /** Real distance between the anchors. */
  anchorsApartM: number;
}

/**
 * A vessel on two anchors: what each leg bears and how much room she takes.
 *
 * Each rode is a taut leg of fixed reach; the vessel lies as far the way she is pulled as both allow, and
 * where both are tight the pull is shared by the triangle of forces. With `give`, sag and stretch of the
 * rodes are reckoned with and the change from one leg to two is soft. Fore-and-aft the hull stays in line
 * and the legs are as if they met. Leaves out any give of the anchors.
 *
 * *Valid*: reaches that are those at the pull in question. *Accuracy*: exact for taut legs; equal legs at
 * an angle a bear F/(2 cos(a/2)) each.
 *
 * @throws InputError when a figure is missing, out of range or unknown, or the legs cannot meet.
 * @source statics; cautions are common practice, no source
 * @example
 * ```ts
 * import { twoAnchors } from "hawse";
 * const vee = twoAnchors({ kind: "vee", aheadDeg: 0, spreadDeg: 60, firstReachM: 30, secondReachM: 30,
 *   pulls: [{ pullN: 1000, pullTowardsDeg: 180 }] });
 * console.log(Math.round(vee.worst.legN));
 * // 577
 * ```
 */
export const twoAnchors = (input: Given<typeof twoAnchorsInput>): TwoAnchors =>
  onTwoAnchors(check(twoAnchorsInput, input));

function onTwoAnchors(input: Arrangement): TwoAnchors {
  const layout = layoutOf(input);
  const { firstReachM: r1, secondReachM: r2 } = input;
  const loads = loadsOnTwo(input, layout);
  const area = lensArea(layout.apartM, r1, r2);
  const single = Math.PI * Math.max(r1, r2) ** 2;
  return {
    ...loads,
    room: {
      bowAreaM2: area,
      shareOfSingle: area / single,
      greatestM: greatestOf(input, layout),
    },
    easesAnchors: loads.worst.overPull < 1 - 1e-9,
    purposes: PURPOSES[input.kind],
    basis: [
      { title: "triangle of forces", provenance: "computed" },
      { title: "common practice, no source", provenance: "commonPractice" },
    ],
  };
}

/** What each leg bears, without the room she takes; for input that has been checked. */
export function loadsOnTwo(
  input: Arrangement,
  layout: Layout = layoutOf(input),
): Pick<TwoAnchors, "legs" | "worst" | "anchors" | "cautions"> {
  if (!(layout.apartM < input.firstReachM + input.secondReachM))
    refuse("apartM", "too_big", "the legs cannot meet");
  const pulls = input.pulls ?? allRound(input.pullN);
  const legs = pulls.map((p) => legLoads(input, layout, p));
  const worst = worstOf(legs);
  const cautions = cautionsOf(input, layout, legs, worst);
  return { legs, worst, anchors: anchorsOf(layout), cautions };
}

/** Farthest the bow can come from the midpoint, the legs taut. */
function greatestOf(input: Arrangement, layout: Layout): number {
  const taut = { ...input, give: undefined };
  const squares = allRound(1).map((pull) => {
    const { bowEastM, bowNorthM } = legLoads(taut, layout, pull);
    return bowEastM * bowEastM + bowNorthM * bowNorthM;
  });
  return Math.sqrt(Math.max(...squares));
}

const allRound = (pullN: number) =>
  Array.from({ length: 360 }, (_, deg) => ({ pullN, pullTowardsDeg: deg }));

function layoutOf(i: Arrangement): Layout {
  if (i.kind === "openMoor")
    return {
      apartM: i.apartM,
      lineDeg: reciprocal(i.lineDeg),
      anchorsApartM: i.apartM,
    };
  if (i.kind === "foreAndAft") {
    if (!(i.apartM > i.lengthM))
      refuse("apartM", "too_small", "the hull does not fit between the anchors");
    return {
      apartM: i.apartM - i.lengthM,
      lineDeg: reciprocal(i.headingDeg),
      anchorsApartM: i.apartM,
    };
  }
  // Anchors as seen from the bow, the first to port.
  const half = (i.spreadDeg / 2) * RAD;
  const [a, b] = [i.firstReachM, i.secondReachM];
  const alongLine = (a + b) * Math.sin(half);
  const ahead = (b - a) * Math.cos(half);
  const apartM = Math.sqrt(alongLine * alongLine + ahead * ahead);
  return {
    apartM,
    lineDeg: bearingOf(
      Math.sin((i.aheadDeg + 90) * RAD) * alongLine + Math.sin(i.aheadDeg * RAD) * ahead,
      Math.cos((i.aheadDeg + 90) * RAD) * alongLine + Math.cos(i.aheadDeg * RAD) * ahead,
    ),
    anchorsApartM: apartM,
  };
}

function legLoads(
  i: Arrangement,
  layout: Layout,
  pull: { pullN: number; pullTowardsDeg: number },
): LegLoads {
  // Across is to the left of the line from the first anchor to the second.
  const off = turnDeg(layout.lineDeg, pull.pullTowardsDeg) * RAD;
  const [forward, leftward] = [Math.cos(off), -Math.sin(off)];
  const taut = onTwoLegs(
    layout.apartM,
    i.firstReachM,
    i.secondReachM,
    pull.pullN,
    forward,
    leftward,
  );
  const at =
    i.give === undefined || pull.pullN === 0
      ? taut
      : onYieldingLegs(
          layout.apartM,
          columns(i.give.first),
          columns(i.give.second),
          pull.pullN * forward,
          pull.pullN * leftward,
          taut,
        );
  const east = Math.sin(layout.lineDeg * RAD);
  const north = Math.cos(layout.lineDeg * RAD);
  const along = at.alongM - layout.anchorsApartM / 2;
  return {
    ...pull,
    firstN: at.firstN,
    secondN: at.secondN,
    bowEastM: along * east - at.acrossM * north,
    bowNorthM: along * north + at.acrossM * east,
  };
}

const columns = (points: z.output<typeof curve>): ReachCurve => ({
  loadN: points.map((p) => p.loadN),
  reachM: points.map((p) => p.reachM),
});

const anchorsOf = ({ lineDeg, anchorsApartM }: Layout) =>
  [-0.5, 0.5].map((part) => ({
    eastM: part * anchorsApartM * Math.sin(lineDeg * RAD),
    northM: part * anchorsApartM * Math.cos(lineDeg * RAD),
  }));

function worstOf(legs: readonly LegLoads[]): TwoAnchors["worst"] {
  let worst: TwoAnchors["worst"] = { leg: "first", legN: 0, overPull: 0 };
  for (const { pullN, firstN, secondN } of legs) {
    const leg = firstN >= secondN ? "first" : "second";
    const legN = Math.max(firstN, secondN);
    if (legN >= worst.legN) worst = { leg, legN, overPull: pullN > 0 ? legN / pullN : 0 };
  }
  return worst;
}

/** Whether the bow comes to both sides of the line between the anchors, so that its rodes cross. */
function crosses(layout: Layout, legs: readonly LegLoads[]): boolean {
  const east = Math.sin(layout.lineDeg * RAD);
  const north = Math.cos(layout.lineDeg * RAD);
  const sides = legs.map((l) => l.bowNorthM * east - l.bowEastM * north);
  return Math.min(...sides) < -1e-6 && Math.max(...sides) > 1e-6;
}

function cautionsOf(
  i: Arrangement,
  layout: Layout,
  legs: readonly LegLoads[],
  worst: TwoAnchors["worst"],
): TwoAnchorsCaution[] {
  const slack = legs.some((l) => l.firstN === 0 || l.secondN === 0);
  return [
    ...(worst.overPull > 1 + 1e-9 ? (["legBearsMoreThanPull"] as const) : []),
    ...(worst.overPull > FLAT ? (["flatAngle"] as const) : []),
    ...(i.kind === "vee" && slack ? (["oneLegSlack"] as const) : []),
    ...(i.kind !== "foreAndAft" && crosses(layout, legs) ? (["rodesCross"] as const) : []),
    ...RISKS[i.kind],
  ];
}
