import { closeSync, createReadStream, openSync, writeFileSync } from "node:fs";
import type { SweepDescription } from "../describe.js";
import type { ColumnChunk } from "../run.js";
import { firstOf, sameHead } from "./broken.js";
import type { Sink } from "./forms.js";
import { optionalPeer } from "./peer.js";

const load = () => optionalPeer("apache-arrow", () => import("apache-arrow"));

/** Key under which the description stands in the schema. */
const KEY = "hawse";

type Arrow = Awaited<ReturnType<typeof load>>;

function schemaOf(arrow: Arrow, d: SweepDescription) {
  const fields = [
    new arrow.Field("scenario", new arrow.Float64(), false),
    ...d.columns.map((c) => {
      const about = new Map([
        ["unit", c.unit],
        ["what", c.what],
        ...(c.words === null ? [] : [["words", JSON.stringify(c.words)] as const]),
      ]);
      return new arrow.Field(c.name, new arrow.Float64(), true, about);
    }),
  ];
  return new arrow.Schema(fields, new Map([[KEY, JSON.stringify(d)]]));
}

type Schema = ReturnType<typeof schemaOf>;

function batchOf(arrow: Arrow, schema: Schema, d: SweepDescription, chunk: ColumnChunk) {
  const { from, rows: length } = chunk;
  const type = new arrow.Float64();
  const scenario = Float64Array.from({ length }, (_, r) => from + r);
  const children = [
    arrow.makeData({ type, length, data: scenario, ...NO_NULLS }),
    ...d.columns.map((c) => {
      const data = chunk.columns[c.name]!;
      return arrow.makeData({ type, length, data, ...nullsOf(data) });
    }),
  ];
  const data = arrow.makeData({
    type: new arrow.Struct(schema.fields),
    length,
    nullCount: 0,
    children,
  });
  return new arrow.RecordBatch(schema, data);
}

/** An Arrow file: a record batch a chunk, doubles that may be null; a word is its place in the list that its field carries. */
export async function arrowSink(file: string, d: SweepDescription): Promise<Sink> {
  const arrow = await load();
  const schema = schemaOf(arrow, d);
  const writer = new arrow.RecordBatchFileWriter();
  const fd = openSync(file, "w");
  const faults: unknown[] = [];
  const pump = (async () => {
    for await (const bytes of writer) writeFileSync(fd, bytes as Uint8Array);
  })().catch((fault: unknown) => faults.push(fault));
  writer.reset(undefined, schema);
  return {
    write: async (chunk) => {
      writer.write(batchOf(arrow, schema, d, chunk));
      // Lets the pump carry off what was written.
      await new Promise((resolve) => setImmediate(resolve));
      if (faults.length > 0) throw faults[0];
    },
    end: async () => {
      writer.close();
      await pump;
      closeSync(fd);
      if (faults.length > 0) throw faults[0];
    },
  };
}

const NO_NULLS = { nullCount: 0, nullBitmap: null };

/** Which entries are figures, a bit each. */
function nullsOf(values: Float64Array): { nullCount: number; nullBitmap: Uint8Array | null } {
  const nullBitmap = new Uint8Array(Math.ceil(values.length / 64) * 8);
  let nullCount = 0;
  for (let r = 0; r < values.length; r++)
    if (Number.isFinite(values[r])) nullBitmap[r >> 3]! |= 1 << (r & 7);
    else nullCount++;
  return nullCount === 0 ? NO_NULLS : { nullCount, nullBitmap };
}

/** Chunks of an Arrow file, in their order. */
export async function* readArrow(file: string, d: SweepDescription): AsyncGenerator<ColumnChunk> {
  const arrow = await load();
  const reader = await arrow.RecordBatchReader.from(createReadStream(file));
  await reader.open();
  sameHead(file, reader.schema.metadata.get(KEY), d);
  for await (const batch of reader) {
    const columns = Object.fromEntries(
      batch.schema.fields.map((f, i) => {
        const vector = batch.getChildAt(i)!;
        return [
          f.name,
          Float64Array.from(
            { length: batch.numRows },
            (_, r) => (vector.get(r) as number | null) ?? NaN,
          ),
        ];
      }),
    );
    const { scenario, ...rest } = columns;
    if (batch.numRows > 0)
      yield { from: firstOf(file, scenario!), rows: batch.numRows, columns: rest };
  }
}
