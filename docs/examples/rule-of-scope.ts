/**
 * Does the rule of scope hold? Four times the depth of chain, six times of chain and rope: how often
 * does the pull still lead along the bed, by depth and by wind?
 *
 * Run it with `node docs/examples/rule-of-scope.mjs`: it writes `docs/rule-of-scope.csv` and
 * `docs/rule-of-scope.svg`.
 */
import { knots, toKnots } from "../../src/core/units.js";
import { scopeByRule, chain } from "../../src/rode/index.js";
import { summariseSweep, type SweepInput } from "../../src/sweep/index.js";

/** How finely to look. */
export interface Effort {
  depths: number;
  winds: number;
  /** Draws of what is not known in each cell. */
  draws: number;
}

/** As in the documentation. */
export const FULL: Effort = { depths: 37, winds: 41, draws: 4096 };

/** One cell of the study. */
export interface Cell {
  rode: "chain" | "chainAndRope";
  depthM: number;
  windMps: number;
  /** Share of the draws in which the pull lifts off the bed at the anchor, or is not known. */
  lifts: number;
  /** Mean angle of the pull above the bed, degrees. */
  meanAngleDeg: number | null;
}

// A yacht of 11 m with 10 mm chain; 10 m of it before 14 mm rope. The wind is that of the gust. What is
// not known: how far she yaws, how high her bow is, how heavy the chain is, how stiff the rope.
const sweepOf = (rode: Cell["rode"], { depths, winds, draws }: Effort): SweepInput => ({
  title: `rule of scope: ${rode}`,
  statics: {
    vessel: { kind: "yacht", lengthM: 11 },
    rode: {
      chainMm: 10,
      ...(rode === "chainAndRope" && { rope: { fibre: "polyamide", diameterMm: 14 } }),
    },
  },
  axes: [
    { name: "depthM", from: 2, to: 20, count: depths },
    { name: "windMps", from: knots(5), to: knots(45), count: winds },
  ],
  draws: [
    { name: "yawDeg", spread: "uniform", low: 0, high: 30 },
    { name: "bowHeightM", spread: "uniform", low: 0.9, high: 1.5 },
    { name: "chainWeightNPerM", spread: "normal", mean: chain(10).weightInWaterNPerM, sigma: 0.5 },
    { name: "ropeStiffnessN", spread: "logNormal", median: 113_000, sigmaLog: 0.4 },
  ],
  method: "even",
  fixed: {
    scope: scopeByRule({ make: rode, greatestDepthM: 10 }).ratio,
    ...(rode === "chainAndRope" && { chainM: 10 }),
  },
  outputs: ["pullAngleDeg"],
  rows: depths * winds * draws,
  seed: 4,
});

/** The study for both rodes. */
export async function ruleOfScope(effort: Effort): Promise<Cell[]> {
  const cells: Cell[] = [];
  for (const rode of ["chain", "chainAndRope"] as const) {
    const by = ["depthM", "windMps"];
    const { tables } = await summariseSweep({
      sweep: sweepOf(rode, effort),
      tables: [{ by, of: "pullAngleDeg", limit: 0 }],
    });
    for (const { at, above, unknown, known, mean } of tables[0]!.rows)
      cells.push({
        rode,
        depthM: Number(at[0]),
        windMps: Number(at[1]),
        lifts: above! + unknown / (known + unknown),
        meanAngleDeg: mean,
      });
  }
  return cells;
}

/** The study as comma-separated values. */
export const csvOf = (cells: readonly Cell[]): string =>
  [
    "rode,depthM,windMps,shareLifting,meanAngleDeg",
    ...cells.map((c) =>
      [
        c.rode,
        c.depthM,
        c.windMps.toFixed(3),
        c.lifts.toFixed(4),
        c.meanAngleDeg?.toFixed(3) ?? "",
      ].join(","),
    ),
    "",
  ].join("\n");

