import { GOING, type Advice } from "./adviceTypes.js";
import type { StayPlan } from "./planStay.js";
import type { Clock } from "./words.js";

type Going = Pick<StayPlan, "advice" | "danger">;

const goingOf = ({ advice }: Going): Advice | undefined => advice.find((a) => GOING.has(a.code));

/** The hour to be gone by, the same for every reader: that of the advice to go, else that at which it stops being safe; null where there is none. */
export const goneByOf = (p: Going): number | null => goingOf(p)?.atMs ?? p.danger.atMs;

/** When to be gone and why then, in a sentence; null where no hour of it is known. */
export function goneByText(p: Going, clock: Clock): string | null {
  const [going, byMs, dangerMs] = [goingOf(p), goneByOf(p), p.danger.atMs];
  if (byMs === null || dangerMs === null) return null;
  const by = `Be gone by ${clock.time(byMs)}`;
  if (byMs >= dangerMs) return `${by}: from then on it is not safe to lie here.`;
  const danger = `from ${clock.time(dangerMs)} on it is not safe to lie here`;
  if (going?.code === "lie.elsewhere")
    return `Do not lie here: ${danger}, and before that the way out is shut.`;
  return going?.against === "way.shut"
    ? `${by}: after that the way out is shut, and ${danger}.`
    : `${by}, before nightfall, at the very latest by ${clock.time(dangerMs)}: from then on it is not safe to lie here.`;
}
