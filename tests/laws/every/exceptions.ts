import { patternOf, type Place } from "./hostile.js";

/** A place in the arguments of a function, written as `0.berths.*.shelter`, and why a law is softer there. */
type Softer = Record<string, Record<string, string>>;

const CHART = "a chart as readChart made it";
const PLAN = "a plan as planStay made it";
const COAST = "a coast as prepareCoast made it";
const WATCH = "a watch as startWatch made it";

/**
 * Values that one of our functions has made and the caller hands back whole. In the place of one
 * anything may stand; its insides are not reached into.
 */
export const HANDED_BACK: Softer = {
  "chart.anchoringAt": { "0": CHART },
  "chart.coverageOf": { "0": CHART },
  "chart.depthsIn": { "0": CHART },
  "chart.hazardsIn": { "0": CHART },
  "chart.marksOf": { "0": CHART },
  "chart.seabedNear": { "0": CHART },
  "chart.shoreNear": { "0": CHART },
  "chart.surroundingsOf": { "0": CHART },
  "figure.holdingFigure": { "0": PLAN },
  "figure.stayFigure": { "0": PLAN },
  "figure.rodeFigure": { "0": PLAN },
  "figure.shelterFigure": { "0": PLAN },
  "figure.swingFigure": { "0": PLAN },
  "figure.watchFigure": { "0.reports": "reports as stepWatch gave them" },
  "plan.briefSections": { "0": PLAN },
  "plan.briefText": { "0": PLAN },
  "plan.stayGeoJson": { "0": PLAN },
  "plan.safeUntil": { "0": PLAN },
  "plan.seekBerth": { "0.chart": CHART },
  "plan.wayOut": { "0.chart": CHART },
  "shelter.fetchFan": { "0.coast": COAST },
  "shelter.rankShelter": { "0.coast": COAST, "0.berths.*.shelter": "as shelter gave it" },
  "watch.saveWatch": { "0": WATCH },
  "watch.stepWatch": { "0": WATCH },
};

/** Where the insides of what is handed back are not looked at, so that one that was altered may be answered with anything. */
export const INSIDES_UNREAD: Softer = {
  "watch.stepWatch": {
    "0": "called for every fix: looking at a whole watch would take longer than the step",
  },
};

/** Where only what must be refused is tried: anything else may start workers, which are built, not run from the sources. */
export const STARTS_WORKERS: Softer = {
  "sweep/node.sweepPool": { "1": "without a number of threads it takes as many as there are" },
};

const GEOJSON = "GeoJSON may carry members of its own (RFC 7946, section 6.1)";
const LAYERS = "a chart is read as found; what cannot be used is reported";
const VESSEL = "takes a whole vessel and reads part of it";
const NAMES = "by name of the input: `__proto__` is never looked up";
const ARITHMETIC = "plain arithmetic: what is not a number comes out as none";

/** Where something that is not read may hold anything, or nonsense is answered and not refused. */
export const NOT_REFUSED: Softer = {
  "chart.readChart": { "0": LAYERS },
  "chart.meaningOf": { "1": "a code that is in no list has no meaning: null" },
  "feed.eventFromGeolocation": { "0": "what the host gives, read as found" },
  "feed.eventsFromDelta": { "0": "a message from outside, read as found" },
  "feed.signalKDelta": { "0.report": "takes a whole report and reads part of it" },
  "holding.designLoad": { "0.vessel": VESSEL },
  "holding.sizeAnchor": { "0.vessel": VESSEL },
  "plan.planStay": { "0.chart.layers": LAYERS },
  "shelter.prepareCoast": { "0.coast": GEOJSON },
  "swing.swingClearance": {
    "0": "takes a whole envelope and reads part of it",
    "1.shore.*.geometry": GEOJSON,
  },
};

/** Where a field that is not read is passed over, and the answer is as without it. */
export const PASSED_OVER: Softer = {
  "sweep.describeSweep": { "0.fixed": NAMES },
  "sweep.summariseSweep": { "0.sweep.fixed": NAMES },
  "sweep.sweep": { "0.fixed": NAMES },
  "sweep.sweepText": { "0.fixed": NAMES },
  "sweep/node.sweepPool": { "0.fixed": NAMES },
  "figure.watchFigure": { "0.track.*": "takes whole fixes and reads part of them" },
  "watch.startWatch": { "0.limits": "takes the whole answer of watchLimits and reads part of it" },
};

/** Functions whose typed columns hold NaN where there is no figure, as is said of them. */
export const HOLDS_NAN = ["sweep.sweep", "sweep/node.sweepPool"];

/** Whether a place, or one it lies within, is listed; `inside` leaves out the listed place itself. */
export function listed(softer: Softer, name: string, place: Place, inside = false): boolean {
  const path = patternOf(place);
  return Object.keys(softer[name] ?? {}).some(
    (p) => (!inside && path === p) || path.startsWith(`${p}.`),
  );
}

/** Functions that turn one number into another. */
export const isArithmetic = (name: string): string | null =>
  name.startsWith("core.") && name !== "core.utc" ? ARITHMETIC : null;

/** Functions that write files, and so are not the same twice: tests/unit/sweep-files.test.ts tries them. */
export const WRITES_FILES = ["sweep/node.mergeShards", "sweep/node.runShard"];
