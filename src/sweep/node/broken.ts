import { InputError, refuse } from "../../core/errors.js";
import type { SweepDescription } from "../describe.js";
import { NoPackage } from "./peer.js";

/** Refuse a shard that is not whole, or not one of its sweep. */
export const broken = (file: string, message: string): never =>
  refuse(file, "broken_shard", message);

/** Refuse a shard whose file does not carry the description of its sweep. */
export function sameHead(
  file: string,
  found: string | null | undefined,
  d: SweepDescription,
): void {
  if (found !== JSON.stringify(d)) broken(file, "has another head than its sweep");
}

/** First of a run of scenarios, which have to follow each other. */
export function firstOf(file: string, scenarios: ArrayLike<number>): number {
  const first = scenarios[0]!;
  for (let r = 1; r < scenarios.length; r++)
    if (scenarios[r] !== first + r)
      broken(file, `goes on at scenario ${scenarios[r]}, expected ${first + r}`);
  return first;
}

/** What is read from a shard; one that its form cannot be read from is refused. */
export async function* readable<T>(file: string, chunks: AsyncIterable<T>): AsyncGenerator<T> {
  try {
    yield* chunks;
  } catch (error) {
    if (error instanceof InputError || error instanceof NoPackage) throw error;
    broken(file, `cannot be read: ${(error as Error).message}`);
  }
}
