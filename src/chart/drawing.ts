import type { Chart, Primitive } from "./chart.js";

/** Shape of a feature in positions. */
export interface Drawing {
  /** Whether it is points, lines or an area. */
  primitive: Primitive;
  /** Paths of [longitude, latitude]: lone points, lines, or closed rings with their holes (even-odd). */
  paths: [lonDeg: number, latDeg: number][][];
}

/** Shape of a feature in positions. */
export function drawingOf(chart: Chart, index: number): Drawing {
  const { starts } = chart.trees[index]!;
  const paths: Drawing["paths"] = [];
  for (let p = 0; p + 1 < starts.length; p++) {
    const path: Drawing["paths"][number] = [];
    for (let v = starts[p]!; v < starts[p + 1]!; v++)
      path.push([chart.lonLat[2 * v]!, chart.lonLat[2 * v + 1]!]);
    paths.push(path);
  }
  return { primitive: chart.features[index]!.primitive, paths };
}
