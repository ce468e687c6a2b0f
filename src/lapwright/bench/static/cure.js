// A cure's figures by slider and by hand; what comes of them follows at once.
import { keepAddress, keepFresh, sentence } from "./fetching.js";

const form = document.getElementById("figures");
const dials = [...form.querySelectorAll(".dial")].map((dial) => {
  const [slider, figure] = dial.querySelectorAll("input");
  return { slider, figure, said: dial.querySelector(".said") };
});
const ask = keepFresh(document.getElementById("tried"), () => tellAmiss([]), (error) => tellAmiss(error.fields ?? []));

// What is amiss is told beside the figure that it is about.
function tellAmiss(fields) {
  for (const { figure, said } of dials) {
    const found = fields.find(({ field }) => field === figure.name);
    said.textContent = found ? sentence(found) : "";
    figure.toggleAttribute("aria-invalid", Boolean(found));
    if (found) figure.setAttribute("aria-invalid", "true");
  }
  return fields.length > 0;
}

function work() {
  const said = new URLSearchParams(new FormData(form));
  keepAddress(said);
  ask(`${form.dataset.tried}?${said}`);
}

// The slider goes along with a figure that is one; another leaves it where it stands.
function follow({ slider, figure }) {
  const plain = /^\s*(-?\d+\.?\d*)\s*([a-z]*)\s*$/.exec(figure.value);
  if (plain && ["", slider.dataset.unit].includes(plain[2])) slider.value = plain[1];
}

for (const dial of dials) {
  dial.slider.addEventListener("input", () => { dial.figure.value = dial.slider.value; work(); });
  dial.figure.addEventListener("input", () => { follow(dial); work(); });
}
form.querySelector("[name=together]")?.addEventListener("change", work);

// Enter in a figure works it out; it does not choose the cure, and a figure that cannot be is chosen by nobody.
form.addEventListener("submit", (event) => {
  if (event.submitter?.formMethod !== "post") {
    event.preventDefault();
    work();
    return;
  }
  const amiss = dials.find(({ figure }) => figure.getAttribute("aria-invalid") === "true");
  if (!amiss) return;
  event.preventDefault();
  amiss.figure.focus();
});

form.querySelector("[data-plain]").hidden = true;
const reset = form.querySelector("[data-reset]");
if (reset) {
  reset.hidden = false;
  reset.addEventListener("click", () => {
    for (const { slider, figure } of dials) slider.value = figure.value = figure.dataset.own;
    work();
  });
}

// A browser that goes back may bring what stood in the boxes, and not where the sliders were.
window.addEventListener("pageshow", () => {
  // What was refused came back under the address that it was sent to.
  if (location.pathname !== new URL(form.action).pathname) history.replaceState(null, "", form.action);
  dials.forEach(follow);
  work();
});
