import { refuse } from "../core/errors.js";
import type { LimitTable } from "../watch/limits.js";
import { startWatch } from "../watch/startwatch.js";
import { toldOf, readObject } from "./readInput.js";

/** Where the anchor lies and what the watch is held against. */
export interface Held {
  position: { latDeg: number; lonDeg: number };
  limits: Pick<LimitTable, "rows" | "distanceSigmaM">;
  zoneOffsetMinutes: number;
}

/** How a call names what the watch is held against. */
interface Given {
  plan?: string | undefined;
  anchor?: string | undefined;
  reach?: string | undefined;
}

/** The plan, or place and distance by hand: one of the two, never a mixture. */
export function heldBy({ plan, anchor, reach }: Given): Held {
  if (plan === undefined) return heldByHand(anchor, reach);
  if (anchor !== undefined || reach !== undefined)
    refuse("", "usage", "expected --plan, or --anchor and --reach, not both: which is meant?");
  return heldByPlan(plan);
}

const DECIMAL = /^([+-]?\d+(?:\.\d+)?)°?(?:\s*,\s*|\s+)([+-]?\d+(?:\.\d+)?)°?$/;
const DM = String.raw`(\d{1,3})\s*°\s*(\d{1,2}(?:\.\d+)?)\s*['′’]?\s*`;
const MINUTES = new RegExp(String.raw`^${DM}([NS])[\s,]+${DM}([EW])$`, "i");

/** Degrees of degrees and minutes; NaN where the minutes make a degree or more. */
const degreesOf = (whole: string, minutes: string, letter: string): number =>
  Number(minutes) < 60
    ? (/[SW]/i.test(letter) ? -1 : 1) * (Number(whole) + Number(minutes) / 60)
    : NaN;

/** A position in decimal degrees, or in degrees and minutes as the brief prints them. */
export function positionOf(text: string): Held["position"] {
  const decimal = DECIMAL.exec(text.trim());
  const m = MINUTES.exec(text.trim());
  const [latDeg, lonDeg] =
    decimal !== null
      ? [Number(decimal[1]), Number(decimal[2])]
      : m !== null
        ? [degreesOf(m[1]!, m[2]!, m[3]!), degreesOf(m[4]!, m[5]!, m[6]!)]
        : [NaN, NaN];
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 360))
    refuse(
      "--anchor",
      "invalid_value",
      `expected latitude and longitude as "47.2002 -20.4003" or "47°12.011'N 020°24.016'W"`,
    );
  return { latDeg, lonDeg };
}

/** Figures of `--anchor "LAT LON" --reach M`, for a log without a plan. */
function heldByHand(anchor: string | undefined, reach: string | undefined): Held {
  if (anchor === undefined || reach === undefined)
    refuse("", "usage", 'expected --plan PLAN.json, or --anchor "LAT LON" and --reach METRES');
  const greatestDistanceM = Number(reach);
  if (!(greatestDistanceM > 0 && Number.isFinite(greatestDistanceM)))
    refuse("--reach", "invalid_value", "expected metres, more than 0, such as 45");
  const row = { timeMs: 0, greatestDistanceM, leastDepthM: null, greatestDepthM: null };
  return {
    position: positionOf(anchor),
    limits: { rows: [row], distanceSigmaM: 1 },
    zoneOffsetMinutes: 0,
  };
}

function heldByPlan(file: string): Held {
  const plan = readObject(file) as Partial<Held> & { limits?: Held["limits"] | null };
  if (plan.position === undefined || plan.limits == null)
    refuse(file, "no_limits", "holds no position and limits: write it with hawse plan --out");
  const { position, limits } = plan;
  const { rows, distanceSigmaM } = limits;
  // A watch is begun at its first fix: what it would refuse then is told at once.
  toldOf(file, () =>
    startWatch({ startMs: 0, anchor: { known: true, position }, limits: { rows, distanceSigmaM } }),
  );
  return {
    position,
    limits: { rows, distanceSigmaM },
    zoneOffsetMinutes: plan.zoneOffsetMinutes ?? 0,
  };
}
