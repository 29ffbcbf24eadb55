import type { Position } from "../core/schema.js";
import type { Metres, Milliseconds } from "../core/units.js";
import { planeAt, positionOf } from "../geo/plane.js";
import type { Room } from "../swing/kernel.js";
import { envelopeOf } from "../swing/swing-envelope.js";
import { LIES, MIDDLE, PER_MOMENT } from "./columns.js";
import { leastKnown } from "./criteria.js";
import { neighbourRoom, type NeighbourRoom } from "./neighbours.js";
import type { Study } from "./study.js";

/** A neighbour's room, with where she is drawn at the worst moment. */
export interface NeighbourDrawn extends NeighbourRoom {
  /** Where her anchor lies. */
  anchor: Position;
  /** Her hull at the worst moment under the forecast wind; empty where she may lie anywhere. */
  hullThen: Position[];
  /** Our hull at that moment. */
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
  /** Least room to the charted shore; null where there is no chart. */
  shoreM: Metres | null;
  /** When that is. */
  shoreAtMs: Milliseconds | null;
  /** Neighbours, nearest at the worst first; null where none were told. */
  neighbours: NeighbourDrawn[] | null;
}

/** Outline of a hull in a room as positions; empty where she may lie anywhere. */
function hullAt(s: Study, room: Room, i: number): Position[] {
  const plane = planeAt(s.input.position);
  if (!(room.halfLengthM[i]! > 0)) return [];
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

const nullable = (v: number): number | null => (Number.isFinite(v) ? v : null);

function envelopeFor(s: Study): Position[] {
  const { lie, scene, input, body } = s;
  const moments = scene.timeMs.map((timeMs, i) => {
    const at = i * PER_MOMENT + MIDDLE * LIES + 1;
    return {
      timeMs,
      reachM: Math.min(nullable(lie.fan.reachM[at]!) ?? s.rode.lengthOutM, 2000),
      pullTowardsDeg: nullable(lie.fan.pullTowardsDeg[at]!),
      headingDeg: nullable(lie.fan.headingDeg[at]!),
      sheerDeg: nullable(lie.fan.sheerDeg[at]!) ?? 90,
      yawDeg: nullable(lie.fan.yawDeg[at]!) ?? 90,
    };
  });
  return envelopeOf({
    anchor: input.position,
    anchorErrorM: input.positionErrorM,
    vessel: {
      lengthM: body.lengthM,
      beamM: scene.vessel.beamM,
      bowOverhangM: 0,
      sternOverhangM: 0,
    },
    moments,
    between: "swept",
    sectors: 36,
  }).polygon;
}

/** The room of a stay, told and ready to be drawn. */
export function roomPlan(s: Study): RoomPlan {
  const { timeMs } = s.scene;
  const shore = s.shore === null ? -1 : leastKnown(s.shore.fanM);
  const neighbours = s.neighbours?.map(({ lie, margin }): NeighbourDrawn => {
    const told = neighbourRoom(lie, margin, timeMs);
    const at = told.atMs === null ? 0 : timeMs.indexOf(told.atMs);
    const i = at * PER_MOMENT + MIDDLE * LIES;
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
      nullable(r + s.body.hull.farthestM + s.input.positionErrorM),
    ),
    shoreM: shore < 0 ? null : nullable(s.shore!.fanM[shore]!),
    shoreAtMs: shore < 0 ? null : timeMs[shore]!,
    neighbours: neighbours?.sort((a, b) => (a.leastGapM ?? -1) - (b.leastGapM ?? -1)) ?? null,
  };
}
