import * as z from "zod/mini";
import { metres } from "../core/schema.js";
import { localRule } from "./types.js";

/** Length overall. */
export const lengthOverall = metres({ above: 0, max: 500 });

/** Lying to an anchor, or on the ground. A vessel that drags is under way and shows other signals. */
export const situation = z.enum(["anchored", "aground"]);

/** What signals depend on besides the vessel and the hour. */
export const circumstances = {
  /** In or near a narrow channel, fairway or anchorage, or where other vessels normally navigate; assumed unless denied. */
  nearTraffic: z._default(z.boolean(), true),
  /** International rules, or the inland rules of the United States; `colregs` unless given. */
  regime: z._default(z.enum(["colregs", "usInland"]), "colregs"),
  /** In an area listed as a special anchorage (US Inland). The word "anchorage" on a chart is not enough. No unless given. */
  specialAnchorage: z._default(z.boolean(), false),
  /** A barge, canal boat, scow or other nondescript craft (US Inland sound signals); no unless given. */
  nondescriptCraft: z._default(z.boolean(), false),
  /** What the harbour or country asks beyond, or instead of, the rules. */
  localRule: z.optional(localRule),
};

/** What each paragraph looks at. */
export interface Vessel {
  /** Length overall. */
  lengthM: number;
  /** At anchor or aground. */
  situation: "anchored" | "aground";
  /** Whose rules. */
  regime: "colregs" | "usInland";
}

/** Name of a paragraph in the regime. */
export const named = (v: Pick<Vessel, "regime">, paragraph: string): string =>
  v.regime === "usInland" ? `Inland ${paragraph}` : paragraph;
