import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  fetchFan,
  prepareCoast,
  type RankedShelter,
  rankShelter,
  type RankShelterInput,
  shelter,
  type ShelterInput,
} from "../../src/shelter/index.js";

/*
 * What a skipper would say from the chart and the forecast of the invented sound alone: its mouth opens
 * south-south-west; westerly by day, north in the night, swell in at the mouth. The places were laid out to differ so.
 * - The spit keeps out west and north; the creek lies behind land on all sides but its own mouth to the east.
 * - The shelving bay on the south shore is fair in the westerly and a lee shore in the northerly.
 * - The steep-sided bight lies opposite the mouth: under the north shore, but the swell runs straight in.
 */

const folder = new URL("../../shared/scenarios/sound/", import.meta.url);
const read = (name: string): unknown => JSON.parse(readFileSync(new URL(name, folder), "utf8"));

type Berth = Pick<ShelterInput, "depthM" | "bay" | "highLand"> & {
  name: string;
  position: { latDeg: number; lonDeg: number };
};
const sound = read("sound.json") as {
  berths: Berth[];
  stays: Record<"lunch" | "night", ShelterInput["stay"]>;
  forecast: ShelterInput["forecast"];
  swell: NonNullable<ShelterInput["swell"]>;
};
const coast = prepareCoast({ coast: read("coast.geojson") as { type: string } });
const bearings = Array.from({ length: 180 }, (_, i) => 2 * i);
const fans = sound.berths.map(({ position }) => fetchFan({ coast, position, bearings }));

const SPIT = "behind the spit";
const CREEK = "creek mouth";
const BAY = "shelving bay";
const ISLET = "islet's lee";
const BIGHT = "steep-sided bight";

interface Change {
  shift?: boolean;
  swell?: boolean;
}

function shelters(stop: "lunch" | "night", { shift = true, swell = true }: Change) {
  return sound.berths.map(({ name, depthM, bay, highLand }, i) => ({
    name,
    shelter: shelter({
      ...(depthM === undefined ? {} : { depthM }),
      ...(bay === undefined ? {} : { bay }),
      ...(highLand === undefined ? {} : { highLand }),
      fan: fans[i]!,
      stay: sound.stays[stop],
      forecast: {
        ...sound.forecast,
        rows: sound.forecast.rows.map((row) => (shift ? row : { ...row, windFromDeg: 272 })),
      },
      swell: sound.swell.map((s) => (swell ? s : { ...s, hm0M: 0 })),
    }),
  }));
}

function ranking(stop: "lunch" | "night", change: Change = {}) {
  const berths: RankShelterInput["berths"] = shelters(stop, change);
  const ranked = rankShelter({ berths, purpose: stop });
  const of = (name: string): RankedShelter => {
    const found = ranked.find((r) => r.name === name);
    if (found === undefined) throw new Error(name);
    return found;
  };
  return {
    rank: (name: string) => of(name).rank,
    from: (name: string) => of(name).from,
    of,
  };
}

describe("the invented sound", () => {
  test("berths lie afloat and know what they lie open to", () => {
    fans.forEach((fan) => {
      expect(fan.reasons.map((r) => r.code)).not.toContain("fetch.ashore");
      expect(fan.nearestShoreM).toBeGreaterThan(50);
    });
  });

  test("lunch: behind the spit first, the shelving bay fair, the bight last for its swell", () => {
    const lunch = ranking("lunch");
    expect(lunch.rank(SPIT)).toBe(1);
    expect(lunch.rank(BAY)).toBeLessThan(lunch.rank(ISLET));
    expect(lunch.rank(BIGHT)).toBe(5);
    expect(lunch.from(BIGHT)).toBe("swell");
  });

  test("night: the shelving bay falls behind when the wind goes north", () => {
    const night = ranking("night");
    expect(night.rank(SPIT)).toBe(1);
    expect(night.rank(CREEK)).toBe(2);
    expect(night.rank(BAY)).toBeGreaterThan(ranking("lunch").rank(BAY));
    expect(night.rank(BAY)).toBeGreaterThan(night.rank(ISLET));
    expect(night.from(BAY)).toBe("windSea");
    // The two cannot be told apart, and share the last place.
    expect([night.rank(BAY), night.rank(BIGHT)]).toEqual([4, 4]);
    expect(night.from(BIGHT)).toBe("swell");
  });

  test("night: the shift alone makes the shelving bay likelier untenable than the islet's lee; without it the creek is best", () => {
    const untenable = (name: string, shift: boolean): number =>
      shelters("night", { shift }).find((s) => s.name === name)!.shelter.summary.untenable;
    expect(untenable(BAY, true)).toBeGreaterThan(untenable(ISLET, true));
    expect(untenable(BAY, false)).toBeLessThan(untenable(ISLET, false));
    expect(ranking("night", { shift: false }).rank(CREEK)).toBe(1);
  });

  test("night without the swell: the bight under the north shore comes up", () => {
    const flat = ranking("night", { swell: false });
    expect(flat.rank(BIGHT)).toBeLessThan(flat.rank(ISLET));
    expect(flat.rank(BIGHT)).toBeLessThan(flat.rank(BAY));
    expect(flat.rank(BAY)).toBe(5);
  });

  test("each place has its reason, and high land upwind is only ever a caution", () => {
    const night = ranking("night");
    for (const { name } of sound.berths)
      expect(night.of(name).reasons.map((r) => r.code)).toContain("rank.from");
    const bight = shelters("night", {}).find((b) => b.name === BIGHT)!.shelter;
    expect(bight.reasons).toContainEqual(
      expect.objectContaining({ code: "shelter.highLand", severity: "caution" }),
    );
    const bay = shelters("night", {}).find((b) => b.name === BAY)!.shelter;
    // The bay faces north: it opens to northerlies and its riskiest hour comes after the shift.
    expect(
      bay.opensTo.some((s) => (360 - s.fromDeg) % 360 <= (s.toDeg - s.fromDeg + 360) % 360),
    ).toBe(true);
    expect(bay.riskiestHour.timeMs).toBeGreaterThanOrEqual(sound.forecast.rows[6]!.timeMs);
  });
});
