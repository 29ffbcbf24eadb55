import { POUND_FORCE_N } from "../../src/core/constants.js";
import { chain, rope, ropeStiffness, weakestLink } from "../../src/rode/index.js";
import { INCH_CHAINS, INCH_POLYAMIDE } from "../../src/rode/inchTables.js";
import { CHAINS, FIBRES, type Fibre } from "../../src/rode/tables.js";
import { chainStiffness, weightInSeaWater } from "../../src/rode/tackle.js";
import { runChecks, type Adapter, type Check, type Measured } from "./harness.js";

const STEEL = 7850;
const number = (check: Check, key: string): number => check.inputs[key] as number;

/** Each expected figure against the one of the same name, with the tolerance for it. */
const against = (
  check: Check,
  got: Record<string, unknown>,
  how: Partial<Measured> = { tolerance: 1e-9, relative: true },
): Measured[] =>
  Object.entries(check.expected).map(([key, expected]) => ({
    quantity: key,
    got: got[key],
    expected,
    ...how,
  }));

/** The row of the table, found by all that the check says of it. */
function chainRow(check: Check): Measured[] {
  const fits = (standard: "iso4565" | "din766", key: string) => (r: (typeof CHAINS)[number]) =>
    check.inputs[key] === undefined || r.standards.includes(standard) === check.inputs[key];
  const rows = CHAINS.filter((r) => r.diameterMm === number(check, "nominalDiameterMm"))
    .filter(
      (r) => check.inputs["gradeNumber"] === undefined || r.grade === check.inputs["gradeNumber"],
    )
    .filter(fits("iso4565", "fitsIso4565"))
    .filter(fits("din766", "fitsDin766"));
  const row = rows[0]!;
  const made = chain(row.diameterMm, {
    grade: row.grade,
    standard: row.standards[0],
  });
  return against(check, {
    pitchMm: row.pitchMm,
    outerWidthMaxMm: row.outerWidthMm,
    massKgPerM: row.massKgPerM,
    proofForceKN: row.proofN / 1000,
    breakingForceKN: made.breakingN / 1000,
  });
}

/** A second table of the same standard: pitch as there, mass within its 5 %. */
function dinRow(check: Check): Measured[] {
  const size = number(check, "nominalDiameterMm");
  const pitchMm = check.expected["pitchMm"] as number;
  const row = CHAINS.find((r) => r.diameterMm === size && r.pitchMm === pitchMm);
  return [
    { quantity: "chain, pitch", got: row?.pitchMm, expected: pitchMm },
    {
      quantity: "chain, mass against a second table",
      got: row?.massKgPerM,
      expected: check.expected["massKgPerM"],
      tolerance: 0.05,
      relative: true,
    },
  ];
}

function inchChain(check: Check): Measured[] {
  const row = (grade: number) =>
    INCH_CHAINS.find((r) => r.grade === grade && r.sizeIn === check.inputs["nominalSizeIn"])!;
  const [g30, g43] = [row(30), row(43)];
  return [
    ...against(
      check,
      {
        g30WorkingLoadLbf: g30.workingN / POUND_FORCE_N,
        g30ProofLbf: g30.proofN / POUND_FORCE_N,
        g30BreakingLbf: g30.breakingN / POUND_FORCE_N,
        g43WorkingLoadLbf: g43.workingN / POUND_FORCE_N,
        g43ProofLbf: g43.proofN / POUND_FORCE_N,
        g43BreakingLbf: g43.breakingN / POUND_FORCE_N,
        g43BreakingKN: chain(g43.sizeIn, { grade: 43 }).breakingN / 1000,
      },
      // Kilonewtons are printed to two places.
      { tolerance: 1e-4, relative: true },
    ),
    {
      quantity: "chain, diameter",
      got: g43.diameterMm,
      expected: number(check, "nominalDiameterMm"),
      tolerance: 0.006,
      unit: "mm",
    },
  ];
}

function metricRope(check: Check): Measured[] {
  const size = number(check, "diameterMm");
  const row = FIBRES.polyamide.sizes.find((r) => r.diameterMm === size)!;
  return against(check, {
    breakingStrengthKN: rope("polyamide", size).breakingN / 1000,
    massKgPerM: row.massKgPerM,
  });
}

