// A cure's figures by slider and by hand; what comes of them follows at once.
import { keepAddress, keepFresh } from "./fetching.js";

const form = document.getElementById("figures");
const ask = keepFresh(document.getElementById("tried"));

function work() {
  const said = new URLSearchParams(new FormData(form));
  keepAddress(said);
  ask(`${form.dataset.tried}?${said}`);
}

for (const dial of form.querySelectorAll(".dial")) {
  const [slider, figure] = dial.querySelectorAll("input");
  slider.addEventListener("input", () => { figure.value = slider.value; work(); });
  figure.addEventListener("input", () => { slider.value = figure.value; work(); });
}
form.querySelector("[name=together]")?.addEventListener("change", work);

// Enter in a figure works it out; it does not choose the cure.
form.addEventListener("submit", (event) => {
  if (event.submitter?.formMethod === "post") return;
  event.preventDefault();
  work();
});

form.querySelector("[data-plain]").hidden = true;
const reset = form.querySelector("[data-reset]");
if (reset) {
  reset.hidden = false;
  reset.addEventListener("click", () => {
    for (const figure of form.querySelectorAll("[data-own]")) {
      figure.value = figure.dataset.own;
      figure.closest(".dial").querySelector("input").value = figure.dataset.own;
    }
    work();
  });
}

work();
