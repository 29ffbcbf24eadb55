import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/index.js";
import {
  ANCHOR_TYPES,
  BEDS,
  holdingMatrix,
  holdingSources,
  materialRows,
  parseSeabed,
  qualityRows,
  rateAnchors,
  seabedFromCodes,
  vocabularySources,
  weedRows,
  type AnchorType,
} from "../../src/seabed/index.js";
import { hasSharedData, sharedJson } from "../shared-data.js";

const layersOf = (text: string) =>
  parseSeabed(text).layers.map((l) =>
    l.materials.map((m, i) => [...l.qualities[i]!, m].join(" ")).join(", "),
  );

describe("text of the seabed", () => {
  // INT 1 J 12.2 (Canadian Chart 1): "fine sand with mud and shells"; J 12.1: "sand over mud".
  test.each([
    ["fS.M.Sh", ["fine sand, mud, shells"]],
    ["f.S.M/R", ["fine sand, mud", "rock"]],
    ["S/M", ["sand", "mud"]],
    ["fne S crs G", ["fine sand, coarse gravel"]],
    ["Blds", ["boulders"]],
    ["rky", ["rock"]],
    ["Vol Ash", ["volcanicAsh"]],
    ["Cl", ["clay"]],
    ["Sand and Mud", ["sand, mud"]],
    ["sf Cy", ["stiff clay"]],
    ["soM", ["soft mud"]],
    // Historic Bottom Characteristics and Abbreviations: as of surveys and as of charts.
    ["lrg St", ["large stones"]],
    ["smlP", ["small pebbles"]],
    ["blM", ["black mud"]],
    ["bl.brk.Sh", ["black broken shells"]],
    ["spk yl S", ["speckled yellow sand"]],
  ])("%s", (text, expected) => {
    expect(layersOf(text)).toEqual(expected);
  });

  test("the case of a letter decides: M mud, m medium; S sand, s small", () => {
    expect(layersOf("mS")).toEqual(["medium sand"]);
    expect(layersOf("M.S")).toEqual(["mud, sand"]);
    expect(layersOf("sSh")).toEqual(["small shells"]);
    expect(layersOf("m")).toEqual(["medium unknown"]);
  });

  test("in lower case a British small-craft text names materials", () => {
    const { layers, weed } = parseSeabed("s.m/cy wd", { usage: "british" });
    expect(layers.map((l) => l.materials)).toEqual([["sand", "mud"], ["clay"]]);
    expect(weed).toEqual(["weed"]);
    expect(parseSeabed("mS", { usage: "british" })).toEqual(parseSeabed("mS"));
  });

  test("bk is broken before shells and coral, black before anything else", () => {
    expect(layersOf("bkSh.bkM")).toEqual(["broken shells, black mud"]);
    expect(layersOf("brk Co")).toEqual(["broken coral"]);
  });

  test("a quality alone is a bed whose material is not charted", () => {
    expect(layersOf("hrd")).toEqual(["hard unknown"]);
    expect(layersOf("so")).toEqual(["soft unknown"]);
    expect(layersOf("stk")).toEqual(["sticky unknown"]);
    expect(layersOf("S.h")).toEqual(["sand, hard unknown"]);
  });

  test("weed, kelp and seagrass grow on the bed", () => {
    expect(parseSeabed("S.Wd")).toMatchObject({ weed: ["weed"] });
    expect(parseSeabed("K")).toMatchObject({ weed: ["kelp"], layers: [] });
    expect(parseSeabed("Sg").weed).toEqual(["seagrass"]);
    expect(parseSeabed("Grs").weed).toEqual(["weed"]);
  });

  test.each(["X", "S.Q", "shale", "Marsh", "My", "S//M", "/S", "S/", "", "12", "Sandy"])(
    "letters that are not in the list are refused: %j",
    (text) => {
      expect(() => parseSeabed(text)).toThrow(InputError);
    },
  );

  test("every abbreviation and word of the vocabulary reads as its term", () => {
    for (const rows of [materialRows, qualityRows, weedRows])
      for (const row of rows)
        for (const form of [...row.abbreviations, ...row.words]) {
          const { layers, weed } = parseSeabed(form);
          const found = [
            ...layers.flatMap((l) => [...l.materials, ...l.qualities.flat()]),
            ...weed,
          ].filter((t) => t !== "unknown");
          expect([form, found]).toEqual([form, row.term === "ground" ? [] : [row.term]]);
          for (const s of row.sources) expect(vocabularySources[s].length).toBeGreaterThan(0);
        }
  });
});

