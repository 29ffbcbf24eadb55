import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import {
  appendFileSync,
  copyFileSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { promisify } from "node:util";
import { DuckDBInstance } from "@duckdb/node-api";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { InputError } from "../../src/core/errors.js";
import { sweepCommand } from "../../src/cli/sweepCommand.js";
import { sweep, type ColumnChunk } from "../../src/sweep/index.js";
import { mergeShards, runShard, sweepPool, type SweepForm } from "../../src/sweep/node/index.js";
import { mixed, mixedSpec } from "../sweepSpecs.js";

const root = path.resolve(import.meta.dirname, "../..");
const folders: string[] = [];
const folder = (): string => {
  const made = mkdtempSync(path.join(tmpdir(), "sweep-"));
  folders.push(made);
  return made;
};
const workerFile = path.join(root, "temp/sweep-worker.mjs");

beforeAll(async () => {
  await build({
    entryPoints: [path.join(root, "src/sweep/node/worker.ts")],
    outfile: workerFile,
    bundle: true,
    format: "esm",
    platform: "node",
    logLevel: "error",
  });
});
afterAll(() => {
  for (const f of folders) rmSync(f, { recursive: true });
});

/** Hash of every column, bit by bit. */
async function hashOf(chunks: AsyncIterable<ColumnChunk> | Iterable<ColumnChunk>): Promise<string> {
  const hashes = new Map<string, ReturnType<typeof createHash>>();
  for await (const { columns } of chunks)
    for (const [name, values] of Object.entries(columns)) {
      if (!hashes.has(name)) hashes.set(name, createHash("sha256"));
      hashes.get(name)!.update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
    }
  return [...hashes].map(([name, h]) => name + h.digest("hex")).join();
}

const fileHash = (file: string): string =>
  createHash("sha256").update(readFileSync(file)).digest("hex");

const run = async (args: string[]) => {
  let out = "";
  const add = (text: string) => {
    out += text;
  };
  const code = await sweepCommand(args, { out: add, err: add });
  return { code, out };
};

describe("the same to the bit", () => {
  test("on one thread, on two, in chunks of another size", async () => {
    const one = await hashOf(sweep(mixed));
    expect(await hashOf(sweepPool(mixed, { threads: 2, workerFile }))).toBe(one);
    expect(await hashOf(sweep({ ...mixed, chunkRows: 777 }))).toBe(one);
    const short = { ...mixed, chunkRows: 111 };
    expect(await hashOf(sweepPool(short, { threads: 3, workerFile }))).toBe(one);
  });

  test("on threads that have waited for the next sweep, and are not waited for for long", async () => {
    let started = 0;
    const count = () => started++;
    process.on("worker", count);
    const startedBy = async (run: () => Promise<unknown>) => {
      started = 0;
      await run();
      return started;
    };
    const options = { threads: 2, workerFile };
    const part = { fromScenario: 300, toScenario: 900 };
    const [one, some] = [await hashOf(sweep(mixed)), await hashOf(sweep(mixed, part))];
    const whole = async () => {
      expect(await hashOf(sweepPool(mixed, options))).toBe(one);
    };
    const piece = async () => {
      expect(await hashOf(sweepPool(mixed, { ...options, ...part }))).toBe(some);
    };
    await sleep(1100);
    expect(await startedBy(whole)).toBe(2);
    expect(await startedBy(piece)).toBe(0);
    // Two at once need as many again, of which only the last to end wait.
    expect(await startedBy(() => Promise.all([whole(), piece(), whole()]))).toBe(4);
    expect(await startedBy(whole)).toBe(0);
    await sleep(1100);
    expect(await startedBy(piece)).toBe(2);
    // One that is left in the middle takes its threads along.
    const left = async () => {
      for await (const { rows } of sweepPool({ ...mixed, chunkRows: 7 }, options))
        if (rows > 0) break;
    };
    expect(await startedBy(left)).toBe(0);
    expect(await startedBy(whole)).toBe(2);
    process.off("worker", count);
  });

  test("to a reader who takes his time", async () => {
    const short = { ...mixed, chunkRows: 111 };
    const kept: ColumnChunk[] = [];
    for await (const chunk of sweepPool(short, { threads: 2, workerFile })) {
      kept.push(chunk);
      if (kept.length === 9) await sleep(1500);
    }
    expect(await hashOf(kept)).toBe(await hashOf(sweep(mixed)));
    const none = { fromScenario: 24, toScenario: 24 };
    for await (const chunk of sweepPool(mixed, { threads: 2, workerFile, ...none }))
      expect.fail(`a chunk of nothing: ${chunk.rows} rows`);
  });

  test("and a reader who goes away keeps no program from ending", async () => {
    const script = path.join(root, "temp/sweep-abandoned.mjs");
    await build({
      stdin: {
        contents: `import { sweepPool } from "../../src/sweep/node/index.ts";
          import { mixed } from "../sweepSpecs.ts";
          const options = { threads: 2, workerFile: ${JSON.stringify(workerFile)} };
          const { value } = await sweepPool({ ...mixed, chunkRows: 7 }, options).next();
          console.log(value.rows);`,
        resolveDir: import.meta.dirname,
      },
      outfile: script,
      bundle: true,
      platform: "node",
      format: "esm",
      packages: "external",
    });
    const { stdout } = await promisify(execFile)(process.execPath, [script], { timeout: 20_000 });
    expect(stdout.trim()).toBe("7");
  });

  test("not at all where a worker fails: the sweep fails with it, whatever the others do", async () => {
    const failing = path.join(root, "temp/sweep-failing.mjs");
    writeFileSync(
      failing,
      `import work from "./sweep-worker.mjs";
       import { threadId } from "node:worker_threads";
       export default (task) => {
         if (threadId % 2 === 0) throw new Error("a worker fails");
         work(task);
       };`,
    );
    const read = async () => {
      for await (const { rows } of sweepPool(
        { ...mixed, chunkRows: 7 },
        { threads: 2, workerFile: failing },
      ))
        expect(rows).toBeGreaterThan(0);
    };
    await expect(read()).rejects.toThrow("a worker fails");
  });

  test("as far as it went when it was told to stop, and its threads are there for the next", async () => {
    const signal = { aborted: false };
    const chunks: ColumnChunk[] = [];
    for await (const chunk of sweepPool(
      { ...mixed, chunkRows: 7 },
      { threads: 2, workerFile, signal },
    )) {
      chunks.push(chunk);
      signal.aborted = chunks.length === 40;
    }
    expect(chunks.length).toBe(40);
    const part = { fromScenario: 0, toScenario: 280 };
    expect(await hashOf(chunks)).toBe(await hashOf(sweep(mixed, part)));
    let started = 0;
    const count = () => started++;
    process.on("worker", count);
    expect(await hashOf(sweepPool(mixed, { threads: 2, workerFile, ...part }))).toBe(
      await hashOf(chunks),
    );
    process.off("worker", count);
    expect(started).toBe(0);
  });

  test("in memory used again, where each chunk is read before the next is asked for", async () => {
    const one = await hashOf(sweep(mixed));
    expect(await hashOf(sweep(mixed, { sameMemory: true }))).toBe(one);
    const pool = sweepPool(
      { ...mixed, chunkRows: 111 },
      { threads: 2, workerFile, sameMemory: true },
    );
    expect(await hashOf(pool)).toBe(one);
  });

  test("in chunks that are kept and read later", async () => {
    const kept = async (chunks: AsyncIterable<ColumnChunk>) => {
      const all = [];
      for await (const chunk of chunks) all.push(chunk);
      return all;
    };
    const one = await hashOf(sweep(mixed));
    const short = { ...mixed, chunkRows: 111 };
    for (const chunks of [sweep(short), sweepPool(short, { threads: 2, workerFile })]) {
      const all = await kept(chunks);
      expect(all.length).toBeGreaterThan(30);
      expect(new Set(all.map((c) => c.columns["windMps"]!.buffer)).size).toBe(all.length);
      expect(await hashOf(all)).toBe(one);
    }
    const [first, second] = await kept(sweep(short, { sameMemory: true }));
    expect(first!.columns["windMps"]!.buffer).toBe(second!.columns["windMps"]!.buffer);
  });

  test("in one file, and in 16 shards of which one dies, one is run twice at once and all are run again", async () => {
    const whole = folder();
    await runShard({ sweep: mixed, folder: whole });
    const { file: expected } = await mergeShards(whole);
    const parts = folder();
    const signal = { aborted: false };
    const killed = runShard({
      sweep: mixed,
      folder: parts,
      k: 3,
      n: 16,
      pool: { signal },
      onProgress: () => {
        signal.aborted = true;
      },
    });
    await killed.catch(() => undefined);
    const shards = Array.from({ length: 16 }, (_, i) => i + 1);
    for (const k of shards.filter((s) => s !== 9))
      await runShard({ sweep: mixed, folder: parts, k, n: 16 });
    await expect(mergeShards(parts)).rejects.toThrow(/shard 9\/16: is not there/);
    await Promise.all([9, 9].map((k) => runShard({ sweep: mixed, folder: parts, k, n: 16 })));
    for (const k of shards)
      expect((await runShard({ sweep: mixed, folder: parts, k, n: 16 })).already).toBe(true);
    const { file, rows } = await mergeShards(parts);
    expect(rows).toBe(12_000);
    expect(fileHash(file)).toBe(fileHash(expected));
    expect(readdirSync(parts).filter((f) => f.endsWith(".part"))).toEqual([]);
  });
});

describe("a folder of shards", () => {
  const ran = async (n = 2): Promise<string> => {
    const made = folder();
    for (let k = 1; k <= n; k++) await runShard({ sweep: mixed, folder: made, k, n });
    return made;
  };

  test("takes one sweep only, cut in one way only", async () => {
    const made = await ran();
    await expect(
      runShard({ sweep: { ...mixed, seed: 2 }, folder: made, k: 1, n: 2 }),
    ).rejects.toThrow(/another sweep/);
    await expect(runShard({ sweep: mixed, folder: made, k: 1, n: 3 })).rejects.toThrow(/2 shards/);
    await expect(mergeShards(folder())).rejects.toThrow(/holds no sweep/);
  });

  test("is not merged with a shard cut off, or of another sweep", async () => {
    const made = await ran();
    const file = path.join(made, "shard-00002-of-00002.csv");
    const text = readFileSync(file, "utf8");
    truncateSync(file, text.lastIndexOf("\n", text.length - 2) + 1);
    await expect(mergeShards(made)).rejects.toThrow(/5999 scenarios, expected 6000/);
    writeFileSync(file, text.replace('"seed":20260601', '"seed":20260602'));
    await expect(mergeShards(made)).rejects.toThrow(/another head/);
    expect(readdirSync(made)).not.toContain("sweep.csv");
  });
});

describe("a shard that is not one of its sweep, or not whole,", () => {
  const forms: SweepForm[] = ["csv", "jsonl", "arrow", "parquet"];
  const short = { ...mixed, rows: 1200 };
  const ran = async (form: SweepForm, seed: number): Promise<string> => {
    const made = folder();
    for (const k of [1, 2, 3])
      await runShard({ sweep: { ...short, seed }, folder: made, k, n: 3, form });
    return made;
  };
  test.each(forms)("is refused as %s, and nothing is left of the merge", async (form) => {
    const [made, other] = [await ran(form, 1), await ran(form, 2)];
    const shard = (of: string, k: number) => path.join(of, `shard-0000${k}-of-00003.${form}`);
    const whole = readFileSync(shard(made, 2));
    const damage: [string, () => void][] = [
      [
        "doubled",
        () => {
          copyFileSync(shard(made, 3), shard(made, 2));
        },
      ],
      [
        "foreign",
        () => {
          copyFileSync(shard(other, 2), shard(made, 2));
        },
      ],
      [
        "cut off",
        () => {
          truncateSync(shard(made, 2), Math.floor(0.6 * whole.length));
        },
      ],
      [
        "empty",
        () => {
          truncateSync(shard(made, 2), 0);
        },
      ],
      [
        "longer",
        () => {
          appendFileSync(shard(made, 2), "more");
        },
      ],
      [
        "altered in one byte of a figure",
        () => {
          const altered = Buffer.from(whole);
          const at = Math.floor(0.55 * whole.length);
          const digit = form === "csv" || form === "jsonl" ? altered.indexOf("7", at) : at;
          altered[digit]! ^= 1;
          writeFileSync(shard(made, 2), altered);
        },
      ],
    ];
    for (const [what, harm] of damage) {
      writeFileSync(shard(made, 2), whole);
      harm();
      const merged = mergeShards(made).then(
        () => "merged",
        (error: unknown) => (error as InputError).issues[0]!.code,
      );
      expect(await merged, what).toBe("broken_shard");
      expect(
        readdirSync(made).filter((f) => /part$|^sweep\.(?!json$)/.test(f)),
        what,
      ).toEqual([]);
    }
    writeFileSync(shard(made, 2), whole);
    expect((await mergeShards(made)).rows).toBe(1200);
    await expect(mergeShards(made)).rejects.toThrow(/there already/);
  });

  test("is known by the sum beside it, which others can read and nobody may leave behind", async () => {
    const made = await ran("csv", 1);
    const files = readdirSync(made).filter((f) => f.endsWith(".csv"));
    expect(files).toHaveLength(3);
    for (const f of files)
      expect(readFileSync(path.join(made, `${f}.sha256`), "utf8")).toBe(
        `${createHash("sha256")
          .update(readFileSync(path.join(made, f)))
          .digest("hex")}  ${f}\n`,
      );
    rmSync(path.join(made, `${files[0]!}.sha256`));
    rmSync(path.join(made, files[2]!));
    await expect(mergeShards(made)).rejects.toMatchObject({
      issues: [
        { path: "shard 1/3", code: "missing_sum" },
        { path: "shard 3/3", code: "missing_shard" },
      ],
    });
    await runShard({ sweep: { ...short, seed: 1 }, folder: made, k: 3, n: 3 });
    rmSync(path.join(made, files[0]!));
    await runShard({ sweep: { ...short, seed: 1 }, folder: made, k: 1, n: 3 });
    expect((await mergeShards(made)).rows).toBe(1200);
  });

  test("nor is a folder whose own note is damaged", async () => {
    const made = await ran("csv", 1);
    truncateSync(path.join(made, "sweep.json"), 20);
    await expect(mergeShards(made)).rejects.toThrow(/not as a sweep wrote it/);
    await expect(runShard({ sweep: short, folder: made, n: 3 })).rejects.toThrow(InputError);
  });

  test("is not left behind where a shard fails in the middle", async () => {
    const made = folder();
    const onProgress = () => {
      throw new Error("the reader fails");
    };
    for (const form of forms)
      await expect(
        runShard({ sweep: short, folder: path.join(made, form), form, onProgress }),
      ).rejects.toThrow("the reader fails");
    for (const form of forms) expect(readdirSync(path.join(made, form))).toEqual(["sweep.json"]);
  });
});

describe("files", () => {
  const forms: SweepForm[] = ["csv", "jsonl", "arrow", "parquet"];
  test.each(forms)("as %s, merged of shards, hold every figure", async (form) => {
    const made = folder();
    for (const k of [1, 2, 3]) await runShard({ sweep: mixed, folder: made, k, n: 3, form });
    const { file } = await mergeShards(made);
    const chunk = (await sweep({ ...mixed, chunkRows: 12_000 }).next()).value as ColumnChunk;
    const rows = await readBack(form, file);
    expect(rows.length).toBe(12_000);
    for (let r = 0; r < 12_000; r += 13) {
      expect(rows[r]!["reachM"]).toBe(chunk.columns["reachM"]![r]);
      const holding = chunk.columns["holdingN"]![r]!;
      expect(rows[r]!["holdingN"] ?? null).toBe(Number.isNaN(holding) ? null : holding);
    }
    expect(readFileSync(file).includes("20260601")).toBe(true);
  });
});

/** Rows of a file as an outside reader has them: DuckDB, or the Arrow library. */
async function readBack(form: SweepForm, file: string): Promise<Record<string, unknown>[]> {
  if (form === "arrow") {
    const { tableFromIPC } = await import("apache-arrow");
    const table = tableFromIPC(readFileSync(file));
    expect(table.schema.metadata.get("hawse")).toContain("hawse sweep");
    return table.toArray().map((r: { toJSON: () => Record<string, unknown> }) => r.toJSON());
  }
  const db = await (await DuckDBInstance.create()).connect();
  const from = {
    csv: `read_csv('${file}', comment = '#', header = true, nullstr = '')`,
    jsonl: `read_json('${file}', format = 'newline_delimited', maximum_object_size = 100000000)`,
    parquet: `read_parquet('${file}')`,
  }[form];
  const where = form === "jsonl" ? "where scenario is not null" : "";
  const result = await db.runAndReadAll(`select * from ${from} ${where} order by scenario`);
  return result.getRowObjectsJS();
}

describe("hawse sweep", () => {
  test("describes, runs a shard, merges, and says what is wrong", async () => {
    const made = folder();
    const spec = path.join(made, "spec.json");
    writeFileSync(spec, JSON.stringify(mixedSpec));
    expect(JSON.parse((await run(["describe", spec])).out)).toMatchObject({ rows: 12_000 });
    const out = path.join(made, "out");
    for (const shard of ["1/2", "2/2"])
      expect((await run(["run", spec, "--shard", shard, "--out", out])).code).toBe(0);
    expect((await run(["run", spec, "--shard", "2/2", "--out", out])).out).toContain(
      "there already",
    );
    expect((await run(["merge", out])).out).toContain("12000 scenarios of 2 shards");
    await expect(run(["merge", out])).rejects.toThrow(/is there already/);
    await expect(run(["run", spec, "--shard", "3/2", "--out", out])).rejects.toThrow(
      /must be 1 to 2/,
    );
    await expect(run(["run", spec])).rejects.toThrow(/--out/);
    expect((await run([])).code).toBe(2);
  });

  test("takes a stay from a file of its own", async () => {
    const made = folder();
    const spec = path.join(made, "spec.json");
    writeFileSync(
      spec,
      JSON.stringify({
        stay: path.join(root, "shared/scenarios/gannick-bay.json"),
        axes: [{ name: "windFactor", values: [1, 2] }],
        outputs: ["gustPullN"],
        seed: 0,
      }),
    );
    expect((await run(["run", spec, "--out", path.join(made, "out")])).out).toContain(
      "2 scenarios",
    );
  });
});
