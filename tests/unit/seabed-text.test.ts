import { describe, expect, test } from "vitest";
import { InputError } from "../../src/core/index.js";
import { parseSeabed, seabedFromCodes } from "../../src/seabed/index.js";

const layersOf = (text: string, usage: "chart" | "british" = "chart") =>
  parseSeabed(text, { usage }).layers.map((l) =>
    l.materials.map((m, i) => [...l.qualities[i]!, m].join(" ")).join(", "),
  );
/** Where a text is refused, and what is said. */
const refusal = (text: string): string => {
  try {
    parseSeabed(text);
  } catch (e) {
    if (e instanceof InputError) return e.issues.map((i) => `${i.code}: ${i.message}`).join("; ");
    throw e;
  }
  return "read";
};

describe("abbreviations joined", () => {
  // INT 1 section J: qualities in small letters before their material, parts joined by full stops, layers by a stroke.
  test.each([
    ["fS.bkSh", ["fine sand, broken shells"]],
    ["M/R", ["mud", "rock"]],
    ["cS.fG.St", ["coarse sand, fine gravel, stones"]],
    ["syM.Cb", ["sticky mud, cobbles"]],
    ["so.sy.M", ["soft sticky mud"]],
    ["sosyM", ["soft sticky mud"]],
    ["vR/caSh", ["volcanic rock", "calcareous shells"]],
    ["SSh", ["sand, shells"]],
    ["SM", ["sand, mud"]],
    ["S,M;Sh", ["sand, mud, shells"]],
    ["S+M & Cy", ["sand, mud, clay"]],
    [" S ", ["sand"]],
    [" mud", ["mud"]],
    ["sand with shells", ["sand, shells"]],
    ["Fine Sand", ["fine sand"]],
    ["MUD", ["mud"]],
    ["gyS.blkM", ["grey sand, black mud"]],
    ["spkS", ["speckled sand"]],
    ["bk", ["broken unknown"]],
    ["bkOys", ["broken oysters"]],
    ["bkMs", ["broken mussels"]],
    ["bkS", ["black sand"]],
    ["hGrd", ["hard unknown"]],
    ["Grd", ["unknown"]],
    ["Co.Sh/R/M", ["coral, shells", "rock", "mud"]],
    ["small stones", ["small stones"]],
  ])("%s", (text, expected) => {
    expect(layersOf(text)).toEqual(expected);
  });

  test("weed takes its own qualities with it, and is named once", () => {
    const { layers, weed } = parseSeabed("S.gnWd.Wd.K");
    expect(layers).toEqual([{ materials: ["sand"], qualities: [[]] }]);
    expect(weed).toEqual(["weed", "kelp"]);
    expect(parseSeabed("gnWd.S").layers[0]!.qualities).toEqual([[]]);
    // Weed beneath is growth on the bed too; a layer of weed alone is no material.
    expect(parseSeabed("Wd/R")).toMatchObject({
      weed: ["weed"],
      layers: [{ materials: ["rock"] }],
    });
  });

  test.each([
    ["fs.m", ["fine sand, mud"]],
    ["s/r", ["sand", "rock"]],
    ["so m", ["soft mud"]],
    ["bksh", ["broken shells"]],
    ["g.st.p.cb.bo", ["gravel, stones, pebbles, cobbles, boulders"]],
    ["si.co", ["silt, coral"]],
    ["hard sand", ["hard sand"]],
    ["h", ["hard unknown"]],
  ])("in British small letters %s", (text, expected) => {
    expect(layersOf(text, "british")).toEqual(expected);
  });

  test("small letters are materials in British usage alone, and only where no capital stands", () => {
    expect(layersOf("s.m")).toEqual(["small medium unknown"]);
    expect(layersOf("S.m", "british")).toEqual(["sand, medium unknown"]);
    expect(parseSeabed("wd", { usage: "british" }).weed).toEqual(["weed"]);
    expect(refusal("wd")).toMatch(/unknown_letters/);
    for (const name of ["constructor", "toString", "valueOf"])
      expect(() => parseSeabed(name, { usage: "british" })).toThrow(InputError);
  });
});

describe("what cannot be read is refused where it stands", () => {
  test.each([
    ["X", '"X" at character 1'],
    ["S.Q", '"Q" at character 3'],
    ["S/X", '"X" at character 3'],
    ["fS.M/R/Zz", '"Zz" at character 8'],
    ["S.12", '"1" at character 3'],
    ["shale", '"ale" at character 3'],
    ["My", '"y" at character 2'],
    ["Sandy", '"andy" at character 2'],
    ["M?", '"?" at character 2'],
    ["Ssand", '"sand" at character 2'],
    ["MRock", '"ock" at character 3'],
  ])("%s: %s", (text, place) => {
    expect(refusal(text)).toContain(`unknown_letters: cannot read ${place}`);
  });
  test.each([
    ["S//M", 3],
    ["/S", 1],
    ["S/", 3],
    [".", 1],
    ["and", 1],
    ["fS.M/ /R", 6],
  ])("an empty layer: %s", (text, at) => {
    expect(refusal(text)).toContain(`empty_layer: nothing stands at character ${at}`);
  });
  test("a text of two hundred characters at most", () => {
    expect(parseSeabed(Array(100).fill("S").join(".")).layers[0]!.materials).toHaveLength(100);
    expect(() => parseSeabed(`${"S.".repeat(100)}S`)).toThrow(InputError);
  });
});