describe("codes of the seabed", () => {
  const forms = (natsur: string): (string | number | (string | number)[])[] => [
    natsur,
    natsur.split(","),
    natsur.split(",").map(Number),
    ...(natsur.includes(",") ? [] : [Number(natsur)]),
  ];
  test.each(["1", "4", "4,1", "4,6,17"])("all forms of %s read alike", (natsur) => {
    const read = forms(natsur).map((n) => seabedFromCodes({ natsur: n }));
    for (const seabed of read) expect(seabed).toEqual(read[0]);
    expect(read[0]!.layers[0]!.materials).toHaveLength(natsur.split(",").length);
  });

  test("an empty slot stays, so broken belongs to the shells (GDAL list as string)", () => {
    const { layers, pairing } = seabedFromCodes({
      natsur: "1,17",
      natqua: ",4",
    });
    expect(layers).toEqual([{ materials: ["mud", "shells"], qualities: [[], ["broken"]] }]);
    expect(pairing).toBe("certain");
  });

  test("an array that lost its empty slot is told by its length", () => {
    const lost = seabedFromCodes({ natsur: ["1", "17"], natqua: ["4"] });
    expect(lost.pairing).toBe("uncertain");
    expect(lost.notes.map((n) => n.code)).toEqual(["seabed.slotsLost"]);
    expect(seabedFromCodes({ natsur: ["17"], natqua: ["4"] }).pairing).toBe("certain");
  });

  test("with lost slots no anchor is rated better than with any pairing", () => {
    const lost = rateAnchors(seabedFromCodes({ natsur: ["1", "2"], natqua: ["6"] }));
    for (const natqua of ["6,", ",6"]) {
      const sure = rateAnchors(seabedFromCodes({ natsur: "1,2", natqua }));
      for (const a of ANCHOR_TYPES)
        expect(lost.ratings[a].rating).toBeLessThanOrEqual(sure.ratings[a].rating);
    }
  });

  test("layers: 4/1 is sand over mud, as a text and as an array of one", () => {
    for (const natsur of ["4/1", ["4/1"]])
      expect(seabedFromCodes({ natsur }).layers.map((l) => l.materials)).toEqual([
        ["sand"],
        ["mud"],
      ]);
  });

  test("an empty slot of NATSUR is kept as a material that is not charted", () => {
    expect(seabedFromCodes({ natsur: "4,,6,1" }).layers[0]!.materials).toEqual([
      "sand",
      "unknown",
      "gravel",
      "mud",
    ]);
  });

  test("a quality or a weed of an unlisted code is rated as the worst it may be", () => {
    const rate = (codes: object) => rateAnchors(seabedFromCodes(codes)).ratings;
    const qualities = qualityRows.flatMap(({ code }) => (code === null ? [] : [String(code)]));
    for (const anchor of ANCHOR_TYPES)
      for (const natsur of ["4", "1", "2", "4,1", "4/2"]) {
        const of = (codes: object) => rate({ natsur, ...codes })[anchor].rating;
        const odd = of({ natqua: "77" });
        for (const natqua of ["", ...qualities]) expect(odd).toBeLessThanOrEqual(of({ natqua }));
        if (natsur.endsWith("2"))
          for (const q of qualities)
            expect(of({ natqua: "/77" })).toBeLessThanOrEqual(of({ natqua: `/${q}` }));
        for (const catwed of ["9", "x", "04,77"])
          for (const listed of ["1", "2", "3"])
            expect(of({ catwed })).toBeLessThanOrEqual(of({ catwed: listed }));
      }
    const alone = rateAnchors(seabedFromCodes({ catwed: "9" }));
    expect(alone.known).toBe(false);
    for (const anchor of ANCHOR_TYPES)
      expect(alone.ratings[anchor].rating).toBe(rate({})[anchor].rating);
    expect(seabedFromCodes({ natsur: "4", catwed: "9" })).toMatchObject({
      weed: ["weed"],
      unknown: [{ attribute: "CATWED", code: "9" }],
    });
    expect(seabedFromCodes({ natsur: "4", catwed: "" }).weed).toEqual([]);
    expect(seabedFromCodes({ natsur: "4", catwed: "4" }).weed).toEqual([]);
    expect(seabedFromCodes({ natsur: "4", catwed: ",3," }).weed).toEqual(["seagrass"]);
  });

  test("unknown codes are kept, reported, and never good news", () => {
    const seabed = seabedFromCodes({ natsur: "99", natqua: "77", catwed: "9" });
    expect(seabed.unknown.map((u) => `${u.attribute} ${u.code}`)).toEqual([
      "NATQUA 77",
      "NATSUR 99",
      "CATWED 9",
    ]);
    const { known, ratings } = rateAnchors(seabed);
    expect(known).toBe(false);
    for (const a of ANCHOR_TYPES) expect(ratings[a].rating).toBeLessThanOrEqual(1);
  });

  test("drifting weed is not on the bed", () => {
    expect(seabedFromCodes({ catwed: 4 }).weed).toEqual([]);
    expect(seabedFromCodes({ catwed: "1" }).weed).toEqual(["kelp"]);
  });

  test("nothing charted: nothing known", () => {
    expect(rateAnchors(seabedFromCodes({})).known).toBe(false);
  });
});

