// The engine on the stand: what it is put on by slider and by hand, and the run that follows; tests and runs noted.
import { fetchSheets, keepAddress, keepFresh, sendForm, sentence } from "./fetching.js";

const form = document.getElementById("stand");
const place = document.getElementById("turn");
const ask = place ? keepFresh(place, settle, (error) => tellAmiss(error.fields ?? [])) : null;
// The unit in which the slider writes: the one that was used last.
let unit = "";

function list() {
  const said = new URLSearchParams(new FormData(form));
  for (const [name, value] of [...said]) if (!value.trim()) said.delete(name);
  return said;
}

function work(touched = null) {
  const said = list();
  keepAddress(said);
  const { load, by } = form.elements;
  const isWaiting = by.value === "load" && "wanted" in load.dataset && !load.value.trim();
  document.getElementById("load-wanted").hidden = !isWaiting;
  if (isWaiting) wait(touched);
  else ask(`${form.dataset.turn}?${said}`);
}

// Nothing is worked out by a load that nobody has told yet; the run that is shown holds until something else is asked of it.
function wait(touched) {
  tellAmiss([]);
  place.querySelector(":scope > .working")?.remove();
  place.setAttribute("aria-busy", "false");
  if (touched && touched.name !== "by") place.classList.add("stale");
}

// What is amiss is told at its box, which may be folded away.
function tellAmiss(fields) {
  for (const said of form.querySelectorAll("[data-amiss]")) {
    const found = fields.find(({ field }) => field === said.dataset.amiss);
    const box = form.elements[said.dataset.amiss];
    said.textContent = found ? sentence(found) : "";
    box.toggleAttribute("aria-invalid", Boolean(found));
    if (!found) continue;
    box.setAttribute("aria-invalid", "true");
    if (box.closest("details")) box.closest("details").open = true;
  }
  return fields.length > 0;
}

function settle() {
  tellAmiss([]);
  const turned = place.querySelector(".turned").dataset;
  for (const caution of document.querySelectorAll(".caution[data-fluid]")) {
    caution.hidden = caution.dataset.fluid !== turned.fluid;
  }
  if (unit !== turned.unit) reach(turned);
  const typed = document.activeElement;
  for (const slider of form.querySelectorAll("input[type=range]")) {
    if (slider !== typed) slider.value = turned[slider.dataset.for];
  }
  // An empty box shows the figure that is taken.
  const taken = form.elements.by.value === "speed";
  const because = "settles" in turned ? form.dataset.settles : form.dataset.usual;
  form.elements.speed.placeholder = taken ? `${turned.speed} rpm, ${because}` : form.dataset.usual;
  prefill(turned);
  followStand(turned.fluid);
}

function reach({ unit: own, pressure, speed }) {
  unit = own;
  const sliders = Object.fromEntries([...form.querySelectorAll("input[type=range]")].map((each) => [each.dataset.for, each]));
  const most = Math.max(2 * pressure, round(pressure * 3));
  Object.assign(sliders.pressure, { min: round(most / 50), max: most, step: round(most / 200), disabled: false });
  Object.assign(sliders.speed, { min: 20, max: Math.max(600, 3 * speed), step: 5, disabled: false });
}

// The largest of 1, 2, 5 times a power of ten that is no larger.
function round(value) {
  const power = 10 ** Math.floor(Math.log10(value || 1));
  return [5, 2, 1].map((step) => step * power).find((each) => each <= value * 1.000001) ?? power;
}

// A bench test is run on what the stand is on, unless its form says otherwise.
function followStand(fluid) {
  for (const choice of document.querySelectorAll(".enter select[name=fluid]")) {
    const was = choice.querySelector("[selected]");
    const own = [...choice.options].find((option) => option.value === fluid);
    const isUntouched = choice.selectedOptions[0] === was;
    was?.removeAttribute("selected");
    own?.setAttribute("selected", "");
    if (isUntouched && own) own.selected = true;
  }
}

// Beside what is to be read off stands what was worked out.
function prefill({ fluid, pressure, unit: own, speed }) {
  const noting = document.querySelector("#note form");
  if (!noting) return;
  const said = { on: fluid, pressure: `${pressure} ${own}`, speed: `${speed} rpm` };
  for (const [name, words] of Object.entries(said)) {
    noting.elements[name].placeholder = `${noting.dataset.workedOut} ${words}`;
  }
}

function showBy() {
  const by = form.elements.by.value;
  for (const row of form.querySelectorAll("[data-by]")) row.hidden = row.dataset.by !== by;
}

if (form) {
  form.addEventListener("input", (event) => {
    const slider = event.target;
    if (slider.type === "range") {
      form.elements[slider.dataset.for].value = `${+(+slider.value).toPrecision(4)} ${slider.dataset.for === "speed" ? "rpm" : unit}`;
    }
    showBy();
    work(slider);
  });
  form.addEventListener("submit", (event) => { event.preventDefault(); work(); });
  form.querySelector("[data-plain]").hidden = true;
  showBy();
  work();
}

const tests = document.querySelector("[data-sheet]");
fetchSheets();
let said = null;
// What comes anew above it may have moved the word that something is kept out of sight.
const again = keepFresh(tests, () => said?.scrollIntoView({ block: "nearest" }));

document.addEventListener("submit", (event) => {
  const sent = event.target;
  if (sent.method !== "post") return;
  event.preventDefault();
  sendForm(sent, () => {
    if (!sent.closest("#tests")) return;
    // The form may go as the sheet comes anew: what was done is told above it.
    const isGoing = sent.closest("[data-sheet]");
    said = isGoing ? document.getElementById("tests-said") : sent.querySelector("[role=status]");
    said.textContent = sent.dataset.kept;
    again(tests.dataset.sheet);
    // What the tests tell changes the run, too.
    if (form) work();
  });
});
