import { check } from "../core/check.js";
import type { Position } from "../core/schema.js";
import { darknessUnchecked } from "../daylight/darkness.js";
import type { Holding } from "../holding/holding.js";
import { signalsDue } from "../signals/due.js";
import { signalsOver, type SignalsOver } from "../signals/over.js";
import type { SoundDue } from "../signals/types.js";
import type { Shelter } from "../shelter/shelterTypes.js";
import type { DepthOverStay } from "../tide/depth.js";
import type { Anchoring } from "../chart/anchoring-at.js";
import type { FetchFan } from "../shelter/fan.js";
import { leastKnown, type PlanReason } from "./criteria.js";
import { cautionsOf } from "./cautions.js";
import { counselOf, type Counsel } from "./counsel.js";
import type { BedFound } from "./ground.js";
import { stayInput, type CheckedStay, type StayInput } from "./input.js";
import { judge, type Danger } from "./judge.js";
import { keepingOf, type Keeping } from "./keeping.js";
import { holdingMargins } from "./ladders.js";
import { leavingOf, type Leaving } from "./leaving.js";
import { momentsOf } from "./moments.js";
import { rodesDrawn, type RodeDrawn } from "./rodeDrawn.js";
import { roomPlan, type RoomPlan } from "./room.js";
import { studyOf, type Study } from "./study.js";
import type { Interval, Limiting, Moments, Verdict } from "./types.js";
import type { RodePlan } from "./veer.js";

/** A stay at anchor, planned. */
export interface StayPlan extends Keeping, Leaving, Counsel {
  /** Version of this form. */
  version: 1;
  /** What the caller calls the stay; null where it has no name. */
  name: string | null;
  /** Where the anchor is to lie. */
  position: Position;
  /** From letting go to weighing. */
  stay: Interval;
  /** Clock aboard, minutes ahead of UTC. */
  zoneOffsetMinutes: number;
  /** How good the berth is for the stay. */
  verdict: Verdict;
  /** Why, the weightiest first. */
  reasons: PlanReason[];
  /** When, and by what, the berth first stops being safe. */
  danger: Danger;
  /** What could not be judged, as codes. */
  unknown: string[];
  /** The stay step by step. */
  moments: Moments;
  /** Each quantity at its worst. */
  limiting: {
    /** Least water under the keel at the worst, metres. */
    depth: Limiting;
    /** Least room over the fan of winds, metres. */
    room: Limiting;
    /** Lowest credible holding over the greatest pull, as a ratio. */
    holding: Limiting;
    /** Greatest expected wave height, metres. */
    shelter: Limiting;
  };
  /** Depth over the stay at the anchor; null where tide or depth is not known. */
  depth: DepthOverStay | null;
  /** Rode to have out. */
  rode: RodePlan;
  /** The rode as it lies at its hardest moment, for a drawing to scale. */
  rodeDrawn: RodeDrawn[];
  /** Room to swing. */
  room: RoomPlan;
  /** The bed and how the anchor holds in it. */
  bed: BedFound;
  /** Holding for a pull along the bottom; null where the bed is not known. */
  holding: Holding | null;
  /** What the chart says of anchoring; null without a chart. */
  anchoring: Anchoring | null;
  /** Open water by bearing; null where no shore is known. */
  fan: FetchFan | null;
  /** Shelter over the stay; null without shore or forecast. */
  shelter: Shelter | null;
  /** Sunset to sunrise, as far as it falls into the stay. */
  dark: Interval[];
  /** Lights, shapes and sounds over the stay. */
  signals: SignalsOver;
  /** Sound signals owed in fog and the like, whenever it comes; null where none are. */
  inFog: SoundDue | null;
  /** What every plan must say. */
  cautions: string[];
  /** Defaults and guesses the plan rests on. */
  assumed: string[];
  /** Rules and sources. */
  basis: string[];
}

const of = (
  s: Study,
  values: Float64Array,
  limit: number | null,
  what: string | null = null,
): Limiting => {
  const i = leastKnown(values);
  const value = i < 0 ? NaN : values[i]!;
  return i < 0 || !Number.isFinite(value)
    ? { atMs: null, value: null, limit, of: what }
    : { atMs: s.scene.timeMs[i]!, value, limit, of: what };
};

/** The tightest of the rooms. */
function leastRoom(s: Study): Limiting {
  const rooms = [
    ...(s.neighbours ?? []).map((n) => ({
      name: n.lie.of.name,
      values: n.margin.fanM,
    })),
    ...(s.shore === null ? [] : [{ name: "the shore", values: s.shore.fanM }]),
    ...s.hazards.map((h) => ({ name: h.name, values: h.margin.fanM })),
  ].map(({ name, values }) => of(s, values, s.input.limits.roomM, name));
  const known = rooms.filter((r) => r.value !== null).sort((a, b) => a.value! - b.value!);
  return (
    known[0] ?? {
      atMs: null,
      value: null,
      limit: s.input.limits.roomM,
      of: null,
    }
  );
}

