import { closeSync, openSync, writeFileSync } from "node:fs";
import type { SweepDescription } from "../describe.js";
import type { ColumnChunk } from "../run.js";
import { TEXT_FORMS } from "../sweepText.js";
import { arrowSink, readArrow } from "./arrow.js";
import { parquetSink, readParquet } from "./parquet.js";

/** Forms a sweep can be written in. */
export const FORMS = ["csv", "jsonl", "arrow", "parquet"] as const;
/** A form a sweep can be written in. */
export type SweepForm = (typeof FORMS)[number];

/** A file being written: chunks in their order, then the end. */
export interface Sink {
  write: (chunk: ColumnChunk) => void | Promise<void>;
  end: () => void | Promise<void>;
}

/** Start a file. */
function sinkOf(form: SweepForm, file: string, d: SweepDescription): Sink | Promise<Sink> {
  if (form === "arrow") return arrowSink(file, d);
  if (form === "parquet") return parquetSink(file, d);
  const fd = openSync(file, "w");
  // Not `writeSync`, which may leave off before the end.
  writeFileSync(fd, TEXT_FORMS[form].head(d));
  return {
    write: (chunk) => {
      writeFileSync(fd, TEXT_FORMS[form].lines(d, chunk));
    },
    end: () => {
      closeSync(fd);
    },
  };
}

/** Fill a file by its sink, which is ended whatever happens. */
export async function fillFile(
  form: SweepForm,
  file: string,
  d: SweepDescription,
  fill: (sink: Sink) => Promise<void>,
): Promise<void> {
  const sink = await sinkOf(form, file, d);
  try {
    await fill(sink);
  } catch (error) {
    await (async () => sink.end())().catch(() => undefined);
    throw error;
  }
  await sink.end();
}

/** Read back the chunks of a binary file. */
export const READERS = { arrow: readArrow, parquet: readParquet } as const;
