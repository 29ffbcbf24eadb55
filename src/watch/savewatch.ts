import { refuse } from "../core/errors.js";
import { planeAt } from "../geo/plane.js";
import * as m from "./memory.js";
import { type WatchState, revive } from "./state.js";

const MARK = "hawse-watch-1";
const SIZE = 2 + m.LIMITS_SIZE + m.RING_SIZE + m.OPEN_SIZE;

/**
 * A watch as one line of text, under 8 KiB, to be written down against a crash.
 *
 * The text holds every number to the last bit, with a version and a checksum. *Valid*: any state.
 *
 * @source design of our own; CRC-32 after ISO/IEC 13239, base64 after RFC 4648
 * @example
 * ```ts
 * import { resumeWatch, saveWatch, startWatch } from "hawse/watch";
 * const state = startWatch({
 *   startMs: 0,
 *   anchor: { known: false, near: { latDeg: 50, lonDeg: -4 } },
 *   limits: {
 *     rows: [{ timeMs: 0, greatestDistanceM: 40, leastDepthM: null, greatestDepthM: null }],
 *     distanceSigmaM: 1,
 *   },
 * });
 * const text = saveWatch(state);
 * console.log(text.slice(0, 13), text.length < 8192, resumeWatch(text).report.mode);
 * // hawse-watch-1 true cannotTell
 * ```
 */
export function saveWatch(state: WatchState): string {
  const numbers = [
    state.plane.latDeg,
    state.plane.lonDeg,
    ...state.limits,
    ...state.ring,
    ...state.open,
  ];
  const view = new DataView(new ArrayBuffer(8 * SIZE));
  numbers.forEach((v, i) => {
    view.setFloat64(8 * i, v, true);
  });
  let bytes = "";
  for (let i = 0; i < view.byteLength; i++)
    bytes += String.fromCharCode(view.getUint8(i));
  const body = btoa(bytes);
  return `${MARK} ${checksum(body)} ${body}`;
}

/**
 * The watch from a saved line: it goes on as if it had never stopped.
 *
 * The time in between is a gap like any other. *Valid*: text of `saveWatch` of the same version.
 *
 * @throws InputError when the text is of another version, cut short or altered.
 * @source design of our own
 * @example
 * ```ts
 * import { resumeWatch } from "hawse/watch";
 * try {
 *   resumeWatch("hawse-watch-0 00000000 AAAA");
 * } catch (error) {
 *   console.log((error as Error).message);
 * }
 * // expected a watch saved as hawse-watch-1
 * ```
 */
export function resumeWatch(text: string): WatchState {
  const [mark, sum, body] = text.split(" ");
  if (mark !== MARK)
    refuse("", "invalid_version", `expected a watch saved as ${MARK}`);
  if (body === undefined || sum !== checksum(body))
    refuse("", "invalid_checksum", "the saved watch is cut short or altered");
  const bytes = atob(body);
  if (bytes.length !== 8 * SIZE)
    refuse("", "invalid_length", "the saved watch is not of this layout");
  const view = new DataView(new ArrayBuffer(8 * SIZE));
  for (let i = 0; i < bytes.length; i++) view.setUint8(i, bytes.charCodeAt(i));
  let next = 0;
  const take = (count: number): number[] =>
    Array.from({ length: count }, () => view.getFloat64(8 * next++, true));
  const [latDeg, lonDeg] = take(2);
  const limits = take(m.LIMITS_SIZE);
  const ring = take(m.RING_SIZE);
  const open = take(m.OPEN_SIZE);
  return revive(
    { limits, ring, open },
    planeAt({ latDeg: latDeg!, lonDeg: lonDeg! }),
  );
}

/** CRC-32 of a text of single bytes, eight hexadecimal digits. */
function checksum(text: string): string {
  let crc = -1;
  for (let i = 0; i < text.length; i++) {
    crc ^= text.charCodeAt(i);
    for (let bit = 0; bit < 8; bit++)
      crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (~crc >>> 0).toString(16).padStart(8, "0");
}
