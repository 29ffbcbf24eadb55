export { destination, distance, type DestinationInput, type DistanceInput } from "./distance.js";
export type { Course } from "./geodesic.js";
export type { Geometry, LonLat } from "./geojson.js";
