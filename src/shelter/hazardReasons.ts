import { turnDeg } from "../core/angles.js";
import type { Reason } from "../core/judgement.js";
import { beamPart } from "./comfort.js";
import { reason } from "./reason.js";
import type { Step } from "./run.js";
import type { CheckedShelter } from "./shelterInput.js";

/** Wind reaches this many heights out from the foot of high land in gusts and eddies: about ten, common practice, no source. */
const HEIGHTS_OUT = 10;
/** Waves whose period lies within this part of the roll period rock a hull in step; common practice, no source. */
const IN_STEP = 0.25;
/** Below this height a sea in step with the roll is not felt; proposed, not published. */
const FELT_M = 0.05;

/** Gusts, high land, rolling in step, and the stream. */
export const hazardReasons = (input: CheckedShelter, steps: readonly Step[]): Reason[] => [
  ...gustReasons(input, steps),
  ...highLandReasons(input, steps),
  ...rollReasons(input, steps),
  ...steepReasons(steps),
  ...headingReasons(input),
];

function gustReasons({ gustLimitMps: limit }: CheckedShelter, steps: readonly Step[]): Reason[] {
  if (limit === undefined) return [];
  const out: Reason[] = [];
  const worst = steps.reduce((a, b) => (b.wind.leastGustMps > (a.wind.leastGustMps || 0) ? b : a));
  if (worst.wind.leastGustMps > limit)
    out.push(
      reason(
        "shelter.gust",
        "stop",
        worst.wind.leastGustMps,
        limit,
        "limit for gusts as given",
        worst.timeMs,
      ),
    );
  const silent = steps.find((s) => Number.isNaN(s.wind.gustMps));
  if (silent !== undefined)
    out.push(
      reason(
        "shelter.gustsUnknown",
        "warning",
        null,
        limit,
        "a limit for gusts was given, but the forecast has none from here, or for hours between",
        silent.timeMs,
      ),
    );
  return out;
}

function highLandReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  for (const land of input.highLand) {
    if (!(land.distanceM <= HEIGHTS_OUT * land.heightM)) continue;
    const under = steps.find(
      (s) =>
        !(
          Math.abs(turnDeg(land.bearingDeg, s.wind.windFromDeg)) >
          land.halfWidthDeg + s.wind.sigmaDeg
        ),
    );
    if (under !== undefined)
      out.push(
        reason(
          "shelter.highLand",
          "caution",
          land.heightM,
          land.distanceM / HEIGHTS_OUT,
          "high land within ten of its heights upwind: gusts off it may pass the free wind; no shelter from wind is credited; common practice, no source",
          under.timeMs,
        ),
      );
  }
  return out;
}

function rollReasons(input: CheckedShelter, steps: readonly Step[]): Reason[] {
  const own = input.rollPeriodS;
  if (own === undefined) return [];
  const inStep = (periodS: number): boolean => Math.abs(periodS - own) <= IN_STEP * own;
  const rocked = steps.find(
    ({ sea, swell, moment }) =>
      (swell.hm0M >= FELT_M && inStep(swell.periodS)) ||
      (sea.windSeaM >= FELT_M &&
        inStep(sea.periodS) &&
        !(
          beamPart(
            turnDeg(
              Number.isNaN(moment.headingDeg) ? moment.windFromDeg : moment.headingDeg,
              sea.fromDeg,
            ),
          ) <= 0
        )),
  );
  return rocked === undefined
    ? []
    : [
        reason(
          "shelter.rollsInStep",
          "caution",
          own,
          null,
          "waves within a quarter of the roll period, off the bow: she will roll; common practice, no source",
          rocked.timeMs,
        ),
      ];
}

function steepReasons(steps: readonly Step[]): Reason[] {
  const out: Reason[] = [];
  const blocked = steps.find((s) => s.blocked);
  if (blocked !== undefined)
    out.push(
      reason(
        "shelter.breakingOnStream",
        "warning",
        Number.isNaN(blocked.streamMps) ? null : blocked.streamMps,
        null,
        "wind waves meet a stream that stops them, or one that is not known: steep and breaking, twice the height taken; Longuet-Higgins & Stewart 1961, from memory",
        blocked.timeMs,
      ),
    );
  const steep = steps.find((s) => !s.blocked && s.moment.streamFactor > 1.1);
  if (steep !== undefined)
    out.push(
      reason(
        "shelter.windAgainstStream",
        "caution",
        steep.moment.streamFactor,
        1.1,
        "factor of a contrary stream on the height of wind waves; Longuet-Higgins & Stewart 1961, from memory",
        steep.timeMs,
      ),
    );
  return out;
}

function headingReasons(input: CheckedShelter): Reason[] {
  if (input.stream === undefined || input.lying !== undefined) return [];
  return [
    reason(
      "shelter.headingUnknown",
      "note",
      null,
      null,
      "a stream was given but no heading: where it runs at 0.5 m/s or more she is taken to lie across every sea",
    ),
  ];
}
