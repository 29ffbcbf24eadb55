import type { Reason, Severity } from "../core/judgement.js";

/** Basis of our own rules. */
export const PROPOSED = "proposed, not published";

/** A {@link Reason} in one line. */
export const reason = (
  code: string,
  severity: Severity,
  value: Reason["value"],
  limit: Reason["limit"],
  basis: string,
  atMs?: number,
): Reason => ({
  code,
  severity,
  ...(atMs === undefined ? {} : { atMs }),
  value,
  limit,
  basis,
});