function worstSea(s: Study): Limiting {
  const hours = s.sea.shelter?.hours;
  const heights = hours?.heightM.likely ?? [];
  let worst = -1;
  heights.forEach((h, i) => {
    if (h !== null && (worst < 0 || h > heights[worst]!)) worst = i;
  });
  if (worst < 0) return { atMs: null, value: null, limit: null, of: null };
  return {
    atMs: hours!.timeMs[worst]!,
    value: heights[worst]!,
    limit: null,
    of: hours!.comfort[worst]!,
  };
}

function limitingOf(s: Study): StayPlan["limiting"] {
  return {
    depth: of(s, s.underKeelLeastM, s.input.limits.underKeelM),
    room: leastRoom(s),
    holding: of(s, holdingMargins(s).worst, 1),
    shelter: worstSea(s),
  };
}

function assumedOf(s: Study): string[] {
  const { input, sea } = s;
  return [
    ...s.scene.assumed,
    ...(input.tackle.lengthSigmaM === undefined ? ["length out good to 3 %"] : []),
    ...(s.anchorDepth.from === "chart" ? ["depth at the anchor: the chart's bounds there"] : []),
    ...(input.swell === undefined ? ["no swell reckoned: none was given"] : []),
    ...(sea.shelter?.assumed ?? []),
    "aerial abaft the bow by 85 % of the length",
  ];
}

const basisOf = (s: Study): string[] => [
  ...new Set([
    ...s.rode.basis,
    ...(s.grip?.flat.basis.map((b) => b.title) ?? []),
    ...(s.depth?.known === true ? [s.depth.basis] : []),
    ...(s.sea.shelter?.basis ?? []),
    "heading by balance of turning moments of wind and stream about the bow",
    "COLREGS 1972 as amended, Rules 20, 22, 30, 35",
  ]),
];

/**
 * Plan a stay at anchor: whether the berth is suitable, how much rode to veer, and what limits the stay,
 * hour by hour, with reasons.
 *
 * Steps through the stay; at each step tide, stream and wind put the vessel on her rode, over a fan of wind
 * directions to two sigmas each side of the forecast, in the mean wind and in the gust. Depth, holding, room to
 * neighbours lying their own way, room to shore and hazards, and the sea at the berth are held against limits.
 * With `draws` the stay is run through that often with all that is uncertain drawn anew, and the plan tells how
 * probable it is that she drags, touches, or meets a neighbour, the shore or a danger. Leaves out
 * everything no chart or forecast tells, wind shadow, and how the anchor was set unless a proved pull is given.
 *
 * *Valid*: one anchor, small craft, stays of up to some days. *Accuracy*: that of the rooms it is put together
 * from; holding is good to a factor of two where bed and setting are as taken, and decides most of the doubt. Instants between steps by straight line.
 *
 * It advises; the chart, local rules and the skipper decide.
 *
 * @throws InputError with every issue: unknown or missing fields, figures out of range, datums that differ.
 * @source see `basis` of the result and of each reason
 */
export function planStay(input: StayInput): StayPlan {
  return planChecked(check(stayInput, input));
}

/** {@link planStay} for input that has been checked. */
export function planChecked(input: CheckedStay): StayPlan {
  const s = studyOf(input);
  const { position, stay } = input;
  const dark = darknessUnchecked(position.latDeg, position.lonDeg, stay).sunsetToSunrise.intervals;
  const leaving = leavingOf(s);
  const judgement = judge(s, leaving.wayOut);
  return {
    version: 1,
    name: input.name ?? null,
    position,
    stay,
    zoneOffsetMinutes: input.zoneOffsetMinutes,
    ...judgement,
    moments: momentsOf(s, dark),
    limiting: limitingOf(s),
    depth: s.depth,
    rode: s.rode,
    rodeDrawn: rodesDrawn(s),
    room: roomPlan(s),
    bed: s.bed,
    holding: s.grip?.flat ?? null,
    anchoring: s.ground.anchoring,
    fan: s.sea.fan,
    shelter: s.sea.shelter,
    dark,
    ...signalsOf(input, s),
    ...keepingOf(s, dark),
    ...leaving,
    ...counselOf(s, judgement, dark, leaving.wayOut?.shut ?? []),
    cautions: cautionsOf(s),
    assumed: assumedOf(s),
    basis: basisOf(s),
  };
}

/** Signals over the stay, and what is to be sounded should fog come. */
function signalsOf(
  { position, stay, signals }: CheckedStay,
  { scene }: Study,
): Pick<StayPlan, "signals" | "inFog"> {
  const { lengthM } = scene.vessel;
  const fog = { situation: "anchored", period: "night", restrictedVisibility: true } as const;
  return {
    signals: signalsOver({ ...signals, vessel: { lengthM }, position, stay }),
    inFog: signalsDue({ ...signals, lengthM, ...fog }).sound,
  };
}
