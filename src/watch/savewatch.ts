import { refuse } from "../core/errors.js";
import { planeAt } from "../geo/plane.js";
import { LIMITS_SIZE, OPEN_SIZE, RING_SIZE, Slot as m } from "./memory.js";
import { asWatch, type WatchState, stateOf } from "./state.js";
import { BLOCKS, BLOCK_MS } from "./tables.js";

const MARK = "hawse-watch-3";
/** Instants of the blocks follow from the newest and from which there are, one bit each. */
const SIZE = 6 + LIMITS_SIZE + (RING_SIZE - BLOCKS) + OPEN_SIZE + m.RECEIVER;

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
 * // hawse-watch-3 true cannotTell
 * ```
 */
export function saveWatch(state: WatchState): string {
  asWatch(state);
  const numbers = [
    state.plane.latDeg,
    state.plane.lonDeg,
    ...heldBlocks(state.ring),
    ...state.limits,
    ...state.ring.slice(BLOCKS),
    ...state.open,
    ...state.said,
  ];
  const view = new DataView(new ArrayBuffer(8 * SIZE));
  numbers.forEach((v, i) => {
    view.setFloat64(8 * i, v, true);
  });
  const body = lettersOf(new Uint8Array(view.buffer));
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
 * // expected a watch saved as hawse-watch-3
 * ```
 */
export function resumeWatch(text: string): WatchState {
  const [mark, sum, body, more] = typeof (text as unknown) === "string" ? text.split(" ") : [];
  if (mark !== MARK) refuse("", "invalid_version", `expected a watch saved as ${MARK}`);
  if (body === undefined || more !== undefined || sum !== checksum(body))
    refuse("", "invalid_checksum", "the saved watch is cut short or altered");
  const bytes = bytesOf(body);
  if (bytes?.length !== 8 * SIZE)
    refuse("", "invalid_length", "the saved watch is not of this layout");
  const view = new DataView(bytes.buffer);
  let next = 0;
  const take = (count: number): number[] =>
    Array.from({ length: count }, () => view.getFloat64(8 * next++, true));
  const [latDeg, lonDeg] = take(2);
  const instants = blockInstants(take(4));
  const limits = take(LIMITS_SIZE);
  const ring = [...instants, ...take(RING_SIZE - BLOCKS)];
  const open = take(OPEN_SIZE);
  const said = take(m.RECEIVER);
  const plane = planeAt({ latDeg: latDeg!, lonDeg: lonDeg! });
  return stateOf({ limits, ring, open }, plane, said);
}

const HALF = BLOCKS / 2;

/** Newest instant, its place, and which blocks stand where they should behind it; older ones are of no more use. */
function heldBlocks(ring: readonly number[]): number[] {
  let at = 0;
  for (let i = 1; i < BLOCKS; i++) if (ring[i]! > ring[at]!) at = i;
  const bits = [0, 0];
  for (let back = 0; back < BLOCKS; back++)
    if (ring[(at + BLOCKS - back) % BLOCKS] === ring[at]! - back * BLOCK_MS)
      bits[back < HALF ? 0 : 1]! |= 1 << (back % HALF);
  return [ring[at]!, at, ...bits];
}

/** The instants that {@link heldBlocks} stands for. */
function blockInstants(held: number[]): number[] {
  const [newest, at, ...bits] = held;
  const out = new Array<number>(BLOCKS).fill(0);
  for (let back = 0; back < BLOCKS; back++)
    if ((bits[back < HALF ? 0 : 1]! & (1 << (back % HALF))) !== 0)
      out[(at! + BLOCKS - back) % BLOCKS] = newest! - back * BLOCK_MS;
  return out;
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** Bytes as base64. Not every engine has `btoa`. */
function lettersOf(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    for (let k = 0; k < 4; k++)
      text += i + k > bytes.length ? "=" : LETTERS[(three >> (18 - 6 * k)) & 63]!;
  }
  return text;
}

/** The bytes of base64; nothing where a letter does not belong. */
function bytesOf(text: string): Uint8Array<ArrayBuffer> | undefined {
  const letters = text.replace(/={1,2}$/, "");
  const bytes = new Uint8Array((letters.length * 3) >> 2);
  let held = 0;
  for (let i = 0; i < letters.length; i++) {
    const six = LETTERS.indexOf(letters[i]!);
    if (six < 0) return undefined;
    held = ((held << 6) | six) & 0xffffff;
    if (i % 4 > 0) bytes[(i * 3) >> 2] = (held >> (6 - 2 * (i % 4))) & 255;
  }
  return bytes;
}

/** CRC-32 of a text of single bytes, eight hexadecimal digits. */
function checksum(text: string): string {
  let crc = -1;
  for (let i = 0; i < text.length; i++) {
    crc ^= text.charCodeAt(i);
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (~crc >>> 0).toString(16).padStart(8, "0");
}
