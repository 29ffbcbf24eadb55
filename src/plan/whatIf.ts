import { GUSTS } from "../lie/tables.js";
import type { DoubtEvent } from "./doubt.js";
import { modelOf, type Model } from "./doubtModel.js";
import {
  beginCase,
  comeTo,
  dragging,
  emptyCase,
  roomToNeighbour,
  roomToShore,
  runOf,
  touching,
  type CaseMargins,
  type Run,
} from "./doubtRun.js";
import { noDoubt, type Draws } from "./doubtSpread.js";
import type { Weather } from "./lying.js";
import type { Study } from "./study.js";

/** A limit on the margins of a stay. */
export interface Limit {
  event: DoubtEvent;
  /** Which neighbour, where it is about one. */
  neighbour: number;
  /** Margin at which it is passed. */
  at: number;
}

/** What is otherwise than forecast, all through the stay. */
export interface Change {
  riseMps?: number;
  shiftDeg?: number;
  lengthM?: number;
}

/** The margins of a changed stay, each worked out when it is first asked for. */
interface Changed {
  of: Required<Change>;
  margins: CaseMargins;
  /** Moments at which the holding, and those at which the room too, is there already. */
  known: { drag: Uint8Array; room: Uint8Array };
}

/** A stay ready to be asked what if: everything as it is likely, but for one change. */
export interface WhatIf {
  study: Study;
  model: Model;
  still: Draws;
  run: Run;
  asked: Map<string, Changed>;
}

/** Vessels laid in one case at the most. */
const MOST_LAID = 40;

/** Make a study ready to be asked. */
export function whatIfOf(s: Study): WhatIf {
  const { lengthOutM, aboardM, greatestHeightM } = s.rode;
  const model = modelOf(s, {
    mostLaid: MOST_LAID,
    drawn: false,
    lengthsM: [Math.min(lengthOutM, 1.5 * greatestHeightM), Math.max(lengthOutM, aboardM)],
  });
  const still = noDoubt(model.neighbours.length);
  const run = runOf(model);
  beginCase(model, still, 0, run);
  return { study: s, model, still, run, asked: new Map() };
}

function changedBy(w: WhatIf, change: Change): Changed {
  const { riseMps = 0, shiftDeg = 0, lengthM = w.model.lengthOutM } = change;
  const key = `${String(riseMps)} ${String(shiftDeg)} ${String(lengthM)}`;
  let found = w.asked.get(key);
  if (found === undefined) {
    const { length } = w.model.timeMs;
    const known = { drag: new Uint8Array(length), room: new Uint8Array(length) };
    found = { of: { riseMps, shiftDeg, lengthM }, margins: emptyCase(w.model), known };
    w.asked.set(key, found);
  }
  return found;
}

/** Change the wind of a moment. */
function changeWind(w: Weather, { riseMps, shiftDeg }: Required<Change>): void {
  const over = w.windMps > 1 ? w.gustMps / w.windMps : GUSTS.nearLand;
  const windMps = Math.max(0, w.windMps + riseMps);
  w.gustMps = Math.max(windMps, w.gustMps + riseMps * over);
  w.windMps = windMps;
  w.windFromDeg += shiftDeg;
}

/** Lay all there is at the moment of the run, moment `i` of a changed stay, or the own vessel alone. */
function lay({ model, run }: WhatIf, c: Changed, i: number, room: boolean): void {
  const { of, margins, known } = c;
  changeWind(run.weather, of);
  run.lasting.own.lengthOutM = Math.max(0.5, of.lengthM);
  margins.drag[i] = dragging(model, run, room);
  known.drag[i] = 1;
  if (!room) return;
  for (let k = 0; k < model.neighbours.length; k++)
    margins.neighbours[k]![i] = roomToNeighbour(model, k, run);
  margins.shore[i] = roomToShore(model);
  known.room[i] = 1;
}

/** Margin of a limit at moment `i` of a changed stay. */
function marginAt(w: WhatIf, c: Changed, { event, neighbour }: Limit, i: number): number {
  const room = event === "neighbour" || event === "shore";
  const there = event !== "touch" && c.known[room ? "room" : "drag"][i] === 1;
  if (!there) comeTo(w.model, w.still, 0, i, w.run);
  if (event === "touch") return touching(w.run);
  if (!there) lay(w, c, i, room);
  return event === "neighbour" ? c.margins.neighbours[neighbour]![i]! : c.margins[event][i]!;
}

/** Margins of a limit, moment by moment, as the stay is forecast. */
export function asForecast(w: WhatIf, l: Limit): Float64Array {
  const as = changedBy(w, {});
  return Float64Array.from(w.model.timeMs, (_, i) => marginAt(w, as, l, i));
}

/** Whether a limit is passed at some moment of a changed stay, that moment being looked at first which had passed it last. */
export function passer(w: WhatIf, l: Limit, first: number): (change: Change) => boolean {
  const count = w.model.timeMs.length;
  let suspect = first;
  return (change) => {
    const c = changedBy(w, change);
    for (let k = 0; k < count; k++) {
      const i = (suspect + k) % count;
      if (marginAt(w, c, l, i) > l.at) continue;
      suspect = i;
      return true;
    }
    return false;
  };
}
