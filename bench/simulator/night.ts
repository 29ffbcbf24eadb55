/**
 * One night at anchor: the vessel's motion and what a receiver makes of it. The parameters are
 * assumptions about small craft and the measured scatter of static receivers; the figures that come
 * out are properties of this simulator.
 */
import { type Random, randomFrom } from "./random.js";

/** A drag that begins three hours in, or at `onsetS`. */
export interface Drag {
  /** Mean speed of the anchor. */
  mPerMin: number;
  onsetS?: number;
  /** Wind shift over 15 minutes, the anchor breaking out ten minutes in. */
  shiftDeg?: number;
  /** The anchor moves in hops of so many metres. */
  hopM?: number;
}

/** What kind of night. */
export interface Scenario {
  /** `perfect` tells where the antenna is: what a real receiver's error is laid over. */
  receiver: "good" | "poor" | "obstructed" | "mixed" | "perfect";
  /** Mean wind 9 to 16 m/s instead of the common run. */
  windy?: boolean;
  drag?: Drag;
  hours?: number;
  /** Time constant with which excursions grow and die, s; they leap if left out. */
  rampS?: number;
  /** Correlation time of the receiver's error, s, instead of one drawn for the kind of receiver. */
  tauS?: number;
  /** Yawing to either side in a breeze instead of 8 to 25 degrees. */
  yawDeg?: number;
  /** Time between fixes, s; 5 if left out. */
  stepS?: number;
}

/** A night as it went; x east and y north of where the anchor lay first. */
export interface Night {
  steps: number;
  stepS: number;
  /** Antenna by the receiver; NaN where there is no fix. */
  x: Float64Array;
  y: Float64Array;
  headingDeg: Float64Array;
  windMps: Float64Array;
  windFromDeg: Float64Array;
  /** Doppler speed and course over the ground. */
  sogMps: Float64Array;
  cogDeg: Float64Array;
  /** Metres the anchor has come. */
  draggedM: Float64Array;
  /** Depth of water. */
  depthM: Float64Array;
  /** Spread of one axis the receiver states. */
  statedSigmaM: number;
  /** Recorded place of the anchor, off the true one. */
  setX: number;
  setY: number;
  meanWindMps: number;
}

const RODE_M = 35;
const WEIGHT_N_PER_M = 12;
const ABAFT_M = 9;
const BOW_M = 1;
const DEPTH_M = 6;
const STEP_S = 5;
const TIDE_S = 12.42 * 3600;
/** Time constant of excursions that grow and die instead of leaping, s. */
export const RAMP_S = 20;
/** When drags begin, s. */
export const ONSET_S = 3 * 3600;
/** What the watch is told of the gear. */
export const GEAR = {
  rodeM: RODE_M,
  bowHeightM: BOW_M,
  abaftBowM: ABAFT_M,
} as const;

/** Horizontal reach of the chain under a pull: inextensible catenary, part of it on the bottom. */
function reachOf(pullN: number, heightM: number): number {
  const a = Math.max(1, pullN) / WEIGHT_N_PER_M;
  const s = Math.sqrt(heightM * heightM + 2 * heightM * a);
  if (s >= RODE_M) return Math.sqrt(RODE_M * RODE_M - heightM * heightM);
  return RODE_M - s + a * Math.acosh(1 + heightM / a);
}

interface Weather {
  mean: number;
  from0: number;
  veerPerS: number;
  shiftRad: number;
  shiftAtS: number;
  shiftLastsS: number;
  force: number;
  streamMps: number;
  streamAxis: number;
  streamPhase: number;
  tideM: number;
  tidePhase: number;
}

function weatherOf(r: Random, s: Scenario): Weather {
  const calm = Math.min(15, 1.5 + r.exponential(5));
  const windy = s.windy === true ? r.between(9, 16) : calm;
  const mean = s.drag === undefined ? windy : r.between(7, 16);
  const shifts = r.uniform() < 0.35;
  const size = r.between(1, Math.PI) * (r.uniform() < 0.5 ? -1 : 1);
  const at = r.between(1800, 6.5 * 3600);
  const lasts = r.between(600, 3600);
  const turn = ((s.drag?.shiftDeg ?? 0) * Math.PI) / 180;
  const drags = s.drag !== undefined;
  return {
    mean,
    from0: r.between(0, 2 * Math.PI),
    veerPerS: (r.gauss() * 5 * Math.PI) / 180 / 3600,
    shiftRad: drags ? turn : shifts ? size : 0,
    shiftAtS: drags ? (s.drag?.onsetS ?? ONSET_S) : at,
    shiftLastsS: drags ? 900 : lasts,
    force: r.between(0.8, 1.25),
    streamMps: r.uniform() < 0.5 ? r.between(0.2, 0.8) : 0,
    streamAxis: r.between(0, 2 * Math.PI),
    streamPhase: r.between(0, 2 * Math.PI),
    tideM: r.uniform() < 0.6 ? r.between(0.3, 1.5) : 0,
    tidePhase: r.between(0, 2 * Math.PI),
  };
}

