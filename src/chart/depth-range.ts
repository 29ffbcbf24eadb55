import type { Metres } from "../core/units.js";
import { numberOf, textOf, type Attributes } from "./attributes.js";
import type { SoundingDatum } from "./chart.js";

/**
 * Shoal and deep bound of an area of depth (DRVAL1, DRVAL2); null where not charted. Bounds the wrong way round
 * contradict each other: the lesser counts as the shoal one, and the deep one is not known.
 */
export function depthRange(attributes: Attributes): [Metres | null, Metres | null] {
  const [first, second] = [numberOf(attributes["DRVAL1"]), numberOf(attributes["DRVAL2"])];
  return first !== null && second !== null && second < first ? [second, null] : [first, second];
}

/**
 * Whether an object states a datum of its own (VERDAT) for its depth that is not the one in use. Beside a HEIGHT it may
 * be that of the height, and 0 is no code: neither says anything of the depth.
 */
export function statesOtherDatum(attributes: Attributes, { code }: SoundingDatum): boolean {
  const stated = textOf(attributes["VERDAT"]);
  if (stated === null || numberOf(attributes["HEIGHT"]) !== null) return false;
  const own = numberOf(stated);
  return own !== 0 && own !== code;
}
