import { SHAPES, YAW_DEG } from "../../src/lie/tables.js";
import { crossStreamCoefficient, frictionCoefficient } from "../../src/lie/kernel.js";
import {
  balancingWind,
  gusts,
  lie,
  streamLoad,
  vesselFrom,
  windAtHeight,
  windLoad,
} from "../../src/lie/index.js";
import { designLoad } from "../../src/holding/index.js";
import { NAVAL_CONDITIONS } from "../../src/holding/rules.js";
import { feet, knots, toKnots } from "../../src/core/units.js";
import { runChecks, type Check, type Measured } from "./harness.js";

type Numbers = Record<string, number>;

const LBF_N = 4.4482216152605;

/** A vessel with the areas and levers of a check; what the check does not name does not enter its result. */
const vesselOf = (i: Numbers) =>
  vesselFrom({
    kind: "yacht",
    lengthM: 12,
    windageSideM2: i["sideWindAreaM2"],
    windSideCoefficient: i["windSideCoefficient"],
    windCentreAftOfBowM: i["windLeverAftOfBowM"],
    lateralPlaneM2: i["lateralUnderwaterAreaM2"],
    streamSideCoefficient: i["streamSideCoefficient"],
    lateralCentreAftOfBowM: i["streamLeverAftOfBowM"],
  });

const tableN = (lengthFt: number, windKn: number) =>
  designLoad({ lengthM: feet(lengthFt), windMps: knots(windKn) }).loadN!;

function loadTable(i: Numbers, e: Numbers): Measured[] {
  const loadN = tableN(i["lengthFt"]!, i["windKn"]!);
  // The newtons are printed to five digits, the pounds exactly.
  return [
    {
      quantity: "tabulated load",
      got: loadN,
      expected: e["loadN"],
      tolerance: 5e-5,
      relative: true,
    },
    {
      quantity: "tabulated load, lbf",
      got: loadN / LBF_N,
      expected: e["loadLbf"],
      tolerance: 1e-9,
      relative: true,
    },
  ];
}

function squareLaw(i: Numbers, e: Numbers): Measured[] {
  const lengthFt = [20, 25, 30, 35, 40, 50, 60].find(
    (ft) => Math.abs(tableN(ft, 15) / LBF_N - i["load15KnLbf"]!) < 1e-6,
  )!;
  const ratio = (a: number, b: number) => tableN(lengthFt, a) / tableN(lengthFt, b);
  return [
    {
      quantity: "load ratio",
      got: ratio(30, 15),
      expected: e["ratio30To15"],
      tolerance: 1e-12,
    },
    {
      quantity: "load ratio",
      got: ratio(60, 30),
      expected: e["ratio60To30"],
      tolerance: 1e-12,
    },
  ];
}

function windDrag(i: Numbers, e: Numbers): Measured[] {
  const load = windLoad({
    windMps: knots(i["windKn"]!),
    airDensityKgPerM3: i["airDensityKgM3"]!,
    parts: [{ areaM2: i["areaM2"]!, coefficient: i["dragCoefficient"]! }],
  });
  const to = { tolerance: 1e-5, relative: true };
  return [
    {
      quantity: "wind pressure",
      got: load.pressurePa,
      expected: e["pressurePa"],
      ...to,
    },
    { quantity: "wind drag", got: load.forceN, expected: e["forceN"], ...to },
  ];
}

function coefficients(e: Numbers): Measured[] {
  const named: Numbers = {
    hullCd: SHAPES.hull,
    mastCd: SHAPES.mast,
    wireCd: SHAPES.wire,
    flat: SHAPES.flat,
    round: SHAPES.round,
    oblique: SHAPES.oblique,
    yawEachSideDeg: YAW_DEG.likely,
  };
  return Object.entries(e).map(([key, expected]) => ({
    quantity: "drag coefficient or yaw as published",
    got: named[key],
    expected,
  }));
}

