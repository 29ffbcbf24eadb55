import type { SweepColumn, SweepDescription } from "./describe.js";
import type { ColumnChunk } from "./run.js";

/** A file of text: its first lines, and the lines of a chunk. */
export interface TextForm {
  readonly head: (d: SweepDescription) => string;
  /** What the line of a scenario begins with. */
  readonly start: (scenario: number) => string;
  readonly lines: (d: SweepDescription, chunk: ColumnChunk) => string;
}

/** Value of a column as text; empty for no figure. */
function writerOf(
  c: SweepColumn,
  values: Float64Array,
  quote: boolean,
  none: string,
): (r: number) => string {
  const { words } = c;
  if (words === null)
    return (r) => {
      const v = values[r]!;
      // In full: read back, it is the same number.
      return Number.isFinite(v) ? String(v) : none;
    };
  const texts = words.map((w) => (quote || w.includes(",") ? JSON.stringify(w) : w));
  return (r) => texts[values[r]!] ?? none;
}

const columnsOf = (d: SweepDescription, chunk: ColumnChunk) =>
  d.columns.map((c) => ({ c, values: chunk.columns[c.name]! }));

/**
 * Comma-separated values: the description as JSON behind a `#` in the first line, then the names, then a
 * line a scenario. No figure is an empty field; words with a comma stand in quotes.
 */
export const csvForm: TextForm = {
  head: (d) => `# ${JSON.stringify(d)}\nscenario,${d.columns.map((c) => c.name).join(",")}\n`,
  start: (scenario) => `${scenario},`,
  lines: (d, chunk) => {
    const [first, ...write] = columnsOf(d, chunk).map(({ c, values }) =>
      writerOf(c, values, false, ""),
    );
    let text = "";
    for (let r = 0; r < chunk.rows; r++) {
      text += csvForm.start(chunk.from + r) + first!(r);
      for (const w of write) text += "," + w(r);
      text += "\n";
    }
    return text;
  },
};

/** JSON lines: the description as `{"metadata": …}` in the first line, then an object a scenario; no figure is null. */
export const jsonLinesForm: TextForm = {
  head: (d) => `${JSON.stringify({ metadata: d })}\n`,
  start: (scenario) => `{"scenario":${scenario},`,
  lines: (d, chunk) => {
    const write = columnsOf(d, chunk).map(({ c, values }, i) => ({
      key: `${i === 0 ? "" : ","}${JSON.stringify(c.name)}:`,
      value: writerOf(c, values, true, "null"),
    }));
    let text = "";
    for (let r = 0; r < chunk.rows; r++) {
      text += jsonLinesForm.start(chunk.from + r);
      for (const { key, value } of write) text += key + value(r);
      text += "}\n";
    }
    return text;
  },
};
