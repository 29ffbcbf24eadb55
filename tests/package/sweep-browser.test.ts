import { createHash } from "node:crypto";
import { expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, shared with the scripts of the gate
import * as browser from "../../.ci/browser.mjs";
// @ts-expect-error -- plain JavaScript, shared with the scripts of the gate
import * as sweeps from "../../.ci/sweep-browser.mjs";
import { sweepText } from "../../src/sweep/index.js";
import { mixed } from "../sweepSpecs.js";

const { canBrowse } = browser as { canBrowse: (what: string) => boolean };
const { hashInBrowser } = sweeps as { hashInBrowser: (spec: unknown) => Promise<string> };

test.runIf(canBrowse("a sweep in the browser"))(
  "a sweep of the statics is the same to the bit in Chromium and here",
  async () => {
    const hash = createHash("sha256");
    for await (const piece of sweepText(mixed, "csv")) hash.update(piece);
    expect(await hashInBrowser(mixed)).toBe(hash.digest("hex"));
  },
);