/** The steady wind drag of a 40 ft yacht as a share of the tabulated load. */
function tableShare(i: Numbers, e: Numbers): Measured[] {
  const lengthM = feet(40);
  const drag = windLoad({
    vessel: vesselFrom({ kind: "yacht", lengthM }),
    windMps: knots(i["windKn"]!),
  }).forceN;
  const [low, high] = [e["windShareOfTableLow"]!, e["windShareOfTableHigh"]!];
  return [
    {
      quantity: "steady wind drag over tabulated load",
      got: drag / tableN(40, i["windKn"]!),
      expected: (low + high) / 2,
      tolerance: 0.3,
      relative: true,
    },
  ];
}

function crossStream(i: Numbers, e: Numbers): Measured[] {
  const at = (ratio: number) => crossStreamCoefficient(i["c0"]!, ratio, 1, i["c1"], i["exponentK"]);
  const coefficient = at(i["draftOverDepth"]!);
  return [
    {
      quantity: "beam-on stream coefficient in shoal water",
      got: coefficient,
      expected: e["coefficient"],
      tolerance: 1e-3,
      relative: true,
    },
    {
      quantity: "beam-on stream force on a frigate",
      got: (i["referenceForceMN"]! * coefficient) / at(i["referenceDraftOverDepth"]!),
      expected: e["forceMN"],
      tolerance: 0.01,
      unit: "MN",
    },
  ];
}

function longitudinal(i: Numbers, e: Numbers): Measured[] {
  const load = streamLoad({
    vessel: vesselFrom({
      kind: "yacht",
      lengthM: 11,
      waterlineM: i["waterlineM"]!,
      beamM: i["beamM"]!,
      hullDraughtM: i["draftM"]!,
      displacementKg: i["displacementKg"]!,
      propellerAreaM2: i["propellerAreaM2"]!,
    }),
    streamMps: knots(i["currentKn"]!),
    waterDensityKgPerM3: i["waterDensityKgM3"]!,
    viscosityM2PerS: i["kinematicViscosityM2PerS"]!,
    formCoefficient: i["formCoefficient"]!,
    propellerCoefficient: i["propellerCoefficient"]!,
  });
  const got: Numbers = { ...load, totalN: load.forceN } as unknown as Numbers;
  return Object.entries(e).map(([key, expected]) => ({
    quantity: "stream load from ahead, by parts",
    got: got[key],
    expected,
    tolerance: 1e-4,
    relative: true,
  }));
}

function heading(i: Numbers, e: Numbers): Measured[] {
  const vessel = vesselOf(i);
  const [windMps, streamMps] = [knots(i["windKn"]!), knots(i["streamKn"]!)];
  const moment = { tolerance: 1e-5, relative: true };
  return [
    {
      quantity: "turning moment of the wind",
      got: windLoad({ vessel, windMps, offBowDeg: 90 }).momentNm,
      expected: e["windMomentNm"],
      ...moment,
    },
    {
      quantity: "turning moment of the stream",
      got: streamLoad({ vessel, streamMps, offBowDeg: 90 }).momentNm,
      expected: e["streamMomentNm"],
      ...moment,
    },
    {
      quantity: "heading between wind and stream",
      got: lie({
        vessel,
        windMps,
        windFromDeg: i["windFromDeg"]!,
        streamMps,
        streamTowardsDeg: (i["streamFromDeg"]! + 180) % 360,
      }).headingDeg,
      expected: e["headingDeg"],
      tolerance: 0.01,
      unit: "deg",
    },
  ];
}

/** Only the moments are given: areas that make them at 10 m/s of wind and 1 m/s of stream. */
function crossFlow(i: Numbers, e: Numbers): Measured[] {
  const vessel = vesselOf({
    sideWindAreaM2: i["windMomentNm"]! / (0.5 * 1.225 * 100),
    windSideCoefficient: 1,
    windLeverAftOfBowM: 1,
    lateralUnderwaterAreaM2: i["streamMomentNm"]! / (0.5 * 1025),
    streamSideCoefficient: 1,
    streamLeverAftOfBowM: 1,
  });
  return [
    {
      quantity: "heading by the cross-flow law",
      got: lie({
        vessel,
        windMps: 10,
        windFromDeg: i["windFromDeg"]!,
        streamMps: 1,
        streamTowardsDeg: (i["streamFromDeg"]! + 180) % 360,
      }).crossFlowHeadingDeg,
      expected: e["headingDeg"],
      tolerance: 0.01,
      unit: "deg",
    },
  ];
}

