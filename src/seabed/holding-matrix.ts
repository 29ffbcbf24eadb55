import type { AnchorType } from "../core/anchorTypes.js";

/** How far an anchor type is to be relied on: 0 do not rely on it, 1 poor, 2 fair, 3 good, 4 very good. */
export type HoldingRating = 0 | 1 | 2 | 3 | 4;

/** Beds of the matrix, by their names there. */
export const BEDS = [
  "mud, soft",
  "mud, firm",
  "clay, soft to firm",
  "clay, stiff or hard",
  "silt",
  "sand, firm",
  "sand, hard packed",
  "sand, coarse or loose",
  "gravel",
  "shingle or pebbles",
  "stones, cobbles, boulders",
  "rock",
  "weed or seagrass",
  "kelp",
  "coral",
  "shells",
  "mixed sand and mud",
  "thin soft layer over hard",
  "hard (material unknown)",
  "soft (material unknown)",
  "sticky (material unknown)",
] as const;
/** Name of a bed of the matrix. */
export type Bed = (typeof BEDS)[number];

/** One figure of the matrix: an anchor type on a bed. */
export interface HoldingCell {
  /** The bed. */
  readonly bed: Bed;
  /** The anchor type. */
  readonly anchor: AnchorType;
  /** The rating, a reading of the sources' words. */
  readonly rating: HoldingRating;
  /** Keys into {@link holdingSources}. */
  readonly sources: readonly string[];
  /** What the sources say, in short; empty where the rating goes by analogy. */
  readonly statement: string;
}

// key | title | publisher and year | where
const SOURCES = `
cp | common practice, no source | |
navy-g1 | U.S. Navy Salvage Engineer's Handbook S0300-A8-HBK-010, Appendix G, Table G-1 (comparison of anchor types by seafloor) | U.S. Naval Sea Systems Command, 1992 | Table G-1
ncel | Drag Embedment Anchors for Navy Moorings, Techdata Sheet 83-08R, Table 1 | Naval Civil Engineering Laboratory, 1987 | Table 1 (mud and start of sand rows only were readable)
rya | RYA Manual of Seamanship, chapter 7 | Royal Yachting Association | p. 81
uss | Basic Powerboating, Safety and Rescue | US Sailing | p. 37
nal | Types of anchors (training notes) | nauticalive.com | page
ccbc | Anchoring: which kind to choose | Carrick Castle Boat Club | page
cps | Selecting and setting an anchor | Canadian Power and Sail Squadrons, Burnaby, 2013 | page
m3000 | Master <3000 GT oral notes: choice of anchor | xplor.io | M3000-1.4.6.1
sbg | Safe boating guide: things you should know | boatbuilding.xyz | page
psmud | Roll-bar anchors in mud | Belvoir Media (magazine), 2015 | page
uscgq | Deck general question 3971 (U.S. Coast Guard question bank) | coastguardexams.com | question 3971
uscgm | Captain's licence course, seamanship module 1 | thebestofkeywestfl.com | Anchoring
tfg | Getting stuck (boating column) | Texas Fish and Game, 2017 | page
cbm | A difference in bottom think | Chesapeake Bay Magazine, 2011 | page
neale | Seamanship and anchoring | Tom Neale, 2015 | page
overg | Seabed (chapter of an anchoring handbook) | overg.dk archive | dmp5
ahoy | Anchors | ahoycaptain.com | page
ym | Anchor test 2006 on hard sand, quoted in an essay by an anchor designer (interested party) | Yachting Monthly, quoted, 2006 | quotation
ams | Anchors aweigh | Atlantis Marine Surveyor | page
dceg | S-101 Annex A 2.0.0, clauses 12.2 and 13.7 | IHO, 2024 | 12.2, 12.3, 13.7
`;

