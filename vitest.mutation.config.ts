import { mergeConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import base from "./vitest.config.js";

// The tests that a mutation run listens to: `.ci/mutate.mjs` names the domain.
const domain = process.env["HAWSE_MUTATE"] ?? "*";
const prefix: Record<string, string[]> = {
  rode: ["tests/checks/{rode,rode-grid,chain-rope}.test.ts"],
  lie: ["tests/checks/load.test.ts"],
  holding: ["tests/checks/{holding,sizing}.test.ts"],
  tide: ["tests/checks/tide.test.ts"],
  signals: ["tests/checks/signals.test.ts"],
  daylight: ["tests/checks/sun.test.ts"],
  feed: ["tests/unit/nmea.test.ts", "tests/checks/nmea.test.ts"],
  stream: ["tests/checks/stream.test.ts"],
  shelter: ["tests/checks/{waves,diffraction,fetch}.test.ts"],
  geo: ["tests/checks/geo.test.ts"],
};

/** Tests of seconds that a mutation run leaves out: each change would wait for them. */
const slow: Record<string, RegExp> = {
  // The last of these counts the check values that ran, so it goes with the first.
  tide: /half-cosine-error|double high waters|every turn is found|of the curve are the turns|no check value/,
  stream: /foreman|no check value/,
  swing: /each hull laid on the ground on its own|every place both rodes allow/,
};

/** The tests written for changes notice most of them, and at once: they go first. */
class MutantsFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = (file: TestSpecification) => (file.moduleId.includes("mutants-") ? 0 : 1);
    return Promise.resolve([...files].sort((a, b) => rank(a) - rank(b)));
  }
}

const config: typeof base = mergeConfig(base, {}) as typeof base;
// The tests of whole plans and nights take too long for a run of them at every change: the kernels have files of their own.
const own = ["plan", "watch"].includes(domain) ? [] : [`tests/unit/${domain}*.test.ts`];
config.test = {
  ...config.test,
  sequence: { ...config.test?.sequence, sequencer: MutantsFirst },
  // Methods that take seconds or minutes to find what quadrature and bisection find at once.
  exclude: ["tests/unit/rode-methods.test.ts", "tests/unit/rode-work.test.ts"],
  include: [...own, `tests/unit/mutants-${domain}{,-*}.test.ts`, ...(prefix[domain] ?? [])],
  ...(slow[domain] && { testNamePattern: new RegExp(`^(?!.*(?:${slow[domain].source}))`) }),
};
// Loading the modules anew for each file would take longer than its tests.
if (domain === "tide") config.test.isolate = false;
export default config;
