import * as z from "zod/mini";
import type { Given } from "../core/given.js";
import { plain } from "../core/schema.js";
import { sweepInput } from "./input.js";

const name = () => z.string();

/** What {@link summariseSweep} is asked. */
export const summaryInput = z.strictObject({
  /** The sweep. */
  sweep: sweepInput,
  /** Shares at which quantiles are wanted; 0.05, 0.5 and 0.95 unless given. */
  quantiles: z._default(
    z.array(plain({ min: 0, max: 1 })).check(z.maxLength(50)),
    [0.05, 0.5, 0.95],
  ),
  /** How often an output goes above a limit; at most 1000 limits in all. */
  exceedance: z._default(
    z
      .array(
        z.strictObject({
          /** Which output. */
          of: name(),
          /** The limit. */
          limit: plain(),
        }),
      )
      .check(z.maxLength(1000)),
    [],
  ),
  /** An output by the cells of one or two axes; at most 1000 tables. */
  tables: z._default(
    z
      .array(
        z.strictObject({
          /** The axes. */
          by: z.array(name()).check(z.minLength(1), z.maxLength(2)),
          /** Which output. */
          of: name(),
          /** Limit of which each cell tells how often it is exceeded; none unless given. */
          limit: z.optional(plain()),
        }),
      )
      .check(z.maxLength(1000)),
    [],
  ),
  /** Outputs whose variance is shared out among axes and draws. */
  sensitivity: z._default(z.array(name()), []),
});
/** What {@link summariseSweep} is asked. */
export type SummaryInput = Given<typeof summaryInput>;
/** The same, checked and with its defaults filled in. */
export type Asked = z.output<typeof summaryInput>;
