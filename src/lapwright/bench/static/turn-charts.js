// Port openings over the turn, and the pressure card over the stroke: as found in grey, as tried in full, grown so far in bold.
import { make, show, step } from "./turn-marks.js";

// Tenths of a pixel are fine enough, and quicker to write than any other rounding.
const tenth = (value) => Math.round(value * 10) / 10;

// Within a level stretch, such as a port that stays shut, the points between its ends say nothing. `xs` are rounded
// already, for many lines share them.
function path(xs, ys) {
  const last = xs.length - 1;
  let d = "M";
  for (let at = 0; at <= last; at += 1) {
    if (at > 0 && at < last && ys[at] === ys[at - 1] && ys[at] === ys[at + 1]) continue;
    d += `${at ? "L" : ""}${xs[at]} ${tenth(ys[at])}`;
  }
  return d;
}

// The same lines in as many groups; paths that are there are used again.
function lay(groups, lines) {
  for (const group of groups) {
    while (group.children.length > lines.length) group.lastChild.remove();
    lines.forEach(({ kind, d, end }, number) => {
      const line = group.children[number] || make("path", {}, group);
      // A class that is set again is looked up again, though it is the same.
      if (line.getAttribute("class") !== kind) line.setAttribute("class", kind);
      line.setAttribute("d", d);
      if (end && line.dataset.end !== end) line.dataset.end = end;
    });
  }
}

// A plot is as wide as its place, so that its letters are as large there as anywhere on the page.
function measure(box) {
  return Math.max(260, Math.round(box.clientWidth));
}

export class Openings {
  constructor(box, words) {
    this.words = words;
    this.left = 44;
    this.right = 12;
    this.box = box;
  }