describe("codes", () => {
  const read = (natsur: unknown, natqua?: unknown, catwed?: unknown) =>
    seabedFromCodes({ natsur, natqua, catwed } as never);

  // S-57 edition 3.1, NATSUR and NATQUA, every listed value.
  test.each([
    [1, "mud"],
    [2, "clay"],
    [3, "silt"],
    [4, "sand"],
    [5, "stones"],
    [6, "gravel"],
    [7, "pebbles"],
    [8, "cobbles"],
    [9, "rock"],
    [11, "lava"],
    [14, "coral"],
    [17, "shells"],
    [18, "boulders"],
  ])("NATSUR %i is %s", (code, material) => {
    expect(read(code).layers).toEqual([{ materials: [material], qualities: [[]] }]);
  });
  test.each([
    [1, "fine"],
    [2, "medium"],
    [3, "coarse"],
    [4, "broken"],
    [5, "sticky"],
    [6, "soft"],
    [7, "stiff"],
    [8, "volcanic"],
    [9, "calcareous"],
    [10, "hard"],
  ])("NATQUA %i is %s", (code, quality) => {
    expect(read(null, code).layers).toEqual([{ materials: ["unknown"], qualities: [[quality]] }]);
  });
  test.each([10, 12, 13, 15, 16, 19, 0, -1])("NATSUR %i is in no list", (code) => {
    const { layers, unknown } = read(code);
    expect(layers[0]!.materials).toEqual(["unknown"]);
    expect(unknown).toEqual([{ attribute: "NATSUR", code: String(code), layer: 0, slot: 0 }]);
  });
  test("CATWED: kelp, weed, seagrass; sargasso drifts", () => {
    expect(read(null, null, "1,2,3,4").weed).toEqual(["kelp", "weed", "seagrass"]);
    expect(read(null, null, "1,2,3,4").unknown).toEqual([]);
    expect(read(null, null, "2,2").weed).toEqual(["weed"]);
    expect(read(null, null, "2,9").unknown).toEqual([
      { attribute: "CATWED", code: "9", layer: 0, slot: 1 },
    ]);
  });

  test("leading noughts and blanks mean nothing, nought itself is no code", () => {
    expect(read(" 04 , 0017 ")).toEqual(read("4,17"));
    expect(read("108").unknown.map((u) => u.code)).toEqual(["108"]);
    expect(read("0").unknown).toHaveLength(1);
    expect(read("00").unknown.map((u) => u.code)).toEqual(["00"]);
  });
  test("empty in any form is nothing charted", () => {
    for (const nothing of [undefined, null, "", "  ", []])
      expect(read(nothing, nothing, nothing)).toEqual({
        layers: [],
        weed: [],
        pairing: "certain",
        unknown: [],
        notes: [],
      });
  });
  test("qualities beyond the materials, and layers beyond either list, are kept", () => {
    expect(read("4", "1,10").layers).toEqual([
      { materials: ["sand", "unknown"], qualities: [["fine"], ["hard"]] },
    ]);
    expect(read("4", "/10").layers).toEqual([
      { materials: ["sand"], qualities: [[]] },
      { materials: ["unknown"], qualities: [["hard"]] },
    ]);
    expect(read("4", "/10").unknown).toEqual([]);
    // Under nothing, what is charted is not the surface.
    expect(read("/4", "").layers).toEqual([
      { materials: ["unknown"], qualities: [[]] },
      { materials: ["sand"], qualities: [[]] },
    ]);
    // A layer with nothing in it is no layer.
    expect(read("4/", "").layers).toHaveLength(1);
    expect(read("4,", "").layers[0]!.materials).toEqual(["sand", "unknown"]);
  });
  test("an unknown code tells its layer and slot", () => {
    expect(read("4/1,99", "/,77").unknown).toEqual([
      { attribute: "NATQUA", code: "77", layer: 1, slot: 1 },
      { attribute: "NATSUR", code: "99", layer: 1, slot: 1 },
    ]);
  });

  test("pairing is doubtful only for arrays whose lengths part", () => {
    const pairing = (natsur: unknown, natqua: unknown) => read(natsur, natqua).pairing;
    expect(pairing(["4", "17"], ["1"])).toBe("uncertain");
    expect(pairing("4,17", ["1"])).toBe("uncertain");
    expect(pairing(["4", "17"], "1")).toBe("uncertain");
    expect(pairing("4,17", "1")).toBe("certain");
    expect(pairing(["4", "17"], ["1", "4"])).toBe("certain");
    expect(pairing(["4", "17"], [])).toBe("certain");
    expect(pairing(["4", "17"], "  ")).toBe("certain");
    expect(pairing([], ["1", "4"])).toBe("certain");
    expect(pairing(["4/1"], ["1"])).toBe("uncertain");
    expect(pairing(["4/1,17"], ["1/,4"])).toBe("certain");
    expect(pairing(["4/1,17"], ["1/4"])).toBe("uncertain");
    expect(pairing(["4,1/17"], ["1/4"])).toBe("uncertain");
  });
  test("what is no list of codes is refused", () => {
    for (const bad of [{}, true, [null], [[4]], NaN]) expect(() => read(bad)).toThrow(InputError);
  });
});
