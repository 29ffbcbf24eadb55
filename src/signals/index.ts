export { signalsDue, type SignalsDueInput } from "./due.js";
export { soundEquipment, type SoundEquipment, type SoundEquipmentInput } from "./equipment.js";
export { lightIntensity, type LightIntensity, type LightIntensityInput } from "./intensity.js";
export {
  signalsOver,
  type SignalChange,
  type SignalsOver,
  type SignalsOverInput,
  type SignalsSpan,
} from "./over.js";
export type {
  Choice,
  Exemption,
  LightDue,
  LocalRule,
  ShapeDue,
  SignalsDue,
  SoundDue,
} from "./types.js";
