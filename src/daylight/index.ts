export { darkness, type DarkHours, type Darkness } from "./darkness.js";
export {
  nextSunEvent,
  sunEvents,
  type NextSunEvent,
  type NextSunEventInput,
  type SunEvent,
} from "./events.js";
export type { PlaceAndStay } from "./input.js";
export type { SunEventKind } from "./tables.js";
