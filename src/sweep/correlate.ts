import type { CheckedSweep } from "./input.js";
import type { Issues } from "./names.js";

/** Draws that go together, and how their normal scores are mixed: rows of a lower triangle. */
export interface Together {
  /** Places among the draws, ascending. */
  readonly draws: readonly number[];
  /** Factor of the matrix of correlations, by rows, `draws.length` each. */
  readonly factor: Float64Array;
}

/** The draws that go together; null where all are independent. */
export function togetherOf(spec: CheckedSweep, issues: Issues): Together | null {
  if (spec.correlations.length === 0) return null;
  const pairs = pairsOf(spec, issues);
  if (issues.length > 0) return null;
  const draws = [...new Set(pairs.flatMap((p) => [p.a, p.b]))].sort((x, y) => x - y);
  const n = draws.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) matrix[i * n + i] = 1;
  for (const { a, b, rho } of pairs) {
    const [i, j] = [draws.indexOf(a), draws.indexOf(b)];
    matrix[i * n + j] = matrix[j * n + i] = rho;
  }
  const factor = cholesky(matrix, n);
  if (factor !== null) return { draws, factor };
  issues.push({
    path: "correlations",
    code: "impossible",
    message:
      "no inputs can have these correlations together (their matrix is not positive definite)",
  });
  return null;
}

/** Rest of a diagonal that rounding leaves where one score follows from those before it. */
const NOTHING = 1e-13;

/**
 * Lower triangle L with L Lᵀ the matrix; null where there is none. Scores that follow from others add
 * nothing of their own, such as those of two draws with a correlation of 1.
 */
export function cholesky(matrix: Float64Array, n: number): Float64Array | null {
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * n + k]! * l[j * n + k]!;
      const own = l[j * n + j]!;
      if (i === j) {
        if (!(sum > -NOTHING)) return null;
        l[i * n + i] = sum > NOTHING ? Math.sqrt(sum) : 0;
      } else if (own > 0) l[i * n + j] = sum / own;
      // What is left of the others has to be nothing as well: at most its root.
      else if (Math.abs(sum) > Math.sqrt(NOTHING)) return null;
    }
  return l;
}

function pairsOf(spec: CheckedSweep, issues: Issues) {
  const names = spec.draws.map((d) => d.name);
  const seen = new Set<string>();
  return spec.correlations.map(({ between, rho }, i) => {
    const [a, b] = between.map((n, k) => {
      const place = names.indexOf(n);
      if (place < 0)
        issues.push({
          path: `correlations[${i}].between[${k}]`,
          code: "unknown_name",
          message: `there is no draw ${JSON.stringify(n)}: expected one of ${names.join(", ")}`,
        });
      return place;
    });
    const pair = [...between].sort().join(" ");
    if (between[0] === between[1])
      issues.push({
        path: `correlations[${i}].between`,
        code: "invalid_value",
        message: "expected two different draws",
      });
    else if (seen.has(pair))
      issues.push({
        path: `correlations[${i}].between`,
        code: "twice",
        message: `${between.join(" and ")} have a correlation already`,
      });
    seen.add(pair);
    return { a: a!, b: b!, rho };
  });
}
