import * as z from "zod/mini";
import { instant, interval, metres, plain, position } from "../core/schema.js";

const known = z.nullable(plain());
const when = z.nullable(instant());
const column = z.array(known);
const verdict = z.enum(["suitable", "withCare", "unsuitable", "cannotTell"]);

const reason = z.looseObject({
  code: z.string(),
  severity: z.enum(["note", "caution", "warning", "stop"]),
  value: z.nullable(z.union([plain(), z.string()])),
  limit: z.nullable(z.union([plain(), z.string()])),
  basis: z.string(),
});

const limiting = z.looseObject({
  atMs: when,
  value: known,
  limit: known,
  of: z.nullable(z.string()),
});

const moments = z.looseObject({
  timeMs: z.array(instant()),
  depthM: column,
  underKeelLeastM: column,
  windMps: column,
  windFromDeg: column,
  gustMps: column,
  streamMps: column,
  streamTowardsDeg: column,
  gustPullN: column,
  headingDeg: column,
  gustReachM: column,
  holdingMargin: column,
  roomM: column,
  waveHeightM: column,
  dark: z.array(z.nullable(z.boolean())),
});

const wayOut = z.looseObject({
  version: z.literal(1),
  lengthM: metres({ above: 0 }),
  meant: z.looseObject({
    departMs: instant(),
    state: z.enum(["open", "shut", "unknown"]),
    underKeelLeastM: known,
    light: z.enum(["day", "twilight", "night"]),
  }),
  shut: z.array(interval),
  open: z.array(interval),
  unknownHours: z.array(interval),
  unknown: z.array(z.string()),
});

/** The parts of a plan that a host builds on; further fields stand beside them. */
export const STAY_PLAN = z.looseObject({
  version: z.literal(1),
  name: z.nullable(z.string()),
  position,
  stay: interval,
  zoneOffsetMinutes: plain(),
  verdict,
  reasons: z.array(reason),
  danger: z.looseObject({
    atMs: when,
    code: z.nullable(z.string()),
    of: z.nullable(z.string()),
    known: z.boolean(),
  }),
  unknown: z.array(z.string()),
  moments,
  limiting: z.looseObject({
    depth: limiting,
    room: limiting,
    holding: limiting,
    shelter: limiting,
  }),
  rode: z.looseObject({
    lengthOutM: metres(),
    toVeerM: metres({ min: 0 }),
    byRuleM: metres({ min: 0 }),
    forPullM: known,
    aboardM: metres({ min: 0 }),
    enough: z.boolean(),
    firstLengthM: known,
  }),
  room: z.looseObject({ anchor: position, radiusM: metres(), envelope: z.array(position) }),
  checks: z.array(z.looseObject({ timeMs: instant() })),
  wayOut: z.nullable(wayOut),
  cautions: z.array(z.string()),
  assumed: z.array(z.string()),
  basis: z.array(z.string()),
});
