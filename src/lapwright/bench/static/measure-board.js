// The board beside the fields: the picture that shows the chosen size, its mark lit, and how to measure it.
const NEAR = 28;
// Margin above and below, and the least height that the board is given [px].
const EDGE = 8, LEAST = 380;

export class Board {
  constructor(board) {
    this.board = board;
    this.guide = board.querySelector("#guide");
    this.blank = this.guide?.innerHTML;
    this.onPick = () => {};
    this.chosen = "";
    this.pointed = "";
    board.addEventListener("click", (event) => this.clicked(event));
    board.addEventListener("pointermove", (event) => {
      if (event.pointerType !== "touch") this.point(this.findKey(event));
    });
    board.addEventListener("pointerleave", () => this.point(""));
    for (const way of ["scroll", "resize"]) addEventListener(way, () => this.fitSoon(), { passive: true });
    this.fit();
    const first = this.figures()[0];
    if (first) this.show(first.dataset.part, first.dataset.view);
  }

  fitSoon() {
    this.fitting ??= requestAnimationFrame(() => this.fit());
  }

  // As long as the head of the page is seen, the board begins lower down and has less room.
  fit() {
    this.fitting = null;
    const top = Math.max(this.board.parentElement.getBoundingClientRect().top, EDGE);
    this.board.style.setProperty("--room", `${Math.max(Math.round(innerHeight - top - EDGE), LEAST)}px`);
    if (!this.guide) return;
    // What can be scrolled can be reached by keys.
    if (this.guide.scrollHeight > this.guide.clientHeight + 1) this.guide.tabIndex = 0;
    else this.guide.removeAttribute("tabindex");
  }

  figures() {
    return [...this.board.querySelectorAll("figure.view")];
  }

  show(part, view) {
    this.part = part;
    this.view = view;
    for (const figure of this.figures()) figure.hidden = figure.dataset.part !== part || figure.dataset.view !== view;
    for (const group of this.board.querySelectorAll(".views")) {
      group.hidden = group.dataset.part !== part;
      for (const button of group.children) button.setAttribute("aria-pressed", String(button.dataset.view === view));
      if (!group.hidden) group.querySelector('[aria-pressed="true"]')?.scrollIntoView({ block: "nearest", inline: "nearest" });
    }
  }

  clicked(event) {
    const button = event.target.closest("button[data-view]");
    if (button) return this.show(button.closest(".views").dataset.part, button.dataset.view);
    const key = this.findKey(event);
    if (key) this.onPick(key);
  }

  // The mark under the pointer, or the nearest words that a finger may have meant.
  findKey(event) {
    const hit = event.target.closest?.("figure [data-key]");
    if (hit) return hit.dataset.key;
    const figure = event.target.closest?.("figure.view");
    if (!figure) return "";
    let best = NEAR, key = "";
    for (const mark of figure.querySelectorAll(".touch [data-key]")) {
      const box = mark.getBoundingClientRect();
      const dx = Math.max(box.left - event.clientX, 0, event.clientX - box.right);
      const dy = Math.max(box.top - event.clientY, 0, event.clientY - box.bottom);
      if (Math.hypot(dx, dy) < best) [best, key] = [Math.hypot(dx, dy), mark.dataset.key];
    }
    return key;
  }

  choose(key, { scroll = true } = {}) {
    this.chosen = key;
    const shown = this.figures().find((figure) => !figure.hidden);
    if (!shown || !hasKey(shown, key)) {
      const other = this.figures().find((figure) => hasKey(figure, key));
      if (other) this.show(other.dataset.part, other.dataset.view);
      else this.showPartOf(key);
    }
    if (scroll) document.getElementById(`field-${key}`)?.scrollIntoView({ block: "nearest" });
    const body = document.getElementById(`field-${key}`)?.querySelector(".how-body");
    if (this.guide) {
      this.guide.innerHTML = body ? body.innerHTML : this.blank;
      this.guide.scrollTop = 0;
    }
    this.fit();
    this.light();
  }

  // A size without a place on a picture at least has the pictures of its own part beside it.
  showPartOf(key) {
    const part = document.getElementById(`field-${key}`)?.closest(".part").dataset.part;
    const first = this.figures().find((figure) => figure.dataset.part === part);
    if (first && this.part !== part) this.show(first.dataset.part, first.dataset.view);
  }

  point(key) {
    if (key === this.pointed) return;
    this.pointed = key;
    this.light();
  }

  light() {
    mark(this.board.querySelectorAll("svg [data-key]"), "lit", (shape) => shape.dataset.key === this.chosen);
    mark(this.board.querySelectorAll("svg [data-key]"), "near", (shape) => shape.dataset.key === this.pointed);
    mark(document.querySelectorAll(".field"), "here", (field) => field.dataset.field === this.chosen);
    mark(document.querySelectorAll(".field"), "near", (field) => field.dataset.field === this.pointed);
  }

  // New drawings from a new page, in the places of the old.
  renew(fresh) {
    for (const figure of this.figures()) {
      const other = fresh.querySelector(`figure[data-part="${figure.dataset.part}"][data-view="${figure.dataset.view}"]`);
      if (other) figure.innerHTML = other.innerHTML;
    }
    if (this.chosen) this.choose(this.chosen, { scroll: false });
  }
}

function hasKey(figure, key) {
  return figure.querySelector(`[data-key="${CSS.escape(key)}"]`) !== null;
}

function mark(elements, name, isSo) {
  for (const element of elements) element.classList.toggle(name, isSo(element));
}