/** Error of a receiver that lies still: wandering, excursions, jumps, gaps and freezes. */
interface Receiver {
  sigma: number;
  tauS: number;
  stated: number;
  excursionEveryS: number;
  excursionM: number;
}

function receiverOf(r: Random, kind: Scenario["receiver"]): Receiver {
  const kindNow = kind === "mixed" ? (r.uniform() < 0.8 ? "good" : "poor") : kind;
  const wobble = Math.exp(0.25 * r.gauss());
  if (kindNow === "good") {
    const sigma = r.between(0.8, 2.2);
    return {
      sigma,
      tauS: r.between(120, 250),
      stated: sigma * wobble,
      excursionEveryS: 6 * 3600,
      excursionM: 6,
    };
  }
  if (kindNow === "poor") {
    const sigma = r.between(2.5, 5);
    return {
      sigma,
      tauS: r.between(100, 200),
      stated: sigma * wobble,
      excursionEveryS: 3600,
      excursionM: 9,
    };
  }
  return {
    sigma: r.between(4, 7),
    tauS: r.between(95, 310),
    stated: 3.5 * wobble,
    excursionEveryS: 1800,
    excursionM: 15,
  };
}

/** One night; the same number and scenario give the same night. */
export function simulateNight(number: number, s: Scenario): Night {
  const r = randomFrom(number * 7919 + 17);
  const weather = weatherOf(r, s);
  const drawn = receiverOf(r, s.receiver);
  const receiver = { ...drawn, tauS: s.tauS ?? drawn.tauS };
  const stepS = s.stepS ?? STEP_S;
  const steps = Math.round(((s.hours ?? 8) * 3600) / stepS);
  const setSigma = Math.sqrt(receiver.sigma * receiver.sigma + 1.5 * 1.5);
  const column = () => new Float64Array(steps);
  const night: Night = {
    steps,
    stepS,
    x: column(),
    y: column(),
    headingDeg: column(),
    windMps: column(),
    windFromDeg: column(),
    sogMps: column(),
    cogDeg: column(),
    draggedM: column(),
    depthM: column(),
    statedSigmaM: receiver.stated,
    setX: setSigma * r.gauss(),
    setY: setSigma * r.gauss(),
    meanWindMps: weather.mean,
  };
  sail(r, weather, s, night);
  if (s.receiver !== "perfect") observe(r, receiver, night, s.rampS ?? 0);
  return night;
}

/** The vessel's true motion, into x and y, and all but the fixes. */
function sail(r: Random, w: Weather, s: Scenario, night: Night): void {
  const stepS = night.stepS;
  const drawnYaw = r.between(8, 25);
  const yawSwing = ((s.yawDeg ?? drawnYaw) * Math.PI) / 180;
  const yawPeriod = r.between(40, 110);
  let yaw = r.between(0, 2 * Math.PI);
  let gust = 0;
  let wander = 0;
  let [ax, ay, dragged, hopDue] = [0, 0, 0, 0];
  let bx = NaN;
  let by = NaN;
  let [px, py] = [NaN, NaN];
  for (let i = 0; i < night.steps; i++) {
    const t = i * stepS;
    gust += (-gust * stepS) / 60 + 0.15 * Math.sqrt((2 * stepS) / 60) * r.gauss();
    const spread = w.mean < 4 ? 0.5 : 0.25;
    wander += (-wander * stepS) / 3600 + spread * Math.sqrt((2 * stepS) / 3600) * r.gauss();
    const done = Math.min(1, Math.max(0, (t - w.shiftAtS) / w.shiftLastsS));
    const from = w.from0 + w.veerPerS * t + w.shiftRad * done + wander;
    const speed = w.mean * Math.max(0.1, 1 + gust);
    const height = DEPTH_M + BOW_M + w.tideM * Math.sin((2 * Math.PI * t) / TIDE_S + w.tidePhase);
    const stream = w.streamMps * Math.sin((2 * Math.PI * t) / TIDE_S + w.streamPhase);
    const windN = 7.35 * speed * speed * w.force;
    const streamN = 180 * stream * Math.abs(stream);
    const fx = -windN * Math.sin(from) + streamN * Math.sin(w.streamAxis);
    const fy = -windN * Math.cos(from) + streamN * Math.cos(w.streamAxis);
    const pull = Math.sqrt(fx * fx + fy * fy);
    const ux = fx / pull;
    const uy = fy / pull;
    const breaks = (s.drag?.onsetS ?? ONSET_S) + (s.drag?.shiftDeg === undefined ? 0 : 600);
    if (s.drag !== undefined && t >= breaks) {
      let move = (s.drag.mPerMin * stepS) / 60;
      if (s.drag.hopM !== undefined) {
        hopDue += r.exponential(move);
        move = hopDue >= s.drag.hopM ? s.drag.hopM : 0;
        hopDue -= move;
      }
      ax += move * ux;
      ay += move * uy;
      // It is the vessel that hauls the anchor along: she goes with it.
      bx += move * ux;
      by += move * uy;
      dragged += move;
    }
    const reach = reachOf(pull, height);
    const ex = ax + reach * ux;
    const ey = ay + reach * uy;
    if (i === 0) [bx, by] = [ex, ey];
    const tau = 90 / Math.min(1, Math.max(0.02, pull / 300));
    const gain = Math.min(1, stepS / tau);
    let mx = gain * (ex - bx);
    let my = gain * (ey - by);
    const step = Math.sqrt(mx * mx + my * my);
    const most = 0.6 * stepS;
    if (step > most) {
      mx *= most / step;
      my *= most / step;
    }
    bx += mx;
    by += my;
    const off = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
    const taut = Math.sqrt(RODE_M * RODE_M - height * height);
    if (off > taut) {
      bx = ax + ((bx - ax) * taut) / off;
      by = ay + ((by - ay) * taut) / off;
    }
    yaw += (2 * Math.PI * stepS) / yawPeriod + 0.15 * Math.sqrt(stepS / 10) * r.gauss();
    const swing = yawSwing * Math.min(1, pull / 400);
    const turn = swing * Math.sin(yaw);
    const c = Math.cos(turn);
    const n = Math.sin(turn);
    const hx = ax + (bx - ax) * c + (by - ay) * n;
    const hy = ay + (by - ay) * c - (bx - ax) * n;
    const heading = Math.atan2(ax - bx, ay - by) + 1.6 * swing * Math.sin(yaw + 1.2);
    const antX = hx - ABAFT_M * Math.sin(heading);
    const antY = hy - ABAFT_M * Math.cos(heading);
    night.x[i] = antX;
    night.y[i] = antY;
    const vx = Number.isNaN(px) ? 0 : (antX - px) / stepS + 0.05 * r.gauss();
    const vy = Number.isNaN(py) ? 0 : (antY - py) / stepS + 0.05 * r.gauss();
    [px, py] = [antX, antY];
    night.sogMps[i] = Math.sqrt(vx * vx + vy * vy);
    night.cogDeg[i] = degrees(Math.atan2(vx, vy));
    night.headingDeg[i] = degrees(heading);
    night.windMps[i] = speed;
    night.windFromDeg[i] = degrees(from);
    night.draggedM[i] = dragged;
    night.depthM[i] = height - BOW_M;
  }
}

