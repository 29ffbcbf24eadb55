import { known } from "../core/series.js";
import { lesser } from "./criteria.js";
import { holdingMargins } from "./ladders.js";
import type { Study } from "./study.js";
import type { Interval, Moments } from "./types.js";

const plain = (values: ArrayLike<number>): (number | null)[] => Array.from(values, (v) => known(v));

/** The lesser, moment by moment; a moment at which one is not known is not known. */
function leastOf(columns: readonly Float64Array[], count: number): (number | null)[] {
  return Array.from({ length: count }, (_, i) => {
    let least = Infinity;
    for (const c of columns) least = lesser(least, c[i]!);
    return known(least);
  });
}

/** Heights of the sea at the moments of the plan, straight between the hours of the shelter. */
function seaAt(s: Study, of: "likely" | "high"): (number | null)[] {
  const hours = s.sea.shelter?.hours;
  if (hours === undefined) return s.scene.timeMs.map(() => null);
  let j = 0;
  return s.scene.timeMs.map((t) => {
    while (j < hours.timeMs.length - 2 && hours.timeMs[j + 1]! <= t) j++;
    const a = hours.heightM[of][j] ?? null;
    const b = hours.heightM[of][j + 1] ?? a;
    if (a === null || b === null) return null;
    const span = (hours.timeMs[j + 1] ?? hours.timeMs[j]! + 1) - hours.timeMs[j]!;
    return a + ((t - hours.timeMs[j]!) / span) * (b - a);
  });
}

/** The stay as columns over time. */
export function momentsOf(s: Study, dark: readonly Interval[]): Moments {
  const { scene, lie, grip, timeMs } = { ...s, timeMs: s.scene.timeMs };
  const hold = (at: ((deg: number) => number) | undefined) =>
    plain(lie.angleDeg.map((deg) => at?.(deg) ?? NaN));
  const rooms = [
    ...(s.neighbours ?? []).map((n) => n.margin.fanM),
    ...(s.shore === null ? [] : [s.shore.fanM]),
    ...s.hazards.map((h) => h.margin.fanM),
  ];
  return {
    timeMs,
    tideHeightM: plain(scene.tideM),
    depthM: plain(scene.tideM.map((t) => s.anchorDepth.chartedM + t)),
    underKeelLeastM: plain(s.underKeelLeastM),
    windMps: plain(scene.windMps),
    windFromDeg: plain(scene.windFromDeg),
    gustMps: plain(scene.gustMps),
    streamMps: plain(scene.streamMps),
    streamTowardsDeg: plain(scene.streamTowardsDeg),
    pullN: plain(lie.pullN),
    gustPullN: plain(lie.gustPullN),
    pullTowardsDeg: plain(lie.pullTowardsDeg),
    headingDeg: plain(lie.headingDeg),
    reachM: plain(lie.reachM),
    gustReachM: plain(lie.gustReachM),
    pullAngleDeg: plain(lie.angleDeg),
    onBottomM: plain(lie.onBottomM),
    holdingLowN: hold(grip?.low),
    holdingLikelyN: hold(grip?.likely),
    holdingMargin: plain(holdingMargins(s).worst),
    roomM: leastOf(rooms, timeMs.length),
    waveHeightM: seaAt(s, "likely"),
    waveHeightHighM: seaAt(s, "high"),
    dark: timeMs.map((t) => dark.some((d) => t >= d.fromMs && t <= d.toMs)),
  };
}
