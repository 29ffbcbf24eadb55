import type { Chart } from "../chart/chart.js";
import type { Position } from "../core/schema.js";
import { planeAt, toPlane } from "../geo/plane.js";
import type { Room } from "../swing/kernel.js";
import { depthOver, type DepthOverStay } from "../tide/depth.js";
import { lieOverStay, type LieColumnsOfStay } from "./columns.js";
import { preparedOut } from "./gear.js";
import { gripOf, type Grip } from "./grip.js";
import {
  anchorDepth,
  bedOf,
  chartOf,
  depthErrorOf,
  groundOf,
  type AnchorDepth,
  type BedFound,
  type Ground,
} from "./ground.js";
import type { CheckedStay } from "./input.js";
import { layPulls, prepareBody, type Body } from "./lying.js";
import { featureSeen, shoreSeen, type Charted } from "./chartRoom.js";
import { marginToCharted, type Margin } from "./margins.js";
import { layNeighbours, marginBetween, roomOf, type NeighbourLie } from "./neighbours.js";
import { sceneOf, type Scene } from "./scene.js";
import { seaOf, type SeaOfStay } from "./sea.js";
import { rodePlan, type RodePlan } from "./veer.js";

/** Everything a judgement of a stay rests on, worked out once. NaN where not known. */
export interface Study {
  input: CheckedStay;
  scene: Scene;
  chart: Chart | null;
  anchorDepth: AnchorDepth;
  bed: BedFound;
  grip: Grip | null;
  rode: RodePlan;
  body: Body;
  lie: LieColumnsOfStay;
  room: Room;
  /** Greatest distance from the anchor to any part of the vessel, the error of its place included. */
  radiusM: number;
  ground: Ground;
  depth: DepthOverStay | null;
  /** Least water under the keel: likely at the anchor, and at the worst anywhere she may swing. */
  underKeelM: Float64Array;
  underKeelLeastM: Float64Array;
  neighbours: { lie: NeighbourLie; margin: Margin }[] | null;
  shore: Margin | null;
  hazards: {
    id: string;
    /** What is charted of it, as seen from the anchor. */
    charted: Charted;
    kind: string;
    name: string;
    position: Position;
    margin: Margin;
    depthM: number | null;
    fouls: boolean;
    /** Error of its charted position that counts. */
    errorM: number;
    /** How far it lies outside the swing; 0 within. */
    distanceM: number;
    /** How far its nearest part lies from the anchor; 0 where the anchor lies in it. */
    fromAnchorM: number;
    passable: boolean;
    /** Whether it is charted within the swing itself, not only within the error of its charted place. */
    within: boolean;
  }[];
  sea: SeaOfStay;
}

const greatest = (values: Float64Array): number =>
  values.reduce((a, b) => (b > a || Number.isNaN(b) ? b : a), -Infinity);

function depthOfStay(input: CheckedStay, scene: Scene, at: AnchorDepth): DepthOverStay | null {
  if (input.tide === undefined || Number.isNaN(at.chartedM)) return null;
  return depthOver({
    tide: input.tide,
    stay: input.stay,
    chartedDepthM: at.chartedM,
    surgeM: scene.surgeM,
    limitM: scene.vessel.draughtM + input.limits.underKeelM,
  });
}

/** Rode to veer, from the pulls the weather makes: they do not hang on the rode. */
function rodeOf(input: CheckedStay, scene: Scene, at: AnchorDepth): RodePlan {
  const { vessel, timeMs } = scene;
  const body = prepareBody(vessel, preparedOut(input.tackle, Infinity));
  const { gustPullN } = lieOverStay(scene, body, at.chartedM, layPulls);
  const heightM = scene.tideHighM.map((t) => at.deepM + t + vessel.bowHeightM);
  const deepestM = greatest(scene.tideHighM) + at.deepM;
  const firstM = at.chartedM + scene.tideM[0]!;
  return rodePlan(input, vessel.bowHeightM, deepestM, Number.isNaN(firstM) ? null : firstM, {
    timeMs,
    heightM,
    pullN: gustPullN,
  });
}

