/**
 * Arguments: null nights, drags a scenario; with a third, the numbers of the families to run, each is
 * written to the folder of the fourth, and "gather" takes what lies there. "page" alone words the
 * kept results anew; "sensitivity" or "replay" alone tries the sheet of errors,
 * or the error of a real receiver, anew and keeps the rest.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import {
  FAMILY_COUNT,
  familyReport,
  gather,
  keep,
  replayOf,
  sheetOf,
  writePage,
} from "./accuracy.js";

type Family = ReturnType<typeof familyReport>;

const [nulls, drags] = [process.argv[2], process.argv[3]].map(Number);
const folder = process.argv[5] ?? "reports";
const only = process.argv[4];
const fileOf = (index: number) => `${folder}/watch-family-${index}.json`;

const kept = () =>
  JSON.parse(readFileSync("bench/watch-results.json", "utf8")) as ReturnType<typeof gather>;

if (process.argv[2] === "page") writePage(kept());
else if (process.argv[2] === "sensitivity" || process.argv[2] === "replay") {
  const before = kept();
  const [n, d] = [before.nulls, before.drags];
  const all =
    process.argv[2] === "replay"
      ? { ...before, replay: replayOf(n, d) ?? before.replay }
      : { ...before, sensitivity: sheetOf(n, d) };
  keep(all);
  writePage(all);
} else if (only !== undefined && only !== "gather")
  for (const index of only.split(",").map(Number))
    writeFileSync(fileOf(index), JSON.stringify(familyReport(index, nulls!, drags!)));
else {
  const families = Array.from({ length: FAMILY_COUNT }, (_, i) =>
    only === "gather" && existsSync(fileOf(i))
      ? (JSON.parse(readFileSync(fileOf(i), "utf8")) as Family)
      : familyReport(i, nulls!, drags!),
  );
  const all = gather({ nulls: nulls!, drags: drags!, families });
  keep(all);
  writePage(all);
}
