import type { Milliseconds } from "../core/units.js";

/** Codes of advice to be gone, or not to come. */
export const GOING: ReadonlySet<Advice["code"]> = new Set([
  "lie.elsewhere",
  "move.by",
  "move.byNightfall",
]);

/** What a piece of advice changes. */
export interface Gain {
  /** Which figure: likely holding over the pull in the hardest gust, peak or leg pull and least holding in newtons, water under the keel and room to the nearest vessel in metres. */
  of: "holdingOverPull" | "peakPullN" | "leastHoldingN" | "underKeelM" | "roomM";
  /** The figure as it is; null where it is not known. */
  from: number | null;
  /** The figure after; null where it is not known. */
  to: number | null;
}

/** One thing to do. */
export interface Advice {
  /** What: rode to veer, pull to prove, degrees between the legs of two anchors, line to fit, water to find, how far off to let go, when to be gone. */
  code:
    | "veer.more"
    | "prove.astern"
    | "kedge.vee"
    | "snubber.fit"
    | "lie.deeper"
    | "lie.clear"
    | "lie.elsewhere"
    | "move.by"
    | "move.byNightfall";
  /** When, or by when. */
  atMs?: Milliseconds;
  /** Its figure: metres, newtons or degrees by the code; the limit passed where the advice is to be gone. */
  value: number | string | null;
  /** Which way from the place given, where the advice is to let go elsewhere in the bay. */
  towardsDeg?: number;
  /** What it buys; null where that is no figure. */
  buys: Gain | null;
  /** The limit it would pass, `way.shut` where the way out is shut from then on, or `kedge.creeps` where the second anchor holds less than its leg would bear; null where none is known. */
  against: string | null;
  /** The rule or method. */
  basis: string;
}
