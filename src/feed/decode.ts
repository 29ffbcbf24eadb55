import { dbt, dpt, hdg, hdt, mwd, mwv, rpm, vhw, vtg, xdr, zda } from "./instruments.js";
import { gga, gll, rmc } from "./positions.js";
import type { Nmea0183Content } from "./reading.js";
import type { Sentence } from "./scan.js";

/** Number made of three letters, to choose a decoder without cutting the text. */
const code = (a: number, b: number, c: number): number => (a << 16) | (b << 8) | c;
const codeOf = (type: string): number =>
  code(type.charCodeAt(0), type.charCodeAt(1), type.charCodeAt(2));

const DECODERS = new Map<number, (s: Sentence) => Nmea0183Content>(
  Object.entries({
    GGA: gga,
    RMC: rmc,
    GLL: gll,
    VTG: vtg,
    DBT: dbt,
    DPT: dpt,
    MWV: mwv,
    MWD: mwd,
    HDT: hdt,
    HDG: hdg,
    VHW: vhw,
    RPM: rpm,
    ZDA: zda,
    XDR: xdr,
  }).map(([type, decoder]) => [codeOf(type), decoder]),
);

const PROPRIETARY = 80;

/** What a sentence says; null for a type not read. Any two-character talker will do. */
export function decodeSentence(s: Sentence): Nmea0183Content | null {
  const from = s.at[0]!;
  if (s.at[1]! - 1 - from !== 5) return null;
  const { text } = s;
  if (text.charCodeAt(from) === PROPRIETARY) return null;
  const decoder = DECODERS.get(
    code(text.charCodeAt(from + 2), text.charCodeAt(from + 3), text.charCodeAt(from + 4)),
  );
  return decoder ? decoder(s) : null;
}
