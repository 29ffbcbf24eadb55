import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { degrees, direction, instant, metres, plain, position } from "../core/schema.js";
import { inTimeOrder } from "../core/series.js";
import { BEAM_PER_LENGTH } from "./tables.js";

/** Where the aerial of the position receiver stands. */
export const bowToAntenna = z.strictObject({
  /** Aft of the bow roller; negative ahead of it. */
  aftM: metres({ min: -10, max: 100 }),
  /** To starboard of the middle line; negative to port; 0 unless given. */
  starboardM: z._default(metres({ min: -20, max: 20 }), 0),
});

const hull = z.strictObject({
  /** Length from the bow roller to the stern. */
  lengthM: metres({ min: 0, max: 200 }),
  /** Greatest beam; 0.4 of the length where it is not given. */
  beamM: z.optional(metres({ min: 0, max: 60 })),
  /** What stands ahead of the bow roller: stem, pulpit, bowsprit; nothing unless given. */
  bowOverhangM: z._default(metres({ min: 0, max: 30 }), 0),
  /** What stands or trails beyond the stern: davits, a boat on its painter; nothing unless given. */
  sternOverhangM: z._default(metres({ min: 0, max: 50 }), 0),
  /** Aerial of the position receiver; needed only for its track. */
  bowToAntenna: z.optional(bowToAntenna),
});

/** A vessel whose figures for loads are known too: only her length and beam are read. */
const loadVessel = z.looseObject({
  /** Kind of vessel. */
  kind: z.string(),
  /** Length overall. */
  lengthM: metres({ min: 0, max: 200 }),
  /** Greatest beam. */
  beamM: metres({ min: 0, max: 60 }),
  /** Area shown to a wind from abeam. */
  windageSideM2: plain(),
});

/** Room a hull takes: her own figures, or a vessel as `vesselFrom` gives it. */
export const swingVessel = z.union([hull, loadVessel]);
/** Room a hull takes. */
export type SwingVessel = Given<typeof swingVessel>;

/** How a vessel lies at one moment. */
export const swingMoment = z.strictObject({
  /** When. */
  timeMs: instant(),
  /** Horizontal distance from anchor to bow roller. */
  reachM: metres({ min: 0, max: 2000 }),
  /** Direction from anchor to bow; null where it is not known: anywhere round. */
  pullTowardsDeg: z.nullable(direction()),
  /** Where the bow points; null where it is not known: anywhere round the bow. */
  headingDeg: z.nullable(direction()),
  /** Sheer each side of the lie: the bow swings so far about the anchor; none unless given. */
  sheerDeg: z._default(degrees({ min: 0, max: 90 }), 0),
  /** Yaw each side of the heading; as much as the sheer where it is not given. */
  yawDeg: z.optional(degrees({ min: 0, max: 90 })),
  /** Height of the tide above chart datum, for clearances over the bottom. */
  tideHeightM: z.optional(metres({ min: -10, max: 30 })),
});
/** How a vessel lies at one moment. */
export type SwingMoment = Given<typeof swingMoment>;

/** Fields of a vessel at anchor. */
export const anchoredFields = {
  /** Where the anchor lies. */
  anchor: position,
  /** How far off that may be: drop, drift while setting, receiver; nothing unless given. */
  anchorErrorM: z._default(metres({ min: 0, max: 5000 }), 0),
  /** Room the hull takes. */
  vessel: swingVessel,
  /** How she lies, in order of time; may be empty where `reachM` is given. */
  moments: z.array(swingMoment),
  /** Greatest reach at times that are not among the moments; the greatest of the moments where it is not given. */
  reachM: z.optional(metres({ min: 0, max: 2000 })),
} as const;

interface Stay {
  moments: { timeMs: number }[];
  reachM?: number | undefined;
}

/** What the fields of a vessel at anchor must agree on. */
export const inOrder = <T extends Stay>() => [
  z.refine<T>((v) => v.moments.length > 0 || v.reachM !== undefined, "give moments or reachM"),
  z.refine<T>((v) => inTimeOrder(v.moments), "moments are not in order of time"),
];

/** A vessel at anchor over a stay. */
export const anchoredVessel = z.strictObject(anchoredFields).check(...inOrder());
/** A vessel at anchor over a stay. */
export type AnchoredVessel = Given<typeof anchoredVessel>;
/** A vessel at anchor as checked. */
export type Anchored = z.output<typeof anchoredVessel>;

/** A hull about her bow roller, in metres. */
export interface Hull {
  /** From the roller to the foremost part. */
  aheadM: number;
  /** From the roller to the aftermost part. */
  asternM: number;
  /** Half the beam. */
  halfBeamM: number;
  /** Greatest distance of any part from the roller. */
  farthestM: number;
}

/** The hull of a checked vessel. */
export function hullOf(vessel: z.output<typeof swingVessel>): Hull {
  const own = "windageSideM2" in vessel ? null : vessel;
  const aheadM = own?.bowOverhangM ?? 0;
  const asternM = vessel.lengthM + (own?.sternOverhangM ?? 0);
  const halfBeamM = (vessel.beamM ?? BEAM_PER_LENGTH * vessel.lengthM) / 2;
  const along = Math.max(aheadM, asternM);
  return {
    aheadM,
    asternM,
    halfBeamM,
    farthestM: Math.sqrt(along * along + halfBeamM * halfBeamM),
  };
}
