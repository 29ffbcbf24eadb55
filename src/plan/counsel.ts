import type { Interval } from "../core/judgement.js";
import { adviceOf, type Advice } from "./advice.js";
import { doubtOf, type Doubt } from "./doubt.js";
import type { Judgement } from "./judge.js";
import type { Study } from "./study.js";
import { tippingOf, type Tipping } from "./tipping.js";

/** What lies behind a verdict, and what can be done about it. */
export interface Counsel {
  /** The stay run through with all that is uncertain drawn; null where `draws` is not given. */
  doubt: Doubt | null;
  /** What would change the answer, limit by limit. */
  tipping: Tipping[];
  /** What can be done, with figures. */
  advice: Advice[];
}

/** Doubt, tipping points and advice of a stay. */
export function counselOf(
  s: Study,
  judgement: Judgement,
  dark: readonly Interval[],
  shut: readonly Interval[],
): Counsel {
  const tipping = tippingOf(s);
  return { doubt: doubtOf(s), tipping, advice: adviceOf(s, judgement, tipping, dark, shut) };
}
