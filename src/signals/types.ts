import * as z from "zod/mini";
import { metres, plain } from "../core/schema.js";

/**
 * How far a signal is asked for: owed; owed where it is carried (lights by day in restricted
 * visibility); owed where it can be done.
 */
const obligation = z.enum(["owed", "ifCarried", "ifPracticable"]);

/** A light, or several alike in a vertical line. */
const lightDue = z.strictObject({
  /** Colour. */
  colour: z.enum(["white", "red", "yellow"]),
  /** How many. */
  count: z.int().check(z.gte(1), z.lte(9)),
  /** Arc over which it shows; 360 is all round. */
  arcDeg: plain({ above: 0, max: 360 }),
  /** Least range at which it must be seen; null where the rule sets none. */
  leastRangeM: z.nullable(metres({ above: 0 })),
  /** Least intensity that reaches this range, candela; null as the range. */
  leastIntensityCd: z.nullable(plain({ above: 0 })),
  /** Where it goes: `asRuled` where only the text of `placement` says. */
  place: z.enum(["bestSeen", "forePart", "nearStern", "verticalLine", "asRuled"]),
  /** Where it goes, in words. */
  placement: z.string(),
  /** Least distance between lights of a vertical line; null for a single light. */
  leastSpacingM: z.nullable(metres({ above: 0 })),
  /** Least heights of the lowest of these lights; empty where none is set. */
  heights: z.array(
    z.strictObject({
      /** Least height. */
      leastM: metres({ above: 0 }),
      /** What it is measured from. */
      above: z.enum(["hull", "gunwale", "afterLight"]),
    }),
  ),
  /** Greatest sector that masts and rigging may hide; null for anchor lights, which are not to be hoisted impracticably high for it. */
  mostHiddenDeg: z.nullable(plain({ min: 0, max: 360 })),
  /** How far it is asked for. */
  obligation,
  /** Paragraph of the rule. */
  rule: z.string(),
});
/** A light that is due, or several alike. */
export type LightDue = z.infer<typeof lightDue>;

/** A shape, or several alike in a vertical line. */
const shapeDue = z.strictObject({
  /** Shape. */
  shape: z.enum(["ball", "cone", "cylinder", "diamond"]),
  /** Colour. */
  colour: z.literal("black"),
  /** How many. */
  count: z.int().check(z.gte(1), z.lte(9)),
  /** Least breadth; null where it may be commensurate with a vessel under 20 m. */
  leastDiameterM: z.nullable(metres({ above: 0 })),
  /** Least distance between shapes; null for a single one, or where it may be reduced with the size. */
  leastSpacingM: z.nullable(metres({ above: 0 })),
  /** Whether a smaller shape than 0.6 m, closer spaced, will do. */
  mayBeSmaller: z.boolean(),
  /** Where it goes, in words. */
  placement: z.string(),
  /** How far it is asked for. */
  obligation,
  /** Paragraph of the rule. */
  rule: z.string(),
});
/** A shape that is due, or several alike. */
export type ShapeDue = z.infer<typeof shapeDue>;

/** What a harbour or a country asks beyond, or instead of, the rules. */
export const localRule = z.strictObject({
  /** Name of the by-law and its paragraph; it stands as the rule of what it changes. */
  rule: z.string().check(z.minLength(1)),
  /** The relief for small vessels and special areas does not hold here. */
  noRelief: z.optional(z.boolean()),
  /** The shape is asked for by night as well. */
  shapesAtAllTimes: z.optional(z.boolean()),
  /** Lights owed by night instead of those of the rules. */
  lights: z.optional(z.array(lightDue)),
  /** Shapes owed by day instead of those of the rules. */
  shapes: z.optional(z.array(shapeDue)),
  /** Other duties, in words: a channel to watch, a person on deck. */
  also: z.optional(z.array(z.string())),
});
/** What a harbour or a country asks beyond, or instead of, the rules. */
export type LocalRule = z.infer<typeof localRule>;

/** The sound signal in or near restricted visibility. */
export interface SoundDue {
  /** Bell: rung rapidly; in the fore part where a gong is owed too. */
  bell: {
    /** Whether it is owed; else it may be given, or replaced by the alternative. */
    owed: boolean;
    /** How long it is rung, s. */
    ringS: number;
    /** Longest time from one signal to the next, s. */
    mostIntervalS: number;
    /** Separate and distinct strokes just before the ringing, and again just after. */
    strokesBeforeAndAfter: number;
  };
  /** Gong sounded rapidly in the after part just after the bell; null where none is owed. */
  gong: {
    /** How long it is sounded, s. */
    ringS: number;
  } | null;
  /** What will do instead of the bell; null where nothing will. */
  alternative: {
    /** The signal in words. */
    signal: string;
    /** Longest time from one signal to the next, s. */
    mostIntervalS: number;
  } | null;
  /** Whistle signal that may be given besides. */
  whistle: "shortProlongedShort" | "appropriate";
  /** Paragraph of the rule. */
  rule: string;
}

/** Relief from a rule that otherwise would hold. */
export interface Exemption {
  /** What need not be shown or sounded. */
  from: ("lights" | "shapes" | "sound" | "redLights")[];
  /** Paragraph that gives the relief. */
  rule: string;
  /** Why, in words. */
  why: string;
}

/** Something that may be shown though it is not owed. */
export interface Choice {
  /** Stable code. */
  code: "anchorLightPair" | "twoScreenedLights" | "lightsByDay" | "lightsAnyway";
  /** In words. */
  text: string;
  /** Paragraph that allows it. */
  rule: string;
}

/** The signals that a vessel at anchor or aground owes. */
export interface SignalsDue {
  /** Least set of lights; empty when none is owed. */
  lights: LightDue[];
  /** Shapes; empty when none is owed. */
  shapes: ShapeDue[];
  /** Sound signal; null when none is owed. */
  sound: SoundDue | null;
  /** Lighting of the decks by working lights. */
  deckLights: {
    /** Owed, allowed, or not spoken of. */
    obligation: "owed" | "may" | "notAsked";
    /** Paragraph of the rule; null where it does not speak of it. */
    rule: string | null;
  };
  /** What may be shown besides or instead. */
  choices: Choice[];
  /** Reliefs that hold, each with its rule. */
  exemptions: Exemption[];
  /** Other duties of the local rule, in words. */
  also: string[];
  /** Every paragraph used. */
  rules: string[];
  /** Readings where the text is silent, and what is left out. */
  cautions: string[];
}
