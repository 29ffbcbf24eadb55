import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { metres } from "../core/schema.js";
import type { WatchEvent } from "../watch/events.js";
import { instantOfText } from "./instant.js";

const input = z.strictObject({
  /** A GPX 1.1 document. */
  text: z.string(),
  /** Range error of one satellite, as in `readNmea0183`; 4 m unless given. */
  rangeErrorM: z._default(metres({ above: 0, max: 100 }), 4),
});
/** Input of {@link eventsFromGpx}. */
export type EventsFromGpxInput = Given<typeof input>;

/** What a track held. */
export interface GpxRead {
  /** One fix a track point, in the order of the document. */
  events: WatchEvent[];
  /** Track points left out: without time or position, or marked as no fix. */
  refused: number;
}

/** A track point as far as it has been read. */
interface Point {
  latDeg: number;
  lonDeg: number;
  timeMs: number;
  hdop: number;
  isFix: boolean;
  /** Prefix of its namespace, the colon with it; empty where it has none. */
  prefix: string;
  /** Whether what is being read is an extension of it. */
  isExtended: boolean;
}

/**
 * Watch events from the track points of a GPX document.
 *
 * Time, position, and the spread from the dilution of precision where it is given; speed and course are no
 * part of GPX 1.1. Points without time, or whose fix is `none`, are left out and counted. Reads tags only, in one
 * pass: no entities, no schema, no extensions.
 *
 * *Valid*: GPX 1.0 and 1.1, with a namespace prefix or without. *Accuracy*: text to number without loss.
 * @throws InputError for what is not a text.
 * @source GPX 1.1 schema (from memory)
 * @example
 * ```ts
 * import { eventsFromGpx } from "hawse/feed";
 *
 * const { events } = eventsFromGpx({
 *   text: '<trkpt lat="50.1" lon="-5.2"><time>2026-06-01T08:00:00Z</time><hdop>1.0</hdop></trkpt>',
 * });
 * console.log(events.length, events[0]?.timeMs);
 * // 1 1780300800000
 * ```
 */
export function eventsFromGpx(given: EventsFromGpxInput): GpxRead {
  const { text, rangeErrorM } = check(input, given);
  const out: GpxRead = { events: [], refused: 0 };
  let point: Point | null = null;
  const end = () => {
    if (point) add(out, point, rangeErrorM);
    point = null;
  };
  for (let i = text.indexOf("<"); i >= 0; i = text.indexOf("<", i)) {
    if (text.startsWith("<!--", i)) i = after(text, "-->", i + 4);
    else if (text.startsWith("<![CDATA[", i)) i = after(text, "]]>", i);
    else {
      const close = after(text, ">", i);
      const tag = text.slice(i + 1, Math.min(close - 1, i + LONGEST_TAG));
      const begun = /^([\w.-]{1,40}:)?trkpt\s/.exec(tag);
      if (begun) {
        end();
        point = pointOf(tag, begun[1] ?? "");
        if (tag.endsWith("/")) end();
      } else if (point) {
        const name = nameOf(tag, point.prefix);
        if (name === "/trkpt") end();
        else read(point, name, text, close);
      }
      i = close;
    }
  }
  end();
  return out;
}

/** Longest tag looked into. */
const LONGEST_TAG = 400;
/** Longest text of a time or a number. */
const LONGEST_TEXT = 40;

/** Place just after a mark, or the end of the text. */
function after(text: string, mark: string, from: number): number {
  const at = text.indexOf(mark, from);
  return at < 0 ? text.length : at + mark.length;
}

/** A plain decimal, or NaN. */
const numberOf = (text: string | undefined): number =>
  text !== undefined && /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : NaN;

/** Name of a tag, a closing one with its stroke, less the prefix; with that of another namespace it is none that is read. */
function nameOf(tag: string, prefix: string): string {
  const [, stroke, name] = /^(\/?)([^\s/]*)/.exec(tag)!;
  // What an empty element would hold is not there to be read.
  if (tag.endsWith("/") || !name!.startsWith(prefix)) return "";
  return stroke! + name!.slice(prefix.length);
}

const pointOf = (tag: string, prefix: string): Point => ({
  latDeg: numberOf(/\slat\s*=\s*["']([^"']{1,30})["']/.exec(tag)?.[1]),
  lonDeg: numberOf(/\slon\s*=\s*["']([^"']{1,30})["']/.exec(tag)?.[1]),
  timeMs: NaN,
  hdop: NaN,
  isFix: true,
  prefix,
  isExtended: false,
});

/** Take the text after the tag of an element, up to the next. */
function read(point: Point, tag: string, text: string, from: number): void {
  if (tag === "extensions" || tag === "/extensions") point.isExtended = tag === "extensions";
  if (point.isExtended || (tag !== "time" && tag !== "hdop" && tag !== "fix")) return;
  const piece = text
    .slice(from, from + LONGEST_TEXT)
    .split("<", 1)[0]!
    .trim();
  if (tag === "time") point.timeMs = instantOfText(piece);
  else if (tag === "hdop") point.hdop = numberOf(piece);
  else point.isFix = piece !== "none";
}

function add(out: GpxRead, p: Point, rangeErrorM: number): void {
  const placed = Math.abs(p.latDeg) <= 90 && Math.abs(p.lonDeg) <= 180;
  if (!placed || Number.isNaN(p.timeMs) || !p.isFix) {
    out.refused++;
    return;
  }
  const sigmaM = (p.hdop * rangeErrorM) / Math.SQRT2;
  out.events.push({
    kind: "fix",
    timeMs: p.timeMs,
    latDeg: p.latDeg,
    lonDeg: p.lonDeg,
    ...(sigmaM > 0 && sigmaM <= 1000 && { sigmaM }),
  });
}
