import { describe, expect, test } from "vitest";
import {
  ANCHOR_TYPES,
  BEDS,
  holdingMatrix,
  holdingSources,
  parseSeabed,
  rateAnchors,
  seabedFromCodes,
  type AnchorType,
  type Bed,
} from "../../src/seabed/index.js";

const SANDS: Bed[] = ["sand, firm", "sand, hard packed", "sand, coarse or loose"];
const MUDS: Bed[] = ["mud, soft", "mud, firm", "mixed sand and mud"];
// Common practice, no source: what each type is taught to be poor in, whatever a kinder source says.
const POOR: Partial<Record<AnchorType, Bed[]>> = {
  fisherman: [...SANDS, ...MUDS],
  grapnel: [...SANDS, ...MUDS],
  hingedPlough: ["rock", "weed or seagrass", "kelp"],
  pivotingFluke: ["rock"],
  claw: ["rock"],
};
const cell = (bed: Bed, anchor: AnchorType) =>
  holdingMatrix.find((c) => c.bed === bed && c.anchor === anchor)!;
/** The figure of the published matrix, no better than poor where commonly taught so. */
const figure = (bed: Bed, anchor: AnchorType): number =>
  POOR[anchor]?.includes(bed) === true
    ? Math.min(1, cell(bed, anchor).rating)
    : cell(bed, anchor).rating;
const worst = (beds: readonly Bed[], anchor: AnchorType) =>
  Math.min(...beds.map((b) => figure(b, anchor)));

const rated = (text: string) => rateAnchors(parseSeabed(text));
const each = (text: string, expected: (anchor: AnchorType) => object) => {
  const { ratings } = rated(text);
  for (const a of ANCHOR_TYPES) expect([text, a, ratings[a]]).toMatchObject([text, a, expected(a)]);
};

describe("a bed by itself has the figure of its row", () => {
  test.each<[string, Bed]>([
    ["soM", "mud, soft"],
    ["Oz", "mud, soft"],
    ["syM", "mud, firm"],
    ["sfM", "mud, firm"],
    ["hM", "mud, firm"],
    ["Cy", "clay, soft to firm"],
    ["soCy", "clay, soft to firm"],
    ["Ml", "clay, soft to firm"],
    ["sfCy", "clay, stiff or hard"],
    ["hCy", "clay, stiff or hard"],
    ["Si", "silt"],
    ["S", "sand, firm"],
    ["fS", "sand, firm"],
    ["hS", "sand, hard packed"],
    ["cS", "sand, coarse or loose"],
    ["soS", "sand, coarse or loose"],
    ["Vol Ash", "sand, coarse or loose"],
    ["G", "gravel"],
    ["P", "shingle or pebbles"],
    ["Sn", "shingle or pebbles"],
    ["St", "stones, cobbles, boulders"],
    ["Cb", "stones, cobbles, boulders"],
    ["Bo", "stones, cobbles, boulders"],
    ["R", "rock"],
    ["Lv", "rock"],
    ["Ck", "rock"],
    ["Co", "coral"],
    ["Sh", "shells"],
    ["Oys", "shells"],
    ["Ms", "shells"],
  ])("%s is %s", (text, bed) => {
    expect(rated(text)).toMatchObject({ known: true, beds: [bed] });
    each(text, (a) => ({
      bed,
      rating: figure(bed, a),
      low: figure(bed, a),
      statement: cell(bed, a).statement,
    }));
  });

  test("plain mud is rated as taught, with soft mud as its low end", () => {
    expect(rated("M").beds).toEqual(["mud, firm", "mud, soft"]);
    each("M", (a) => ({
      bed: "mud, firm",
      rating: figure("mud, firm", a),
      low: worst(["mud, firm", "mud, soft"], a),
    }));
  });

  test("stiff alone is the worse of firm mud and stiff clay", () => {
    each("sf", (a) => ({ rating: worst(["mud, firm", "clay, stiff or hard"], a) }));
  });

  test("ground, and a quality that says nothing of strength, may be the worst of all beds", () => {
    for (const text of ["Grd", "f", "gy"]) {
      expect(rated(text)).toMatchObject({ known: false, beds: [] });
      each(text, (a) => ({ rating: worst(BEDS, a), low: worst(BEDS, a) }));
    }
  });

  test("nothing charted at all may be the worst of all beds", () => {
    const { ratings, known } = rateAnchors(seabedFromCodes({}));
    expect(known).toBe(false);
    for (const a of ANCHOR_TYPES) expect(ratings[a].rating).toBe(worst(BEDS, a));
  });
});

