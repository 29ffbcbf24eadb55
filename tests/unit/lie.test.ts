import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { knots, toKnots } from "../../src/core/units.js";
import { LIE, lieCoefficients, lieKernel } from "../../src/lie/kernel.js";
import { turnDeg } from "../../src/core/angles.js";
import { balancingWind, lie, vesselFrom, waveLoad, windLoad } from "../../src/lie/index.js";

const yacht = vesselFrom({ kind: "yacht", lengthM: 10 });
const motorBoat = vesselFrom({ kind: "motorBoat", lengthM: 10 });

describe("a light motor boat and a keel yacht in one anchorage", () => {
  // Common practice: the motor boat lies more to the wind, the keel yacht more to the stream.
  const across = {
    windMps: knots(15),
    windFromDeg: 0,
    streamMps: knots(1),
  };
  for (const streamTowardsDeg of [225, 240, 270, 300, 330])
    test(`stream towards ${streamTowardsDeg}, wind from north`, () => {
      const off = (vessel: typeof yacht) =>
        Math.abs(lie({ vessel, ...across, streamTowardsDeg }).headingDeg!);
      expect(Math.abs(turnDeg(0, off(motorBoat)))).toBeLessThan(Math.abs(turnDeg(0, off(yacht))));
    });

  test("wind straight against stream parts them altogether", () => {
    const against = { ...across, streamTowardsDeg: 0 };
    expect(lie({ vessel: motorBoat, ...against }).liesTo).toBe("wind");
    expect(lie({ vessel: yacht, ...against }).liesTo).toBe("stream");
  });

  test("it is the lateral plane that does it: a yacht with a motor boat's lies as she does", () => {
    const shoal = {
      ...yacht,
      lateralPlaneM2: motorBoat.lateralPlaneM2,
      streamSideCoefficient: motorBoat.streamSideCoefficient,
    };
    const stronger = { ...across, windMps: knots(18), streamTowardsDeg: 0 };
    expect(lie({ vessel: yacht, ...stronger }).liesTo).toBe("stream");
    expect(lie({ vessel: shoal, ...stronger }).liesTo).toBe("wind");
  });

  test("a deeper keel needs more wind to balance a stream", () => {
    const wind = (draughtM: number) =>
      balancingWind({
        vessel: vesselFrom({ kind: "yacht", lengthM: 10, draughtM }),
        streamMps: 1,
      }).windMps;
    expect(wind(2.2)).toBeGreaterThan(wind(1.6));
    expect(wind(1.6)).toBeGreaterThan(wind(1));
  });
});

describe("no stable lie", () => {
  test("a calm gives no heading, no direction and says so", () => {
    const l = lie({ vessel: yacht, windMps: 0, windFromDeg: 0 });
    expect(l).toMatchObject({
      pullN: 0,
      pullTowardsDeg: null,
      headingDeg: null,
      rodeLeadDeg: null,
      liesTo: "unsettled",
    });
    expect(l.cautions).toContain("calm");
    expect(l.yaw.high).toBe(180);
  });

  test("opposed moments of equal size leave no preferred heading", () => {
    const windMps = balancingWind({ vessel: yacht, streamMps: 1 }).windMps;
    const l = lie({
      vessel: yacht,
      windMps,
      windFromDeg: 90,
      streamMps: 1,
      streamTowardsDeg: 90,
    });
    expect(l.liesTo).toBe("unsettled");
    expect(l.cautions).toContain("noPreferredHeading");
  });

  test("wind from astern that outweighs the stream from ahead drives her over her anchor", () => {
    const l = lie({
      vessel: yacht,
      windMps: knots(15),
      windFromDeg: 0,
      streamMps: knots(1.3),
      streamTowardsDeg: 0,
    });
    expect(l.headingDeg).toBeCloseTo(180, 9);
    expect(l.pullTowardsDeg).toBeCloseTo(180, 9);
    expect(Math.abs(l.rodeLeadDeg!)).toBeGreaterThan(90);
    expect(l.cautions).toContain("rodeLeadsAstern");
  });

  test("forces that cancel are unsettled though the heading is firm", () => {
    // Along the hull, wind from astern against stream from ahead: find the wind where they cancel.
    const streamMps = 1;
    const at = (windMps: number) =>
      lie({
        vessel: yacht,
        windMps,
        windFromDeg: 180,
        streamMps,
        streamTowardsDeg: 180,
      });
    let [low, high] = [0.1, 12];
    for (let i = 0; i < 60; i++) {
      const mid = (low + high) / 2;
      if (at(mid).pullTowardsDeg! > 90 && at(mid).pullTowardsDeg! < 270) low = mid;
      else high = mid;
    }
    const l = at(low);
    expect(l.settled).toBeGreaterThan(0.15);
    expect(l.liesTo).toBe("unsettled");
    expect(l.cautions).toContain("loadsCancel");
  });
});

