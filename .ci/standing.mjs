// What the page of verification keeps of itself where the open data set is absent, so that the tests could not measure all.

/** Rows of a page: those of the measured values, and those not compared. */
export function rowsOf(text) {
  const [values = "", left = ""] = text.split("\n## Not compared\n");
  const linesOf = (part) => part.split("\n").filter((l) => /^\| (?!topic |---)/.test(l));
  return { values: linesOf(values), left: linesOf(left) };
}

const cellsOf = (line) => line.slice(2, -2).split(" | ");
const topicOf = (line) => cellsOf(line)[0];
const casesOf = (line) => Number(cellsOf(line)[3]);
/** Topic, quantity and unit: what makes a row one row. */
const keyOf = (line) => {
  const [topic, quantity, , , , , tolerance, unit] = cellsOf(line);
  return [topic, quantity, tolerance === "exact" ? tolerance : unit].join(" | ");
};

/** Rows measured now; of topics that want the data set, the row that stands wherever it rests on more cases. */
export function keptValues(fresh, standing, wantsData) {
  const now = new Map(fresh.map((line) => [keyOf(line), line]));
  const kept = standing.flatMap((line) => {
    const measured = now.get(keyOf(line));
    now.delete(keyOf(line));
    const wants = wantsData.has(topicOf(line));
    if (measured === undefined) return wants ? [line] : [];
    return [wants && casesOf(line) > casesOf(measured) ? line : measured];
  });
  for (const line of now.values()) {
    const last = kept.findLastIndex((l) => topicOf(l) <= topicOf(line));
    kept.splice(last + 1, 0, line);
  }
  return kept;
}

/** Of what could not be compared: what stands already, and all of topics that want no data set. */
export const keptLeft = (left, standing, wantsData) =>
  left.filter((line) => standing.includes(line) || !wantsData.has(topicOf(line)));
