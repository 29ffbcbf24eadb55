import { goneByOf } from "./goneBy.js";
import type { StayPlan } from "./planStay.js";
import { clockOf, forceText, knotsText, metresText, spansText, type Clock } from "./words.js";

/** Figures of a plan as they stand in a text, with their values by name; those not known are absent. */
export type FigureTexts = Partial<Record<string, { text: string; values: Record<string, number> }>>;

/** Time the engine is held astern to prove the anchor (common practice, no source). */
const ASTERN_S = 20;

/** The least depth at which to call over the stay. */
export function callDepthOf({ limits }: StayPlan): number | null {
  return (limits?.rows ?? []).reduce<number | null>(
    (a, r) => (r.leastDepthM === null ? a : Math.min(a ?? Infinity, r.leastDepthM)),
    null,
  );
}

/** Place of the greatest known value; -1 where none is known. */
const greatestOf = (values: readonly (number | null)[]): number =>
  values.reduce<number>(
    (best, v, i, all) => (v !== null && (best < 0 || v > all[best]!) ? i : best),
    -1,
  );

/** Moment of the hardest pull of the stay; -1 where no pull is known. */
export const hardestPullOf = ({ moments }: StayPlan): number => greatestOf(moments.gustPullN);

/** Whether the pull is known at every moment of the stay: else a harder one may come. */
export const pullsKnown = ({ moments }: StayPlan): boolean => !moments.gustPullN.includes(null);

/** Moment of the hardest gust forecast for the stay, whatever she pulls then; -1 where there is no forecast. */
export const hardestGustOf = ({ moments }: StayPlan): number => greatestOf(moments.gustMps);

/** Distance in which the anchor is likely to bring her up, made ready; null where it may not hold her. */
function bringUpOf({ engineFails }: StayPlan): number | null {
  if (engineFails === null) return null;
  const { ready, fall, veer, setAndStop } = engineFails.ready.partsM;
  return setAndStop === null ? null : ready + fall + veer + setAndStop;
}

/** How much farther she runs on while an anchor that is lashed down is got clear. */
const lashedMoreOf = ({ engineFails: e }: StayPlan): number | null =>
  e === null ? null : e.lashed.partsM.ready - e.ready.partsM.ready;

/** Numbers of a plan by the names the steps use. */
function valuesOf(p: StayPlan): Record<string, number | null | undefined> {
  const depth = p.depth?.known === true ? p.depth : null;
  const gust = hardestGustOf(p);
  const known = p.rode.greatestHeightM > 0;
  return {
    firstLengthM: p.rode.firstLengthM,
    lengthOutM: known ? p.rode.lengthOutM : null,
    aboardM: p.rode.aboardM,
    radiusM: p.room.radiusM,
    leastDepthM: depth?.least.depthM,
    leastAtMs: depth?.least.timeMs,
    greatestDepthM: depth?.greatest.depthM,
    hardestN: pullsKnown(p) ? p.moments.gustPullN[hardestPullOf(p)] : null,
    hardestAtMs: p.moments.timeMs[gust],
    gustMps: p.moments.gustMps[gust],
    callDistanceM: p.limits?.greatest.distanceM,
    callDepthM: callDepthOf(p),
    dangerMs: goneByOf(p),
    bringUpM: bringUpOf(p),
    lashedMoreM: lashedMoreOf(p),
    snubLengthM: p.engineFails?.lengthM,
    wayLeastM: p.wayOut?.meant.underKeelLeastM,
    asternS: ASTERN_S,
  };
}

function textOf(name: string, value: number, clock: Clock): string {
  if (name.endsWith("Ms")) return clock.time(value);
  if (name.endsWith("Mps")) return knotsText(value);
  if (name.endsWith("N")) return forceText(value);
  return name.endsWith("M") ? metresText(value) : `${value} s`;
}

/** Figures of a plan that steps may name. */
export function figuresOf(p: StayPlan): FigureTexts {
  const clock = clockOf(p.zoneOffsetMinutes, p.stay);
  const found: FigureTexts = {};
  for (const [name, value] of Object.entries(valuesOf(p)))
    if (typeof value === "number" && Number.isFinite(value))
      found[name] = { text: textOf(name, value, clock), values: { [name]: value } };
  const shut = p.wayOut?.shut ?? [];
  if (shut.length > 0)
    found["shut"] = {
      text: spansText(shut, clock),
      values: { shutFromMs: shut[0]!.fromMs, shutToMs: shut[0]!.toMs },
    };
  return found;
}