const WIDTH = 330;
const HEIGHT = 240;

/** Wind up to which half of the draws still lead along the bed, by depth; null where all of them do, or none. */
export function halfWind(cells: readonly Cell[]): { depthM: number; windMps: number | null }[] {
  const depths = [...new Set(cells.map((c) => c.depthM))];
  return depths.map((depthM) => {
    const row = cells.filter((c) => c.depthM === depthM);
    const i = row.findIndex((c) => c.lifts >= 0.5);
    if (i <= 0) return { depthM, windMps: null };
    const [a, b] = [row[i - 1]!, row[i]!];
    return {
      depthM,
      windMps: a.windMps + ((0.5 - a.lifts) / (b.lifts - a.lifts)) * (b.windMps - a.windMps),
    };
  });
}

/** The study as a picture: wind to the right, depth downwards, darker where the pull lifts more often. */
export function figureOf(cells: readonly Cell[]): string {
  const panel = (rode: Cell["rode"], title: string, left: number): string => {
    const mine = cells.filter((c) => c.rode === rode);
    const winds = [...new Set(mine.map((c) => c.windMps))];
    const depths = [...new Set(mine.map((c) => c.depthM))];
    const w = WIDTH / winds.length;
    const h = HEIGHT / depths.length;
    const boxes = mine.map((c) => {
      const x = winds.indexOf(c.windMps) * w;
      const y = depths.indexOf(c.depthM) * h;
      const grey = Math.round(245 - 190 * c.lifts);
      return `<rect x="${x.toFixed(2)}" y="${y.toFixed(2)}" width="${(w + 0.3).toFixed(2)}" height="${(h + 0.3).toFixed(2)}" fill="rgb(${grey},${grey},${Math.min(255, grey + 20)})"/>`;
    });
    const across = [10, 20, 30, 40].map((kn) => {
      const x = ((kn - 5) / 40) * (WIDTH - w) + w / 2;
      return `<text x="${x.toFixed(1)}" y="${HEIGHT + 16}" text-anchor="middle">${kn} kn</text>`;
    });
    const down = [2, 5, 10, 15, 20].map((m) => {
      const y = ((m - 2) / 18) * (HEIGHT - h) + h / 2 + 4;
      return `<text x="-6" y="${y.toFixed(1)}" text-anchor="end">${m} m</text>`;
    });
    return `<g transform="translate(${left},50)"><text y="-12" font-weight="bold">${title}</text>${boxes.join("")}${across.join("")}${down.join("")}</g>`;
  };
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 800 340" width="800" height="340" font-family="sans-serif" font-size="12" role="img" aria-labelledby="t d"><title id="t">Does the rule of scope hold?</title><desc id="d">Share of cases in which the pull lifts off the bed, by depth and wind in the gust, for four times the depth of chain and for six times of chain and rope. Light: it leads along the bed. Dark: it lifts.</desc><rect width="800" height="340" fill="white"/>${panel("chain", "Chain, 4 x depth", 50)}${panel("chainAndRope", "10 m of chain and rope, 6 x depth", 450)}<text x="50" y="328">Light: the pull leads along the bed; dark: it lifts. Wind in the gust across, depth downwards; a yacht of 11 m, 10 mm chain.</text></svg>\n`;
}

/** What the study says, in a few lines. */
export function findings(cells: readonly Cell[]): string[] {
  return (["chain", "chainAndRope"] as const).flatMap((rode) =>
    halfWind(cells.filter((c) => c.rode === rode))
      .filter((_, i, all) => i % Math.max(1, Math.floor((all.length - 1) / 3)) === 0)
      .map(({ depthM, windMps }) => {
        const upTo =
          windMps === null
            ? "none or all of the winds looked at"
            : `${toKnots(windMps).toFixed(0)} kn`;
        return `${rode}: at ${depthM.toFixed(1)} m the rule holds in half of the cases up to ${upTo}`;
      }),
  );
}
