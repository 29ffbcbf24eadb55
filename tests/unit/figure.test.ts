import { describe, expect, test } from "vitest";
import * as figures from "../../src/figure/index.js";
import { InputError } from "../../src/core/errors.js";
import { clipLine, clipRing } from "../../src/figure/clip.js";
import { ticks } from "../../src/figure/axes.js";
import { wrapped } from "../../src/figure/layout.js";
import { escapeText } from "../../src/figure/svg.js";
import { planStay, type StayPlan } from "../../src/plan/planStay.js";
import type { StayInput } from "../../src/plan/input.js";
import { demo, demoWith } from "../scenario.js";
import { watchedNight } from "../watchedNight.js";

type TideTurns = Extract<NonNullable<StayInput["tide"]>, { kind: "turns" }>;

const MOST_BYTES = 60 * 1024;
const KINDS = ["depth", "rode", "swing", "shelter", "holding", "watch"] as const;
type Drawn = Record<(typeof KINDS)[number], string>;

const plan = planStay({ ...demo(), draws: { count: 200 } });
const watched = watchedNight(5, 10);

function all(
  of: StayPlan,
  options: figures.FigureOptions = {},
  input: StayInput = demo(),
  watch = watched,
): Drawn {
  return {
    depth: figures.stayFigure(of, options),
    rode: figures.rodeFigure(of, options),
    swing: figures.swingFigure(of, input, options),
    shelter: figures.shelterFigure(of, options),
    holding: figures.holdingFigure(of, options),
    watch: figures.watchFigure(watch, options),
  };
}

