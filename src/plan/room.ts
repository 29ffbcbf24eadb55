import { known } from "../core/series.js";
import type { Position } from "../core/schema.js";
import type { Metres, Milliseconds } from "../core/units.js";
import { planeAt, positionOf } from "../geo/plane.js";
import { gapAt, type Room } from "../swing/kernel.js";
import { outlineOf } from "../swing/outline.js";
import { envelopeRing } from "../swing/swing-envelope.js";
import { isSettled } from "./margins.js";
import { leastIndex, neighbourRoom, type NeighbourRoom } from "./neighbours.js";
import type { Study } from "./study.js";

/** A neighbour's room, with where she is drawn at the worst moment. */
export interface NeighbourDrawn extends NeighbourRoom {
  /** Where her anchor lies. */
  anchor: Position;
  /** Her hull at the worst moment, in the wind of the fan and the gust or lull that bring the two nearest; empty where she may lie anywhere. */
  hullThen: Position[];
  /** Our hull at that moment, in the same wind. */
  ownHullThen: Position[];
}

/** Room over the stay. */
export interface RoomPlan {
  /** Where the anchor is to lie. */
  anchor: Position;
  /** Greatest distance from the anchor to any part of the vessel, in any direction, error of its place included. */
  radiusM: Metres;
  /** Polygon that holds every part of the vessel over the stay under the forecast winds. */
  envelope: Position[];
  /** Circle a moment, growing as the water falls. */
  radiusByMomentM: (Metres | null)[];
  /** Least room to the charted shore; null where there is no chart, or it is not known at some moment. */
  shoreM: Metres | null;
  /** When that is. */
  shoreAtMs: Milliseconds | null;
  /** Neighbours, nearest at the worst first; null where none were told. */
  neighbours: NeighbourDrawn[] | null;
}

/** Outline of a hull in a room as positions; empty where she may lie anywhere or it is not known where. */
function hullAt(s: Study, room: Room, i: number): Position[] {
  const plane = planeAt(s.input.position);
  if (!(room.halfLengthM[i]! > 0) || Number.isNaN(room.x[i]! + room.y[i]!)) return [];
  const [l, b] = [room.halfLengthM[i]!, room.halfBeamM[i]!];
  const shape: [number, number][] = [
    [1, 0],
    [0.45, 0.9],
    [-0.4, 1],
    [-1, 0.7],
    [-1, -0.7],
    [-0.4, -1],
    [0.45, -0.9],
    [1, 0],
  ];
  return shape.map(([along, across]) =>
    positionOf(
      plane,
      room.x[i]! + along * l * room.ux[i]! + across * b * room.uy[i]!,
      room.y[i]! + along * l * room.uy[i]! - across * b * room.ux[i]!,
    ),
  );
}

/** Moments the envelope is drawn from at the most; between them she is swept round. */
const DRAWN = 17;

/** Polygon that holds her under the forecast winds: some moments, each with the greatest reach and yaw of those it stands for. */
function envelopeFor(s: Study): Position[] {
  const { lie, scene, input, body } = s;
  const n = scene.timeMs.length;
  const step = Math.ceil(n / DRAWN);
  const moments = [];
  for (let i = 0; i < n; i += step) {
    const group = Array.from({ length: Math.min(step, n - i) }, (_, k) => gustLie(s, i + k));
    const at = group[0]!;
    const most = (of: Float64Array, unknown: number): number =>
      Math.max(...group.map((g) => known(of[g]) ?? unknown));
    const settled = group.every((g) => Number.isFinite(lie.fan.headingDeg[g]!));
    moments.push({
      timeMs: scene.timeMs[i]!,
      reachM: most(lie.fan.reachM, s.rode.lengthOutM),
      pullTowardsDeg: settled ? known(lie.fan.pullTowardsDeg[at]) : null,
      headingDeg: settled ? known(lie.fan.headingDeg[at]) : null,
      sheerDeg: most(lie.fan.sheerDeg, 90),
      yawDeg: most(lie.fan.yawDeg, 90),
    });
  }
  const { ring } = envelopeRing(
    {
      anchor: input.position,
      anchorErrorM: input.positionErrorM,
      vessel: {
        lengthM: body.lengthM,
        beamM: scene.vessel.beamM,
        bowOverhangM: 0,
        sternOverhangM: 0,
      },
      moments: outside(moments),
    },
    true,
  );
  return outlineOf(planeAt(input.position), ring);
}

/** The moments that count: where she may lie all round at some reach, lies within that reach add nothing to it. */
function outside<M extends { reachM: number; headingDeg: number | null }>(moments: M[]): M[] {
  const round = moments.filter((m) => m.headingDeg === null);
  const widest = round.reduce<M | null>(
    (a, m) => (a !== null && a.reachM >= m.reachM ? a : m),
    null,
  );
  if (widest === null) return moments;
  return moments.filter((m) => m === widest || m.reachM > widest.reachM);
}

/** Place of the forecast wind's gust lie of a moment in the columns of the fan. */
const gustLie = ({ lie }: Study, moment: number): number => lie.fan.start[moment]! + 1;

/** The lie of a moment that brings two vessels nearest: of those alike, one in which both are settled. */
function nearestLie(own: Room, other: Room, from: number, to: number): number {
  const settled = (i: number): boolean => isSettled(own, i) && isSettled(other, i);
  let [best, leastM] = [from, Infinity];
  for (let i = from; i < to; i++) {
    const gapM = gapAt(own, i, other, i);
    if (gapM > leastM || (gapM === leastM && (settled(best) || !settled(i)))) continue;
    [best, leastM] = [i, gapM];
  }
  return best;
}

/** The room of a stay, told and ready to be drawn. */
export function roomPlan(s: Study): RoomPlan {
  const { timeMs } = s.scene;
  const shore = s.shore === null ? -1 : leastIndex(s.shore.fanM);
  const neighbours = s.neighbours?.map(({ lie, margin }): NeighbourDrawn => {
    const told = neighbourRoom(lie, margin, timeMs);
    const at = told.atMs === null ? 0 : timeMs.indexOf(told.atMs);
    const { start } = s.lie.fan;
    const i = nearestLie(s.room, lie.room, start[at]!, start[at + 1]!);
    return {
      ...told,
      anchor: lie.of.position,
      hullThen: hullAt(s, lie.room, i),
      ownHullThen: hullAt(s, s.room, i),
    };
  });
  return {
    anchor: s.input.position,
    radiusM: s.radiusM,
    envelope: envelopeFor(s),
    radiusByMomentM: Array.from(s.lie.gustReachM, (r) =>
      known(r + s.body.hull.farthestM + s.input.positionErrorM),
    ),
    shoreM: shore < 0 ? null : known(s.shore!.fanM[shore]),
    shoreAtMs: shore < 0 ? null : timeMs[shore]!,
    neighbours: neighbours?.sort((a, b) => (a.leastGapM ?? -1) - (b.leastGapM ?? -1)) ?? null,
  };
}
