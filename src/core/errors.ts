/** One thing wrong with an input. */
export interface InputIssue {
  /** Where in the input, e.g. `turns[2].heightM`; empty for the input as a whole. */
  readonly path: string;
  /** Stable machine code, e.g. `invalid_type`, `too_small`, `unrecognized_keys`, `order`. */
  readonly code: string;
  /** What was expected, in words. */
  readonly message: string;
}

const SHOWN = 12;

/**
 * Thrown for a caller's mistake, with every issue found. An outcome at sea is never an
 * exception: it comes back as data.
 */
export class InputError extends RangeError {
  /** Always `InputError`. */
  override readonly name = "InputError";
  /** All issues, in input order. */
  readonly issues: readonly InputIssue[];

  constructor(issues: readonly InputIssue[]) {
    const lines = issues
      .slice(0, SHOWN)
      .map((i) => (i.path === "" ? i.message : `${i.path}: ${i.message}`));
    const more = issues.length - lines.length;
    if (more > 0) lines.push(`and ${more} more`);
    super(lines.join("; "));
    this.issues = issues;
  }
}

/** Refuse an input for one reason that a schema cannot state. */
export function refuse(path: string, code: string, message: string): never {
  throw new InputError([{ path, code, message }]);
}

/** What comes of reading something handed back or from outside; where it cannot be read for its form, that is refused. */
export function readOr<T>(path: string, code: string, message: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    const unreadable = error instanceof TypeError || error instanceof RangeError;
    if (!unreadable || error instanceof InputError) throw error;
    return refuse(path, code, message);
  }
}