// A bed, then its rows: anchor | rating | sources | what they say.
const ROWS = `
# mud, soft
fisherman | 1 | cp | small flukes pull through soft mud
hingedPlough | 2 | psmud | older ploughs hold less than pivoting fluke anchors in soft mud
fixedPlough | 2 | psmud | older ploughs hold less than fluke type in soft mud
claw | 1 | m3000 | poor in soft mud: skates
pivotingFluke | 4 | m3000 psmud nal | very high for weight in soft mud; flukes must trip open (ncel)
rollBarScoop | 2 | psmud | roll bars less effective in very soft mud; one did not set at all in a 2014 test
grapnel | 0 | navy-g1 overg | grappling: poor in soft clay or mud
stockless | 2 | m3000 ncel | good in mud once dug in; special care so that the flukes trip (ncel)
# mud, firm
fisherman | 2 | cp | holds by one small fluke
hingedPlough | 3 | cps m3000 uss | good in most bottoms; buries in mud
fixedPlough | 3 | uss cps | plough type good in most bottoms
claw | 3 | m3000 uss | good in mud
pivotingFluke | 4 | uss nal cps | very good in hard mud
rollBarScoop | 4 | cp | high holding, sets quickly
grapnel | 1 | navy-g1 | poor
stockless | 3 | m3000 uscgq | hard mud best for conventional anchors
# clay, soft to firm
fisherman | 2 | cp | one fluke bites; holding low for weight
hingedPlough | 3 | uss cps | good in most bottoms
fixedPlough | 3 | uss cps | plough type good in most bottoms
claw | 2 | uss | holds well in most bottoms
pivotingFluke | 3 | uss sbg | holds well in soft clay
rollBarScoop | 4 | cp |
grapnel | 0 | navy-g1 | poor
stockless | 3 | uscgm navy-g1 | mixture of mud and clay most favourable
# clay, stiff or hard
fisherman | 2 | cp | sharp bill penetrates where broad flukes will not
hingedPlough | 1 | m3000 | unreliable where the blade cannot penetrate (said of rock and hard sand crust)
fixedPlough | 2 | cp | sharp weighted tip
claw | 1 | cp | three blunt tips do not enter
pivotingFluke | 1 | m3000 | very poor in stiff clay (another guide lists clay as suitable: sbg)
rollBarScoop | 3 | cp | sharp weighted tip
grapnel | 0 | navy-g1 | poor
stockless | 1 | m3000 | poor in hard clay (navy-g1 rates drag-embedment good in stiff clay)
# silt
fisherman | 1 | cp | as soft mud
hingedPlough | 2 | cp | between mud and sand
fixedPlough | 2 | cp |
claw | 2 | cp |
pivotingFluke | 3 | cp |
rollBarScoop | 3 | cp |
grapnel | 0 | cp |
stockless | 2 | cp |
# sand, firm
fisherman | 2 | ccbc | much better choices exist for sand or mud
hingedPlough | 3 | m3000 cps | buries deeply; slow to set
fixedPlough | 3 | uss cps | plough type good in most bottoms
claw | 3 | m3000 uss | good in sand; holding low for weight
pivotingFluke | 4 | uss nal cps m3000 | very good in sand
rollBarScoop | 4 | ccbc | newer designs improve setting in sand and mud
grapnel | 0 | navy-g1 | poor in sand
stockless | 3 | m3000 navy-g1 | good in sand
# sand, hard packed
fisherman | 2 | cp | bill penetrates hard crust
hingedPlough | 1 | m3000 ym | cannot penetrate crust; failed to set at scope 5 in one test
fixedPlough | 2 | cp | tip weight helps against hinged type
claw | 1 | ym | would not set in one test
pivotingFluke | 2 | cp | sharp flukes enter if weight is enough
rollBarScoop | 3 | cp |
grapnel | 0 | navy-g1 | poor
stockless | 2 | cp |
# sand, coarse or loose
fisherman | 1 | cp | small fluke ploughs through
hingedPlough | 2 | cp |
fixedPlough | 2 | cp |
claw | 2 | cp |
pivotingFluke | 3 | cp |
rollBarScoop | 3 | cp |
grapnel | 0 | navy-g1 | poor
stockless | 2 | cp |
# gravel
fisherman | 3 | nal | penetrates and holds in weeds, gravel or rocks when large and heavy
hingedPlough | 2 | ahoy | holding much less in gravel for any type
fixedPlough | 2 | ahoy | holding much less in gravel
claw | 2 | cp |
pivotingFluke | 1 | m3000 | very poor in gravel
rollBarScoop | 3 | cp |
grapnel | 1 | cp |
stockless | 1 | cp |
# shingle or pebbles
fisherman | 2 | cp | bites better than broad flukes; loose material gives way
hingedPlough | 1 | cp | loose stones roll
fixedPlough | 1 | cp |
claw | 2 | cp |
pivotingFluke | 0 | m3000 | gravel judged very poor; pebbles jam the pivot
rollBarScoop | 2 | cp |
grapnel | 1 | cp |
stockless | 1 | cp |
# stones, cobbles, boulders
fisherman | 3 | nal | works as a rock pick
hingedPlough | 1 | navy-g1 | drag-embedment: poor in boulders
fixedPlough | 1 | navy-g1 | drag-embedment poor in boulders
claw | 2 | cp | can wedge
pivotingFluke | 0 | navy-g1 cps | not in rocks
rollBarScoop | 1 | navy-g1 | drag-embedment poor in boulders
grapnel | 2 | navy-g1 cps | fair in boulders
stockless | 1 | navy-g1 | poor
# rock
fisherman | 3 | nal ccbc | works as a rock pick; better than plough on rock; may foul
hingedPlough | 0 | m3000 navy-g1 rya | unreliable on rock; drag-embedment poor in hard rock
fixedPlough | 0 | navy-g1 rya | only by luck; may foul
claw | 2 | ams | useful in rock; often by wedging
pivotingFluke | 0 | uss nal cps m3000 tfg | not in rock; skips
rollBarScoop | 1 | cp | only by wedging
grapnel | 3 | navy-g1 cps sbg | good for hooking rock; may not come back
stockless | 0 | m3000 navy-g1 | poor in rock
# weed or seagrass
fisherman | 3 | nal ccbc sbg overg | best traditional type through weed and grass
hingedPlough | 2 | nal m3000 ccbc ahoy | sources conflict: two say effective in weed, one prefers the fisherman, one says holding much less in grass
fixedPlough | 2 | nal ccbc | conflict as hinged plough
claw | 1 | m3000 | poor in weed
pivotingFluke | 1 | uss cps | difficult to set in grass; not in weeds
rollBarScoop | 2 | cp | tip penetrates light weed; clogs in thick
grapnel | 1 | cp |
stockless | 1 | cp |
# kelp
fisherman | 2 | cp | best of the types, but fronds foul it; the sources that praise it say weed, not kelp
hingedPlough | 0 | cp | skates on fronds; rya says avoid kelp
fixedPlough | 0 | cp |
claw | 0 | cp |
pivotingFluke | 0 | nal | not in kelp
rollBarScoop | 1 | cp |
grapnel | 2 | cp | sometimes hooked in the kelp itself
stockless | 0 | m3000 | poor in kelp
# coral
fisherman | 2 | cp | hooks; damages coral, fouls: do not anchor
hingedPlough | 1 | navy-g1 | drag-embedment fair in soft rock or coral; damages coral
fixedPlough | 1 | navy-g1 | fair in soft rock or coral; damages coral
claw | 1 | cp | wedges; damages coral
pivotingFluke | 0 | cp |
rollBarScoop | 1 | navy-g1 | fair in soft rock or coral; damages coral
grapnel | 3 | navy-g1 | good in soft rock or coral; damages coral: do not
stockless | 1 | navy-g1 | fair; damages coral
# shells
fisherman | 2 | cp | stock turns a fluke down through shell
hingedPlough | 1 | tfg | packed shell: skips (said of fluke type, plough said to be similar)
fixedPlough | 1 | tfg | packed shell: skips
claw | 1 | cp |
pivotingFluke | 1 | tfg | skips on packed shell
rollBarScoop | 2 | cp |
grapnel | 1 | cp |
stockless | 1 | cp |
# mixed sand and mud
fisherman | 2 | cp | as sand
hingedPlough | 3 | cbm | burying anchor wanted for mud or mud with sand
fixedPlough | 3 | cbm | burying anchor wanted
claw | 3 | uss m3000 |
pivotingFluke | 4 | nal uss |
rollBarScoop | 4 | ccbc |
grapnel | 0 | navy-g1 |
stockless | 3 | m3000 |
# thin soft layer over hard
fisherman | 2 | cp | may reach the hard layer
hingedPlough | 1 | navy-g1 | soft clay layer over hard: fair for drag-embedment ships' gear
fixedPlough | 1 | navy-g1 |
claw | 1 | navy-g1 |
pivotingFluke | 2 | navy-g1 | fair; needs depth of soft layer
rollBarScoop | 2 | navy-g1 |
grapnel | 0 | navy-g1 | poor
stockless | 1 | navy-g1 |
# hard (material unknown)
fisherman | 2 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
hingedPlough | 0 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
fixedPlough | 0 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
claw | 1 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
pivotingFluke | 0 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
rollBarScoop | 1 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
grapnel | 0 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
stockless | 0 | cp | chart says only 'hard': take the worst of hard clay, hard sand, rock
# soft (material unknown)
fisherman | 1 | cp | chart says only 'soft': take the worst of soft mud, silt
hingedPlough | 2 | cp | chart says only 'soft': take the worst of soft mud, silt
fixedPlough | 2 | cp | chart says only 'soft': take the worst of soft mud, silt
claw | 1 | cp | chart says only 'soft': take the worst of soft mud, silt
pivotingFluke | 3 | cp | chart says only 'soft': take the worst of soft mud, silt
rollBarScoop | 2 | cp | chart says only 'soft': take the worst of soft mud, silt
grapnel | 0 | cp | chart says only 'soft': take the worst of soft mud, silt
stockless | 2 | cp | chart says only 'soft': take the worst of soft mud, silt
# sticky (material unknown)
fisherman | 2 | cp | chart says only 'sticky': take the worst of firm mud, clay
hingedPlough | 3 | cp | chart says only 'sticky': take the worst of firm mud, clay
fixedPlough | 3 | cp | chart says only 'sticky': take the worst of firm mud, clay
claw | 2 | cp | chart says only 'sticky': take the worst of firm mud, clay
pivotingFluke | 3 | cp | chart says only 'sticky': take the worst of firm mud, clay
rollBarScoop | 4 | cp | chart says only 'sticky': take the worst of firm mud, clay
grapnel | 0 | cp | chart says only 'sticky': take the worst of firm mud, clay
stockless | 3 | cp | chart says only 'sticky': take the worst of firm mud, clay
`;

