import { GRAVITY_MPS2 } from "../../src/core/constants.js";
import {
  breakOut,
  holding,
  safetyFactors as SAFETY_FACTORS,
  shipHolding,
  type BedName,
} from "../../src/holding/index.js";
import { BED_FIGURES } from "../../src/holding/beds.js";
import { holdingByMass } from "../../src/holding/kernel.js";
import { ANCHORS, EXPONENTS, TEST_SPREAD } from "../../src/holding/tables.js";
import { runChecks, type Check, type Measured, type NotCompared } from "./harness.js";

type Numbers = Record<string, number>;
/** Inputs of a check that has numbers and words. */
const word = (i: Numbers, key: string) => String(i[key]);

const relative = (tolerance: number) => ({ tolerance, relative: true });

const powerLaw = (i: Numbers, e: Numbers): Measured[] => [
  {
    quantity: "holding by the power law",
    got: holdingByMass(
      i["referenceHoldingKN"]!,
      i["anchorMassKg"]!,
      i["exponent"]!,
      i["referenceMassKg"],
    ),
    expected: e["holdingKN"],
    ...relative(1e-5),
  },
];

/** Types of the naval table that are among ours, and their figures there. */
const NAVAL = {
  "stockless movable fluke": ANCHORS.stockless.naval,
  "pivoting fluke, lightweight": ANCHORS.pivotingFluke.naval,
};

function navalReference(i: Numbers, e: Numbers): Measured[] {
  const kN = holdingByMass(i["referenceHoldingKN"]!, i["anchorMassKg"]!, i["exponent"]!);
  const rows: Measured[] = [
    {
      quantity: "naval holding carried down to a small anchor",
      got: kN,
      expected: e["holdingAt20KgKN"],
      ...relative(5e-4),
    },
    {
      quantity: "the same over weight",
      got: (kN * 1000) / (i["anchorMassKg"]! * GRAVITY_MPS2),
      expected: e["holdingOverWeight"],
      ...relative(5e-4),
    },
  ];
  const type = word(i, "anchorType");
  const soil = word(i, "soil").startsWith("soft") ? "soft" : "hard";
  const ours = type in NAVAL ? NAVAL[type as keyof typeof NAVAL][soil] : null;
  if (ours)
    rows.push({
      quantity: "naval reference figures as tabulated here",
      got: [ours.referenceN / 1000, ours.exponent],
      expected: [i["referenceHoldingKN"], i["exponent"]],
    });
  return rows;
}

/** Component words of the table to the key here. */
function factor(component: string): number {
  const c = component.toLowerCase();
  if (c.includes("high-efficiency") || c.includes("high efficiency"))
    return SAFETY_FACTORS.highEfficiencyDragAnchor;
  if (c.includes("plate") || c.includes("embedded") || c.includes("pile"))
    return SAFETY_FACTORS.plateOrEmbeddedAnchor;
  if (c.includes("chain"))
    return c.includes("bend") ? SAFETY_FACTORS.chainAroundBends : SAFETY_FACTORS.chain;
  if (c.includes("wire")) return SAFETY_FACTORS.wireRope;
  if (c.includes("synthetic") || c.includes("line") || c.includes("rope"))
    return SAFETY_FACTORS.syntheticRope;
  if (c.includes("stockless") || c.includes("fluke") || c.includes("drag"))
    return SAFETY_FACTORS.stocklessAnchor;
  throw new Error(`no factor for ${component}`);
}

/** Beds as the published list words them, the first that fits. */
const LISTED: [RegExp, BedName][] = [
  [/stiff|dense clay/, "clay, stiff or hard"],
  [/clay/, "clay, soft to firm"],
  [/loose|coarse/, "sand, coarse or loose"],
  [/sand/, "sand, firm"],
  [/mud/, "mud, soft"],
  [/gravel/, "gravel"],
  [/rock/, "rock"],
];

function seabed(i: Numbers, e: Numbers): Measured[] {
  const listed = LISTED.find(([p]) => p.test(word(i, "seabed")))?.[1];
  if (listed === undefined) throw new Error(`no bed for ${word(i, "seabed")}`);
  // Zero in the list: no figure here, which a caller cannot mistake for holding.
  return [
    {
      quantity: "holding of a bed relative to firm sand",
      got: BED_FIGURES[listed].relative?.likely ?? 0,
      expected: e["relativeHolding"],
      tolerance: 0.01,
    },
  ];
}