/** Least charted depth anywhere the hull may come, its error taken off; as given where there is no chart. */
export function leastGround(at: AnchorDepth, ground: Ground): number {
  const { depths } = ground;
  if (depths === null) return at.chartedM;
  const charted = (depths.leastM ?? NaN) - depthErrorOf(depths);
  return Number.isNaN(charted) ? NaN : Math.min(charted, at.chartedM);
}

function hazardsOf(
  { position }: CheckedStay,
  chart: Chart | null,
  ground: Ground,
  room: Room,
  start: Int32Array,
): Study["hazards"] {
  if (chart === null) return [];
  const plane = planeAt(position);
  const xy = new Float64Array(2);
  return (ground.hazards?.hazards ?? []).map((h) => {
    toPlane(plane, h.position.latDeg, h.position.lonDeg, xy, 0);
    const charted = featureSeen(chart, position, h.feature.index);
    return {
      id: h.feature.id,
      charted,
      kind: h.kind,
      name: h.feature.objectName ?? h.feature.className,
      position: h.position,
      margin: marginToCharted(charted, room, start),
      depthM: h.treatAsM,
      fouls: h.fouls,
      errorM: h.positionErrorM,
      distanceM: h.distanceM,
      fromAnchorM: Math.sqrt(xy[0]! * xy[0]! + xy[1]! * xy[1]!),
      passable: h.passable !== false,
      within: h.within,
    };
  });
}

/** How she lies with the rode that is to be out. */
export function layOf(input: CheckedStay, scene: Scene, at: AnchorDepth) {
  const rode = rodeOf(input, scene, at);
  const body = prepareBody(scene.vessel, preparedOut(input.tackle, rode.lengthOutM));
  const lie = lieOverStay(scene, body, at.chartedM);
  const room = roomOf(body, lie, 0, 0, input.positionErrorM);
  // Where a moment is not known she may lie anywhere the whole rode lets her.
  const reach = greatest(lie.gustReachM);
  const radiusM =
    (Number.isFinite(reach) ? reach : rode.lengthOutM) + body.hull.farthestM + input.positionErrorM;
  return { rode, body, lie, room, radiusM };
}

function neighboursOf(input: CheckedStay, scene: Scene, at: AnchorDepth, room: Room) {
  if (input.neighbours === undefined) return null;
  const deepestM = greatest(scene.tideHighM) + at.deepM;
  return layNeighbours(input, scene, at.chartedM, deepestM).map((lie) => ({
    lie,
    margin: marginBetween(room, lie.room, lie.columns.fan.start),
  }));
}

/** Study a stay: every quantity at every moment. The chart is read unless it has been already. */
export function studyOf(input: CheckedStay, chart: Chart | null = chartOf(input)): Study {
  const scene = sceneOf(input);
  const at = anchorDepth(input, chart);
  const bed = bedOf(input, chart);
  const laid = layOf(input, scene, at);
  const ground = groundOf(input, chart, laid.radiusM);
  const least = leastGround(at, ground);
  const { draughtM } = scene.vessel;
  const { start } = laid.lie.fan;
  const { anchor, provedN } = input.tackle;
  return {
    input,
    scene,
    chart,
    anchorDepth: at,
    bed,
    grip: bed.beds.length > 0 ? gripOf(anchor, bed, provedN) : null,
    ...laid,
    ground,
    depth: depthOfStay(input, scene, at),
    underKeelM: scene.tideM.map((t) => at.chartedM + t - draughtM),
    underKeelLeastM: scene.tideLowM.map((t) => least + t - draughtM),
    neighbours: neighboursOf(input, scene, at, laid.room),
    shore:
      chart === null ? null : marginToCharted(shoreSeen(chart, input.position), laid.room, start),
    hazards: hazardsOf(input, chart, ground, laid.room, start),
    sea: seaOf(input, scene, laid.lie, at.chartedM + scene.tideM[0]!),
  };
}
