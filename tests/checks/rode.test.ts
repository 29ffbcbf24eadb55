import { twoAnchors } from "../../src/holding/index.js";
import {
  layRode,
  loadAtReach,
  rodeForLoad,
  scopeByRule,
  surgeCapacity,
  type Rode,
} from "../../src/rode/index.js";
import { COLUMNS, HEIGHT, REACH, place } from "../../src/rode/kernel.js";
import { prepareRode } from "../../src/rode/prepare.js";
import { runChecks, type Adapter, type Check, type Measured } from "./harness.js";
import { rodeOf } from "./rodeInputs.js";

const number = (check: Check, key: string): number => check.inputs[key] as number;

/** Each expected figure against the figure of the same meaning, all with one relative tolerance. */
const relative = (check: Check, got: Record<string, number>, tolerance: number): Measured[] =>
  Object.entries(check.expected).map(([key, expected]) =>
    // A force that has died out has no relative error.
    expected === 0
      ? { quantity: key, got: got[key], expected, tolerance: 1e-6, unit: "N" }
      : { quantity: key, got: got[key], expected, tolerance, relative: true },
  );

const atReach = (tolerance: number) => (check: Check) => {
  const lie = loadAtReach({
    ...rodeOf(check),
    horizontalReachM: number(check, "horizontalReachM"),
  });
  const got = {
    ...lie,
    bowHorizontalN: lie.horizontalLoadN,
    unstretchedLengthOnBottomM: lie.lengthOnBottomM,
  };
  return relative(check, got as unknown as Record<string, number>, tolerance);
};

/** Where the bow comes to lie under forces that are given. */
function fromForces(check: Check): Measured[] {
  const p = prepareRode(rodeOf(check));
  const out = new Float64Array(COLUMNS);
  place(p, number(check, "bowHorizontalN"), number(check, "bowVerticalN"), out);
  const got = {
    horizontalReachM: out[REACH]!,
    bowHeightAboveAnchorM: out[HEIGHT]!,
  };
  return Object.entries(check.expected).map(([key, expected]) => ({
    quantity: key,
    got: got[key as keyof typeof got],
    expected,
    tolerance: 0.001,
    unit: "m",
  }));
}

/** The formula is for an inextensible chain: a stiffness so great that no stretch shows. */
function leastLength(check: Check): Measured[] {
  const lie = rodeForLoad({
    segments: [
      {
        kind: "chain",
        lengthM: 10,
        weightInWaterNPerM: number(check, "weightInWaterNPerM"),
        axialStiffnessN: 1e13,
      },
    ],
    bowHeightAboveAnchorM: number(check, "bowHeightAboveBedM"),
    horizontalLoadN: number(check, "horizontalLoadN"),
  });
  const got = { ...lie, ratioToBowHeight: lie.ratio };
  return Object.entries(check.expected).map(([key, expected]) => ({
    quantity: `least length, ${key}`,
    got: got[key as keyof typeof got],
    expected,
    tolerance: 0.001,
  }));
}

function energy(check: Check): Measured[] {
  const { toLoad } = surgeCapacity({
    ...rodeOf(check),
    loadFromN: number(check, "loadFromN"),
    loadToN: number(check, "loadToN"),
  });
  return relative(check, toLoad as unknown as Record<string, number>, 1e-3);
}

/** A snubber alone, drawn out level: what sag it has weighs nothing. */
function snubber(check: Check): Measured[] {
  const lengthM = number(check, "lengthM");
  const axialStiffnessN = number(check, "breakingStrengthN") * number(check, "stiffnessRatio");
  const rode: Rode = {
    segments: [{ kind: "rope", lengthM, weightInWaterNPerM: 1e-6, axialStiffnessN }],
    bowHeightAboveAnchorM: 0,
  };
  const loadN = number(check, "loadN");
  const { toLoad } = surgeCapacity({ ...rode, loadFromN: 0, loadToN: loadN });
  const lie = layRode({ ...rode, horizontalLoadN: loadN });
  const got = {
    axialStiffnessN,
    springNPerM: lie.stiffnessNPerM!,
    stretchM: lie.stretchM,
    energyJ: toLoad!.energyJ,
  };
  return relative(check, got, 1e-6);
}

function byRule(check: Check): Measured[] {
  const ratio = number(check, "ratio");
  const { lengthM } = scopeByRule({
    make: ratio === 4 ? "chain" : "chainAndRope",
    greatestDepthM: number(check, "maxDepthAtHighWaterM"),
    bowHeightM: number(check, "bowHeightAboveWaterM"),
  });
  return [
    {
      quantity: "scope by rule",
      got: lengthM,
      expected: check.expected["lengthM"],
    },
  ];
}

function storm(check: Check): Measured[] {
  const parts = ["depthM", "freeboardM", "tideM", "burialM", "surgeM", "waveHeightM"];
  const { lengthM } = scopeByRule({
    make: "chainAndRope",
    greatestDepthM: parts.reduce((sum, key) => sum + number(check, key), 0),
    ratio: number(check, "ratio"),
  });
  return [
    {
      quantity: "scope by rule",
      got: lengthM,
      expected: check.expected["lengthM"],
    },
  ];
}

/** A straight line without weight: a light one drawn as hard as rounding allows. */
function straight(check: Check): Measured[] {
  const lie = layRode({
    segments: [
      {
        kind: "custom",
        lengthM: number(check, "ratio"),
        weightInWaterNPerM: 1e-6,
        axialStiffnessN: 1e13,
      },
    ],
    bowHeightAboveAnchorM: 1,
    horizontalLoadN: 1e3,
  });
  return [
    {
      quantity: "pull angle of a straight line",
      got: lie.pullAngleDeg,
      expected: check.expected["angleDeg"],
      tolerance: 0.01,
      unit: "deg",
    },
  ];
}

/** Two taut legs of one length, pulled back between them. */
function legs(check: Check): Measured[] {
  const off = (check.inputs["loadDirectionOffBisectorDeg"] ?? 0) as number;
  const { legs: found } = twoAnchors({
    kind: "vee",
    aheadDeg: 0,
    spreadDeg: number(check, "includedAngleDeg"),
    firstReachM: 30,
    secondReachM: 30,
    pulls: [{ pullN: number(check, "totalLoadN"), pullTowardsDeg: 180 + off }],
  });
  const loads = [found[0]!.firstN, found[0]!.secondN];
  const got = {
    legLoadN: Math.max(...loads),
    nearerLegLoadN: Math.max(...loads),
    fartherLegLoadN: Math.min(...loads),
  };
  return relative(check, got, 1e-6);
}

/** Longest matching start of the id decides. */
const ADAPTERS: [start: string, adapter: Adapter][] = [
  ["moorpy-contact", atReach(1e-5)],
  ["moorpy-near-taut", atReach(1e-4)],
  ["moorpy", atReach(1e-4)],
  ["oc3-hand", fromForces],
  ["oc3-file-864", atReach(5e-4)],
  ["oc3-file", atReach(1e-3)],
  ["tank-line", atReach(0.01)],
  ["min-length", leastLength],
  ["energy", energy],
  ["vmoor", legs],
  ["snubber", snubber],
  ["rya", byRule],
  ["storm", storm],
  ["seven-to-one", straight],
];

runChecks("rode", (check) => {
  const found = ADAPTERS.find(([start]) => check.id.startsWith(start));
  if (found === undefined) throw new Error(`no adapter for ${check.id}`);
  return found[1](check);
});
