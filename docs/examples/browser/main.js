// The page: its form goes to the worker, the worker's answer into the page.
const form = document.getElementById("form");
const answer = document.getElementById("answer");
const brief = document.getElementById("brief");
const figures = document.getElementById("figures");
const WORDS = {
  suitable: "Suitable",
  withCare: "With care",
  unsuitable: "Unsuitable: not for the whole stay",
  cannotTell: "Cannot tell: take it as unsuitable",
};
const worker = new Worker(new URL("./worker.js", import.meta.url), { type: "module" });

worker.onmessage = ({ data }) => {
  if (data.issues !== undefined) {
    answer.textContent = `Not planned: ${data.issues.join("; ")}`;
    brief.textContent = "";
    figures.replaceChildren();
    return;
  }
  answer.textContent = `${WORDS[data.verdict]}; veer ${data.veerM} m. ${data.safe}`;
  brief.textContent = data.brief;
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
