// Inputs are typed from their schemas (`Given<typeof schema>`). The pages show the fields those types come to, with the
// comments of the schema's keys, in place of the name of a schema that no caller needs.
import { Comment, Converter, PageEvent, ReflectionKind } from "typedoc";
import ts from "typescript";

const FROM_SCHEMA = /^(Given|z\.(input|output|infer))<|^\(typeof [A-Z_]+\)\[number\]|^LightLimit/;

/** Fields that mean the same wherever they stand without words of their own. */
const WORDS = {
  timeMs: "Instant, UTC epoch milliseconds.",
  atMs: "When, UTC epoch milliseconds.",
  low: "Low end.",
  likely: "Likely figure.",
  high: "High end.",
  latDeg: "Latitude, north positive.",
  lonDeg: "Longitude, east positive.",
  eastM: "Metres east.",
  northM: "Metres north.",
  kind: "Which of these it is.",
  type: "Which of these it is.",
  hm0M: "Significant wave height, metres.",
  periodS: "Peak period, seconds.",
  geometry: "Where it is.",
  coordinates: "Longitude and latitude, degrees, nested as GeoJSON has it.",
  geometries: "Its parts.",
  features: "GeoJSON features.",
  properties: "What is told of it.",
  name: "Its name.",
  code: "What it is about.",
  alarms: "Alarms that stand.",
  acknowledged: "Whether it has been acknowledged.",
  anchor: "Where the anchor is taken to lie; null where nobody knows.",
  distanceM: "Distance from the anchor; null where it is not known.",
  greatestDistanceM: "Greatest distance while the anchor holds.",
  sogMps: "Speed over the ground.",
  cogDeg: "Course over the ground.",
  trackMs: "When speed and course came.",
  hdopMs: "When the dilution of precision came.",
  headingMs: "When the heading came.",
  headingRank: "How near the source the heading is: the higher the nearer.",
  windRank: "How near the source the wind is: the higher the nearer.",
  height: "The word for its height.",
  length: "The word for its length.",
  totalRows: "Rows of the whole.",
  least: "Least of the known values.",
  greatest: "Greatest of the known values.",
  mean: "Mean of the known values.",
  unknown: "How many values are not known.",
  share: "Share of the values that lie below.",
  value: "The value.",
  limit: "The limit.",
  of: "Which column.",
  by: "Columns by which the table is cut.",
  rows: "Its rows.",
  firstOrder: "Share of the variance that each column explains by itself.",
  shard: "Which part of how many.",
  k: "Which part, from 1.",
  n: "Of how many parts.",
  aborted: "True once it is to stop.",
  when: "What calls.",
  valueM: "At how many metres.",
  valueMps: "At how many metres a second.",
  known: "Whether it is known.",
  reason: "Why not.",
  rode: "What it lies on, anchor end first.",
  mode: "How she lies.",
  position: "Where it is.",
};

/** Words for a field that has none. */
function described(reflection) {
  if (reflection.kind !== ReflectionKind.Property || reflection.hasComment()) return;
  const text = WORDS[reflection.name];
  if (text !== undefined) reflection.comment = new Comment([{ kind: "text", text }]);
}

/**
 * What the theme lacks: landmarks and summaries without a second control for a screen reader, tables and figures that
 * are wider than the page in a frame that scrolls, sources told by their path alone, as they lie on no server, and
 * links to pages in the repository that lead to the built page, or to nothing: their copies lack style and scripts.
 */
const mended = (html) =>
  html
    .replace(/Defined in <a [^>]*>[^<]*?(src\/[^<]*)<\/a>/g, "Defined in $1")
    .replace(/<a href="[^"]*">live page<\/a>/g, '<a href="../../live/index.html">live page</a>')
    .replace(/<a href="[^"]*\/media\/index[^"]*\.html">([^<]*)<\/a>/g, "$1")
    .replace(/<table>/g, '<div class="wide" role="group" aria-label="Table" tabindex="0"><table>')
    .replace(/<\/table>/g, "</table></div>")
    .replace(
      /<p>(<img [^>]*>)<\/p>/g,
      '<div class="wide" role="group" aria-label="Figure" tabindex="0">$1</div>',
    )
    .replace('<div class="col-content">', '<div class="col-content" role="main">')
    .replace(
      '<div class="col-sidebar">',
      '<div class="col-sidebar" role="complementary" aria-label="On this page and this site">',
    )
    .replace(/<summary[\s\S]*?<\/summary>/g, (summary) =>
      summary.replace(/<a [^>]*>([\s\S]*?)<\/a>/g, (_, inner) =>
        inner.includes("<svg") ? "" : inner,
      ),
    );

/** @param {import("typedoc").Application} app */
export function load(app) {
  app.converter.on(Converter.EVENT_CREATE_DECLARATION, (context, reflection) => {
    if (reflection.kind !== ReflectionKind.TypeAlias) return described(reflection);
    const symbol = context.getSymbolFromReflection(reflection);
    const declaration = symbol?.declarations?.find(ts.isTypeAliasDeclaration);
    if (declaration === undefined || !FROM_SCHEMA.test(declaration.type.getText())) return;
    reflection.comment ??= new Comment();
    reflection.comment.modifierTags.add("@useDeclaredType");
  });
  app.renderer.on(PageEvent.END, (page) => {
    if (page.contents?.includes("<html") === true) page.contents = mended(page.contents);
  });
}
