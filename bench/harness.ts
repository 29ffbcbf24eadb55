/**
 * Times the cases of a topic in one process, turn about, and puts them in proportion.
 *
 * A case runs `n` operations and returns a sum, so that no work can be left out. Every round runs
 * every case once, so that a busy spell of the machine hits all of them. Ratios are those of the
 * median rounds, in processor time. A goal in nanoseconds is one for an idle machine: other work can
 * only slow a round, so the quickest round is what comes nearest to it, and it is told beside the median.
 */

/** One thing to be timed. */
export interface Case {
  name: string;
  /** Name of the case this one is held against: the time of that one over the time of this is the ratio. */
  against?: string;
  /** Least ratio wanted. */
  goalRatio?: number;
  /** Most nanoseconds an operation may take on an idle machine. */
  goalNs?: number;
  /** Why a goal is missed, where it is. */
  why?: string;
  run: (n: number) => number;
}

/** A figure a topic measures in its own way. */
export interface Figure {
  name: string;
  value: number;
  unit: string;
  /** Least value wanted, or the most where `atMost`. */
  goal?: number;
  atMost?: boolean;
  /** What to know when reading it. */
  note?: string;
  /** Why its goal is missed, where it is. */
  why?: string;
}

/** What a topic exports. */
export interface Topic {
  cases: readonly Case[];
  figures?: () => Promise<Figure[]>;
}

/** One case, timed. */
export interface Timed {
  topic: string;
  name: string;
  /** Median processor time of an operation. */
  ns: number;
  /** The quickest round. */
  leastNs: number;
  against: string | null;
  ratio: number | null;
  goalRatio: number | null;
  goalNs: number | null;
  why?: string;
}

const ROUND_MS = 25;
const ROUNDS = 25;
/** A case that takes longer than this for one operation is run in fewer rounds. */
const LONG_MS = 250;
const FEWER = 7;

let sink = 0;

function millisOf(run: Case["run"], n: number): number {
  const before = process.cpuUsage();
  sink += run(n);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Operations that fill a round, found by doubling; the code is warm afterwards, so a full round is looked at twice. */
function operations(run: Case["run"]): { n: number; ms: number } {
  for (let n = 1; ; n *= 2) {
    if (millisOf(run, n) < ROUND_MS) continue;
    const ms = millisOf(run, n);
    if (ms >= ROUND_MS / 2) return { n, ms: ms / n };
  }
}

const median = (values: number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

/** Time the cases of a topic. */
export function timed(topic: string, cases: readonly Case[]): Timed[] {
  const sizes = cases.map((c) => operations(c.run));
  const rounds = cases.map((): number[] => []);
  for (let k = 0; k < ROUNDS; k++)
    cases.forEach((c, i) => {
      const { n, ms } = sizes[i]!;
      if (ms > LONG_MS && k >= FEWER) return;
      rounds[i]!.push((millisOf(c.run, n) / n) * 1e6);
    });
  const ns = new Map(cases.map((c, i) => [c.name, median(rounds[i]!)]));
  return cases.map((c, i) => {
    const other = c.against === undefined ? undefined : ns.get(c.against);
    if (c.against !== undefined && other === undefined)
      throw new Error(`${topic}: there is no case "${c.against}"`);
    return {
      topic,
      name: c.name,
      ns: ns.get(c.name)!,
      leastNs: Math.min(...rounds[i]!),
      against: c.against ?? null,
      ratio: other === undefined ? null : other / ns.get(c.name)!,
      goalRatio: c.goalRatio ?? null,
      goalNs: c.goalNs ?? null,
      ...(c.why !== undefined && { why: c.why }),
    };
  });
}

/** Time a topic and hand the result to the parent process, if there is one. */
export async function report(topic: string, { cases, figures }: Topic): Promise<void> {
  // Figures first: memory is to be measured before the cases have filled it.
  const measured = (await figures?.()) ?? [];
  const result = { timed: timed(topic, cases), figures: measured.map((f) => ({ topic, ...f })) };
  if (Number.isNaN(sink)) console.error(`${topic}: a case returned no figure`);
  console.log(JSON.stringify(result));
}
