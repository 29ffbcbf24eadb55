/**
 * NMEA 0183: the reader against plain splitting of the same sentences, which checks nothing but the
 * checksum and the sentence's name.
 *
 * One operation is a chunk of 1,000 sentences, the check values over and over.
 */
import { readFileSync } from "node:fs";
import { readNmea0183 } from "../src/feed/index.js";

const sentences = (
  JSON.parse(readFileSync(new URL("../shared/checks/nmea.json", import.meta.url), "utf8")) as {
    inputs: { sentenceText: string };
    expected: { usable?: boolean };
  }[]
)
  .filter((c) => c.expected.usable !== false)
  .map((c) => `${c.inputs.sentenceText}\r\n`);
const SENTENCES = 1000;
const chunk = Array.from({ length: SENTENCES }, (_, i) => sentences[i % sentences.length]!).join(
  "",
);

/** The first numbers of a sentence, as one would first read them. */
function naive(line: string): number {
  const star = line.indexOf("*");
  if (!line.startsWith("$") || star < 0) return 0;
  let sum = 0;
  for (let i = 1; i < star; i++) sum ^= line.charCodeAt(i);
  if (parseInt(line.slice(star + 1, star + 3), 16) !== sum) return 0;
  const fields = line.slice(1, star).split(",");
  const degrees = (text: string, side: string) => {
    const value = parseFloat(text);
    const whole = Math.floor(value / 100);
    const size = whole + (value - whole * 100) / 60;
    return side === "S" || side === "W" ? -size : size;
  };
  switch (fields[0]!.slice(2)) {
    case "GGA":
      return degrees(fields[2]!, fields[3]!) + degrees(fields[4]!, fields[5]!);
    case "RMC":
      return (
        degrees(fields[3]!, fields[4]!) + degrees(fields[5]!, fields[6]!) + parseFloat(fields[7]!)
      );
    case "GLL":
      return degrees(fields[1]!, fields[2]!) + degrees(fields[3]!, fields[4]!);
    default:
      return parseFloat(fields[1]!);
  }
}

const times = (of: () => number) => (n: number) => {
  let sum = 0;
  for (let k = 0; k < n; k++) sum += of();
  return sum;
};

/** Cases: a name, what it is held against, what it may take, and a run of `n` operations. */
export const cases = [
  {
    name: "1,000 sentences of NMEA 0183 to watch events, every field checked",
    against: "1,000 sentences of NMEA 0183, naive: split, nothing checked",
    goalNs: 1_000_000,
    run: times(() => readNmea0183(chunk, { receivedMs: 1780300800000 }).events.length),
  },
  {
    name: "1,000 sentences of NMEA 0183, naive: split, nothing checked",
    run: times(() => {
      let sum = 0;
      for (const line of chunk.split("\r\n")) sum += naive(line) || 0;
      return sum;
    }),
  },
];