const degrees = (rad: number): number => ((((rad * 180) / Math.PI) % 360) + 360) % 360;

/** Lay the receiver's error over the true track. */
function observe(r: Random, g: Receiver, night: Night, rampS: number): void {
  const stepS = night.stepS;
  const keep = Math.exp(-stepS / g.tauS);
  const fresh = g.sigma * Math.sqrt(1 - keep * keep);
  let ex = g.sigma * r.gauss();
  let ey = g.sigma * r.gauss();
  let excursionEnd = -1;
  let [excX, excY] = [0, 0];
  let [nowX, nowY] = [0, 0];
  const follow = rampS > 0 ? -Math.expm1(-stepS / rampS) : 1;
  let gapEnd = -1;
  let frozenEnd = -1;
  let jumpLeft = 0;
  let [jumpX, jumpY] = [0, 0];
  let [heldX, heldY] = [0, 0];
  const happens = (everyS: number) => r.uniform() < stepS / everyS;
  for (let i = 0; i < night.steps; i++) {
    const t = i * stepS;
    ex = keep * ex + fresh * r.gauss();
    ey = keep * ey + fresh * r.gauss();
    if (happens(g.excursionEveryS)) {
      excursionEnd = t + r.between(20, 150);
      const size = r.exponential(g.excursionM);
      const way = r.between(0, 2 * Math.PI);
      [excX, excY] = [size * Math.sin(way), size * Math.cos(way)];
    }
    if (happens(4 * 3600)) {
      jumpLeft = r.uniform() < 0.5 ? 1 : 2;
      const size = 20 + r.exponential(80);
      const way = r.between(0, 2 * Math.PI);
      [jumpX, jumpY] = [size * Math.sin(way), size * Math.cos(way)];
    }
    if (happens(2 * 3600)) gapEnd = t + 30 + r.exponential(150);
    if (happens(8 * 3600)) {
      frozenEnd = t + r.between(60, 300);
      heldX = night.x[Math.max(0, i - 1)]!;
      heldY = night.y[Math.max(0, i - 1)]!;
    }
    const out = t < excursionEnd;
    nowX += follow * ((out ? excX : 0) - nowX);
    nowY += follow * ((out ? excY : 0) - nowY);
    let x = night.x[i]! + ex + nowX + 0.05 * r.gauss();
    let y = night.y[i]! + ey + nowY + 0.05 * r.gauss();
    if (jumpLeft > 0) {
      x += jumpX;
      y += jumpY;
      jumpLeft--;
    }
    if (t < frozenEnd) [x, y] = [heldX, heldY];
    night.x[i] = t < gapEnd ? NaN : x;
    night.y[i] = t < gapEnd ? NaN : y;
  }
}
