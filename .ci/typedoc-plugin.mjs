// Inputs are typed from their schemas (`z.input<typeof schema>`). The pages show the fields those types come to, with the
// comments of the schema's keys, in place of the name of a schema that no caller needs.
import { Comment, Converter, ReflectionKind } from "typedoc";
import ts from "typescript";

const FROM_SCHEMA = /^z\.(input|output|infer)<|^\(typeof [A-Z_]+\)\[number\]|^LightLimit/;

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
}
