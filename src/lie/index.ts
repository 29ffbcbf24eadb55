export { balancingWind } from "./balance.js";
export { lie, type Lie, type LieCaution, type LiesTo } from "./lie.js";
export { streamLoad, type StreamLoad } from "./stream.js";
export { vesselFrom, type Vessel, type VesselKind, type VesselSketch } from "./vessel.js";
export { waveLoad, type WaveLoad } from "./wave.js";
export { gusts, windAtHeight, windLoad, type Gusts, type WindLoad } from "./wind.js";
