import { describe, expect, test } from "vitest";
// @ts-expect-error -- plain JavaScript, one of the scripts of the gate
import * as script from "../../.ci/released.mjs";

type Surface = Record<string, Record<string, string>>;
const { declarationsOf, felt, unspoken } = script as {
  declarationsOf: (report: string) => Record<string, string>;
  felt: (released: Surface, now: Surface) => string[];
  unspoken: (names: string[], changesets: string[]) => string[];
};

const report = (body: string): string =>
  `## API\n\n\`\`\`ts\n\n${body}\n\n// (No comment)\n\`\`\`\n`;
const DEPTH = "// @public\nexport interface Depth {\n    depthM: number;\n}\n";
const HEIGHT = "// @public\nexport function height(of: Depth): number;\n";
const rooms = (body: string): Surface => ({ tide: declarationsOf(report(body)) });

describe("changes of the public surface since a release", () => {
  test("declarations are found by name, whatever their order", () => {
    expect(Object.keys(declarationsOf(report(DEPTH + HEIGHT)))).toEqual(["Depth", "height"]);
    expect(declarationsOf(report(HEIGHT + DEPTH))).toEqual(declarationsOf(report(DEPTH + HEIGHT)));
  });
  test("what is new is no change; what is gone or reads otherwise is one", () => {
    expect(felt(rooms(DEPTH), rooms(DEPTH + HEIGHT))).toEqual([]);
    expect(felt(rooms(DEPTH + HEIGHT), rooms(DEPTH))).toEqual(["height"]);
    const changed = DEPTH.replace("depthM: number", "depthM: number | null");
    expect(felt(rooms(DEPTH + HEIGHT), rooms(changed + HEIGHT))).toEqual(["Depth"]);
    expect(felt(rooms(DEPTH), {})).toEqual(["Depth"]);
  });
  test("a changeset speaks of a change by its whole name", () => {
    expect(unspoken(["Depth", "height"], ["`Depth` may be null"])).toEqual(["height"]);
    expect(unspoken(["Depth"], ["`DepthCase` is wider"])).toEqual(["Depth"]);
    expect(unspoken([], [])).toEqual([]);
  });
});
