export {
  darkness,
  type DarkHours,
  type Darkness,
  type DarknessInput,
} from "./darkness.js";
export {
  nextSunEvent,
  sunEvents,
  type NextSunEvent,
  type NextSunEventInput,
  type SunEvent,
  type SunEventsInput,
} from "./events.js";
export type { SunEventKind } from "./tables.js";