describe("rating of anchors", () => {
  const rating = (text: string, anchor: AnchorType) =>
    rateAnchors(parseSeabed(text)).ratings[anchor].rating;

  // Common practice, no source: what each type is taught to hold in.
  test.each<[AnchorType, string, "good" | "poor"]>([
    ["fisherman", "R", "good"],
    ["fisherman", "Wd", "good"],
    ["fisherman", "S", "poor"],
    ["fisherman", "M", "poor"],
    ["hingedPlough", "S", "good"],
    ["hingedPlough", "M", "good"],
    ["hingedPlough", "R", "poor"],
    ["hingedPlough", "Wd", "poor"],
    ["pivotingFluke", "S", "good"],
    ["pivotingFluke", "M", "good"],
    ["pivotingFluke", "R", "poor"],
    ["claw", "S", "good"],
    ["claw", "M", "good"],
    ["claw", "R", "poor"],
    ["fixedPlough", "S", "good"],
    ["fixedPlough", "M", "good"],
    ["rollBarScoop", "S", "good"],
    ["rollBarScoop", "M", "good"],
    ["grapnel", "S", "poor"],
    ["grapnel", "M", "poor"],
  ])("%s in %s is %s", (anchor, text, word) => {
    if (word === "good") expect(rating(text, anchor)).toBeGreaterThanOrEqual(3);
    else expect(rating(text, anchor)).toBeLessThanOrEqual(1);
  });

  test("where only a quality is charted the worst of the beds it may mean counts", () => {
    // Holding matrix: hard is the worst of hard clay, hard sand and rock; soft of soft mud and silt; sticky of firm mud and clay.
    const worst: Record<string, string[]> = {
      hrd: ["sf Cy", "hS", "R"],
      so: ["so M", "Si"],
      stk: ["sy M", "Cy"],
    };
    for (const [text, beds] of Object.entries(worst))
      for (const a of ANCHOR_TYPES)
        expect([text, a, rating(text, a)]).toEqual([
          text,
          a,
          Math.min(...beds.map((b) => rating(b, a))),
        ]);
  });

  test("those rows of the matrix agree with the beds they stand for", () => {
    const cell = (bed: string, anchor: AnchorType) =>
      holdingMatrix.find((c) => c.bed === bed && c.anchor === anchor)!.rating;
    const rows = {
      "hard (material unknown)": ["clay, stiff or hard", "sand, hard packed", "rock"],
      "soft (material unknown)": ["mud, soft", "silt"],
      "sticky (material unknown)": ["mud, firm", "clay, soft to firm"],
    };
    for (const [bed, of] of Object.entries(rows))
      for (const a of ANCHOR_TYPES)
        expect([bed, a, cell(bed, a)]).toEqual([bed, a, Math.min(...of.map((b) => cell(b, a)))]);
  });

  test("plain mud: soft mud is the low end, and it is said", () => {
    const plain = rateAnchors(parseSeabed("M"));
    const soft = rateAnchors(parseSeabed("so M"));
    for (const a of ANCHOR_TYPES)
      expect(plain.ratings[a].low).toBeLessThanOrEqual(soft.ratings[a].rating);
    expect(plain.cautions.map((c) => c.code)).toContain("seabed.firmnessUnknown");
  });

  test("weed, kelp and hard ground beneath never raise a rating", () => {
    for (const a of ANCHOR_TYPES)
      for (const worse of ["S.Wd", "S.K", "S/R", "S.Sg", "S.St"])
        expect(rating(worse, a)).toBeLessThanOrEqual(rating("S", a));
  });

  test("coral and seagrass are told as protected", () => {
    expect(rateAnchors(parseSeabed("Co")).protectedBed).toBe(true);
    expect(rateAnchors(parseSeabed("Sg")).protectedBed).toBe(true);
    expect(rateAnchors(parseSeabed("Wd")).protectedBed).toBe(false);
  });

  test("every rating has a source", () => {
    for (const text of ["S", "M", "R", "K", "Cy", "Oz", "hrd"])
      for (const r of Object.values(rateAnchors(parseSeabed(text)).ratings))
        expect(r.sources.every((s) => s.length > 5) && r.sources.length > 0).toBe(true);
  });

  test("a seabed that is none is refused", () => {
    expect(() => rateAnchors({ layers: [] } as never)).toThrow(InputError);
  });
});

