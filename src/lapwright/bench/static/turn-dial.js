// The crank circle: arcs of what each end is open to, a mark at every event, and a hand to drag.
import { LETTERS, make, ring } from "./turn-marks.js";

const SIZE = 240;
const MIDDLE = SIZE / 2;
const RINGS = { head: [104, 88], crank: [80, 64] };

export class Dial {
  constructor(box, { words, others, up, onTurn }) {
    this.box = box;
    this.words = words;
    this.up = up;
    this.onTurn = onTurn;
    this.svg = make("svg", { viewBox: `0 0 ${SIZE} ${SIZE}`, "aria-hidden": "true" });
    this.arcs = make("g", {}, this.svg);
    this.hand = make("g", { class: "dial-hand" }, this.svg);
    make("line", { x1: MIDDLE, y1: MIDDLE, x2: MIDDLE - 108, y2: MIDDLE }, this.hand);
    make("circle", { cx: MIDDLE - 50, cy: MIDDLE, r: 11 }, this.hand);
    this.letters = others.map(({ name, lead }) => {
      const [x, y] = this.place(lead, 40);
      make("circle", { class: "dial-other", cx: x, cy: y, r: 9 }, this.hand);
      const letter = make("text", { class: "dial-letter", x, y: y + 4 }, this.hand);
      letter.textContent = name.slice(0, 2);
      return { letter, x, y };
    });
    make("circle", { cx: MIDDLE, cy: MIDDLE, r: 6 }, this.svg).classList.add("dial-hub");
    box.append(this.svg);
    this.#listen();
  }

  // An angle of the crank as a direction on the screen: 0 points to the head end, which lies to the left.
  place(angle, radius) {
    const turn = (angle * Math.PI) / 180;
    return [MIDDLE - radius * Math.cos(turn), MIDDLE - this.up * radius * Math.sin(turn)];
  }

  draw(turn, found, up) {
    this.up = up;
    this.arcs.replaceChildren();
    for (const end of turn.ends) {
      const [outer, inner] = RINGS[end];
      make("path", { class: "dial-ring", d: ring(this, 0, 360, outer, inner) }, this.arcs);
      for (const state of ["steam", "exhaust"]) {
        for (const [start, sweep] of turn.sent.arcs[end][state]) {
          const band = state === "steam" ? [outer, (outer + inner) / 2] : [(outer + inner) / 2, inner];
          make("path", { class: `dial-arc dial-${state}`, d: ring(this, start, sweep, ...band) }, this.arcs);
        }
      }
      if (found) this.#marks(found, end, "dial-found");
      this.#marks(turn, end, "dial-event", true);
      const [x, y] = this.place(turn.sent.dead[end] ?? (end === "head" ? 0 : 180), 34);
      make("circle", { class: "dial-dead", cx: x, cy: y, r: 2.5 }, this.arcs);
    }
  }

  #marks(turn, end, kind, named = false) {
    const [outer, inner] = RINGS[end];
    for (const event of turn.sent.events.filter((one) => one.end === end)) {
      const [x1, y1] = this.place(event.deg, outer + (end === "head" ? 3 : 2));
      const [x2, y2] = this.place(event.deg, inner - 2);
      make("line", { class: kind, x1, y1, x2, y2 }, this.arcs);
      if (!named) continue;
      const [x, y] = this.place(event.deg, end === "head" ? outer + 10 : inner - 9);
      make("text", { class: "dial-letter", x, y: y + 4 }, this.arcs).textContent = LETTERS[event.event];
    }
  }

  show(angle) {
    const turned = this.up * angle;
    this.hand.setAttribute("transform", `rotate(${turned.toFixed(3)} ${MIDDLE} ${MIDDLE})`);
    // The other cranks go round with the hand; their letters stay upright.
    for (const { letter, x, y } of this.letters) {
      letter.setAttribute("transform", `rotate(${(-turned).toFixed(3)} ${x.toFixed(2)} ${y.toFixed(2)})`);
    }
    const whole = Math.round(angle) % 360;
    if (whole !== this.told) {
      this.told = whole;
      this.box.setAttribute("aria-valuenow", whole);
      this.box.setAttribute("aria-valuetext", `${whole} ${this.words.deg}`);
    }
  }

  #listen() {
    const follow = (event) => {
      const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
      this.onTurn((Math.atan2(this.up * (MIDDLE - point.y), MIDDLE - point.x) * 180) / Math.PI);
    };
    this.box.addEventListener("pointerdown", (event) => {
      this.box.setPointerCapture(event.pointerId);
      this.box.focus();
      follow(event);
      event.preventDefault();
    });
    this.box.addEventListener("pointermove", (event) => {
      if (this.box.hasPointerCapture(event.pointerId)) follow(event);
    });
  }
}
