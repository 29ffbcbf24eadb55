import fc from "fast-check";
import { expect, test } from "vitest";
import {
  ANCHOR_TYPES,
  materialRows,
  parseSeabed,
  qualityRows,
  rateAnchors,
  seabedFromCodes,
} from "../../src/seabed/index.js";

const coded = materialRows.filter((r) => r.code !== null);
const codedQualities = qualityRows.filter((r) => r.code !== null);
// The older lists print black as broken is printed, so that quality is left to its own test.
const constituent = fc.record({
  material: fc.constantFrom(...coded),
  quality: fc.option(fc.constantFrom(...codedQualities.filter((r) => r.term !== "broken")), {
    nil: null,
  }),
});
const layers = fc.array(fc.array(constituent, { minLength: 1, maxLength: 4 }), {
  minLength: 1,
  maxLength: 3,
});
type Layers = typeof layers extends fc.Arbitrary<infer T> ? T : never;

const textOf = (l: Layers): string =>
  l
    .map((c) =>
      c
        .map(
          ({ material, quality }) =>
            `${quality?.abbreviations[0] ?? ""}${material.abbreviations[0]!}`,
        )
        .join("."),
    )
    .join("/");
const codesOf = (l: Layers) => ({
  natsur: l.map((c) => c.map((x) => x.material.code).join()).join("/"),
  natqua: l.map((c) => c.map((x) => x.quality?.code ?? "").join()).join("/"),
});

test("an abbreviation and the codes of the same bed read alike", () => {
  fc.assert(
    fc.property(layers, (l) => {
      expect(parseSeabed(textOf(l))).toEqual(seabedFromCodes(codesOf(l)));
    }),
  );
});

test("dots, spaces and full words change nothing", () => {
  fc.assert(
    fc.property(layers, (l) => {
      const words = l
        .map((c) =>
          c
            .map(({ material, quality }) =>
              [quality?.words[0], material.words[0]].filter(Boolean).join(" "),
            )
            .join(", "),
        )
        .join("/");
      expect(parseSeabed(words)).toEqual(parseSeabed(textOf(l)));
    }),
  );
});

test("any list of codes is read without an exception, and every code comes back", () => {
  const slot = fc.oneof(fc.constant(""), fc.integer({ min: 0, max: 99 }).map(String));
  const list = fc.array(slot, { minLength: 1, maxLength: 5 }).map((s) => s.join());
  fc.assert(
    fc.property(list, list, (natsur, natqua) => {
      const seabed = seabedFromCodes({ natsur, natqua });
      const given = [natsur, natqua].flatMap((t) => t.split(",")).filter((c) => c !== "");
      const read = seabed.layers.flatMap((l) => [
        ...l.materials.filter((m) => m !== "unknown"),
        ...l.qualities.flat(),
      ]).length;
      expect(read + seabed.unknown.length).toBe(given.length);
    }),
  );
});

test("ratings: whole numbers 0 to 4, low never above, and no worse bed beneath or growth on it raises one", () => {
  fc.assert(
    fc.property(layers, fc.constantFrom("Wd", "K", "Sg"), (l, weed) => {
      const bare = parseSeabed(textOf(l));
      const before = JSON.stringify(bare);
      const { ratings } = rateAnchors(bare);
      const grown = rateAnchors(parseSeabed(`${weed}.${textOf(l)}`)).ratings;
      const overRock = rateAnchors(parseSeabed(`${textOf(l.slice(0, 1))}/R`)).ratings;
      const alone = rateAnchors(parseSeabed(textOf(l.slice(0, 1)))).ratings;
      for (const a of ANCHOR_TYPES) {
        expect([0, 1, 2, 3, 4]).toContain(ratings[a].rating);
        expect(ratings[a].low).toBeLessThanOrEqual(ratings[a].rating);
        expect(grown[a].rating).toBeLessThanOrEqual(ratings[a].rating);
        expect(overRock[a].rating).toBeLessThanOrEqual(alone[a].rating);
      }
      expect(JSON.stringify(bare)).toBe(before);
      expect(JSON.parse(JSON.stringify(rateAnchors(bare)))).toEqual(rateAnchors(bare));
    }),
  );
});

test("knowing less never rates better: a quality alone against every bed that has it", () => {
  for (const quality of ["hard", "soft", "sticky"])
    for (const material of ["mud", "clay", "sand"]) {
      const q = parseSeabed(quality);
      const beds = { hard: ["clay", "sand"], soft: ["mud"], sticky: ["mud"] }[quality]!;
      if (!beds.includes(material)) continue;
      const full = parseSeabed(`${quality} ${material}`);
      for (const a of ANCHOR_TYPES)
        expect(rateAnchors(q).ratings[a].rating).toBeLessThanOrEqual(
          rateAnchors(full).ratings[a].rating,
        );
    }
});
