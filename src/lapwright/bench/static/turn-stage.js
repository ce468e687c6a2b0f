// The sections: every part is put where it stands by one transform.
const RADIANS = Math.PI / 180;

export class Stage {
  constructor(figure, places) {
    this.svg = figure.querySelector("svg");
    this.places = places;
    this.parts = {};
    for (const part of figure.querySelectorAll("[data-part]")) (this.parts[part.dataset.part] ||= []).push(part);
    this.spaces = { head: [], crank: [], outer: [], middle: [] };
    this.said = {};
    this.findSpaces();
  }

  findSpaces() {
    for (const name of Object.keys(this.spaces)) this.spaces[name] = [...this.svg.querySelectorAll(`[data-holds="${name}"]`)];
    this.said = {};
  }

  // The valve as it is tried: the bench sends it whenever its shape is another.
  showValve(markup) {
    if (!this.parts.valve || !markup || markup === this.valve) return;
    this.valve = markup;
    this.parts.valve[0].innerHTML = markup;
    this.findSpaces();
  }

  mark(holds, state) {
    if (this.said[holds] === state) return;
    this.said[holds] = state;
    for (const space of this.spaces[holds]) space.dataset.state = state;
  }

  #put(name, x, y, turned) {
    const parts = this.parts[name];
    if (!parts) return;
    const text = turned === undefined ? `translate(${x.toFixed(3)} ${y.toFixed(3)})`
      : `translate(${x.toFixed(3)} ${y.toFixed(3)}) rotate(${turned.toFixed(3)})`;
    for (const part of parts) part.setAttribute("transform", text);
  }

  // `place` and `valve` in mm of engine, angles in degrees; `up` is which way the pin goes first.
  move({ angle, place, valve, foundValve, eccentric, foundEccentric, offset, up }) {
    const p = this.places;
    const pinX = p.x - p.throw * Math.cos(angle * RADIANS);
    const pinY = p.y - up * p.throw * Math.sin(angle * RADIANS);
    const crossX = p.x - place * p.unit;
    this.pin = [pinX, pinY];
    this.#put("piston", crossX, p.line);
    this.#put("rod", crossX, p.line, Math.atan2(pinY - p.line, pinX - crossX) / RADIANS);
    this.#put("crank", p.x, p.y, up * angle);
    if (!p.chest) return;
    if (!p.gear || valve === null) {
      this.#put("valve", p.chest[0], p.chest[1]);
      return;
    }
    const g = p.gear;
    const turned = angle + eccentric;
    const centreX = p.x - g.throw * Math.cos(turned * RADIANS);
    const centreY = g.shaft - up * g.throw * Math.sin(turned * RADIANS);
    const endX = p.x - g.middle - g.sign * (valve - offset) * p.unit;
    this.#put("valve", p.chest[0] - valve * p.unit, p.chest[1]);
    if (foundValve !== null) this.#put("valve-found", p.chest[0] - foundValve * p.unit, p.chest[1]);
    this.#put("eccentric", p.x, g.shaft, up * turned);
    if (foundValve !== null) this.#put("eccentric-found", p.x, g.shaft, up * (angle + foundEccentric));
    this.#put("eccentric-rod", endX, g.line, Math.atan2(centreY - g.line, centreX - endX) / RADIANS);
    if (g.arm) this.#put("rocker", p.x - g.middle, g.pivot, Math.atan2(endX - p.x + g.middle, g.arm) / RADIANS);
  }

  // The crank angle at which the pin would stand under a finger.
  angleAt(event, up) {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.svg.getScreenCTM().inverse());
    const across = point.x - this.places.x;
    const above = this.places.y - point.y;
    return { angle: Math.atan2(up * above, -across) / RADIANS, away: Math.hypot(across, above) };
  }
}
