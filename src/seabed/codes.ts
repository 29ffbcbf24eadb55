/** Where a row of the vocabulary was read. */
export type VocabularySource = "chs" | "cn" | "ps" | "hist" | "s57def" | "dceg" | "mem";

/** Titles behind the source keys of the vocabulary. */
export const vocabularySources: Readonly<Record<VocabularySource, string>> = {
  chs: "Canadian Hydrographic Service, Chart 1, section J, items 1 to 15",
  cn: "Nature of the seabed, list drawn from British Chart 5011 and U.S. Chart No. 1",
  ps: "Common bottom type abbreviations, after U.S. Chart No. 1",
  hist: "Historic Bottom Characteristics and Abbreviations, sheet of codes of U.S. surveys and charts, github.com/SimonDedman/MarSpatAuto, historic_codes.pdf",
  s57def: "IHO S-57 edition 3.1 (2000), attribute NATSUR",
  dceg: "IHO S-101 Annex A 2.0.0 (2024), clauses 12.1 to 12.3",
  mem: "INT 1 and U.S. Chart No. 1, from memory",
};

/** What a bed is made of; `unknown` where a chart gives a quality only, or a code not in the list. */
export const MATERIALS = [
  "mud",
  "clay",
  "silt",
  "sand",
  "stones",
  "gravel",
  "pebbles",
  "cobbles",
  "rock",
  "lava",
  "coral",
  "shells",
  "boulders",
  "ooze",
  "shingle",
  "chalk",
  "volcanicAsh",
  "oysters",
  "mussels",
  "marl",
  "ground",
  "unknown",
] as const;
/** What a bed is made of. */
export type Material = (typeof MATERIALS)[number];

/** A qualifying term of a material. */
export const QUALITIES = [
  "fine",
  "medium",
  "coarse",
  "broken",
  "sticky",
  "soft",
  "stiff",
  "volcanic",
  "calcareous",
  "hard",
  "small",
  "large",
  "speckled",
  "decayed",
  "white",
  "black",
  "blue",
  "green",
  "yellow",
  "red",
  "brown",
  "grey",
] as const;
/** A qualifying term of a material. */
export type Quality = (typeof QUALITIES)[number];

/** What grows on a bed. */
export const WEEDS = ["weed", "kelp", "seagrass"] as const;
/** What grows on a bed. */
export type Weed = (typeof WEEDS)[number];

/** One row of the vocabulary of the seabed on charts. */
export interface VocabularyRow<T extends string> {
  /** The term. */
  readonly term: T;
  /** Code of NATSUR (materials), NATQUA (qualities) or CATWED (weeds); null where there is none. */
  readonly code: number | null;
  /** Abbreviations on charts, the case as printed. */
  readonly abbreviations: readonly string[];
  /** Whole words that mean it, in lower case. */
  readonly words: readonly string[];
  /** Keys into {@link vocabularySources}. */
  readonly sources: readonly VocabularySource[];
}

// term | code | abbreviations | words | sources
const MATERIAL_ROWS = `
mud | 1 | M | mud | chs cn s57def
clay | 2 | Cy Cl | clay | chs cn s57def
silt | 3 | Si | silt | chs cn s57def
sand | 4 | S Sd | sand | chs cn s57def
stones | 5 | St | stone stones | chs cn s57def
gravel | 6 | G | gravel | chs cn s57def
pebbles | 7 | P | pebbles | chs cn s57def
cobbles | 8 | Cb | cobbles | chs cn s57def
rock | 9 | R Rky rky Rk rk | rock rocks rocky | chs cn ps s57def
lava | 11 | Lv | lava | s57def mem
coral | 14 | Co | coral | chs cn s57def
shells | 17 | Sh | shell shells | chs cn s57def
boulders | 18 | Bo Blds | boulders | chs cn ps s57def
ooze | | Oz | ooze | ps
shingle | | Sn | shingle | ps
chalk | | Ck | chalk | ps
volcanicAsh | | Vol-Ash | | ps
oysters | | Oys | oysters | ps
mussels | | Ms | mussels | mem
marl | | Ml | marl | mem
ground | | Grd | ground | mem
`;

const QUALITY_ROWS = `
fine | 1 | f fne | fine | ps dceg
medium | 2 | m | medium | ps dceg
coarse | 3 | c crs | coarse | ps dceg
broken | 4 | bk brk | broken | dceg mem
sticky | 5 | sy stk | sticky | ps dceg
soft | 6 | so sft | soft | ps dceg
stiff | 7 | sf stf | stiff | ps dceg
volcanic | 8 | v Vol | volcanic | dceg mem
calcareous | 9 | ca Ca | calcareous | ps dceg
hard | 10 | h hrd | hard | ps dceg
small | | s sml | small | hist mem
large | | l lrg | large | hist mem
speckled | | spk | speckled | hist
decayed | | dec | decayed | ps
white | | wh | white | hist
black | | bl blk | black | hist mem
blue | | bu | blue | hist
green | | gn | green | hist
yellow | | y yl | yellow | hist mem
red | | rd | red | hist
brown | | br | brown | hist
grey | | gy | grey gray | hist
`;

const WEED_ROWS = `
kelp | 1 | K | kelp | chs ps dceg
weed | 2 | Wd Grs grs Spg | weed grass sponge | chs cn ps dceg
seagrass | 3 | Sg sg | seagrass | chs cn dceg
`;

const list = (text: string): string[] => text.split(" ").filter((item) => item !== "");

const rows = <T extends string>(table: string): VocabularyRow<T>[] =>
  table
    .trim()
    .split("\n")
    .map((line) => {
      const [term, code, abbreviations, words, sources] = line
        .split("|")
        .map((field) => field.trim());
      return {
        term: term as T,
        code: code === "" ? null : Number(code),
        abbreviations: list(abbreviations!).map((a) => a.replace("-", " ")),
        words: list(words!),
        sources: list(sources!) as VocabularySource[],
      };
    });

/** Materials: INT 1 section J, with the forms of older U.S. and British charts, and NATSUR codes. */
export const materialRows: readonly VocabularyRow<Material>[] =
  /* @__PURE__ */ rows<Material>(MATERIAL_ROWS);
/** Qualities: INT 1 J 30 to 39 with NATQUA codes, and the sizes and colours of older charts. */
export const qualityRows: readonly VocabularyRow<Quality>[] =
  /* @__PURE__ */ rows<Quality>(QUALITY_ROWS);
/** Growth on the bed: INT 1 J 13 with CATWED codes; drifting weed (CATWED 4) is not on the bed. */
export const weedRows: readonly VocabularyRow<Weed>[] = /* @__PURE__ */ rows<Weed>(WEED_ROWS);
