// The page: a form and a JSON text over one input, planned anew by a worker at every change.
import { ANCHOR_TYPES } from "hawse/seabed";
import demo from "../../shared/scenarios/gannick-bay.json";

const $ = (id) => document.getElementById(id);

/** JSON with short lists and short objects on one line each, so that a person finds their way. */
const written = (value) =>
  JSON.stringify(value, null, 2)
    .replace(/\[\s+([^[\]{}]{1,120}?)\s+\]/g, (_, inner) => `[${inner.replace(/\n\s*/g, " ")}]`)
    .replace(/\{\s+([^[\]{}]{1,120}?)\s+\}/g, (_, inner) => `{ ${inner.replace(/\n\s*/g, " ")} }`);
const demoText = written(demo);

/** Fields of the form: label, place in the input, kind. */
const FIELDS = [
  ["Arrive (UTC)", ["stay", "fromMs"], "instant"],
  ["Leave (UTC)", ["stay", "toMs"], "instant"],
  ["Charted depth, m", ["chartedDepthM"], "number", 0.1],
  ["Length of the boat, m", ["vessel", "lengthM"], "number", 0.1],
  ["Draught, m", ["vessel", "draughtM"], "number", 0.1],
  ["Anchor", ["tackle", "anchor", "type"], "choice"],
  ["Its mass, kg", ["tackle", "anchor", "massKg"], "number", 1],
  ["Chain aboard, m", ["tackle", "rode", 0, "lengthM"], "number", 1],
  ["Rope after it, m", ["tackle", "rode", 1, "lengthM"], "number", 1],
  ["Wanted under the keel, m", ["limits", "underKeelM"], "number", 0.1],
  ["Wanted room, m", ["limits", "roomM"], "number", 1],
];
const COLUMNS = ["windMps", "gustMps", "windFromDeg"];

const valueAt = (value, path) => path.reduce((v, key) => v?.[key], value);
function setAt(value, path, to) {
  let node = value;
  for (const key of path.slice(0, -1)) node = node[key] ??= {};
  if (to === undefined) delete node[path.at(-1)];
  else node[path.at(-1)] = to;
}