const lines = (table: string): string[] => table.trim().split("\n");
const fields = (line: string): string[] => line.split("|").map((field) => field.trim());

/** One source of the matrix. */
export interface HoldingSource {
  /** Title of the publication. */
  readonly title: string;
  /** Publisher and, where known, year. */
  readonly publisher: string;
  /** Table, page or question. */
  readonly where: string;
}

/** The sources of the matrix, by key. */
export const holdingSources: Readonly<Record<string, HoldingSource>> =
  /* @__PURE__ */ Object.fromEntries(
    lines(SOURCES).map((line) => {
      const [key, title, publisher, where] = fields(line);
      return [key!, { title: title!, publisher: publisher!, where: where! }];
    }),
  );

function readRows(): HoldingCell[] {
  const cells: HoldingCell[] = [];
  let bed = "";
  for (const line of lines(ROWS)) {
    if (line.startsWith("# ")) {
      bed = line.slice(2);
      continue;
    }
    const [anchor, rating, sources, statement] = fields(line);
    cells.push({
      bed: bed as Bed,
      anchor: anchor as AnchorType,
      rating: Number(rating) as HoldingRating,
      sources: sources!.split(" "),
      statement: statement ?? "",
    });
  }
  return cells;
}

/**
 * How each anchor type holds on each bed, in words turned into ratings: ordinal advice, not
 * holding capacity. The sources are advice texts for ships' and small-craft gear; where they say
 * plough without hinged or fixed, or drag-embedment as a class, the cell carries the class
 * statement. The ratings rest on setting at a scope of 5 or more.
 */
export const holdingMatrix: readonly HoldingCell[] = /* @__PURE__ */ readRows();
