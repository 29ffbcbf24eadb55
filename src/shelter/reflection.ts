import type { Range3 } from "../core/judgement.js";

/** What a shore that throws waves back is made of. */
export type Reflector = "beach" | "rubble" | "rock" | "wall";

/**
 * Height reflected over height that comes in. Beach, rubble and wall: satbastola.github.io, Civil Engineering
 * Tools, chapter 5 (read); rock between rubble and wall, common practice, no source.
 */
export const REFLECTION: Record<Reflector, Range3> = {
  beach: { low: 0.1, likely: 0.2, high: 0.3 },
  rubble: { low: 0.3, likely: 0.45, high: 0.6 },
  rock: { low: 0.5, likely: 0.7, high: 0.9 },
  wall: { low: 0.9, likely: 0.95, high: 1 },
};

/**
 * Factor on the height before a reflecting shore: energies add a wavelength off, heights add within half a
 * wavelength, where the crests stand; a straight line between.
 */
export function reflected(coefficient: number, distanceM: number, wavelengthM: number): number {
  const mean = Math.sqrt(1 + coefficient * coefficient);
  const standing = 1 + coefficient;
  const off = Math.min(1, Math.max(0, (2 * distanceM) / wavelengthM - 1));
  return standing + off * (mean - standing);
}