function inchRope(check: Check): Measured[] {
  const row = INCH_POLYAMIDE.find((r) => r.sizeIn === check.inputs["diameterIn"])!;
  return against(
    check,
    {
      massLbPer100Ft: (row.massKgPerM * 30.48) / 0.45359237,
      tensileLbf: row.breakingN / POUND_FORCE_N,
      massKgPerM: row.massKgPerM,
      tensileKN: rope("polyamide", row.sizeIn).breakingN / 1000,
    },
    { tolerance: 1e-3, relative: true },
  );
}

const factor = (densityKgPerM3: number): number => weightInSeaWater(1, densityKgPerM3) / 9.80665;

const workingLoad: Adapter = (check) => {
  const { weakest } = weakestLink({
    parts: [
      {
        name: "chain",
        kind: "chain",
        breakingN: 1000 * number(check, "breakingForceKN"),
      },
    ],
  });
  return against(check, { workingLoadKN: weakest.workingN / 1000 });
};

const wet: Adapter = (check) => {
  const { weakest } = weakestLink({
    parts: [
      {
        name: "rope",
        kind: "polyamide",
        breakingN: 1000 * number(check, "dryBreakKN"),
      },
    ],
  });
  return against(check, { wetBreakKN: weakest.breakingN / 1000 });
};

/** Stiffness over breaking load as the table gives both, in its own unit. */
const braid: Adapter = (check) => {
  const ratio = FIBRES.polyamide.stiffnessPerBreaking;
  const breaking = check.expected["breakKips"] as number;
  return [
    {
      quantity: "rope, stiffness over breaking load",
      got: ratio,
      expected: check.expected["ratioAeToBreak"],
      tolerance: 0.002,
      relative: true,
    },
    {
      quantity: "rope, stiffness",
      got: ratio * breaking,
      expected: check.expected["aeKips"],
      tolerance: 0.002,
      relative: true,
    },
  ];
};

const stiffnessRange: Adapter = (check) => {
  const { slowN, quickN } = ropeStiffness({
    fibre: "polyamide",
    breakingN: 1,
    meanLoadShare: number(check, "meanLoadFractionOfBreak"),
  });
  return against(check, {
    quasiStaticRatio: slowN.likely,
    quasiStaticRatioLow: slowN.low,
    quasiStaticRatioHigh: slowN.high,
    dynamicRatio: quickN,
  });
};

/** A check of "nylon" is one of the fibre of that trade name; others are named as here. */
function fibreWeight(check: Check): Measured[] {
  const name = check.id.slice("weight-in-water-".length).replace("nylon", "polyamide");
  const { densityKgPerM3 } = FIBRES[name as Fibre];
  return against(check, { factor: factor(densityKgPerM3) }, { tolerance: 1e-4 });
}

const ADAPTERS: [start: string, adapter: Adapter][] = [
  ["chain-swl", workingLoad],
  [
    "chain-weight-water",
    (c) =>
      against(
        c,
        {
          weightInWaterNPerM: weightInSeaWater(number(c, "massKgPerM"), STEEL),
        },
        { tolerance: 1e-5, relative: true },
      ),
  ],
  [
    "chain-ea",
    (c) =>
      against(
        c,
        { axialStiffnessN: chainStiffness(number(c, "nominalDiameterMm")) },
        { tolerance: 1e-5, relative: true },
      ),
  ],
  ["chain-", chainRow],
  ["din766", dinRow],
  ["us-chain", inchChain],
  ["weight-in-water-steel", (c) => against(c, { factor: factor(STEEL) }, { tolerance: 1e-5 })],
  ["weight-in-water-", fibreWeight],
  ["nylon-in", inchRope],
  ["nylon-braid", braid],
  ["nylon-wet", wet],
  ["nylon-ea", stiffnessRange],
  [
    "nylon-old",
    (c) =>
      against(c, {
        lowestFraction: FIBRES.polyamide.weatheredShare?.low,
        highestFraction: FIBRES.polyamide.weatheredShare?.high,
      }),
  ],
  ["nylon-", metricRope],
];

runChecks("chain-rope", (check) => {
  const found = ADAPTERS.find(([start]) => check.id.startsWith(start));
  if (found === undefined) throw new Error(`no adapter for ${check.id}`);
  return found[1](check);
});
