// Answers while one types: the newest question wins, the last good answer stays in grey under a refusal.
const form = document.querySelector(".asking");
const place = document.getElementById("answer");
const last = document.getElementById("last");
const status = document.getElementById("told");
const names = JSON.parse(document.getElementById("names").textContent);
const PAUSE = 70, SETTLED = 1500, KEPT = 12, SHELF = "lapwright.questions";

let coming = null;
let typing = 0;
let settling = 0;

function ask() {
  coming?.abort();
  const mine = (coming = new AbortController());
  const said = new URLSearchParams(new FormData(form));
  const late = setTimeout(() => place.firstElementChild.classList.add("late"), 250);
  fetch(`/tables/answer?${said}`, { signal: mine.signal, headers: { accept: "text/html" } })
    .then((answer) => (answer.ok ? answer.text() : Promise.reject(new Error(answer.statusText))))
    .then((text) => { if (mine === coming) show(text); })
    .catch((error) => { if (error.name !== "AbortError" && mine === coming) tellLost(); })
    .finally(() => { clearTimeout(late); place.firstElementChild.classList.remove("late"); });
}

function show(text) {
  const box = document.createElement("template");
  box.innerHTML = text;
  const answer = box.content.querySelector(".answer");
  const before = place.querySelector(".answer[data-state='good']");
  if (before && answer.dataset.state !== "good") document.getElementById("last-answer").replaceChildren(before);
  last.hidden = answer.dataset.state === "good" || !document.querySelector("#last-answer > *");
  place.replaceChildren(answer);
  settle(answer);
}

function settle(answer) {
  const { state, field, address, title } = answer.dataset;
  for (const input of form.elements) {
    if (input.name === field && field) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute?.("aria-invalid");
  }
  history.replaceState(null, "", address);
  status.textContent = title;
  clearTimeout(settling);
  // What was typed on the way to a question is none.
  if (state === "good") settling = setTimeout(keep, SETTLED);
}

function tellLost() {
  const said = Object.assign(document.createElement("p"), { className: "said bad lost", textContent: form.dataset.lost });
  place.querySelector(".lost")?.remove();
  place.firstElementChild.prepend(said);
  status.textContent = form.dataset.lost;
}

function read() {
  try { return JSON.parse(localStorage.getItem(SHELF)) ?? []; } catch { return []; }
}

function write(questions) {
  try { localStorage.setItem(SHELF, JSON.stringify(questions)); } catch { /* A browser that keeps nothing still answers. */ }
  list();
}

function keep() {
  clearTimeout(settling);
  const answer = place.querySelector(".answer[data-state='good']");
  if (!answer) return;
  const { address, question } = answer.dataset;
  const words = `${names[form.elements.of.value]}: ${question}`;
  write([{ address, words }, ...read().filter((one) => one.address !== address)].slice(0, KEPT));
}

function list() {
  const section = document.querySelector(".before");
  const questions = read().filter((one) => typeof one.address === "string" && one.address.startsWith("/tables?"));
  section.hidden = questions.length === 0;
  section.querySelector("ul").replaceChildren(...questions.map(({ address, words }) => {
    const link = Object.assign(document.createElement("a"), { href: address, textContent: words });
    const item = document.createElement("li");
    item.append(link);
    return item;
  }));
}

form.addEventListener("input", (event) => {
  clearTimeout(typing);
  typing = setTimeout(ask, event.target.matches("select, [type=checkbox]") ? 0 : PAUSE);
});
form.addEventListener("submit", (event) => { event.preventDefault(); clearTimeout(typing); ask(); });
form.addEventListener("change", keep);
addEventListener("pagehide", keep);

place.addEventListener("click", (event) => {
  const way = event.target.closest("a[data-field]");
  const input = way && form.elements[way.dataset.field];
  if (!input || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  input.value = way.dataset.words;
  input.focus();
  ask();
});

document.querySelector(".forget").addEventListener("click", () => {
  write([]);
  form.querySelector(".ask input")?.focus();
});

// On a narrow page the answer comes before what need not be said.
if (matchMedia("(max-width: 40rem)").matches) {
  const others = form.querySelector(".others");
  others.open = "said" in others.dataset;
  document.querySelector(".chooser [aria-current]").scrollIntoView({ block: "nearest", inline: "center" });
}
form.classList.add("live");
list();
// What was typed before this file came counts as well.
if ([...form.querySelectorAll("input[type=text], input:not([type])")].some((field) => field.value !== field.defaultValue)) ask();
if (place.querySelector(".answer[data-state='good']")) settling = setTimeout(keep, SETTLED);
else if (matchMedia("(hover: hover)").matches) form.querySelector(".ask input")?.focus();