  #lay(turn) {
    this.wide = measure(this.box);
    this.halves = turn.ends.length;
    this.half = this.halves > 1 ? 104 : 150;
    this.high = this.half * this.halves + 40;
    this.svg = make("svg", { viewBox: `0 0 ${this.wide} ${this.high}`, role: "img", "aria-label": this.words.openings });
    this.grid = make("g", { class: "plot-grid" }, this.svg);
    this.ghost = make("g", { class: "plot-found" }, this.svg);
    this.faint = make("g", { class: "plot-now plot-faint" }, this.svg);
    const clip = make("clipPath", { id: "plot-so-far" }, make("defs", {}, this.svg));
    this.so = make("rect", { x: 0, y: 0, width: 1, height: this.high }, clip);
    this.bold = make("g", { class: "plot-now", "clip-path": "url(#plot-so-far)" }, this.svg);
    this.marker = make("g", { class: "plot-marker" }, this.svg);
    make("line", { x1: 0, y1: 6, x2: 0, y2: this.high - 28 }, this.marker);
    this.dots = turn.ends.map(() => make("circle", { r: 5 }, this.marker));
    this.box.replaceChildren(this.svg);
    this.most = 0;
  }

  // Its place has another width: it is laid out afresh at the next drawing.
  resize() {
    if (this.wide !== measure(this.box)) this.wide = 0;
  }

  #x(angle) {
    return this.left + ((this.wide - this.left - this.right) * angle) / 360;
  }

  // Head end upwards from its line, crank end downwards from it: both start at one line in the middle.
  #y(end, opening) {
    const base = 8 + this.half;
    const room = (this.half - 10) / this.most;
    return end === "head" ? base - opening * room : base + opening * room;
  }

  draw(turn, found) {
    if (!this.wide) this.#lay(turn);
    const all = [turn, found].filter(Boolean);
    const most = Math.max(0.1, ...all.map((one) => one.most)) * 1.04;
    // Up to a whole part of a step, so that the grid stays as it is under most moves of a slider.
    const part = step(most, 3) / 4;
    const room = Math.ceil(most / part) * part;
    if (this.most !== room || this.found !== found) {
      this.most = room;
      this.#drawGrid();
      lay([this.ghost], found ? this.#trace(found) : []);
    }
    lay([this.faint, this.bold], this.#trace(turn));
    this.turn = turn;
    this.found = found;
  }

  #drawGrid() {
    this.grid.replaceChildren();
    const bottom = this.high - 28;
    for (let angle = 0; angle <= 360; angle += 45) {
      make("line", { x1: this.#x(angle), y1: 8, x2: this.#x(angle), y2: bottom, class: angle % 90 ? "" : "plot-main" }, this.grid);
      if (angle % 90 === 0) make("text", { x: this.#x(angle), y: this.high - 8, "text-anchor": angle === 0 ? "start" : angle === 360 ? "end" : "middle" }, this.grid).textContent = `${angle}°`;
    }
    const each = step(this.most, 3);
    for (const end of this.halves > 1 ? ["head", "crank"] : ["head"]) {
      for (let tick = 0; tick <= this.most; tick += each) {
        const y = this.#y(end, tick);
        make("line", { x1: this.left, y1: y, x2: this.wide - this.right, y2: y, class: tick === 0 ? "plot-base" : "" }, this.grid);
        if (tick > 0 || end === "head") make("text", { x: this.left - 6, y: y + 5, "text-anchor": "end" }, this.grid).textContent = show(tick, each < 0.1 ? 2 : each < 1 ? 1 : 0);
      }
    }
    make("text", { x: this.left - 6, y: this.high - 8, "text-anchor": "end" }, this.grid).textContent = this.words.mm;
  }

  #trace(turn) {
    const count = turn.angles.length;
    const xs = new Array(count + 1);
    for (let at = 0; at < count; at += 1) xs[at] = tenth(this.#x(turn.angles[at]));
    xs[count] = tenth(this.#x(360));
    const lines = [];
    for (const end of turn.ends) {
      for (const kind of ["exhaust", "steam"]) {
        const values = turn[kind][end];
        if (!values) continue;
        const ys = new Float64Array(values.length + 1);
        const zero = this.#y(end, 0);
        const each = this.#y(end, 1) - zero;
        for (let at = 0; at < values.length; at += 1) ys[at] = zero + each * values[at];
        ys[values.length] = ys[0];
        lines.push({ kind: `plot-${kind}`, d: path(xs, ys) });
      }
    }
    return lines;
  }

  show(angle) {
    const x = this.#x(angle);
    const at = this.turn.find(angle);
    this.so.setAttribute("transform", `scale(${x.toFixed(2)} 1)`);
    this.marker.setAttribute("transform", `translate(${x.toFixed(2)} 0)`);
    this.turn.ends.forEach((end, number) => {
      const steam = this.turn.read(this.turn.steam[end], at) ?? 0;
      const away = this.turn.read(this.turn.exhaust[end], at) ?? 0;
      this.dots[number].setAttribute("cy", this.#y(end, Math.max(steam, away)).toFixed(2));
    });
  }
}

export class Card {
  constructor(box, words) {
    this.words = words;
    this.box = box;
    this.left = 44;
    this.right = 12;
    this.foot = 32;
    this.curves = {};
  }

  #lay(turn) {
    this.wide = measure(this.box);
    this.high = this.wide < 500 ? 250 : 330;
    this.svg = make("svg", { viewBox: `0 0 ${this.wide} ${this.high}`, role: "img", "aria-label": this.words.card });
    this.grid = make("g", { class: "plot-grid" }, this.svg);
    this.ghost = make("g", { class: "plot-found" }, this.svg);
    this.faint = make("g", { class: "plot-now plot-faint" }, this.svg);
    this.bold = make("g", { class: "plot-now" }, this.svg);
    this.dots = {};
    for (const end of turn.ends) this.dots[end] = make("circle", { r: 5, class: `card-dot card-${end}` }, this.svg);
    this.box.replaceChildren(this.svg);
  }

  resize() {
    if (this.wide !== measure(this.box)) this.wide = 0;
  }

  #x(gone) {
    return this.left + ((this.wide - this.left - this.right) * gone) / this.stroke;
  }

  #y(bar) {
    return 10 + ((this.high - 10 - this.foot) * (this.top - bar)) / (this.top - this.bottom);
  }

  draw(turn, found) {
    if (!turn.card) return;
    if (!this.wide) this.#lay(turn);
    this.turn = turn;
    this.stroke = turn.sent.stroke;
    const all = [turn, found].filter((one) => one && one.card);
    const bars = all.flatMap((one) => [one.card.supply, one.card.exhaust, ...Object.values(one.pressures).flatMap((values) => [Math.min(...values), Math.max(...values)])]);
    const span = Math.max(...bars) - Math.min(0, ...bars) || 1;
    this.top = Math.max(...bars) + 0.04 * span;
    this.bottom = Math.min(0, ...bars) - 0.03 * span;
    this.#drawGrid(turn.card);
    lay([this.ghost], found?.card ? this.#trace(found) : []);
    lay([this.faint, this.bold], this.#trace(turn));
    this.#measure();
  }

  #drawGrid(card) {
    this.grid.replaceChildren();
    const x0 = this.left;
    const x1 = this.wide - this.right;
    for (let share = 0; share <= 100; share += 25) {
      const x = x0 + ((x1 - x0) * share) / 100;
      make("line", { x1: x, y1: 10, x2: x, y2: this.high - this.foot }, this.grid);
      make("text", { x, y: this.high - 10, "text-anchor": share === 0 ? "start" : share === 100 ? "end" : "middle" }, this.grid).textContent = `${share} %`;
    }
    const each = step(this.top - this.bottom, 4);
    for (let tick = Math.ceil(this.bottom / each) * each; tick <= this.top; tick += each) {
      const y = this.#y(tick);
      make("line", { x1: x0, y1: y, x2: x1, y2: y, class: Math.abs(tick) < each / 9 ? "plot-base" : "" }, this.grid);
      make("text", { x: x0 - 6, y: y + 5, "text-anchor": "end" }, this.grid).textContent = show(tick, each < 0.1 ? 2 : each < 1 ? 1 : 0);
    }
    make("text", { x: x0 - 6, y: this.high - 10, "text-anchor": "end" }, this.grid).textContent = this.words.bar;
    const y = this.#y(card.supply);
    make("line", { x1: x0, y1: y, x2: x1, y2: y, class: "plot-supply" }, this.grid);
    make("text", { x: (x0 + x1) / 2 + 8, y: y + 18 }, this.grid).textContent = this.words.supply;
  }

  #trace(turn) {
    const xs = Array.from(turn.gone, (gone) => tenth(this.#x(gone)));
    return Object.keys(turn.pressures).map((end) => {
      const ys = Array.from(turn.pressures[end], (bar) => this.#y(bar));
      return { kind: `card-${end}`, end, d: `${path(xs, ys)}Z` };
    });
  }

  // How long each card's line is up to every entry, so that it can be drawn as far as the crank has come.
  #measure() {
    this.grown = {};
    for (const line of this.bold.children) {
      const { end } = line.dataset;
      const values = this.turn.pressures[end];
      const lengths = new Float64Array(values.length + 1);
      for (let at = 1; at <= values.length; at += 1) {
        const next = at % values.length;
        lengths[at] = lengths[at - 1] + Math.hypot(this.#x(this.turn.gone[next]) - this.#x(this.turn.gone[at - 1]), this.#y(values[next]) - this.#y(values[at - 1]));
      }
      this.grown[end] = { line, lengths };
    }
  }

  show(at) {
    if (!this.svg) return;
    const x = this.#x(this.turn.read(this.turn.gone, at));
    for (const end of Object.keys(this.grown)) {
      const { line, lengths } = this.grown[end];
      const so = lengths[at.entry] + (lengths[at.entry + 1] - lengths[at.entry]) * at.share;
      line.setAttribute("stroke-dasharray", `${so.toFixed(1)} 99999`);
      this.dots[end].setAttribute("transform", `translate(${x.toFixed(2)} ${this.#y(this.turn.read(this.turn.pressures[end], at)).toFixed(2)})`);
    }
  }
}
