import { RAD } from "../core/angles.js";
import { gapAt, type Room } from "../swing/kernel.js";
import type { Advice } from "./adviceTypes.js";
import type { Margin } from "./margins.js";
import { leastIndex, marginBetween } from "./neighbours.js";
import type { Study } from "./study.js";

/** Farthest to let go from the place given for it to be the same berth, m (own judgement). */
const FARTHEST_M = 250;
/** Directions looked into. */
const DIRECTIONS = 16;

const leastOf = ({ fanM }: Margin): number => fanM[leastIndex(fanM)] ?? NaN;

/** The room of a vessel that lies elsewhere in the same way. */
const moved = (room: Room, byX: number, byY: number): Room => ({
  ...room,
  x: room.x.map((x) => x + byX),
  y: room.y.map((y) => y + byY),
});

/** Where to move a vessel: metres, and the direction. */
interface Move {
  byM: number;
  towardsDeg: number;
}

const along = ({ byM, towardsDeg }: Move): [number, number] => [
  byM * Math.sin(towardsDeg * RAD),
  byM * Math.cos(towardsDeg * RAD),
];

/** Whether a vessel that is moved has `wantedM` of room to all others at every moment and in every lie, what failed last being looked at first. */
function clearer(own: Room, others: readonly Room[], wantedM: number): (move: Move) => boolean {
  const there = moved(own, 0, 0);
  let [suspect, first] = [0, 0];
  return (move) => {
    const [byX, byY] = along(move);
    for (let k = 0; k < others.length; k++) {
      const at = (suspect + k) % others.length;
      for (let n = 0; n < own.count; n++) {
        const i = (first + n) % own.count;
        there.x[i] = own.x[i]! + byX;
        there.y[i] = own.y[i]! + byY;
        if (hasRoom(there, others[at]!, i, wantedM)) continue;
        [suspect, first] = [at, i];
        return false;
      }
    }
    return true;
  };
}

/** Whether there is so much room between two vessels; the circles about them tell it at once where they lie far apart. */
function hasRoom(a: Room, b: Room, i: number, wantedM: number): boolean {
  const x = a.x[i]! - b.x[i]!;
  const y = a.y[i]! - b.y[i]!;
  const apart = wantedM + a.aroundM[i]! + b.aroundM[i]!;
  return x * x + y * y >= apart * apart || gapAt(a, i, b, i) >= wantedM;
}

/** The shortest move in whole metres that clears; null where none does. */
function shortest(clears: (move: Move) => boolean): Move | null {
  let best: Move | null = null;
  for (let k = 0; k < DIRECTIONS; k++) {
    const towardsDeg = (360 / DIRECTIONS) * k;
    let low = 0;
    let high: number = best === null ? FARTHEST_M : best.byM - 1;
    if (!(high > 0 && clears({ byM: high, towardsDeg }))) continue;
    while (high - low > 1) {
      const byM = (low + high) >> 1;
      if (clears({ byM, towardsDeg })) high = byM;
      else low = byM;
    }
    best = { byM: high, towardsDeg };
  }
  return best;
}

/** How far from the place given to let go, and which way, to have the room wanted from every vessel told of. */
export function clearAdvice(s: Study): Advice[] {
  const near = s.neighbours ?? [];
  const wantedM = s.input.limits.roomM;
  const from = Math.min(...near.map((n) => leastOf(n.margin)));
  if (!(from < wantedM)) return [];
  const others = near.map((n) => n.lie.room);
  const move = shortest(clearer(s.room, others, wantedM));
  if (move === null) return [];
  const there = moved(s.room, ...along(move));
  const to = near.map(({ lie }) => leastOf(marginBetween(there, lie.room, lie.columns.fan.start)));
  return [
    {
      code: "lie.clear",
      value: move.byM,
      towardsDeg: move.towardsDeg,
      buys: { of: "roomM", from, to: Math.min(...to) },
      against: null,
      basis:
        "hulls in every lie over the fan of winds, the shortest move in sixteen directions; chart and depth there are not looked at",
    },
  ];
}
