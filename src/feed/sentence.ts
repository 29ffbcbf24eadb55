import * as z from "zod/mini";
import { check } from "../core/check.js";
import { decodeSentence } from "./decode.js";
import type { Nmea0183Content } from "./reading.js";
import { blankSentence, nextSentence } from "./scan.js";

const input = z.string();

/** One line of NMEA 0183, read. */
export interface Nmea0183Line {
  /** Two characters of the sender, such as GP; any will do. Null where the address is not of five characters. */
  talker: string | null;
  /** Three letters of the sentence, such as RMC; null as the talker. */
  type: string | null;
  /** Exclusive or of the characters between dollar sign and star, two hexadecimal digits; null without these. */
  checksumComputed: string | null;
  /** Whether the line states this checksum. */
  checksumOk: boolean;
  /** Whether anything in the line may be used: right checksum, sound frame, a type that is read, at least one value. */
  usable: boolean;
  /** Fields refused: not of the grammar, out of range, or with the letter of another unit. */
  faults: number;
  /** What the line says; null for a type not read, a wrong checksum or a broken frame. */
  content: Nmea0183Content | null;
}

/**
 * Read one line of NMEA 0183 field by field.
 *
 * A right checksum proves transport, not truth: every field is held against its grammar and range,
 * and dropped singly; an empty field is unknown, never nil. Talkers are not looked at. Positions
 * of a receiver that does not vouch for them (status V, quality 0, 6, 7 or 8) are left out.
 *
 * *Valid*: GGA, RMC, GLL, VTG, DBT, DPT, MWV, MWD, HDT, HDG, VHW, RPM, XDR, ZDA.
 * *Accuracy*: text to number without loss.
 * @throws InputError for what is not a text; a line of any length or content is read or left.
 * @source gpsd documentation, "NMEA Revealed" (NMEA.adoc)
 * @example
 * ```ts
 * import { readNmea0183Line } from "hawse/feed";
 *
 * const line = readNmea0183Line("$SDDBT,7.7,f,2.3,M,1.3,F*05");
 * console.log(line.checksumOk, line.content);
 * // true { type: 'DBT', depthBelowTransducerM: 2.3, offsetM: null }
 * ```
 */
export function readNmea0183Line(line: string): Nmea0183Line {
  const text = check(input, line);
  const sentence = blankSentence(text);
  const start = text.indexOf("$");
  const star = text.indexOf("*", start);
  const framed = start >= 0 && star > start;
  const checksumComputed = framed ? checksum(text, start + 1, star) : null;
  const stated = text.slice(star + 1, star + 3).toUpperCase();
  const checksumOk = framed && stated === checksumComputed;
  const found = nextSentence(sentence, { next: 0, open: 0 });
  const content = found === "sentence" ? decodeSentence(sentence) : null;
  const address = framed ? /^\$(\w\w)(\w\w\w)[,*]/.exec(text.slice(start)) : null;
  return {
    talker: address?.[1] ?? null,
    type: address?.[2] ?? null,
    checksumComputed,
    checksumOk,
    usable: content !== null && saysSomething(content),
    faults: sentence.faults,
    content,
  };
}

function checksum(text: string, from: number, to: number): string {
  let sum = 0;
  for (let i = from; i < to; i++) sum ^= text.charCodeAt(i);
  return (sum & 0xff).toString(16).toUpperCase().padStart(2, "0");
}

/** Whether any value but a flag or a label is known. */
function saysSomething(content: Nmea0183Content): boolean {
  if (content.type === "XDR") return content.transducers.length > 0;
  return Object.values(content).some((v) => typeof v === "number");
}
