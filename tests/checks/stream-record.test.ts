import { describe, expect, test } from "vitest";
import { streamAt, streamTurns, type StreamSource } from "../../src/stream/index.js";
import { hasSharedData } from "../shared-data.js";
import { foremanFit } from "./foreman.js";
import { reportRows } from "./harness.js";

// The ellipses of a published record stand for the truth; a table of their turns is all the model gets.
describe.skipIf(!hasSharedData)("a table of turns against the stream it was made from", () => {
  test("29 days of a stream that goes round, half of its minima without slack", () => {
    const truth: StreamSource = foremanFit().stream;
    const fromMs = Date.UTC(1972, 1, 9);
    const stay = { fromMs, toMs: fromMs + 29 * 86_400_000 };
    const turns = streamTurns(truth, stay).map((t) =>
      t.kind === "slack" ? { kind: t.kind, timeMs: t.timeMs } : { ...t, kind: t.kind },
    );
    expect(turns.filter((t) => t.kind === "least").length).toBeGreaterThan(40);
    let [sum, n, covered, greatest] = [0, 0, 0, 0];
    for (let t = stay.fromMs; t <= stay.toMs; t += 600_000) {
      const a = streamAt({ kind: "turns", turns }, t);
      const b = streamAt(truth, t);
      if (!a.known || !b.known) continue;
      const error = Math.abs(a.rateMps - b.rateMps);
      sum += error * error;
      n++;
      if (error <= a.errorMps!) covered++;
      greatest = Math.max(greatest, b.rateMps);
    }
    const rms = (100 * Math.sqrt(sum / n)) / greatest;
    reportRows(
      "stream-record",
      "Foreman (1978), tidal current record 7077; published spread over 837 stations",
      [
        {
          quantity: "stream: quarter sine, rms of greatest rate",
          got: rms,
          expected: 0,
          tolerance: 6.1,
          unit: "%",
        },
        {
          quantity: "stream: share within the stated error, short of 95 %",
          got: Math.max(0, 95 - (100 * covered) / n),
          expected: 0,
          tolerance: 2,
          unit: "%",
        },
      ],
    );
    expect(n).toBeGreaterThan(4100);
    // 6.1 % is the ninetieth centile of 837 stations (design figures of the model).
    expect(rms).toBeLessThan(6.1);
    expect(covered / n).toBeGreaterThan(0.93);
  });
});
