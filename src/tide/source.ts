import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { degrees, instant, metres, plain } from "../core/schema.js";
import { datumName, differences } from "./difference-table.js";

/** Kind of a turn. */
const turnKind = z.enum(["high", "low"]);

/** One high or low water of a table. */
export const turn = z.strictObject({
  /** Instant of the turn, UTC epoch milliseconds. Tables in zone time are converted first. */
  timeMs: instant(),
  /** Height above the datum of the source; may be negative. */
  heightM: metres({ min: -30, max: 30 }),
  /** High or low water, as the table says; lets a missing turn be recognised. */
  kind: z.optional(turnKind),
});

interface Ordered {
  readonly timeMs: number;
}

/** Instants must rise from row to row: an unsorted or doubled row is a mistake in the table. */
export function ascending<T extends Ordered>(ctx: z.core.ParsePayload<T[]>): void {
  ctx.value.forEach((row, i) => {
    if (i > 0 && !(row.timeMs > ctx.value[i - 1]!.timeMs))
      ctx.issues.push({
        code: "custom",
        path: [i, "timeMs"],
        message:
          row.timeMs === ctx.value[i - 1]!.timeMs
            ? "the same instant twice"
            : "not later than the row before",
        input: row.timeMs,
      });
  });
}

/** A table of turns in order of time. */
const turnList = z.array(turn).check(z.minLength(2), z.check(ascending));

/** What the constants of a port say about the kind of tide there. */
const tideType = z.strictObject({
  /** Form number (K1 + O1) / (M2 + S2) of the amplitudes: below 0.25 semidiurnal, above 3 diurnal. */
  formNumber: plain({ min: 0 }),
  /** Shallow-water ratio M4 / M2 of the amplitudes; null where it is not known. */
  shallowRatio: z.nullable(plain({ min: 0 })),
});
/** What the constants of a port say about the kind of tide there. */
export type TideType = z.infer<typeof tideType>;

const common = {
  /** Datum of the heights, e.g. `"MLLW"`. */
  datum: datumName,
  /** Heights are wanted above another datum. */
  toDatum: z.optional(
    z.strictObject({
      /** The datum wanted. */
      datum: datumName,
      /** How far the datum of the source lies above the datum wanted; added to every height. */
      addM: metres({ min: -30, max: 30 }),
    }),
  ),
};

const table = {
  /** High and low waters in order of time. */
  turns: turnList,
  /** Kind of tide, for the error and for telling a long interval from a missing turn. */
  type: z.optional(tideType),
  /** The caller vouches that no turn is missing, so that long intervals are real. Default false. */
  complete: z._default(z.boolean(), false),
  /** Step the heights are printed in; half of it is error at the turns themselves. Default 0.01. */
  heightStepM: z._default(metres({ above: 0, max: 1 }), 0.01),
  /** Mean range of the port; a table out of all proportion to it is refused as being in other units. */
  meanRangeM: z.optional(metres({ above: 0 })),
};

const FACTORS = z.array(plain({ min: -0.5, max: 1.5 })).check(z.minLength(5), z.maxLength(401));

/** Spring and neap curve of a port, from low water to low water. */
const portCurve = z
  .strictObject({
    /**
     * `highWater`: rise and fall are each stretched to their own length, high water is the middle factor.
     * `lowWater`: time runs evenly from one low water to the next, for ports where high water doubles or stands.
     */
    key: z.enum(["highWater", "lowWater"]),
    /** Factors at springs, 0 at low water and 1 at high water, at equal steps of normalised time. */
    springs: FACTORS,
    /** Factors at neaps, at the same steps. */
    neaps: FACTORS,
    /** Range the spring factors belong to. */
    springsRangeM: metres({ above: 0 }),
    /** Range the neap factors belong to. */
    neapsRangeM: metres({ above: 0 }),
    /** Lower end of the 95 % error at the same steps, as a share of the range; not above 0. */
    errorLow: z.optional(z.array(plain({ max: 0 }))),
    /** Upper end of the 95 % error at the same steps, as a share of the range; not below 0. */
    errorHigh: z.optional(z.array(plain({ min: 0 }))),
  })
  .check(z.check(curveShape));
/** Spring and neap curve of a port, from low water to low water. */
export type PortCurve = z.infer<typeof portCurve>;

interface CurveLike {
  key: string;
  springs: number[];
  neaps: number[];
  springsRangeM: number;
  neapsRangeM: number;
  errorLow?: number[] | undefined;
  errorHigh?: number[] | undefined;
}