const balance = (i: Numbers, e: Numbers): Measured[] => [
  {
    quantity: "wind that balances one knot of stream",
    got: toKnots(balancingWind({ vessel: vesselOf(i), streamMps: knots(1) }).windMps),
    expected: e["windKnPerKnStream"],
    tolerance: 1e-5,
    relative: true,
  },
];

/** A deep displacement hull of ours against a loaded cargo ship: "factor 1.5". */
const cargoShip = (i: Numbers, e: Numbers): Measured[] => [
  {
    quantity: "wind that balances one knot of stream, deep hull",
    got: toKnots(
      balancingWind({
        vessel: vesselFrom({ kind: "workboat", lengthM: 24 }),
        streamMps: knots(i["currentKn"]!),
      }).windMps,
    ),
    expected: e["windKn"],
    tolerance: 0.5,
    relative: true,
  },
];

function gust(i: Numbers, e: Numbers): Measured[] {
  const got = gusts({ windMps: knots(i["tenMinuteWindKn"]!) });
  const to = { tolerance: 0.1, relative: true };
  return [
    {
      quantity: "gust over ten-minute mean",
      got: toKnots(got.gustMps.likely),
      expected: e["gustKn"],
      ...to,
    },
    {
      quantity: "one-minute over ten-minute mean",
      got: toKnots(got.oneMinuteMps),
      expected: e["oneMinuteWindKn"],
      ...to,
    },
  ];
}

const naval = (e: Numbers): Measured[] => [
  {
    quantity: "least weather for naval ships' anchors",
    got: [
      toKnots(NAVAL_CONDITIONS.windMps),
      toKnots(NAVAL_CONDITIONS.streamMps),
      NAVAL_CONDITIONS.depthM,
    ],
    expected: [e["windKn"], e["currentKn"], e["depthM"]],
  },
];

runChecks("load", (check: Check) => {
  const i = check.inputs as Numbers;
  const e = check.expected as Numbers;
  const by: [RegExp, () => Measured[]][] = [
    [/^tabulated design load/, () => loadTable(i, e)],
    [/^scaling of the tabulated load/, () => squareLaw(i, e)],
    [/^wind drag/, () => windDrag(i, e)],
    [/^(drag coefficients of yacht|shape coeff)/, () => coefficients(e)],
    [/^tabulated load against measured/, () => tableShare(i, e)],
    [
      /^wind profile/,
      () => [
        {
          quantity: "wind at height over wind at 10 m",
          got: windAtHeight({
            windMps: 10,
            heightM: i["heightM"]!,
            referenceHeightM: i["referenceHeightM"]!,
          }).ratio,
          expected: e["ratio"],
          tolerance: 1e-5,
          relative: true,
        },
      ],
    ],
    [/^peak 3-5 s gust/, () => gust(i, e)],
    [/^broadside current force/, () => crossStream(i, e)],
    [
      /^skin friction/,
      () => [
        {
          quantity: "skin friction coefficient",
          got: frictionCoefficient(i["reynoldsNumber"]!),
          expected: e["cf"],
          tolerance: 1e-6,
          relative: true,
        },
      ],
    ],
    [/^longitudinal current load/, () => longitudinal(i, e)],
    [/^minimum design conditions/, () => naval(e)],
    [/^wind equivalent of one knot/, () => cargoShip(i, e)],
    [/^wind that balances/, () => balance(i, e)],
    [/cross-flow/, () => crossFlow(i, e)],
    [/^heading the bow takes/, () => heading(i, e)],
  ];
  const found = by.find(([pattern]) => pattern.test(check.quantity));
  if (found === undefined) throw new Error(`no adapter for ${check.quantity}`);
  return found[1]();
});