function controlFor([text, path, kind, step], i) {
  const label = document.createElement("label");
  label.textContent = text;
  const control = document.createElement(kind === "choice" ? "select" : "input");
  control.id = `field-${i}`;
  label.htmlFor = control.id;
  if (kind === "choice")
    for (const type of ANCHOR_TYPES)
      control.add(
        new Option(
          type.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`),
          type,
        ),
      );
  else if (kind === "number")
    Object.assign(control, { type: "number", step, inputMode: "decimal" });
  else control.type = "datetime-local";
  control.addEventListener("input", () => fromForm(path, control, kind));
  const cell = document.createElement("div");
  cell.append(label, control);
  $("fields").append(cell);
  return { control, path, kind };
}
const controls = FIELDS.map(controlFor);

/** What a control says, as the input has it; an empty one takes its field out. */
function said(control, kind) {
  if (control.value === "") return undefined;
  if (kind === "number") return control.valueAsNumber;
  return kind === "instant" ? `${control.value}Z` : control.value;
}

let input = null;
function fromForm(path, control, kind) {
  if (input === null) return;
  setAt(input, path, said(control, kind));
  $("json").value = written(input);
  plan();
}

function fromText() {
  try {
    input = JSON.parse($("json").value);
  } catch {
    input = null;
  }
  if (input !== null) showForm();
  plan();
}

/** An instant as the form has it, in UTC whatever zone it was written in; empty where it is none. */
function inUtc(value) {
  const timeMs = typeof value === "number" ? value : Date.parse(String(value));
  return Number.isFinite(timeMs) ? new Date(timeMs).toISOString().slice(0, 16) : "";
}

function showForm() {
  for (const { control, path, kind } of controls) {
    const value = valueAt(input, path);
    control.value = value === undefined ? "" : kind === "instant" ? inUtc(value) : value;
  }
  const rows = valueAt(input, ["forecast", "rows"]);
  $("forecast").replaceChildren(...(Array.isArray(rows) ? rows.map(forecastRow) : []));
}

function forecastRow(row, i) {
  const tr = document.createElement("tr");
  const at = document.createElement("th");
  at.scope = "row";
  at.textContent = inUtc(row?.timeMs).slice(5).replace("T", " ");
  tr.append(at);
  for (const column of COLUMNS) {
    const control = document.createElement("input");
    Object.assign(control, { type: "number", step: column === "windFromDeg" ? 5 : 0.5 });
    control.value = row?.[column] ?? "";
    control.setAttribute("aria-label", `${column} at ${at.textContent}`);
    control.addEventListener("input", () =>
      fromForm(["forecast", "rows", i, column], control, "number"),
    );
    const td = document.createElement("td");
    td.append(control);
    tr.append(td);
  }
  return tr;
}

// A worker from a text, so that the page also works opened as a file.
const worker = new Worker(
  URL.createObjectURL(new Blob([globalThis.HAWSE_WORKER], { type: "text/javascript" })),
);
worker.onmessage = ({ data }) => show(data);
worker.onerror = (event) => show({ id: asked, issues: [{ path: "", message: event.message }] });

let asked = 0;
let busy = false;
let waiting = false;
function plan() {
  // One plan at a time; the last change made meanwhile is planned next.
  if (busy) {
    waiting = true;
    return;
  }
  busy = true;
  asked += 1;
  const widthPx = Math.floor($("plan").clientWidth);
  const wide = widthPx >= 1000 ? Math.floor((widthPx - 16) / 2) : widthPx;
  let json = $("json").value;
  if ($("draws").checked && input !== null)
    json = JSON.stringify({ draws: { count: 500 }, ...input });
  worker.postMessage({
    id: asked,
    json,
    draw: { widthPx: Math.max(320, wide), theme: $("theme").value },
  });
}

const make = (name, text, more = {}) =>
  Object.assign(document.createElement(name), { textContent: text, ...more });

function list(lines) {
  const ul = document.createElement("ul");
  ul.append(...lines.map((line) => make("li", line)));
  return ul;
}

function show({ id, ms, issues, title, sections, figures }) {
  busy = false;
  if (waiting) {
    waiting = false;
    plan();
  }
  if (id !== asked && issues === undefined) return;
  $("json").setAttribute("aria-invalid", String(issues !== undefined));
  $("plan").classList.toggle("stale", issues !== undefined);
  if (issues !== undefined) {
    $("status").textContent = "Not planned.";
    $("issues").replaceChildren(
      make(
        "p",
        "This input cannot be planned. What stands below is of the last one that could be.",
      ),
      list(issues.map((i) => (i.path === "" ? i.message : `${i.path}: ${i.message}`))),
    );
    return;
  }
  $("issues").replaceChildren();
  $("status").textContent = `Worked out on this machine in ${(ms / 1000).toFixed(1)} s.`;
  const [verdictPart, ...others] = sections;
  const [first, ...rest] = verdictPart.lines;
  $("verdict").replaceChildren(make("h3", title), make("p", first), list(rest));
  $("brief").replaceChildren(
    ...others.flatMap(({ title, lines }) => [make("h3", title), list(lines)]),
  );
  // The figures' own texts are escaped by the library.
  $("figures").innerHTML = figures.join("");
}

$("json").addEventListener("input", fromText);
$("form").addEventListener("submit", (event) => event.preventDefault());
$("form").addEventListener("reset", (event) => {
  event.preventDefault();
  $("json").value = demoText;
  fromText();
});
$("draws").addEventListener("change", plan);
$("theme").addEventListener("change", () => {
  document.documentElement.classList.toggle("night", $("theme").value === "night");
  plan();
});
let resized;
addEventListener("resize", () => {
  clearTimeout(resized);
  resized = setTimeout(plan, 200);
});
$("json").value = demoText;
fromText();
