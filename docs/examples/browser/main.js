// The page: its form goes to the worker, the worker's answer into the page.
const form = document.getElementById("form");
const answer = document.getElementById("answer");
const figures = document.getElementById("figures");
const worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });

worker.onmessage = ({ data }) => {
  if (data.issues !== undefined) {
    answer.textContent = `Not planned: ${data.issues.join("; ")}`;
    figures.replaceChildren();
    return;
  }
  const { verdict, unknown, reasons, veerM } = data;
  const why = [...reasons, ...unknown].join(", ");
  answer.textContent = `${verdict}; veer ${veerM} m. ${why === "" ? "" : `Because: ${why}.`}`;
  // The library escapes every text in its figures.
  figures.innerHTML = data.figures.join("");
};
worker.onerror = (event) => {
  answer.textContent = `Not planned: ${event.message}`;
};

function plan() {
  const numbers = [...new FormData(form)].map(([name, text]) => [name, Number(text || NaN)]);
  worker.postMessage({ form: Object.fromEntries(numbers), widthPx: figures.clientWidth });
}
form.addEventListener("submit", (event) => {
  event.preventDefault();
  plan();
});
plan();
