/**
 * How a vessel lies: the closed form against bisection of the turning moments.
 *
 * Each case runs `n` times over the same weather, prepared beforehand, and returns a sum so that no work
 * can be left out.
 */
import { RAD } from "../src/core/angles.js";
import {
  crossStreamCoefficient,
  dynamicPressure,
  LIE,
  lieCoefficients,
  lieKernel,
} from "../src/lie/kernel.js";
import { lie, vesselFrom } from "../src/lie/index.js";

const COUNT = 4096;
const vessel = vesselFrom({ kind: "yacht", lengthM: 11 });
const c = lieCoefficients(vessel);
const out = new Float64Array(LIE.length);

/** Weather spread over its range by the golden section, the same every run. */
const part = (i: number, salt: number) => ((i + 1) * salt) % 1;
const column = (salt: number, most: number) =>
  Float64Array.from({ length: COUNT }, (_, i) => most * part(i, salt));
const windMps = column(0.6180339887498949, 25);
const windFromDeg = column(0.7548776662466927, 360);
const streamMps = column(0.5698402909980532, 2.5);
const streamTowardsDeg = column(0.8191725133961645, 360);

/** Heading by bisection between wind and stream, as one would first write it. */
function bisectedHeading(i: number): number {
  const wind =
    dynamicPressure(windMps[i]!, 1.225) *
    vessel.windSideCoefficient *
    vessel.windageSideM2 *
    vessel.windCentreAftOfBowM;
  const stream =
    dynamicPressure(streamMps[i]!, 1025) *
    crossStreamCoefficient(vessel.streamSideCoefficient, vessel.draughtM, Infinity) *
    vessel.lateralPlaneM2 *
    vessel.lateralCentreAftOfBowM;
  const from = windFromDeg[i]! * RAD;
  const gap = ((streamTowardsDeg[i]! + 540 - windFromDeg[i]!) % 360) * RAD - Math.PI;
  let [low, high] = [0, gap];
  for (let k = 0; k < 50; k++) {
    const mid = (low + high) / 2;
    const moment = -wind * Math.sin(mid) + stream * Math.sin(gap - mid);
    if (moment > 0 === gap > 0) low = mid;
    else high = mid;
  }
  return ((((from + low) / RAD) % 360) + 360) % 360;
}

/** Cases: a name, the most it may take, and a run of `n` operations. */
export const cases = [
  {
    name: "lie, kernel: heading, pull and shares",
    against: "lie, naive: heading alone by bisection",
    goalNs: 400,
    run(n: number): number {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        const i = k & (COUNT - 1);
        lieKernel(c, windMps[i]!, windFromDeg[i]!, streamMps[i]!, streamTowardsDeg[i]!, out);
        sum += out[LIE.pullN]! + out[LIE.headingDeg]!;
      }
      return sum;
    },
  },
  {
    name: "lie, naive: heading alone by bisection",
    run(n: number): number {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += bisectedHeading(k & (COUNT - 1));
      return sum;
    },
  },
  {
    name: "lie, public function: checked, gust and yawing included",
    run(n: number): number {
      let sum = 0;
      for (let k = 0; k < n; k++) {
        const i = k & (COUNT - 1);
        sum += lie({
          vessel,
          windMps: windMps[i]!,
          windFromDeg: windFromDeg[i]!,
          streamMps: streamMps[i]!,
          streamTowardsDeg: streamTowardsDeg[i]!,
        }).pullN;
      }
      return sum;
    },
  },
];
