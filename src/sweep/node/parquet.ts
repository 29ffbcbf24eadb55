import type { SweepDescription } from "../describe.js";
import type { ColumnChunk } from "../run.js";
import { firstOf, sameHead } from "./broken.js";
import type { Sink } from "./forms.js";
import { optionalPeer } from "./peer.js";

/** Scenarios in a group of rows. */
const GROUP_ROWS = 131_072;

/** Key under which the description stands in the metadata. */
const KEY = "hawse";

const load = () => optionalPeer("hyparquet-writer", () => import("hyparquet-writer"));

type Library = Awaited<ReturnType<typeof load>>;

const schemaOf = (d: SweepDescription) => [
  { name: "root", num_children: d.columns.length + 1 },
  { name: "scenario", type: "DOUBLE", repetition_type: "REQUIRED" } as const,
  ...d.columns.map(({ name, words }) =>
    words === null
      ? ({ name, type: "DOUBLE", repetition_type: "OPTIONAL" } as const)
      : ({
          name,
          type: "BYTE_ARRAY",
          converted_type: "UTF8",
          repetition_type: "OPTIONAL",
        } as const),
  ),
];

/** Columns of some chunks: numbers or words, null where there is no figure. */
const columnsOf = (d: SweepDescription, chunks: readonly ColumnChunk[], rows: number) => [
  { name: "scenario", data: gathered(chunks, rows, (c, r) => c.from + r) },
  ...d.columns.map(({ name, words }) => ({
    name,
    data: gathered(chunks, rows, (c, r) => {
      const v = c.columns[name]![r]!;
      return words === null ? (Number.isFinite(v) ? v : null) : (words[v] ?? null);
    }),
  })),
];

/** A Parquet file: doubles that may be null, words as text; the description among the key-value metadata. */
export async function parquetSink(file: string, d: SweepDescription): Promise<Sink> {
  const { ParquetWriter, fileWriter }: Library = await load();
  const writer = new ParquetWriter({
    writer: fileWriter(file),
    schema: schemaOf(d),
    kvMetadata: [{ key: KEY, value: JSON.stringify(d) }],
  });
  let held: ColumnChunk[] = [];
  let rows = 0;
  const flush = async () => {
    if (rows > 0) await writer.write({ columnData: columnsOf(d, held, rows), rowGroupSize: rows });
    held = [];
    rows = 0;
  };
  return {
    write: async (chunk) => {
      held.push(chunk);
      rows += chunk.rows;
      if (rows >= GROUP_ROWS) await flush();
    },
    end: async () => {
      await flush();
      await writer.finish();
    },
  };
}

function gathered<T>(
  chunks: readonly ColumnChunk[],
  rows: number,
  of: (c: ColumnChunk, r: number) => T,
): T[] {
  const out = new Array<T>(rows);
  let at = 0;
  for (const c of chunks) for (let r = 0; r < c.rows; r++) out[at++] = of(c, r);
  return out;
}

/** Chunks of a Parquet file, in their order. */
export async function* readParquet(file: string, d: SweepDescription): AsyncGenerator<ColumnChunk> {
  const { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } = await optionalPeer(
    "hyparquet",
    () => import("hyparquet"),
  );
  const buffer = await asyncBufferFromFile(file);
  const metadata = await parquetMetadataAsync(buffer);
  sameHead(file, metadata.key_value_metadata?.find(({ key }) => key === KEY)?.value, d);
  let rowStart = 0;
  for (const group of metadata.row_groups) {
    const rowEnd = rowStart + Number(group.num_rows);
    const rows = await parquetReadObjects({ file: buffer, metadata, rowStart, rowEnd });
    const columns = Object.fromEntries(
      d.columns.map(({ name, words }) => [
        name,
        Float64Array.from(rows, (row) => {
          const v = row[name] as number | string | null;
          return typeof v === "string" ? words!.indexOf(v) : (v ?? NaN);
        }),
      ]),
    );
    const from = firstOf(
      file,
      rows.map((row) => Number(row["scenario"])),
    );
    yield { from, rows: rows.length, columns };
    rowStart = rowEnd;
  }
}
