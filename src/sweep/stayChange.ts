import { wrap360 } from "../core/angles.js";
import { planeAt, positionOf } from "../geo/plane.js";
import { ANCHOR_TYPES } from "../core/anchorTypes.js";
import { bedNames } from "../holding/beds.js";
import { type CheckedStay, withoutPlace } from "../plan/input.js";
import type { Scene } from "../plan/scene.js";
import { STAY_IN } from "./stayTable.js";

/** The stay with the changes of a scenario that do not hang on the hour: place, depth, vessel, tackle, bed. */
export function changedBerth(given: CheckedStay, p: Float64Array): CheckedStay {
  const told = (place: number): number | undefined =>
    Number.isNaN(p[place]) ? undefined : p[place];
  const [type, bed] = [told(STAY_IN.anchorType), told(STAY_IN.seabed)];
  const stay = movedBy(given, p[STAY_IN.eastM]!, p[STAY_IN.northM]!);
  const lengthOutM = told(STAY_IN.lengthOutM) ?? stay.tackle.lengthOutM;
  const chartedDepthM = told(STAY_IN.chartedDepthM) ?? stay.chartedDepthM;
  const draughtM = told(STAY_IN.draughtM);
  const { anchor } = stay.tackle;
  return {
    ...stay,
    ...(chartedDepthM !== undefined && { chartedDepthM }),
    ...(bed !== undefined && { seabed: bedNames[bed]! }),
    vessel: draughtM === undefined ? stay.vessel : { ...stay.vessel, draughtM },
    tackle: {
      ...stay.tackle,
      ...(lengthOutM !== undefined && { lengthOutM }),
      anchor: {
        ...anchor,
        ...(type !== undefined && { type: ANCHOR_TYPES[type]! }),
        massKg: told(STAY_IN.anchorMassKg) ?? anchor.massKg,
      },
    },
  };
}

/** The stay with the anchor elsewhere: depth, bed and pull proved were told of the place she had. */
function movedBy(stay: CheckedStay, eastM: number, northM: number): CheckedStay {
  if (eastM === 0 && northM === 0) return stay;
  const moved = withoutPlace(stay);
  delete moved.seabed;
  return { ...moved, position: positionOf(planeAt(stay.position), eastM, northM) };
}

/** The stay with the changes of a scenario to wind, water and stream as well. `base` is the scene of the stay as given. */
export function changedStay(stay: CheckedStay, base: Scene, p: Float64Array): CheckedStay {
  const { forecast } = stay;
  const factor = p[STAY_IN.windFactor]!;
  const turn = p[STAY_IN.windTurnDeg]!;
  const rise = p[STAY_IN.surgeM]!;
  const { surgeM } = base;
  return {
    ...changedBerth(stay, p),
    surgeM: { low: surgeM.low + rise, likely: surgeM.likely + rise, high: surgeM.high + rise },
    ...(forecast !== undefined && {
      forecast: { ...forecast, rows: forecast.rows.map((r) => changedWind(r, factor, turn)) },
    }),
    ...changedStream(base, p[STAY_IN.streamFactor]!),
  };
}

type WindRow = NonNullable<CheckedStay["forecast"]>["rows"][number];

function changedWind(row: WindRow, factor: number, turn: number): WindRow {
  const wind = <W extends { windMps: number; windFromDeg: number }>(w: W): W => ({
    ...w,
    windMps: w.windMps * factor,
    windFromDeg: wrap360(w.windFromDeg + turn),
  });
  return {
    ...wind(row),
    ...(row.gustMps !== undefined && { gustMps: row.gustMps * factor }),
    ...(row.members !== undefined && { members: row.members.map(wind) }),
  };
}

/** The stream at the moments of the plan, as rows; as it was where nothing about it changes. */
function changedStream(base: Scene, factor: number): Pick<CheckedStay, "stream"> {
  if (factor === 1) return {};
  const rows = base.timeMs.map((timeMs, i) => ({
    timeMs,
    rateMps: base.streamMps[i]! * factor,
    towardsDeg: base.streamTowardsDeg[i]!,
  }));
  // Moments that are not known stay so: rows only bridge one step.
  const longestGapMs = Math.max(...base.timeMs.slice(1).map((t, i) => t - base.timeMs[i]!));
  const known = rows.filter((r) => !Number.isNaN(r.rateMps));
  return known.length === 0 ? {} : { stream: { kind: "series", rows: known, longestGapMs } };
}
