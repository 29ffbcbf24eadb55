/**
 * Are the probabilities of a plan as often right as they say? Stays of many kinds are planned, each is then played
 * for some nights, and what was said is held against what happened, tenth by tenth.
 */
import { planStay, type StayInput } from "../../src/plan/index.js";
import { bay, HERE, steadyWind } from "../../tests/openBay.js";
import { randomFrom, type Random } from "../simulator/random.js";
import { playNight, weatherErrors, type Happened, type Played } from "./night.js";

/** A tenth of the probabilities: how often it was said, how often it came. */
export interface Tenth {
  fromShare: number;
  nights: number;
  said: number;
  came: number;
}

const EVENTS = ["drag", "touch", "neighbour"] as const;

/** A stay of some kind: depth, wind, rode and a neighbour to leeward. */
function someStay(r: Random): Played {
  const depthM = r.uniform() < 0.5 ? r.between(0.1, 1.2) : r.between(2, 9);
  const windMps = r.between(6, 21);
  const sigmaDeg = r.between(5, 40);
  const lengthOutM = Math.min(80, r.between(4, 8) * (depthM + 3.5));
  const off = r.between(15, 75);
  const bearing = ((20 + r.between(-60, 60)) * Math.PI) / 180;
  const neighbour = { eastM: off * Math.sin(bearing), northM: off * Math.cos(bearing) };
  const base = bay(depthM, windMps);
  const input: StayInput = {
    ...base,
    seabed: "sand",
    surgeM: { low: -r.between(0.05, 0.4), likely: 0, high: r.between(0.05, 0.4) },
    forecast: { ...steadyWind(windMps, 200), directionSigmaDeg: sigmaDeg },
    tackle: {
      ...base.tackle,
      anchor: { type: "rollBarScoop", massKg: r.between(6, 20) },
      lengthOutM,
    },
    neighbours: [
      {
        vessel: { kind: "motorBoat", lengthM: 9 },
        position: {
          latDeg: HERE.latDeg + neighbour.northM / 111_035,
          lonDeg: HERE.lonDeg + neighbour.eastM / 85_394,
        },
      },
    ],
  };
  return { input, depthM, windMps, sigmaDeg, lengthOutM, neighbour, timeMs: [] };
}

/** Plan `stays` stays with `draws` draws and play each for some nights; a tenth where more is said than 0.95 holds that too. */
export function calibrate(
  stays: number,
  nights: number,
  draws: number,
  start: number,
  events: readonly (keyof Happened)[] = EVENTS,
): Tenth[] {
  const tenths = Array.from({ length: 10 }, (_, k): Tenth => ({
    fromShare: k / 10,
    nights: 0,
    said: 0,
    came: 0,
  }));
  for (let s = 0; s < stays; s++) {
    const r = randomFrom(start * 100_003 + s);
    const stay = someStay(r);
    const { doubt } = planStay({ ...stay.input, draws: { count: draws, seed: s } });
    if (doubt === null) throw new RangeError("no draws");
    const played: Played = { ...stay, timeMs: doubt.timeMs };
    const errors = weatherErrors(doubt.timeMs);
    const counts = { drag: 0, touch: 0, neighbour: 0 };
    for (let n = 0; n < nights; n++) {
      const night: Happened = playNight(played, errors, r);
      for (const e of EVENTS) if (night[e]) counts[e]++;
    }
    for (const e of events) {
      const p = doubt[e].overall;
      // What cannot happen at all proves nothing.
      if (p === null || (p === 0 && counts[e] === 0)) continue;
      const t = tenths[Math.min(9, Math.floor(10 * p))]!;
      t.nights += nights;
      t.said += nights * p;
      t.came += counts[e];
    }
  }
  return tenths.map((t) => ({ ...t, said: t.said / t.nights, came: t.came / t.nights }));
}
