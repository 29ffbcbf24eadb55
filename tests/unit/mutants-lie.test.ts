import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  crossFlowHeading,
  crossStreamCoefficient,
  dynamicPressure,
  frictionCoefficient,
  LIE,
  lieCoefficients,
  lieKernel,
  wettedArea,
} from "../../src/lie/kernel.js";
import { vesselFrom } from "../../src/lie/vessel.js";

// The kernel reckoned once more from the formulas of UFC 4-159-03 and the ITTC 1957 line, with angles against
// the bow where the kernel works with vectors: two ways to write the same physics must agree.

const rad = (deg: number) => (deg * Math.PI) / 180;
const AIR = 1.225;
const SEA = 1025;
const G = 9.80665;

interface Agent {
  fromDeg: number;
  endsN: number;
  sideN: number;
  leverM: number;
}

const vessel = vesselFrom({ kind: "yacht", lengthM: 11 });

const friction = (speedMps: number) => {
  const reynolds = Math.max(1e5, (speedMps * vessel.waterlineM) / 1.19e-6);
  return 0.075 / (Math.log10(reynolds) - 2) ** 2;
};

interface Weather {
  windMps: number;
  windFromDeg: number;
  streamMps: number;
  streamTowardsDeg: number;
  depthM: number;
  waveM: number;
  waveFromDeg: number;
}

/** Heading and pull by angles on the bow. */
function reckoned(w: Weather) {
  const windN = (area: number, c: number) => 0.5 * AIR * c * area * w.windMps ** 2;
  const streamN = (area: number, c: number) => 0.5 * SEA * c * area * w.streamMps ** 2;
  const waveN = (breadth: number) => (SEA * G * breadth * w.waveM ** 2) / 16;
  const shoal = Math.min(1, vessel.draughtM / w.depthM);
  const cross = vessel.streamSideCoefficient + (3.2 - vessel.streamSideCoefficient) * shoal ** 2;
  const agents: Agent[] = [
    {
      fromDeg: w.windFromDeg,
      endsN: windN(vessel.windageFrontM2, vessel.windFrontCoefficient),
      sideN: windN(vessel.windageSideM2, vessel.windSideCoefficient),
      leverM: vessel.windCentreAftOfBowM,
    },
    {
      fromDeg: w.streamTowardsDeg + 180,
      endsN: NaN,
      sideN: streamN(vessel.lateralPlaneM2, cross),
      leverM: vessel.lateralCentreAftOfBowM,
    },
    {
      fromDeg: w.waveFromDeg,
      endsN: waveN(vessel.beamM),
      sideN: waveN(vessel.waterlineM),
      leverM: vessel.lengthM / 2,
    },
  ];
  const moment = (a: Agent) => a.sideN * a.leverM;
  const east = agents.reduce((s, a) => s + moment(a) * Math.sin(rad(a.fromDeg)), 0);
  const north = agents.reduce((s, a) => s + moment(a) * Math.cos(rad(a.fromDeg)), 0);
  const sum = agents.reduce((s, a) => s + moment(a), 0);
  const heading = Math.atan2(east, north);
  const stream = agents[1]!;
  const alongMps = w.streamMps * Math.abs(Math.cos(rad(stream.fromDeg) - heading));
  const wetted =
    vessel.hulls * 1.7 * vessel.hullDraughtM * vessel.waterlineM +
    vessel.displacementKg / (SEA * vessel.hullDraughtM);
  stream.endsN =
    streamN(vessel.immersedBeamM * vessel.hullDraughtM, 0.1) +
    streamN(vessel.propellerAreaM2, 1) +
    streamN(wetted, friction(alongMps));
  const bodies = agents.map((a) => {
    const onBow = rad(a.fromDeg) - heading;
    return { ahead: -a.endsN * Math.cos(onBow), starboard: -a.sideN * Math.sin(onBow) };
  });
  const ahead = bodies.reduce((s, b) => s + b.ahead, 0);
  const starboard = bodies.reduce((s, b) => s + b.starboard, 0);
  const towards = heading + Math.atan2(starboard, ahead);
  const root = agents.map((a) => Math.sqrt(moment(a)));
  const squareEast = agents.reduce((s, a, i) => s + root[i]! * Math.sin(rad(a.fromDeg)), 0);
  const squareNorth = agents.reduce((s, a, i) => s + root[i]! * Math.cos(rad(a.fromDeg)), 0);
  return {
    forces: bodies.map((b) => Math.sqrt(b.ahead ** 2 + b.starboard ** 2)),
    pullN: Math.sqrt(ahead ** 2 + starboard ** 2),
    pullTowards: towards,
    heading,
    settled: Math.sqrt(east ** 2 + north ** 2) / sum,
    windShare: moment(agents[0]!) / sum,
    headOnN: agents.reduce((s, a) => s + a.endsN, 0),
    crossFlow: Math.atan2(squareEast, squareNorth),
  };
}

function kernel(w: Weather): Float64Array {
  const out = new Float64Array(LIE.length);
  lieKernel(
    lieCoefficients(vessel),
    w.windMps,
    w.windFromDeg,
    w.streamMps,
    w.streamTowardsDeg,
    out,
    w.depthM,
    w.waveM,
    w.waveFromDeg,
  );
  return out;
}

