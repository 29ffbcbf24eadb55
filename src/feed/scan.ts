/** A sentence found in a text, its fields by their places. One is made for a text and filled again and again. */
export interface Sentence {
  /** The text it stands in. */
  text: string;
  /** Place of the first character of each field; field 0 is the address. The entry after the last is one past the star. */
  at: number[];
  /** Number of fields, the address included. */
  count: number;
  /** Fields refused so far. */
  faults: number;
}

/** How a scan ended: a sentence, one with a wrong checksum, something else that began like one, or the end of the text. */
export type Found = "sentence" | "badChecksum" | "malformed" | "end";

/** Where a scan stands. */
export interface Scan {
  /** Next character to look at. */
  next: number;
  /** Start of a sentence that the text breaks off in, when the text ends; else its length. */
  open: number;
}

/** Longest sentence read. The standard allows 82; senders exceed it, and a sentence without end must not grow for ever. */
export const LONGEST = 512;
/** Most fields of a sentence; anything longer is refused. */
const MOST_FIELDS = 64;

const DOLLAR = 36;
const BANG = 33;
const STAR = 42;
const COMMA = 44;

/** A sentence to be filled. */
export const blankSentence = (text: string): Sentence => ({
  text,
  at: [],
  count: 0,
  faults: 0,
});

/** Value of a hexadecimal digit, or NaN. */
function hex(code: number): number {
  if (code >= 48 && code <= 57) return code - 48;
  if (code >= 65 && code <= 70) return code - 55;
  if (code >= 97 && code <= 102) return code - 87;
  return NaN;
}

/**
 * The next sentence of the text from `scan.next` on: from a dollar sign to a star and two
 * hexadecimal digits, whose value is the exclusive or of all between. A dollar sign or the end of
 * the line inside breaks the sentence off and, in the first case, begins another.
 */
export function nextSentence(s: Sentence, scan: Scan): Found {
  const { text, at } = s;
  const end = text.length;
  let i = scan.next;
  while (i < end && text.charCodeAt(i) !== DOLLAR) i++;
  const start = i + 1;
  scan.open = i;
  let count = 0;
  let sum = 0;
  at[0] = start;
  for (i = start; i < end; i++) {
    const c = text.charCodeAt(i);
    if (c === STAR) {
      // Both digits must have come: else the sentence is still open.
      if (i + 2 >= end) break;
      at[count + 1] = i + 1;
      s.count = count + 1;
      s.faults = 0;
      scan.next = i + 3;
      const given = 16 * hex(text.charCodeAt(i + 1)) + hex(text.charCodeAt(i + 2));
      if (Number.isNaN(given)) return refuseAt(scan, i + 1);
      return given === sum ? "sentence" : "badChecksum";
    }
    if (c === DOLLAR || c === BANG || c < 32 || c > 126 || i - start > LONGEST)
      return refuseAt(scan, i);
    sum ^= c;
    if (c === COMMA) {
      if (++count > MOST_FIELDS) return refuseAt(scan, i);
      at[count] = i + 1;
    }
  }
  if (end - scan.open > LONGEST) scan.open = end;
  return "end";
}

function refuseAt(scan: Scan, next: number): Found {
  scan.next = next;
  return "malformed";
}
