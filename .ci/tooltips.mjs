// Fields of inputs are told in the sources, beside the keys of their schemas; the compiler leaves those comments out of the
// declarations it infers, so that an editor would show nothing. This step of the build writes them into dist/*.d.ts.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";

const root = path.resolve(import.meta.dirname, "..");

/** Type aliases of the files of a program that are made from a schema: `type X = Given<typeof schema>`. */
function aliases(program, isOurs) {
  return program
    .getSourceFiles()
    .filter((file) => isOurs(file.fileName))
    .flatMap((file) => file.statements.filter(ts.isTypeAliasDeclaration))
    .filter((alias) => queryOf(alias.type) !== undefined);
}

/** The `typeof schema` of an alias. */
function queryOf(node) {
  if (ts.isTypeQueryNode(node)) return node;
  return ts.forEachChild(node, queryOf);
}

const programOf = (files) => {
  const { config } = ts.readConfigFile(path.join(root, "tsconfig.build.json"), ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
  return ts.createProgram(files, { ...options, noEmit: true });
};

/** A field is known by the names that lead to it and by those that stand beside it. */
const keyOf = (names, beside) => `${names.join(".")} among ${[...beside].sort().join(" ")}`;

/** What the sources tell of each field of an input, by {@link keyOf}; null where two of one key differ. */
function told(checker, type) {
  const words = new Map();
  const seen = new Map();
  const into = (t, names) => {
    if (t.isUnionOrIntersection()) return t.types.forEach((part) => into(part, names));
    const items = checker.getIndexTypeOfType(t, ts.IndexKind.Number);
    if (checker.isArrayLikeType(t)) {
      if (items !== undefined) into(items, names);
      return;
    }
    if (!(t.flags & ts.TypeFlags.Object) || t.getCallSignatures().length > 0) return;
    const fields = checker.getPropertiesOfType(t);
    const ours = fields.filter((f) =>
      f.declarations?.some((d) => d.getSourceFile().fileName.includes("/src/")),
    );
    if (ours.length === 0 || names.length > 12) return;
    const places = seen.get(t) ?? new Set();
    seen.set(t, places);
    if (places.has(names.join("."))) return;
    places.add(names.join("."));
    const beside = fields.map((f) => f.name);
    for (const field of ours) {
      const path = [...names, field.name];
      const text = ts.displayPartsToString(field.getDocumentationComment(checker));
      const key = keyOf(path, beside);
      words.set(key, words.has(key) && words.get(key) !== text ? null : text);
      into(checker.getTypeOfSymbol(field), path);
    }
  };
  into(type, []);
  return words;
}

/** The fields of a schema as declared, with the names that lead to them. */
function fieldsOf(node, names = []) {
  if (ts.isTypeReferenceNode(node) && /^(z\.)?ZodMiniObject$/.test(node.typeName.getText())) {
    const [shape] = node.typeArguments ?? [];
    if (shape === undefined || !ts.isTypeLiteralNode(shape)) return [];
    const members = shape.members.filter(ts.isPropertySignature);
    const beside = members.map((m) => m.name.text);
    return members.flatMap((member) => {
      const path = [...names, member.name.text];
      return [{ member, key: keyOf(path, beside) }, ...fieldsOf(member.type, path)];
    });
  }
  const out = [];
  ts.forEachChild(node, (child) => void out.push(...fieldsOf(child, names)));
  return out;
}

/** The schema that a type alias of the declarations is made from, as declared. */
function schemaOf(checker, alias) {
  const symbol = checker.getSymbolAtLocation(queryOf(alias.type).exprName);
  if (symbol === undefined) return undefined;
  const own = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  return own.declarations?.find(ts.isVariableDeclaration);
}

/** Write comments into a file, each before the place it belongs to. */
function writeInto(file, comments) {
  const text = readFileSync(file, "utf8");
  const pieces = [];
  let from = 0;
  for (const [at, words] of [...comments].sort(([a], [b]) => a - b)) {
    const indent = text.slice(text.lastIndexOf("\n", at) + 1, at);
    const comment = `/** ${words.replace(/\s*\n\s*/g, " ").replaceAll("*/", "* /")} */`;
    pieces.push(text.slice(from, at), comment, "\n", indent);
    from = at;
  }
  writeFileSync(file, pieces.join("") + text.slice(from));
}

const filesIn = (folder, pattern) =>
  readdirSync(path.join(root, folder), { recursive: true })
    .filter((f) => pattern.test(f))
    .map((f) => path.join(root, folder, f));

const sources = programOf(filesIn("src", /index\.ts$/));
const words = new Map(
  aliases(sources, (f) => f.startsWith(`${root}/src/`)).map((alias) => {
    const checker = sources.getTypeChecker();
    return [alias.name.text, told(checker, checker.getTypeAtLocation(alias.name))];
  }),
);

const declared = programOf(filesIn("dist", /\.d\.c?ts$/));
/** Comments to write: by file, then by place. */
const wanted = new Map();
const untold = new Set();
let fields = 0;
for (const alias of aliases(declared, (f) => f.startsWith(`${root}/dist/`))) {
  const schema = schemaOf(declared.getTypeChecker(), alias);
  const own = words.get(alias.name.text);
  if (schema?.type === undefined || own === undefined) continue;
  const file = schema.getSourceFile();
  const comments = wanted.get(file.fileName) ?? new Map();
  wanted.set(file.fileName, comments);
  for (const { member, key } of fieldsOf(schema.type)) {
    fields += 1;
    const text = own.get(key);
    if (!text) untold.add(`${alias.name.text} ${key.replace(/ among .*/, "")}`);
    else if (ts.getJSDocCommentsAndTags(member).length === 0)
      comments.set(member.getStart(file), text);
  }
}
for (const [file, comments] of wanted) writeInto(file, comments);

if (process.argv.includes("--untold")) console.log([...untold].sort().join("\n"));
console.log(`tooltips: ${fields} fields of inputs, ${untold.size} of them without words`);
process.exit(fields === 0 ? 1 : 0);
