// What stands in figures and words: where crank, piston and valve are, what is open how far, and the events to jump to.
import { LETTERS, show } from "./turn-marks.js";

const ORDER = ["admission", "cut_off", "release", "compression"];

export class Reading {
  constructor(page, { words, fluid }) {
    this.page = page;
    this.words = { ...words, state_steam: fluid === "air" ? words.air_steam : words.state_steam };
    this.fields = {};
    for (const field of page.querySelectorAll("[data-read]")) this.fields[field.dataset.read + (field.dataset.end || "")] = field;
    this.ends = Object.fromEntries([...page.querySelectorAll(".turn-end")].map((box) => [box.dataset.end, box]));
    this.said = {};
  }

  #say(name, text) {
    if (this.said[name] === text || !this.fields[name]) return;
    this.said[name] = text;
    this.fields[name].textContent = text;
  }

  // Ten times a second is as fast as a figure can be read; the pictures do not wait for it.
  show({ angle, at, turn, states }) {
    for (const end of turn.ends) this.#mark(end, states[end]);
    const time = performance.now();
    if (time - this.last < 90) {
      clearTimeout(this.later);
      this.later = setTimeout(() => this.#figures(angle, at, turn), 100);
      return;
    }
    this.last = time;
    clearTimeout(this.later);
    this.#figures(angle, at, turn);
  }

  #mark(end, state) {
    const box = this.ends[end];
    if (!box || box.dataset.state === state) return;
    box.dataset.state = state;
    box.querySelector(".turn-state").textContent = this.words[`state_${state}`];
  }

  #figures(angle, at, turn) {
    const { words } = this;
    this.#say("angle", `${show(angle, 1)} ${words.deg}`);
    const gone = turn.read(turn.gone, at);
    this.#say("travel", `${show(gone, 2)} ${words.mm} · ${show((100 * gone) / turn.sent.stroke, 1)} %`);
    const valve = turn.read(turn.valve, at);
    const side = valve > 0 ? words.towards_head : words.towards_crank;
    this.#say("valve", valve === null ? words.state_unknown : `${show(Math.abs(valve), 2)} ${words.mm} ${side}`);
    for (const end of turn.ends) {
      for (const [name, values] of [["to_steam", turn.steam[end]], ["to_exhaust", turn.exhaust[end]]]) {
        const open = turn.read(values, at);
        this.#say(name + end, open === null ? words.state_unknown : `${show(open, 2)} ${words.mm}`);
      }
    }
  }

  // What does not hang on the angle: lead, laps, mean pressures, events; with what they were as found.
  fill(turn, found, jump) {
    const { words } = this;
    for (const end of turn.ends) {
      this.#say(`lead${end}`, this.#beside(turn.sent.lead[end], found?.sent.lead[end], words.mm));
      this.#say(`steam_lap${end}`, this.#beside(turn.sent.lap[end], found?.sent.lap[end], words.mm));
      this.#jumps(end, turn, found, jump);
    }
    const blow = turn.sent.blow;
    this.#say("blow", blow > 0.05 ? `${words.blow}: ${this.#beside(blow, found?.sent.blow, words.blow_unit, 1)}` : "");
  }

  #beside(value, was, unit, places = 2) {
    if (value === null || value === undefined) return this.words.state_unknown;
    // A figure and its unit stay on one line; what it was may go on the next.
    const text = `${show(value, places)}\u00a0${unit}`;
    const isSame = was === null || was === undefined || show(was, places) === show(value, places);
    return isSame ? text : `${text} (${this.words.was}\u00a0${show(was, places)})`;
  }

  #jumps(end, turn, found, jump) {
    const box = this.page.querySelector(`.turn-jumps[data-end="${end}"]`);
    const buttons = [];
    const dead = turn.sent.dead[end];
    if (dead !== null) buttons.push({ letter: "", name: this.words.dead_centre, deg: dead, notes: [] });
    for (const event of ORDER) {
      const named = (one) => one.end === end && one.event === event;
      const times = turn.sent.events.filter(named);
      const before = found ? found.sent.events.filter(named) : [];
      const about = { letter: LETTERS[event], name: this.words[event] };
      if (times.length === 0) buttons.push({ ...about, deg: null, notes: [turn.sent.unknown.includes(event) ? this.words.state_unknown : this.words.never] });
      times.forEach((time, number) => {
        const was = before[number] && show(before[number].deg, 1);
        const notes = [time.stroke === null ? "" : `${show(time.stroke, 1)} %`];
        if (was && was !== show(time.deg, 1)) notes.push(`${this.words.was} ${was}°`);
        buttons.push({ ...about, deg: time.deg, notes });
      });
    }
    while (box.children.length > buttons.length) box.lastChild.remove();
    buttons.forEach((about, number) => this.#button(box, number, about, jump));
  }

  #button(box, number, { letter, name, deg, notes }, jump) {
    const button = box.children[number] || box.appendChild(Object.assign(document.createElement("button"), { type: "button" }));
    button.disabled = deg === null;
    button.onclick = () => jump(deg);
    const pieces = [["b", letter], ["span", deg === null ? name : `${name} ${show(deg, 1)}°`], ["small", notes.filter(Boolean).join(" · ")]];
    const said = pieces.map((piece) => piece[1]).join("|");
    if (button.dataset.said === said) return;
    button.dataset.said = said;
    button.replaceChildren(...pieces.flatMap(([tag, text]) => [Object.assign(document.createElement(tag), { textContent: text }), " "]));
  }

  tellCard(turn, found) {
    const box = this.page.querySelector(".turn-card-said");
    const { card } = turn;
    if (!card) {
      if (turn.noCard) box.textContent = turn.noCard;
      return;
    }
    const means = Object.keys(card.means).map((end) => {
      const text = this.#beside(card.means[end], found?.card?.means[end], this.words.bar);
      return `${this.words[end]}: ${text} ${this.words.mean}`;
    });
    // A turn on which the pistons are held back on the whole is none that the engine makes by itself.
    const isHeld = Object.values(card.means).reduce((sum, mean) => sum + mean, 0) < 0;
    box.textContent = `${means.join("; ")}${isHeld ? `. ${this.words.held_back}` : ""}`;
  }
}