const close = (got: number, want: number) => {
  expect(Math.abs(got - want)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(want)));
};
/** A direction in [0, 360) against an angle in radians. */
const sameDirection = (deg: number, angle: number) => {
  expect(deg).toBeGreaterThanOrEqual(0);
  expect(deg).toBeLessThan(360);
  expect(Math.cos(rad(deg) - angle)).toBeGreaterThan(1 - 1e-12);
};

const of = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const weather = fc.record({
  windMps: of(0.5, 35),
  windFromDeg: of(0, 359.9),
  streamMps: fc.oneof(of(0.001, 0.02), of(0.05, 3)),
  streamTowardsDeg: of(0, 359.9),
  depthM: of(0.5, 40),
  waveM: of(0.05, 1),
  waveFromDeg: of(0, 359.9),
});

describe("the kernel of lying", () => {
  test("agrees with the formulas on the bow", () => {
    fc.assert(
      fc.property(weather, (w) => {
        const out = kernel(w);
        const want = reckoned(w);
        // Where the moments all but cancel, a hair turns her.
        fc.pre(want.settled > 1e-3);
        for (const [i, slot] of [LIE.windN, LIE.streamN, LIE.waveN].entries())
          close(out[slot]!, want.forces[i]!);
        close(out[LIE.pullN]!, want.pullN);
        close(out[LIE.settled]!, want.settled);
        close(out[LIE.windMomentShare]!, want.windShare);
        close(out[LIE.headOnN]!, want.headOnN);
        sameDirection(out[LIE.headingDeg]!, want.heading);
        sameDirection(out[LIE.pullTowardsDeg]!, want.pullTowards);
        sameDirection(crossFlowHeading(out), want.crossFlow);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  test("has no direction where nothing acts", () => {
    const still = { windMps: 0, streamMps: 0, waveM: 0 };
    const dirs = { windFromDeg: 40, streamTowardsDeg: 70, waveFromDeg: 10, depthM: 5 };
    const out = kernel({ ...still, ...dirs });
    expect([...out.subarray(LIE.windN, LIE.windN + 3)].map(Math.abs)).toEqual([0, 0, 0]);
    expect(out[LIE.pullN]).toBe(0);
    for (const slot of [LIE.pullTowardsDeg, LIE.headingDeg]) expect(out[slot]).toBeNaN();
    expect(crossFlowHeading(out)).toBeNaN();
    expect(out[LIE.settled]).toBe(0);
    expect(out[LIE.windMomentShare]).toBe(0);
    expect(out[LIE.headOnN]).toBe(0);
  });

  test("a wind on the reciprocal of due north is north, not 360", () => {
    for (const windFromDeg of [0, 90, 180, 270, 359.999]) {
      const out = kernel({
        windMps: 10,
        windFromDeg,
        streamMps: 0,
        streamTowardsDeg: 0,
        depthM: 10,
        waveM: 0,
        waveFromDeg: NaN,
      });
      sameDirection(out[LIE.headingDeg]!, rad(windFromDeg));
      sameDirection(out[LIE.pullTowardsDeg]!, rad(windFromDeg + 180));
      sameDirection(crossFlowHeading(out), rad(windFromDeg));
    }
  });

  test("deep water is the default, and waves none", () => {
    const out = new Float64Array(LIE.length);
    lieKernel(lieCoefficients(vessel), 8, 20, 0.7, 110, out);
    const deep = { depthM: 1e12, waveM: 0, waveFromDeg: 0 };
    const want = kernel({
      windMps: 8,
      windFromDeg: 20,
      streamMps: 0.7,
      streamTowardsDeg: 110,
      ...deep,
    });
    for (const i of out.keys()) close(out[i]!, want[i]!);
  });

  test("waves of an unknown height are not taken for calm", () => {
    const unknown = { depthM: 10, waveM: NaN, waveFromDeg: 10 };
    const out = kernel({
      windMps: 8,
      windFromDeg: 20,
      streamMps: 0.7,
      streamTowardsDeg: 110,
      ...unknown,
    });
    expect(out[LIE.waveN]).toBeNaN();
    expect(out[LIE.headOnN]).toBeNaN();
  });

  test("single terms", () => {
    close(dynamicPressure(3, 1025), (1025 * 9) / 2);
    close(frictionCoefficient(1e7), 0.075 / 25);
    close(frictionCoefficient(1e5), 0.075 / 9);
    close(frictionCoefficient(10), 0.075 / 9);
    close(wettedArea(9, 0.5, 6000, 2, 1000), 2 * 1.7 * 0.5 * 9 + 6000 / 500);
    close(wettedArea(9, 0.5, 6000), 1.7 * 0.5 * 9 + 6000 / (1025 * 0.5));
    close(crossStreamCoefficient(0.6, 2, 4, 3.2, 2), 0.6 + 2.6 / 4);
    close(crossStreamCoefficient(0.6, 2, 4, 3.2, 3), 0.6 + 2.6 / 8);
    close(crossStreamCoefficient(0.6, 2, 4, 3.2, 1.5), 0.6 + 2.6 / Math.sqrt(8));
    close(crossStreamCoefficient(0.6, 2, 1, 3.2, 3), 3.2);
  });
});
