import {
  cusumRunLength,
  errorRadius,
  fitSwing,
  sequentialTest,
  sigmaFromAccuracy,
} from "../../src/watch/index.js";
import { cepOf, meanSpread, rayleighQuantile, shareWithin } from "../../src/watch/statistics.js";
import { AIS_AT_ANCHOR, SPS_ACCURACY } from "../../src/watch/tables.js";
import { type Check, type Measured, runChecks } from "./harness.js";

const num = (from: Record<string, unknown>, key: string): number => {
  const value = from[key];
  if (typeof value !== "number") throw new Error(`${key} is not a number`);
  return value;
};
const has = (text: string, part: string) => text.includes(part);

/** "rel 1e-4", "rel 0.6 % (...)", "abs 1e-5 m", "abs 0.003 (...)". */
function toleranceOf(text: string): { tolerance: number; relative: boolean } {
  const m = /^(rel|abs) ([\d.e-]+)( %)?/.exec(text);
  if (m === null) throw new Error(`tolerance not understood: ${text}`);
  const scale = m[3] === undefined ? 1 : 0.01;
  return { tolerance: Number(m[2]) * scale, relative: m[1] === "rel" };
}

/** Each figure expected, beside the same figure of ours. */
function rows(check: Check, quantity: string, got: Record<string, unknown>): Measured[] {
  const limits = toleranceOf(check.tolerance);
  return Object.entries(check.expected).map(([key, expected]) => ({
    quantity,
    got: got[key],
    expected,
    ...limits,
  }));
}

function runLength(check: Check): Measured[] {
  const siegmund = has(check.quantity, "Siegmund");
  const input = {
    allowanceSigma: num(check.inputs, "kSigma"),
    limitSigma: num(check.inputs, "hSigma"),
    shiftSigma: "shiftSigma" in check.inputs ? num(check.inputs, "shiftSigma") : 0,
    sides: has(check.quantity, "Two-sided") ? (2 as const) : (1 as const),
    method: siegmund ? ("siegmund" as const) : ("exact" as const),
  };
  const samples = cusumRunLength(input);
  return rows(check, siegmund ? "run length, approximation" : "run length of a cumulative sum", {
    arlSamples: samples,
    arl0Samples: samples,
  });
}

function circle(check: Check): Measured[] {
  const given = check.inputs["pointsM"] as [number, number][];
  const points = given.map(([eastM, northM]) => ({ eastM, northM }));
  const got: Record<string, number> = {};
  for (const method of ["kasa", "pratt", "taubin", "geometric"] as const) {
    const fit = fitSwing({ points, method });
    if (!fit.known) continue;
    got[`${method}XM`] = fit.eastM;
    got[`${method}YM`] = fit.northM;
    got[`${method}RM`] = fit.radiusM;
  }
  return rows(check, "circle through positions", got);
}

function radius(check: Check): Measured[] {
  const { inputs, id } = check;
  if (id.startsWith("rayleigh")) {
    const share = num(inputs, "probability");
    const sigma = num(inputs, "sigmaM");
    const radiusM = errorRadius({ sigma1M: sigma, sigma2M: sigma, share });
    // The same quantile the other way about: the spread behind a stated radius.
    const back = sigmaFromAccuracy({ accuracyM: radiusM, share });
    return [
      ...rows(check, "radius of circular errors", { radiusM }),
      {
        quantity: "spread behind a stated radius",
        got: back,
        expected: sigma,
        tolerance: 1e-9,
      },
    ];
  }
  const sigma1M = num(inputs, "sigma1M");
  const sigma2M = num(inputs, "sigma2M");
  const of = (share: number) => errorRadius({ sigma1M, sigma2M, share });
  return rows(check, "radius of elliptic errors", {
    r50M: of(0.5),
    r95M: of(0.95),
  });
}

function accuracy(check: Check): Measured[] {
  const quantity = "accuracy definitions";
  const { inputs, expected } = check;
  if (check.id.startsWith("twodrms")) {
    const ratio = num(inputs, "sigmaRatio");
    const twoDrms = 2 * Math.sqrt(1 + ratio * ratio);
    return rows(check, quantity, {
      probability: shareWithin(twoDrms, 1, ratio),
    });
  }
  if (check.id.startsWith("cep95")) {
    const middle = rayleighQuantile(0.5);
    return rows(check, quantity, {
      ratio95: rayleighQuantile(0.95) / middle,
      ratio997: rayleighQuantile(0.997) / middle,
    });
  }
  const north = num(inputs, "sigmaNM");
  const east = num(inputs, "sigmaEM");
  const cepM = cepOf(north, east);
  const ratio = (2 * Math.sqrt(north * north + east * east)) / cepM;
  return [
    {
      quantity,
      got: cepM,
      expected: expected["cepM"],
      ...toleranceOf(check.tolerance),
    },
    {
      quantity,
      got: Number(ratio.toFixed(1)),
      expected: expected["twoDrmsOverCep"],
    },
  ];
}

runChecks("detection", (check) => {
  const { id, quantity, inputs } = check;
  if ("kSigma" in inputs) return runLength(check);
  if (id.startsWith("wald"))
    return (() => {
      const t = sequentialTest({
        falseAlarmShare: num(inputs, "alpha"),
        missShare: num(inputs, "beta"),
        shiftSigma: num(inputs, "shiftSigma"),
      });
      return rows(check, "sequential test", {
        upperLog: t.upperLog,
        lowerLog: t.lowerLog,
        asnH1Samples: t.samplesShifted,
        asnH0Samples: t.samplesUnshifted,
      });
    })();
  if ("pointsM" in inputs) return circle(check);
  if (id.startsWith("rayleigh") || id.startsWith("ellipse")) return radius(check);
  if (id.startsWith("gm-average"))
    return rows(check, "mean of a wandering error", {
      sdMeanM: num(inputs, "sigmaM") * meanSpread(num(inputs, "windowS"), num(inputs, "tauS")),
    });
  if (has(quantity, "CEP") || has(quantity, "2drms")) return accuracy(check);
  if (id.startsWith("ais")) {
    const ours: Record<string, number> = {
      code: AIS_AT_ANCHOR.status,
      anchorS: AIS_AT_ANCHOR.intervalS,
      underWayMinS: AIS_AT_ANCHOR.underWayLeastS,
      underWayMaxS: AIS_AT_ANCHOR.underWayGreatestS,
    };
    return Object.entries(check.expected).map(([key, expected]) => ({
      quantity: "AIS at anchor",
      got: ours[key],
      expected,
    }));
  }
  if (id.startsWith("sps"))
    return Object.entries(check.expected).map(([key, expected]) => ({
      quantity: "accuracy taken where a receiver states none",
      got: (SPS_ACCURACY as Record<string, number>)[key],
      expected,
    }));
  throw new Error(`no comparison for ${id}`);
});
