import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { check } from "../core/check.js";
import { refuse } from "../core/errors.js";
import {
  materialRows,
  qualityRows,
  weedRows,
  type Material,
  type Quality,
  type VocabularyRow,
  type Weed,
} from "./codes.js";
import type { Seabed, SeabedLayer } from "./seabed.js";

const textSchema = z.string().check(z.minLength(1), z.maxLength(200));
const optionsSchema = z.strictObject({
  /**
   * How a text without any capital letter is read: as on charts, where `m` is medium and `s` is
   * small (`chart`, the default), or as in British small-craft texts that print the materials in
   * lower case, where `m` is mud and `s` is sand (`british`).
   */
  usage: z._default(z.enum(["chart", "british"]), "chart"),
});

/** Options of {@link parseSeabed}. */
export type SeabedTextOptions = Given<typeof optionsSchema>;

type Token =
  | { kind: "material"; term: Material }
  | { kind: "quality"; term: Quality }
  | { kind: "weed"; term: Weed };

const SEPARATOR = /[\s.,;+&]+|(?:and|with)\b/y;
const LETTERS = /[A-Za-z]+/y;

function vocabulary(): {
  abbreviations: [string, Token][];
  words: Map<string, Token>;
} {
  const abbreviations: [string, Token][] = [];
  const words = new Map<string, Token>();
  const add = <T extends string>(kind: string, rows: readonly VocabularyRow<T>[]) => {
    for (const row of rows) {
      const token = { kind, term: row.term } as unknown as Token;
      for (const a of row.abbreviations) abbreviations.push([a, token]);
      for (const w of row.words) words.set(w, token);
    }
  };
  add("material", materialRows);
  add("quality", qualityRows);
  add("weed", weedRows);
  abbreviations.sort((a, b) => b[0].length - a[0].length);
  return { abbreviations, words };
}
const { abbreviations: ABBREVIATIONS, words: WORDS } = /* @__PURE__ */ vocabulary();

/** INT 1 J 1 to 11 in small letters, and weed: `s`, `m`, `cy` and `wd` as read, the others by the same use. */
const LOWER_CASE: ReadonlyMap<string, Token> = /* @__PURE__ */ new Map(
  ABBREVIATIONS.filter(([a]) => /^(S|M|Cy|Si|St|G|P|Cb|R|Bo|Co|Sh|Wd)$/.test(a)).map(
    ([a, token]) => [a.toLowerCase(), token],
  ),
);

/** Tokens of one layer; unknown letters are refused where they stand. */
function tokensOf(text: string, offset: number, lowerCase: boolean): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  let pieceEnd = -1;
  while (at < text.length) {
    SEPARATOR.lastIndex = at;
    if (SEPARATOR.test(text)) {
      at = SEPARATOR.lastIndex;
      continue;
    }
    LETTERS.lastIndex = at;
    const whole = LETTERS.exec(text)?.[0] ?? "";
    const word =
      (lowerCase ? LOWER_CASE.get(whole) : undefined) ??
      (at === pieceEnd ? undefined : WORDS.get(whole.toLowerCase()));
    const found: readonly [string, Token] | undefined =
      word === undefined ? ABBREVIATIONS.find(([a]) => text.startsWith(a, at)) : [whole, word];
    if (found === undefined || runsOn(tokens, found[1], at === pieceEnd))
      refuse(
        "",
        "unknown_letters",
        `cannot read ${JSON.stringify(whole || text[at])} at character ${offset + at + 1} as a seabed abbreviation`,
      );
    tokens.push(found[1]);
    at += found[0].length;
    pieceEnd = at;
  }
  return tokens;
}

/** A quality printed straight after a material, as in `My`, is not chart usage. */
const runsOn = (tokens: readonly Token[], next: Token, attached: boolean): boolean =>
  attached && next.kind === "quality" && tokens.at(-1)!.kind !== "quality";

/** `bk` is broken before coral and shells; before anything else the older lists mean black. */
const BREAKS: ReadonlySet<string> = new Set(["coral", "shells", "oysters", "mussels", "unknown"]);
const bind = (material: Material, qualities: readonly Quality[]): Quality[] =>
  qualities.map((q) => (q === "broken" && !BREAKS.has(material) ? "black" : q));

/** Qualities bind to the material after them; with none after, to a bed whose material is not charted. */
function layerOf(tokens: readonly Token[], weed: Weed[]): SeabedLayer | null {
  const layer: SeabedLayer = { materials: [], qualities: [] };
  let pending: Quality[] = [];
  const close = (material: Material) => {
    layer.materials.push(material);
    layer.qualities.push(bind(material, pending));
    pending = [];
  };
  for (const token of tokens) {
    if (token.kind === "quality") pending.push(token.term);
    else if (token.kind === "material") close(token.term === "ground" ? "unknown" : token.term);
    else {
      if (!weed.includes(token.term)) weed.push(token.term);
      pending = [];
    }
  }
  if (pending.length > 0) close("unknown");
  return layer.materials.length > 0 ? layer : null;
}

/**
 * The seabed meant by an abbreviation on a chart, such as `f.S.M/R`: fine sand with mud, over rock.
 *
 * The case of a letter matters (`M` mud, `m` medium); `.` joins the parts of a mixture, the main
 * one first; `/` sets a layer over the one beneath; a quality binds to the material after it, and
 * one that stands alone (`hrd`, `so`, `stk`) is a bed whose material is not charted. INT 1 forms,
 * the longer forms of older U.S. charts and whole English words are read. Qualities of weed
 * (colours, sizes) are dropped. Letters that are not in the list are refused, never guessed.
 *
 * *Valid*: abbreviations of INT 1 section J and the older U.S. list. *Accuracy*: a vocabulary; the
 * rows marked `mem` in {@link vocabularySources} come from memory.
 *
 * @throws InputError where a letter cannot be read, with its place in the text.
 * @source INT 1 section J as given by the Canadian Hydrographic Service, Chart 1; S-57 edition 3.1 NATSUR
 * @example
 * ```ts
 * import { parseSeabed } from "hawse/seabed";
 * const { layers } = parseSeabed("fS.M/R");
 * console.log(layers.length, layers[0].materials.join(), layers[0].qualities[0].join());
 * // 2 sand,mud fine
 * ```
 */
export function parseSeabed(text: string, options: SeabedTextOptions = {}): Seabed {
  const source = check(textSchema, text);
  const { usage } = check(optionsSchema, options);
  const lowerCase = usage === "british" && !/[A-Z]/.test(source);
  const weed: Weed[] = [];
  const layers: SeabedLayer[] = [];
  let offset = 0;
  for (const part of source.split("/")) {
    const tokens = tokensOf(part, offset, lowerCase);
    if (tokens.length === 0) refuse("", "empty_layer", `nothing stands at character ${offset + 1}`);
    const layer = layerOf(tokens, weed);
    if (layer !== null) layers.push(layer);
    offset += part.length + 1;
  }
  return { layers, weed, pairing: "certain", unknown: [], notes: [] };
}