describe("vessel figures", () => {
  test("a figure given is kept and not called guessed", () => {
    const v = vesselFrom({
      kind: "catamaran",
      lengthM: 11,
      beamM: 6.2,
      propellerAreaM2: 0,
    });
    expect(v.beamM).toBe(6.2);
    expect(v.propellerAreaM2).toBe(0);
    expect(v.assumed).not.toContain("beamM");
    expect(v.assumed).not.toContain("propellerAreaM2");
    expect(v.assumed).toContain("draughtM");
    const at = { vessel: v, windMps: 5, windFromDeg: 0 };
    expect(lie({ ...at, gust: 1.3 }).assumed).toEqual(v.assumed);
    expect(lie(at).assumed).toEqual([...v.assumed!, "gust"]);
  });

  test("a vessel filled in may be given back as a vessel, and a misspelt figure is refused", () => {
    expect(() => vesselFrom({ kind: "yacht", lengthM: 10, beam: 3 } as never)).toThrow(InputError);
    expect(() =>
      lie({
        vessel: { ...yacht, windageSideM2: NaN },
        windMps: 1,
        windFromDeg: 0,
      }),
    ).toThrow(InputError);
  });

  test("the balancing wind of each kind is of the order reported", () => {
    // 24 kn per knot for a loaded cargo ship (Idzikowski 2001); light craft lower.
    const at = (kind: "yacht" | "motorBoat" | "catamaran" | "workboat") =>
      toKnots(
        balancingWind({
          vessel: vesselFrom({ kind, lengthM: 12 }),
          streamMps: knots(1),
        }).windMps,
      );
    expect(at("motorBoat")).toBeLessThan(at("catamaran"));
    expect(at("catamaran")).toBeLessThan(at("yacht"));
    expect(at("yacht")).toBeLessThan(36);
    expect(at("motorBoat")).toBeGreaterThan(8);
  });
});

describe("kernel and public function", () => {
  test("agree, and the kernel leaves no trace of the call before", () => {
    const c = lieCoefficients(yacht);
    const out = new Float64Array(LIE.length).fill(7);
    lieKernel(c, 8, 30, 0.7, 200, out);
    const l = lie({
      vessel: yacht,
      windMps: 8,
      windFromDeg: 30,
      streamMps: 0.7,
      streamTowardsDeg: 200,
    });
    expect([out[LIE.pullN], out[LIE.headingDeg], out[LIE.windN]]).toEqual([
      l.pullN,
      l.headingDeg,
      l.shares.windN,
    ]);
  });

  test("missing knowledge does not come out as a load", () => {
    const c = lieCoefficients(yacht);
    const out = new Float64Array(LIE.length);
    lieKernel(c, NaN, 30, 0.7, 200, out);
    expect(out[LIE.pullN]).toBeNaN();
    expect(out[LIE.headingDeg]).toBeNaN();
  });
});

test("a gust against the stream that eases the pull leaves that of the mean wind the hardest", () => {
  for (const kind of ["yacht", "motorBoat", "catamaran", "workboat"] as const)
    for (const windMps of [3, 8, 13])
      for (const streamMps of [0, 0.5, 2])
        for (let streamTowardsDeg = 0; streamTowardsDeg < 360; streamTowardsDeg += 20) {
          const { pullN, peakPullN } = lie({
            vessel: vesselFrom({ kind, lengthM: 12 }),
            windMps,
            windFromDeg: 180,
            streamMps,
            streamTowardsDeg,
          });
          expect(peakPullN.low).toBeGreaterThanOrEqual(pullN);
          expect(peakPullN.likely).toBeGreaterThanOrEqual(peakPullN.low);
          expect(peakPullN.high).toBeGreaterThanOrEqual(peakPullN.likely);
        }
});

test("regular waves of the same energy drift a hull as hard as irregular ones", () => {
  // m0 = Hs²/16 = a²/2, so a = Hs/(2 sqrt 2); both forms are 1/2 rho g times 2 m0 / 2.
  const hs = 0.8;
  const irregular = waveLoad({ significantHeightM: hs, widthM: 3 }).forceN;
  const regular = waveLoad({
    amplitudeM: hs / (2 * Math.SQRT2),
    widthM: 3,
  }).forceN;
  expect(regular).toBeCloseTo(irregular, 6);
});

test("parts add up", () => {
  const load = (parts: Parameters<typeof windLoad>[0] & { parts: unknown }) =>
    windLoad(parts).forceN;
  const windMps = 12;
  const both = load({
    windMps,
    parts: [
      { areaM2: 4, shape: "hull" },
      { areaM2: 2, shape: "mast" },
    ],
  });
  expect(both).toBeCloseTo(
    load({ windMps, parts: [{ areaM2: 4, shape: "hull" }] }) +
      load({ windMps, parts: [{ areaM2: 2, shape: "mast" }] }),
    9,
  );
});
