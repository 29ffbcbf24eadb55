import { existsSync, readFileSync } from "node:fs";

const root = new URL("../../shared/data/", import.meta.url);

/** Whether the open data set (charts, coasts, tide gauges, logs) lies beside the project. */
export const hasSharedData = existsSync(root);
if (!hasSharedData)
  console.warn(
    "skip: the open data set is absent, tests on real charts, coasts and gauges do not run",
  );

/** Text of one file of the open data set. */
export const sharedText = (path: string): string => readFileSync(new URL(path, root), "utf8");
/** JSON of one file of the open data set, taken to be of the type the caller names. */
// eslint-disable-next-line @typescript-eslint/no-unnecessary-type-parameters -- the files are fixed, their types known to the tests
export const sharedJson = <T>(path: string): T => JSON.parse(sharedText(path)) as T;