describe("mixtures: the main constituent, a step lower where a later one is two or more steps worse", () => {
  const PARTS = ["S", "M", "Cy", "sfCy", "G", "P", "St", "R", "Sh", "Co"];
  test("two and three constituents", () => {
    for (const first of PARTS)
      for (const second of PARTS)
        for (const third of [null, "R", "Sh"]) {
          const parts = [first, second, ...(third === null ? [] : [third])];
          // Sand and mud alone are a bed by themselves.
          if (parts.length === 2 && parts.includes("S") && parts.includes("M")) continue;
          const alone = parts.map((p) => rated(p).ratings);
          each(parts.join("."), (a) => {
            const main = alone[0]![a].rating;
            const marred = alone.slice(1).some((r) => r[a].rating <= main - 2);
            const rating = marred ? main - 1 : main;
            return { rating, low: Math.min(rating, ...alone.map((r) => r[a].low)) };
          });
        }
  });

  test("sand and mud in either order are a bed of the matrix", () => {
    for (const text of ["S.M", "M.S"])
      each(text, (a) => ({
        bed: "mixed sand and mud",
        rating: figure("mixed sand and mud", a),
      }));
    // Something said of either, or a third constituent, and they are rated by the main one.
    for (const text of ["soM.S", "S.soM", "M.S.Sh", "M.Cy", "S.Cy", "M.M", "S.S"])
      each(text, (a) => ({ bed: rated(text.split(".")[0]!).ratings[a].bed }));
  });
});

describe("layers", () => {
  const thin: Bed = "thin soft layer over hard";
  test.each(["S/R", "M/R", "Cy/G", "S.G/R", "S/M/R", "S/Co", "S/hCy", "S/h", "S/Sh.R", "Oz/St"])(
    "%s is no better than a thin layer",
    (text) => {
      const surface = rated(text.split("/")[0]!).ratings;
      each(text, (a) => ({
        rating: Math.min(surface[a].rating, figure(thin, a)),
        low: Math.min(surface[a].low, figure(thin, a)),
      }));
    },
  );
  test.each(["S/M", "M/S", "S/Cy/M", "S/Sh", "S/Oys", "S/Ms", "R/S", "G/R", "Sh/R"])(
    "%s is rated by its surface",
    (text) => {
      const surface = rated(text.split("/")[0]!).ratings;
      each(text, (a) => ({ rating: surface[a].rating, low: surface[a].low, bed: surface[a].bed }));
    },
  );
});

describe("weed", () => {
  test("over a bed: the worse of the two", () => {
    for (const weed of ["Wd", "Sg"])
      each(`S.${weed}`, (a) => ({
        rating: worst(["sand, firm", "weed or seagrass"], a),
        low: worst(["sand, firm", "weed or seagrass"], a),
      }));
    each("S.K", (a) => ({ rating: worst(["sand, firm", "kelp", "rock"], a) }));
    each("S.K.Wd", (a) => ({
      rating: worst(["sand, firm", "kelp", "rock", "weed or seagrass"], a),
    }));
  });
  test("over a bed that is not charted: the rating of weed, and the worst of all beds as low end", () => {
    each("Wd", (a) => ({ rating: figure("weed or seagrass", a), low: worst(BEDS, a) }));
    each("K", (a) => ({ rating: worst(["kelp", "rock"], a), low: worst(BEDS, a) }));
    expect(rated("Wd").known).toBe(true);
  });
});

