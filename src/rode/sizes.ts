import * as z from "zod/mini";
import { plain } from "../core/schema.js";
import { CHAINS, FIBRES, type Fibre } from "./tables.js";

const wanted = (sizes: Iterable<number>): string =>
  `expected a size of the table, in millimetres: ${[...new Set(sizes)].join(", ")}`;

/** A metric size of the chain table. */
export const chainSize = () =>
  plain({ above: 0, max: 60 }).check(
    z.refine((mm) => CHAINS.some((r) => r.diameterMm === mm), {
      error: () => wanted(CHAINS.map((r) => r.diameterMm)),
    }),
  );

const sizesOf = (fibre: Fibre): number[] => FIBRES[fibre].sizes.map((r) => r.diameterMm);

/** That a rope's diameter is a size of the table for its fibre. */
export const ropeSize = <T extends { fibre: Fibre; diameterMm: number }>() =>
  z.refine<T>(({ fibre, diameterMm }) => sizesOf(fibre).includes(diameterMm), {
    path: ["diameterMm"],
    error: (issue) => wanted(sizesOf((issue.input as T).fibre)),
  });