const ship = (i: Numbers, e: Numbers): Measured[] => [
  {
    quantity: "holding of anchor and chain, ship formula, tonnes-force",
    got:
      shipHolding({
        anchorMassKg: i["anchorMassT"]! * 1000,
        anchorCoefficient: i["anchorCoefficient"]!,
        chainMassKgPerM: i["chainMassTPerM"]! * 1000,
        lengthOnBedM: i["lengthOnBedM"]!,
        chainCoefficient: i["chainCoefficient"]!,
      }).holdingN /
      (1000 * GRAVITY_MPS2),
    expected: e["holdingTonnesForce"],
    ...relative(1e-12),
  },
];

const growth = (e: Numbers): Measured[] => [
  {
    quantity: "growth of holding with mass and spread of tests",
    got: [EXPONENTS.soft.low, EXPONENTS.soft.high, TEST_SPREAD.scaleUp, TEST_SPREAD.runToRun],
    expected: [
      e["exponentLow"],
      e["exponentHigh"],
      e["scaleUpErrorFraction"],
      e["runToRunVariationFraction"],
    ],
  },
];

function scaleUp(i: Numbers, e: Numbers): Measured[] {
  const large = holdingByMass(
    i["smallHoldingLbf"]!,
    i["largeMassLb"]!,
    i["exponent"]!,
    i["smallMassLb"],
  );
  return [
    {
      quantity: "small anchor scaled up",
      got: large,
      expected: e["predictedLargeHoldingLbf"],
      ...relative(1e-12),
    },
    {
      quantity: "error of scaling up",
      got: large / i["largeHoldingLbf"]! - 1,
      expected: e["errorFraction"],
      tolerance: 1e-9,
    },
  ];
}

function breakout(quantity: string, e: Numbers): Measured[] {
  const { accuracy } = breakOut({
    anchor: { type: "claw", massKg: 15 },
    seabed: "clay",
    depthM: 5,
    cableWeightInWaterNPerM: 10,
  });
  return [
    {
      quantity: "accuracy of the break-out procedure, as read",
      got: quantity.includes("force") ? accuracy.force : accuracy.time,
      expected: e["relativeErrorPlusMinus"],
    },
  ];
}

const at = (pullAngleDeg: number) =>
  holding({
    anchor: { type: "claw", massKg: 20 },
    seabed: "sand, firm",
    pullAngleDeg,
  });

const uplift = (i: Numbers, e: Numbers): Measured[] => [
  {
    quantity: "holding left at a pull angle (from memory)",
    got: at(i["pullAngleDeg"]!).upliftShare.likely,
    expected: e["fractionOfHorizontalHolding"],
    tolerance: 0.2,
  },
];

const horizontal = (e: Numbers): Measured[] => [
  {
    quantity: "pull angle from which holding is cautioned",
    got: [0, 0.01].map((more) => at(e["pullAngleDeg"]! + more).cautions.includes("pullLifts")),
    expected: [false, true],
  },
];

runChecks("holding", (check: Check): Measured[] | NotCompared => {
  const i = check.inputs as Numbers;
  const e = check.expected as Numbers;
  const by: [RegExp, () => Measured[] | NotCompared][] = [
    [/power law/, () => powerLaw(i, e)],
    [/^reference holding of a 4536 kg/, () => navalReference(i, e)],
    [
      /^minimum factor of safety/,
      () => [
        {
          quantity: "factor of safety",
          got: factor(word(i, "component")),
          expected: e["factor"],
        },
      ],
    ],
    [/^holding relative to firm sand/, () => seabed(i, e)],
    [/^holding of anchor plus chain/, () => ship(i, e)],
    [/^growth of holding/, () => growth(e)],
    [/^scale-up from/, () => scaleUp(i, e)],
    [/break-out (time|force)/, () => breakout(check.quantity, e)],
    [
      /^holding over anchor weight, large offshore/,
      () => ({
        notCompared:
          "offshore anchors hundreds of times heavier; the value's own note says it does not carry over to small craft",
      }),
    ],
    [/^holding left at a pull angle/, () => uplift(i, e)],
    [/^naval design advice on pull angle/, () => horizontal(e)],
  ];
  const found = by.find(([pattern]) => pattern.test(check.quantity));
  if (found === undefined) throw new Error(`no adapter for ${check.quantity}`);
  return found[1]();
});
