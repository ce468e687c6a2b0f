// The sliders: what is tried, as moved or as written; nothing of it reaches the record.
// The lap is cut at the valve's edges, so lap and length (or cavity) are one wish: the one touched last.
const TWINS = { steam_lap: ["valve.length", "valve.cavity"], "valve.length": ["steam_lap"], "valve.cavity": ["steam_lap"] };

export class Knobs {
  constructor(section, onChange) {
    this.changes = {};
    this.accepted = {};
    this.knobs = {};
    this.onChange = onChange;
    this.said = section.querySelector(".turn-said");
    this.reset = section.querySelector(".turn-reset");
    for (const box of section.querySelectorAll(".turn-knob")) this.#listen(box);
    this.reset.addEventListener("click", () => {
      this.clear();
      // Pressed by key, it would take the focus with it as it goes.
      this.knobs[this.touched]?.slide.focus();
    });
  }

  get isChanged() {
    return Object.keys(this.changes).length > 0;
  }

  clear() {
    this.changes = {};
    for (const knob of Object.values(this.knobs)) {
      knob.slide.value = knob.box.dataset.found;
      knob.figure.value = knob.box.dataset.shown;
      knob.figure.removeAttribute("aria-invalid");
    }
    this.#tell();
  }

  #listen(box) {
    const { key } = box.dataset;
    const [slide, figure] = box.querySelectorAll("input");
    this.knobs[key] = { box, slide, figure };
    slide.addEventListener("input", () => {
      // A finger on the slider leaves the caret in the field; what is written there counts no longer.
      this.writing = null;
      this.#wish(key, Number(slide.value));
    });
    figure.addEventListener("input", () => { this.writing = figure; });
    figure.addEventListener("change", () => {
      this.writing = null;
      this.#wish(key, figure.value.trim() || Number(box.dataset.found));
    });
    figure.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      figure.value = box.dataset.shown;
      this.writing = null;
    });
  }

  #wish(key, value) {
    for (const twin of TWINS[key] || []) delete this.changes[twin];
    delete this.changes[key];
    if (value !== Number(this.knobs[key].box.dataset.found)) this.changes[key] = value;
    this.touched = key;
    this.#tell();
    this.knobs[key].figure.removeAttribute("aria-invalid");
  }

  #tell() {
    // The wish goes out first; what is left to do is done while it is answered.
    this.onChange();
    if (this.said.textContent) this.said.textContent = "";
    this.reset.disabled = !this.isChanged;
  }

  // What was answered: there it goes back to after a refusal.
  accept(changes) {
    this.accepted = changes;
  }

  // What every size is by now, in the record's own units; what is being written is left alone.
  show({ values, shown }) {
    for (const [key, knob] of Object.entries(this.knobs)) {
      if (!(key in values)) continue;
      if (document.activeElement !== knob.slide) knob.slide.value = values[key];
      if (this.writing !== knob.figure) knob.figure.value = shown[key];
      knob.box.classList.toggle("is-changed", shown[key] !== knob.box.dataset.shown);
    }
  }

  refuse(error) {
    // Beside the field that it is about.
    this.knobs[this.touched]?.box.append(this.said);
    this.said.textContent = error.instead ? `${error.message}: ${error.instead}` : error.message;
    this.changes = { ...this.accepted };
    this.reset.disabled = !this.isChanged;
    const knob = this.knobs[this.touched];
    if (knob) {
      knob.figure.setAttribute("aria-invalid", "true");
    }
  }
}