describe("what is said of a rating", () => {
  test("sources by title and place, with common teaching where it decides", () => {
    let teachings = 0;
    for (const text of ["S", "hS", "cS", "S.M", "R", "Wd", "K", "M", "soM", "Sh"]) {
      const { ratings } = rated(text);
      for (const a of ANCHOR_TYPES) {
        const { bed, sources, rating } = ratings[a];
        const given = cell(bed, a);
        const taught = rating < given.rating;
        teachings += taught ? 1 : 0;
        expect(sources).toHaveLength(given.sources.length + (taught ? 1 : 0));
        given.sources.forEach((key, i) => {
          const { title, where } = holdingSources[key]!;
          expect(sources[i]).toContain(title);
          expect(sources[i]).toContain(where);
          // A place that the title names is not said twice.
          if (where !== "") expect(sources[i]!.split(where)).toHaveLength(2);
        });
        expect(sources.some((s) => s.includes("commonly taught as poor"))).toBe(taught);
      }
    }
    expect(teachings).toBeGreaterThan(0);
  });

  test("cautions", () => {
    const codes = (text: string) => rated(text).cautions.map((c) => c.code);
    expect(codes("S")).toEqual([]);
    expect(codes("M")).toEqual(["seabed.firmnessUnknown"]);
    for (const q of ["so", "sy", "sf", "h"]) expect(codes(`${q}M`)).toEqual([]);
    expect(codes("gyM")).toEqual(["seabed.firmnessUnknown"]);
    expect(codes("S.M")).toEqual(["seabed.firmnessUnknown"]);
    // Mud beneath the surface is not what the anchor is set in.
    expect(codes("S/M")).toEqual([]);
    expect(codes("K")).toEqual(["seabed.kelp"]);
    expect(codes("Sg")).toEqual(["seabed.protected"]);
    expect(codes("Co")).toEqual(["seabed.protected"]);
    expect(codes("S/Co")).toEqual(["seabed.protected"]);
    expect(codes("St")).toEqual(["seabed.anySize"]);
    expect(codes("Grd")).toEqual(["seabed.notCharted"]);
    expect(
      rateAnchors(seabedFromCodes({ natsur: "4,99" })).cautions.map((c) => [c.code, c.value]),
    ).toEqual([
      ["seabed.notCharted", null],
      ["seabed.unknownCode", "NATSUR 99"],
    ]);
  });

  test("coral in any layer is protected", () => {
    expect(rated("S/Co").protectedBed).toBe(true);
    expect(rated("S.Co").protectedBed).toBe(true);
    expect(rated("S").protectedBed).toBe(false);
  });

  test("beds are named once, those of the surface first", () => {
    expect(rated("R.S/R").beds).toEqual(["rock", "sand, firm"]);
    expect(rated("S.Grd").beds).toEqual(["sand, firm"]);
    expect(rated("S.Grd").known).toBe(false);
  });
});

describe("lists that lost their slots", () => {
  test("each constituent is rated with any of the qualities, or none, whichever is worst", () => {
    const { ratings } = rateAnchors(seabedFromCodes({ natsur: ["4", "2"], natqua: ["10"] }));
    for (const a of ANCHOR_TYPES) {
      const main = worst(["sand, firm", "sand, hard packed"], a);
      const other = worst(["clay, soft to firm", "clay, stiff or hard"], a);
      expect(ratings[a]).toMatchObject({
        rating: other <= main - 2 ? main - 1 : main,
        low: Math.min(main, other),
      });
    }
  });
  test("it is said, and so are the rules", () => {
    const { cautions, basis } = rateAnchors(
      seabedFromCodes({ natsur: ["4", "2"], natqua: ["10"] }),
    );
    expect(cautions.map((c) => c.code)).toEqual(["seabed.slotsLost"]);
    for (const word of ["mixture", "soft layer", "weed"]) expect(basis.join()).toContain(word);
  });
});
