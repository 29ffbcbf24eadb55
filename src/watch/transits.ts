import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { RAD, turnDeg, wrap180, wrap360 } from "../core/angles.js";
import { check } from "../core/check.js";
import { degrees, direction, metres, position } from "../core/schema.js";
import type { Degrees, Metres } from "../core/units.js";
import { planeAt, toPlane } from "../geo/plane.js";

/** A charted mark that can be seen from the anchorage. */
const mark = z.strictObject({
  /** Name or number, given back in the answer. */
  id: z.string(),
  /** Charted position. */
  position,
  /** Whether it can be seen in the dark; no unless given. */
  lit: z._default(z.boolean(), false),
  /** How far off it can be seen; no limit if left out. */
  rangeM: z.optional(metres({ above: 0 })),
});

/** Schema of {@link pickTransits}. */
export const pickTransitsInput = z.strictObject({
  /** Marks to pick from, at most 200. */
  marks: z.array(mark).check(z.maxLength(200, "expected at most 200 marks")),
  /** Where the observer stands as the vessel lies. */
  position,
  /** How she heads; the anchor lies ahead. Without it she may lie anywhere about the anchor. */
  headingDeg: z.optional(direction()),
  /** Distance from the anchor to the observer. */
  reachM: metres({ above: 0 }),
  /** How far she swings to each side of that heading; 30° unless given. */
  swingDeg: z._default(degrees({ min: 0, max: 180 }), 30),
  /** For use in the dark: only lit marks; no unless given. */
  night: z._default(z.boolean(), false),
  /** Greatest angle between the two marks from here; 3° unless given. */
  openAtMostDeg: z._default(degrees({ min: 0, max: 45 }), 3),
  /** Change of that angle the observer notices for certain; 0.5° unless given. */
  noticeableDeg: z._default(degrees({ min: 0.01, max: 10 }), 0.5),
  /** Nearest a mark may stand, in reaches, or it swings about with the vessel; 3 unless given. */
  nearestReaches: z._default(metres({ min: 1 }), 3),
  /** Least ratio of the far mark's distance to the near one's; 1.5 unless given. */
  separation: z._default(metres({ min: 1.01 }), 1.5),
  /** Transits to give back; 6 unless given. */
  most: z._default(metres({ min: 1, max: 50 }), 6),
});
/** Input of {@link pickTransits}. */
export type PickTransitsInput = Given<typeof pickTransitsInput>;
type Parsed = z.output<typeof pickTransitsInput>;

/** A pair of marks to watch. */
export interface Transit {
  /** The nearer mark. */
  frontId: string;
  /** The farther mark. */
  backId: string;
  /** Bearing of the nearer mark. */
  bearingDeg: Degrees;
  /** Bearing from the bow, starboard positive; null without a heading. */
  relativeDeg: Degrees | null;
  /** Distance of the nearer mark. */
  frontM: Metres;
  /** Distance of the farther mark. */
  backM: Metres;
  /** Angle from the nearer to the farther mark now, to the right positive. */
  openDeg: Degrees;
  /** Most the angle changes from now while the anchor holds. */
  swingOpenDeg: Degrees;
  /** Movement square to the transit that changes the angle by one degree. */
  metresPerDegree: Metres;
  /** Least drag, down the line from the anchor through the vessel, that opens it beyond swing and eye; null when none within 200 m does. */
  revealsM: Metres | null;
  /** Whether both marks can be seen in the dark. */
  lit: boolean;
}

/** Answer of {@link pickTransits}. */
export interface PickTransits {
  /** Best first. */
  transits: Transit[];
  /** Why there are none, or what the choice leaves out. */
  cautions: ("noPair" | "noneReveals" | "noHeading" | "unlit")[];
}

interface Spot {
  id: string;
  lit: boolean;
  x: number;
  y: number;
  distanceM: number;
  bearingDeg: number;
}

const FARTHEST_DRAG_M = 200;

/**
 * Pairs of charted marks whose opening shows that the anchor drags.
 *
 * A pair opens by the movement square to it times the difference of the marks' nearness, so marks
 * near abeam and well apart show a drag astern. The most that swinging opens it is taken over the
 * arc of the swing; a drag must open it beyond that and beyond what the eye notices. Leaves out what
 * stands between vessel and mark, and the marks' own charting error.
 * *Valid*: marks within some 20 miles. *Accuracy*: angles exact on the plane; distance of the drag to 0.1 m.
 *
 * @throws InputError when a figure is out of range.
 * @source plane geometry; what the eye notices is common practice, no source
 * @example
 * ```ts
 * import { pickTransits } from "hawse/watch";
 * const { transits } = pickTransits({
 *   marks: [
 *     { id: "beacon", position: { latDeg: 50, lonDeg: 0.005 } },
 *     { id: "chimney", position: { latDeg: 50, lonDeg: 0.02 } },
 *   ],
 *   position: { latDeg: 50, lonDeg: 0 },
 *   headingDeg: 0,
 *   reachM: 40,
 *   swingDeg: 20,
 * });
 * console.log(transits[0]?.frontId, transits[0]?.relativeDeg?.toFixed(0), transits[0]?.revealsM?.toFixed(1));
 * // beacon 90 6.8
 * ```
 */
