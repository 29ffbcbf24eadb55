// Plans in the background, so that the page stays quick. Takes { id, input, draw }, answers { id, ... }.
import { InputError, briefSections, briefText, planStay, utc } from "hawse";
import { stayFigure, holdingFigure, rodeFigure, shelterFigure, swingFigure } from "hawse/figure";

/** The same value with texts in fields whose name ends in `Ms` read as instants. */
function withInstants(value, path, issues) {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map((v, i) => withInstants(v, `${path}[${i}]`, issues));
  return Object.fromEntries(
    Object.entries(value).map(([key, v]) => {
      const at = path === "" ? key : `${path}.${key}`;
      if (typeof v !== "string" || !key.endsWith("Ms")) return [key, withInstants(v, at, issues)];
      try {
        return [key, utc(v)];
      } catch (error) {
        issues.push({ path: at, message: error.message });
        return [key, null];
      }
    }),
  );
}

function planned({ json, draw }) {
  const issues = [];
  const input = withInstants(JSON.parse(json), "", issues);
  if (issues.length > 0) return { issues };
  const plan = planStay(input);
  const figures = [
    stayFigure(plan, draw),
    holdingFigure(plan, draw),
    swingFigure(plan, input, draw),
    rodeFigure(plan, draw),
    shelterFigure(plan, draw),
  ];
  // The heading of the brief: which stay, and by what clock its hours are told.
  const title = briefText(plan).split("\n\n")[0].replace(/\s+/g, " ");
  return { title, sections: briefSections(plan), figures };
}

self.onmessage = ({ data }) => {
  const started = performance.now();
  let answer;
  try {
    answer = planned(data);
  } catch (error) {
    if (error instanceof InputError) answer = { issues: error.issues };
    else if (error instanceof SyntaxError)
      answer = { issues: [{ path: "JSON", message: error.message }] };
    else answer = { issues: [{ path: "", message: `cannot be planned: ${error.message}` }] };
  }
  self.postMessage({ id: data.id, ms: performance.now() - started, ...answer });
};
