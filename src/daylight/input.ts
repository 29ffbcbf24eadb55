import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { interval, position } from "../core/schema.js";

/** A place and a span of time. */
export const placeAndStay = z.strictObject({
  /** Where the vessel lies. */
  position,
  /** The stay. */
  stay: interval,
});
/** A place and a span of time. */
export type PlaceAndStay = Given<typeof placeAndStay>;