describe("holding matrix", () => {
  test("one figure for each bed and type, each with known sources", () => {
    expect(holdingMatrix).toHaveLength(BEDS.length * ANCHOR_TYPES.length);
    expect(new Set(holdingMatrix.map((c) => `${c.bed} ${c.anchor}`)).size).toBe(
      holdingMatrix.length,
    );
    for (const c of holdingMatrix)
      for (const s of c.sources) expect(holdingSources[s]?.title).toBeTruthy();
  });
});

describe.skipIf(!hasSharedData)("the samples of two real cells", () => {
  interface Sample {
    properties: { NATSUR?: string | string[]; NATQUA?: string | string[] };
  }
  const cell = (name: string) =>
    hasSharedData
      ? sharedJson<{ features: Sample[] }>(`enc/variants/${name}.geojson`).features
      : [];
  const read = ({ properties }: Sample) =>
    seabedFromCodes({ natsur: properties.NATSUR, natqua: properties.NATQUA });
  const phrase = (s: Sample) =>
    read(s)
      .layers.map((l) => l.materials.map((m, i) => [...l.qualities[i]!, m].join(" ")).join("+"))
      .join(" over ");
  const count = (name: string) => {
    const out: Record<string, number> = {};
    for (const s of cell(name)) out[phrase(s)] = (out[phrase(s)] ?? 0) + 1;
    return out;
  };

  // Counts as tallied beside the data when it was made.
  test("first cell: 85 samples", () => {
    expect(count("us5wa22m-SBDARE-full-strings")).toEqual({
      mud: 50,
      sand: 16,
      "mud+sand": 5,
      "sand+gravel+shells": 3,
      rock: 2,
      "fine sand": 2,
      "soft unknown": 2,
      "sticky unknown": 1,
      "medium sand": 1,
      "sand+shells": 1,
      "sand+gravel": 1,
      gravel: 1,
    });
  });
  test("second cell: 203 samples", () => {
    expect(count("us4md81m-SBDARE-full-strings")).toEqual({
      "hard unknown": 55,
      mud: 51,
      sand: 29,
      "soft unknown": 27,
      "sticky unknown": 17,
      "sand+shells": 9,
      "sand+broken shells": 1,
      shells: 5,
      "mud+shells": 2,
      "mud+broken shells": 1,
      "sand+mud": 2,
      rock: 2,
      gravel: 1,
      "soft mud": 1,
    });
  });
  test("both forms of every list read alike, or the lost slot is said", () => {
    for (const name of ["us4md81m", "us5wa22m"]) {
      const [lists, strings] = [
        cell(`${name}-SBDARE-full-lists`),
        cell(`${name}-SBDARE-full-strings`),
      ];
      expect(lists).toHaveLength(strings.length);
      for (const [i, s] of strings.entries()) {
        const [a, b] = [read(lists[i]!), read(s)];
        expect(a.unknown).toEqual([]);
        if (a.pairing === "certain") expect(a).toEqual(b);
      }
      const lost = lists.filter((s) => read(s).pairing === "uncertain");
      expect(lost).toHaveLength(name === "us4md81m" ? 2 : 0);
    }
  });
  test("layers and empty slots of the two patched features", () => {
    expect(cell("patched-layered-SBDARE-strings").map(phrase)).toEqual([
      "sand+unknown+gravel+mud",
      "mud over sand",
    ]);
  });
});