function curveShape(ctx: z.core.ParsePayload<CurveLike>): void {
  const c = ctx.value;
  const n = c.springs.length;
  const bad = (path: string, message: string): void => {
    ctx.issues.push({ code: "custom", path: [path], message, input: c });
  };
  if (n % 2 === 0) bad("springs", "expected an odd number of factors");
  for (const key of ["neaps", "errorLow", "errorHigh"] as const)
    if (c[key] !== undefined && c[key].length !== n)
      bad(key, "expected as many entries as springs");
  if ((c.errorLow === undefined) !== (c.errorHigh === undefined))
    bad("errorLow", "errorLow and errorHigh belong together");
  if (!(c.neapsRangeM < c.springsRangeM)) bad("neapsRangeM", "expected less than springsRangeM");
  for (const key of ["springs", "neaps"] as const) {
    const f = c[key];
    if (f[0] !== 0 || f.at(-1) !== 0) bad(key, "expected 0 at both low waters");
    const top = c.key === "highWater" ? f[(n - 1) / 2]! : Math.max(...f);
    if (Math.abs(top - 1) > 1e-6) bad(key, "expected 1 at high water");
  }
}

/** One harmonic constituent. */
export const constituent = z.strictObject({
  /** Name in the usual letters, e.g. `M2`, `MK3`, `2MS6`, `SA`. */
  name: z.string().check(z.minLength(1), z.maxLength(20)),
  /** Amplitude. */
  amplitudeM: metres({ min: 0, max: 15 }),
  /** Phase lag on Greenwich (G), for times in UTC. */
  phaseDeg: degrees({ min: -720, max: 720 }),
  /** For a name that is not known here: its argument, without node factor. */
  argument: z.optional(
    z.strictObject({
      /** Speed in degrees per mean solar hour. */
      speedDegPerHour: plain({ above: 0, max: 400 }),
      /** Argument at 2000-01-01T00:00Z. */
      at2000Deg: degrees(),
    }),
  ),
});

interface Proportioned {
  turns: { heightM: number }[];
  meanRangeM?: number | undefined;
}

/** A spring or a neap range lies within this factor of the mean one; feet taken for metres do not. */
const MOST_TIMES_MEAN = 2.5;

/** Heights in other units than the port's mean range show as ranges out of all proportion to it. */
function inProportion(ctx: z.core.ParsePayload<Proportioned>): void {
  const { turns, meanRangeM } = ctx.value;
  if (meanRangeM === undefined) return;
  let sum = 0;
  for (let i = 1; i < turns.length; i++) sum += Math.abs(turns[i]!.heightM - turns[i - 1]!.heightM);
  const times = sum / (turns.length - 1) / meanRangeM;
  if (!(times < MOST_TIMES_MEAN && times > 1 / MOST_TIMES_MEAN))
    ctx.issues.push({
      code: "custom",
      path: ["turns"],
      message: `the ranges are ${times.toFixed(2)} times the mean range: are the heights in metres?`,
      input: turns,
    });
}

/** Turns of a table with a rule between them. */
export const turnsSource = z
  .strictObject({
    kind: z.literal("turns"),
    ...table,
    /** Rule between turns; the half-cosine unless told. */
    rule: z._default(z.enum(["cosine", "twelfths"]), "cosine"),
    ...common,
  })
  .check(z.check(inProportion));

/** Turns of a table with the curve of the port between them. */
const curveSource = z
  .strictObject({
    kind: z.literal("curve"),
    ...table,
    /** Curve of the port. */
    curve: portCurve,
    ...common,
  })
  .check(z.check(inProportion));

/** Harmonic constants of a port. */
export const constituentsSource = z.strictObject({
  kind: z.literal("constituents"),
  /** Constituents with Greenwich phases. */
  constituents: z.array(constituent).check(z.minLength(1), z.maxLength(400)),
  /** Mean level above the datum. */
  meanLevelM: metres({ min: -30, max: 30 }),
  /** Node factors of the middle of each calendar year, as printed tables use, or of each day; `midYear` unless given. */
  nodes: z._default(z.enum(["midYear", "continuous"]), "midYear"),
  ...common,
});

/** A secondary port by its differences on a standard port. */
const secondarySource = z.strictObject({
  kind: z.literal("secondary"),
  /** The standard port. */
  standard: z.discriminatedUnion("kind", [turnsSource, curveSource, constituentsSource]),
  /** Differences of the secondary port. */
  differences,
  ...common,
});

/** Anything a height of tide can be had from. */
export const tideSource = z.discriminatedUnion("kind", [
  turnsSource,
  curveSource,
  constituentsSource,
  secondarySource,
]);
/** Anything a height of tide can be had from, as a caller writes it. */
export type TideSource = Given<typeof tideSource>;
/** The same, with defaults filled in. */
export type CheckedTide = z.output<typeof tideSource>;
/** Harmonic constants, defaults filled in. */
export type CheckedConstituents = z.output<typeof constituentsSource>;
/** A secondary port, defaults filled in. */
export type CheckedSecondary = z.output<typeof secondarySource>;
/** A table of turns with a rule or a curve, defaults filled in. */
export type CheckedTable = z.output<typeof turnsSource> | z.output<typeof curveSource>;