export function pickTransits(input: PickTransitsInput): PickTransits {
  const q = check(pickTransitsInput, input);
  const spots = spotsOf(q);
  const all: Transit[] = [];
  for (const front of spots)
    for (const back of spots) {
      const pair = transitOf(q, front, back);
      if (pair !== undefined) all.push(pair);
    }
  all.sort(
    (a, b) =>
      (a.revealsM ?? Infinity) - (b.revealsM ?? Infinity) ||
      a.swingOpenDeg - b.swingOpenDeg ||
      a.bearingDeg - b.bearingDeg,
  );
  const transits = all.slice(0, q.most);
  const cautions: PickTransits["cautions"] = [];
  if (transits.length === 0) cautions.push("noPair");
  else if (transits[0]!.revealsM === null) cautions.push("noneReveals");
  if (q.headingDeg === undefined) cautions.push("noHeading");
  if (q.night && q.marks.some((m) => !m.lit)) cautions.push("unlit");
  return { transits, cautions };
}

/** Marks on the plane about the observer, those that will serve. */
function spotsOf(q: Parsed): Spot[] {
  const plane = planeAt(q.position);
  const out = new Float64Array(2);
  const spots = q.marks.map((m) => {
    toPlane(plane, m.position.latDeg, m.position.lonDeg, out, 0);
    const [x, y] = [out[0]!, out[1]!];
    const distanceM = Math.sqrt(x * x + y * y);
    const bearingDeg = wrap360(Math.atan2(x, y) / RAD);
    const seen = distanceM <= (m.rangeM ?? Infinity) && (m.lit || !q.night);
    return { id: m.id, lit: m.lit, x, y, distanceM, bearingDeg, seen };
  });
  return spots.filter((s) => s.seen && s.distanceM >= q.nearestReaches * q.reachM);
}

function transitOf(q: Parsed, front: Spot, back: Spot): Transit | undefined {
  if (!(back.distanceM >= q.separation * front.distanceM)) return undefined;
  const open = turnDeg(front.bearingDeg, back.bearingDeg);
  if (!(Math.abs(open) <= q.openAtMostDeg)) return undefined;
  const swing = swingOpening(q, front, back, open);
  const gain = (1 / front.distanceM - 1 / back.distanceM) / RAD;
  return {
    frontId: front.id,
    backId: back.id,
    bearingDeg: front.bearingDeg,
    relativeDeg: q.headingDeg === undefined ? null : wrap180(front.bearingDeg - q.headingDeg),
    frontM: front.distanceM,
    backM: back.distanceM,
    openDeg: open,
    swingOpenDeg: swing,
    metresPerDegree: 1 / gain,
    revealsM: leastDrag(q, front, back, open, swing + q.noticeableDeg),
    lit: front.lit && back.lit,
  };
}

/** Angle between the marks from a place other than the observer's. */
function openingAt(front: Spot, back: Spot, x: number, y: number): number {
  const f = Math.atan2(front.x - x, front.y - y);
  const b = Math.atan2(back.x - x, back.y - y);
  return wrap180((b - f) / RAD);
}

/** Most the opening changes while the anchor holds: over the arc of the swing, or over all she could reach. */
function swingOpening(q: Parsed, front: Spot, back: Spot, open: number): number {
  let most = 0;
  const blind = q.headingDeg === undefined;
  const radius = blind ? 2 * q.reachM : q.reachM;
  const reach = blind ? 180 : q.swingDeg;
  const heading = (q.headingDeg ?? 0) * RAD;
  for (let i = -36; i <= 36; i++) {
    const lie = heading + (i / 36) * reach * RAD;
    // With a heading the anchor lies ahead and she swings about it; without one, any place within two reaches will do.
    const x = radius * ((blind ? 0 : Math.sin(heading)) - Math.sin(lie));
    const y = radius * ((blind ? 0 : Math.cos(heading)) - Math.cos(lie));
    const off = Math.abs(wrap180(openingAt(front, back, x, y) - open));
    most = Math.max(most, off);
  }
  return most;
}

/** Least drag that opens the pair by more than `beyond`, whichever way she lies; null when none does. */
function leastDrag(
  q: Parsed,
  front: Spot,
  back: Spot,
  open: number,
  beyond: number,
): number | null {
  const lies =
    q.headingDeg === undefined ? Array.from({ length: 8 }, (_, i) => i * 45) : [q.headingDeg];
  let worst = 0;
  for (const lie of lies) {
    const ux = -Math.sin(lie * RAD);
    const uy = -Math.cos(lie * RAD);
    let d = 0;
    while (d <= FARTHEST_DRAG_M) {
      const now = openingAt(front, back, d * ux, d * uy);
      if (Math.abs(wrap180(now - open)) > beyond) break;
      d += 0.1;
    }
    if (d > FARTHEST_DRAG_M) return null;
    worst = Math.max(worst, d);
  }
  return worst;
}
