/** Count, mean and spread of values added one after another (B. P. Welford, Technometrics 4, 1962). */
export interface Running {
  /** Values that are figures, and those that are none. */
  known: number;
  unknown: number;
  mean: number;
  /** Sum of squares about the mean. */
  squares: number;
  least: number;
  greatest: number;
}

/** Nothing added. */
export const emptyRunning = (): Running => ({
  known: 0,
  unknown: 0,
  mean: 0,
  squares: 0,
  least: Infinity,
  greatest: -Infinity,
});

/** Add a value; one that is no figure is counted as not known. */
export function addTo(m: Running, value: number): void {
  if (!Number.isFinite(value)) {
    m.unknown++;
    return;
  }
  const off = value - m.mean;
  m.mean += off / ++m.known;
  m.squares += off * (value - m.mean);
  if (value < m.least) m.least = value;
  if (value > m.greatest) m.greatest = value;
}