/** Refuses what an XML reader would refuse of the little we write: elements, quoted attributes, five entities. */
function wellFormed(svg: string): void {
  const open: string[] = [];
  const rest = svg.replace(
    /<(\/?)(\w+)((?: [\w:-]+="[^"<>]*")*)(\/?)>/g,
    (_, end, name, _a, own) => {
      if (end === "/") expect(open.pop()).toBe(name);
      else if (own !== "/") open.push(String(name));
      return "";
    },
  );
  expect(open).toEqual([]);
  expect(rest).not.toMatch(/[<>]/);
  expect(svg.replace(/&(amp|lt|gt|quot|#39);/g, "")).not.toContain("&");
}

describe("every figure", () => {
  const drawn = all(plan);
  test.each(KINDS)("%s is well formed, named, described and free of non-numbers", (kind) => {
    const svg = drawn[kind];
    wellFormed(svg);
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="([\w-]+) ([\w-]+)"/);
    expect(svg).toContain(`<title id="hw-${kind}-t">`);
    expect(svg).toMatch(new RegExp(`<desc id="hw-${kind}-d">[^<]{10,}</desc>`));
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
    expect(svg).not.toMatch(/<script|<foreignObject|href=|url\(|@import/);
    expect(svg.length).toBeLessThanOrEqual(MOST_BYTES);
  });
  test("ids differ between the kinds, and between two of a kind with ids of their own", () => {
    const page =
      Object.values(drawn).join("") + Object.values(all(plan, { id: "second night!" })).join("");
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.every((id) => /^[\w-]+$/.test(id!))).toBe(true);
  });
  test("the width is held to what fits", () => {
    for (const [asked, drawnPx] of [
      [10, 320],
      [NaN, 320],
      [500, 500],
      [9000, 1600],
    ])
      for (const svg of Object.values(all(plan, { widthPx: asked! })))
        expect(svg).toContain(` width="${drawnPx}" `);
  });
  test("options that are none are refused, and nothing of them gets into the style sheet", () => {
    for (const bad of [
      { theme: "x{}</style><script>" },
      { theme: "darker" },
      { width: 360 },
      { widthPx: "360" },
      { id: 5 },
      null,
    ]) {
      expect(() => figures.watchFigure({ reports: [] }, bad as never)).toThrow(InputError);
      for (const draw of [
        figures.stayFigure,
        figures.rodeFigure,
        figures.holdingFigure,
        figures.shelterFigure,
      ])
        expect(() => draw(plan, bad as never)).toThrow(InputError);
      expect(() => figures.swingFigure(plan, undefined, bad as never)).toThrow(InputError);
    }
  });
  test("colours come from variables alone, and each theme from a class of its own", () => {
    for (const theme of ["auto", "light", "dark", "night"] as const)
      for (const svg of Object.values(all(plan, { theme }))) {
        expect(svg).toContain(`class="hw hw-${theme}"`);
        const body = svg.replace(/<style>.*?<\/style>/s, "");
        expect(body).not.toMatch(/#[0-9a-f]{3,8}\b(?!;)/i);
      }
  });
  test("at night nothing is brighter in green or blue than in red", () => {
    const style = /<style>.*?<\/style>/s.exec(all(plan, { theme: "night" }).depth)![0];
    const colours = [...style.matchAll(/#([0-9a-f]{3}|[0-9a-f]{6})\b/gi)].map((m) => m[1]!);
    expect(colours.length).toBeGreaterThan(8);
    for (const c of colours) {
      const parts = c.length === 3 ? Array.from(c, (d) => d + d) : c.match(/../g)!;
      const [r, g, b] = parts.map((p) => parseInt(p, 16));
      expect(g! <= r! / 2 + 1 && b! <= r! / 2 + 1).toBe(true);
    }
  });
});

describe("text from outside", () => {
  const evil = `"><script>alert('x')</script>&\u0000\ud800<svg onload=1>`;
  test("is escaped wherever it is written", () => {
    const input = demoWith({
      name: evil,
      neighbours: demo().neighbours!.map((n) => ({ ...n, name: evil })),
    });
    for (const svg of Object.values(all(planStay(input), {}, input))) {
      wellFormed(svg);
      expect(svg).not.toContain("<script");
      expect(svg).not.toContain("<svg onload");
      expect(svg).not.toMatch(/[\u0000-\u0008]/);
    }
  });
  test("escapes the five characters and drops what XML does not allow", () => {
    expect(escapeText(`a<b>&"'\u0001\ud800é😀`)).toBe("a&lt;b&gt;&amp;&quot;&#39;é😀");
  });
  test("long words do not run out of a narrow figure", () => {
    for (const line of wrapped("x".repeat(500), 300)) expect(line.length).toBeLessThan(60);
  });
});

describe("what is not known", () => {
  const bare = planStay({
    version: 1,
    position: demo().position,
    stay: demo().stay,
    vessel: demo().vessel,
    tackle: demo().tackle,
  });
  test("leaves figures that say so", () => {
    const drawn = all(bare);
    expect(drawn.depth).toContain("The least water is not known");
    expect(drawn.rode).toContain("nothing can be drawn");
    expect(drawn.swing).toContain("room to anything else is not known");
    expect(drawn.shelter).toContain("cannot be reckoned");
    expect(drawn.holding).toContain("holding or the pull is not known");
    for (const svg of Object.values(drawn)) {
      wellFormed(svg);
      expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
    }
  });
  test("high and low water stand where the table has them, between steps of any length", () => {
    const { depth, moments } = plan;
    if (depth?.known !== true) throw new Error("the tide of the demo is known");
    const [i, last] = [moments.timeMs.indexOf(depth.least.timeMs), moments.timeMs.length - 1];
    expect(i).toBeGreaterThan(0);
    const step = (k: number): number => moments.timeMs[k + 1]! - moments.timeMs[k]!;
    expect(step(i)).not.toBe(step(i - 1));
    expect(last).toBeGreaterThan(i);
    const said = [...figures.stayFigure(plan).matchAll(/>([HL]W \d\d:\d\d) · ([\d.]+) m</g)];
    const turns = demo().tide!.kind === "turns" ? (demo().tide as TideTurns).turns : [];
    const inside = turns.filter((t) => t.timeMs > plan.stay.fromMs && t.timeMs < plan.stay.toMs);
    expect(said.map((m) => m[1])).toEqual(
      inside.map(
        (t) =>
          `${t.heightM > 2 ? "HW" : "LW"} ${new Date(t.timeMs + 3_600_000).toISOString().slice(11, 16)}`,
      ),
    );
    expect(said.map((m) => m[2])).toEqual(
      inside.map((t) => (t.heightM + demo().chartedDepthM!).toFixed(1)),
    );
  });
  test("breaks lines and is never drawn as nought", () => {
    const gap = structuredClone(plan);
    gap.moments.depthM.fill(null, 20, 30);
    const path = /<path d="(M[^"]*)" class="line"\/>/.exec(figures.stayFigure(gap))![1]!;
    expect(path.match(/M/g)!.length).toBe(2);
  });
  test("a watch that has said nothing says so", () => {
    expect(figures.watchFigure({ reports: [] })).toContain("said nothing yet");
  });
  test("an hour of unknown comfort is drawn as heavily as the worst", () => {
    const unsure = structuredClone(plan);
    unsure.shelter!.hours.comfort.fill("unknown");
    const svg = figures.shelterFigure(unsure);
    expect(svg).toMatch(/class="bar dots" stroke-width="15"/);
  });
});

test("no figure writes a style into an element: a page may forbid it", () => {
  for (const svg of [
    figures.shelterFigure(plan),
    figures.rodeFigure(plan),
    figures.stayFigure(plan),
    figures.swingFigure(plan),
    figures.holdingFigure(plan),
  ])
    expect(svg).not.toContain("style=");
});

describe("crowded figures stay small", () => {
  test("a chart of ten thousand shapes", () => {
    const { latDeg, lonDeg } = demo().position;
    const at = (i: number, k: number): [number, number] => [
      lonDeg + 0.002 * Math.sin(i * 7.3 + k * 0.9) + k * 2e-5,
      latDeg + 0.0015 * Math.cos(i * 3.1 + k * 1.7),
    ];
    const shape = (type: string, coordinates: unknown) => ({
      type: "Feature" as const,
      properties: {},
      geometry: { type, coordinates },
    });
    const ring = (i: number) => {
      const points = Array.from({ length: 30 }, (_, k) => at(i, k));
      return [[...points, points[0]!]];
    };
    const many = Array.from({ length: 10_000 }, (_, i) => i);
    const collection = (features: unknown[]) => ({ type: "FeatureCollection", features });
    const layers = {
      DEPARE: collection(many.map((i) => shape("Polygon", ring(i)))),
      COALNE: collection(many.map((i) => shape("LineString", ring(i)[0]))),
      UWTROC: collection(many.map((i) => shape("Point", at(i, 1)))),
      SOUNDG: collection([shape("MultiPoint", many.map((i) => [...at(i, 2), 3.1]))]), // prettier-ignore
    };
    const input = { ...demo(), chart: { layers } } as unknown as StayInput;
    const svg = figures.swingFigure(plan, input, { widthPx: 1600 });
    wellFormed(svg);
    expect(svg.length).toBeLessThanOrEqual(MOST_BYTES);
    expect(svg).toMatch(/class="line bad"/);
  });
  test("a night of fixes a second apart", () => {
    const svg = figures.watchFigure(watchedNight(8, 1), { widthPx: 1600 });
    expect(svg.length).toBeLessThanOrEqual(MOST_BYTES);
    expect(svg).toContain("First said to drag");
  });
  test("sixty neighbours", () => {
    const input = demoWith({
      neighbours: Array.from({ length: 60 }, (_, i) => ({
        ...demo().neighbours![0]!,
        name: `neighbour with a long name, number ${i}`,
      })),
    });
    const svg = figures.swingFigure(planStay(input), input);
    expect(svg.length).toBeLessThanOrEqual(MOST_BYTES);
    expect(svg).toContain("more, farther off");
  });
});

describe("a long watch drawn by its worst", () => {
  test("one bad report among thousands is not lost", () => {
    const calm = watched.reports[100]!;
    const reports = Array.from({ length: 5000 }, (_, i) => ({
      ...calm,
      atMs: calm.atMs + i * 1000,
      mode: i === 2501 ? ("dragging" as const) : ("lying" as const),
    }));
    expect(figures.watchFigure({ reports })).toContain(`stroke-width="16"`);
    expect(
      figures.watchFigure({ reports: reports.map((r) => ({ ...r, mode: "lying" as const })) }),
    ).not.toContain(`stroke-width="16"`);
  });
});

describe("cutting to a frame", () => {
  const frame = { left: 0, right: 10, top: 0, bottom: 10 };
  test("a ring round the frame becomes the frame", () => {
    const ring = clipRing([[-5, -5], [15, -5], [15, 15], [-5, 15]], frame); // prettier-ignore
    const area = ring.reduce((sum, [x, y], i) => {
      const [u, v] = ring[(i + 1) % ring.length]!;
      return sum + (x * v - u * y) / 2;
    }, 0);
    expect(Math.abs(area)).toBe(100);
  });
  test("a line that leaves and comes back is two parts", () => {
    expect(clipLine([[5, 5], [20, 5], [20, 8], [5, 8]], frame)).toEqual([[[5, 5], [10, 5]], [[10, 8], [5, 8]]]); // prettier-ignore
  });
  test("ticks are round and inside", () => {
    expect(ticks(0, 7.2)).toEqual([0, 2, 4, 6]);
    expect(ticks(-0.5, 0.6)).toEqual([-0.5, 0, 0.5]);
  });
});
