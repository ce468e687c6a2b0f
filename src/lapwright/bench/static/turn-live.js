// The line to the bench: one request under way at a time, the newest wish next, and plain requests where the line is down.
const PATIENCE = 1500;

export class Live {
  constructor({ live, plain, onTurn, onTimes, onCard, onRefusal, onLost }) {
    this.plain = plain;
    this.address = new URL(live, location.href);
    this.address.protocol = this.address.protocol === "https:" ? "wss:" : "ws:";
    Object.assign(this, { onTurn, onTimes, onCard, onRefusal, onLost });
    this.serial = 0;
    this.tries = 0;
    this.#open();
  }

  ask(wish) {
    this.next = wish;
    this.#pump();
  }

  #open() {
    this.opening = true;
    const socket = new WebSocket(this.address);
    const late = setTimeout(() => socket.close(), PATIENCE);
    socket.addEventListener("open", () => {
      clearTimeout(late);
      this.opening = false;
      this.tries = 0;
      this.socket = socket;
      this.#pump();
    });
    socket.addEventListener("message", (event) => this.#take(JSON.parse(event.data)));
    socket.addEventListener("close", () => {
      clearTimeout(late);
      this.opening = false;
      this.socket = null;
      this.tries += 1;
      // What was under way is asked again, the plain way.
      if (this.asked && !this.next) this.next = this.asked;
      this.asked = null;
      this.#pump();
      if (this.tries < 4) setTimeout(() => this.#open(), 1000 * this.tries);
    });
  }

  #pump() {
    if (this.asked || !this.next || this.opening) return;
    this.asked = { ...this.next, type: "try", serial: (this.serial += 1) };
    this.next = null;
    if (this.socket) this.socket.send(JSON.stringify(this.asked));
    else this.#fetch(this.asked);
  }

  async #fetch(asked) {
    const query = new URLSearchParams({ cylinder: asked.cylinder, backwards: asked.backwards, serial: asked.serial, ...asked.changes });
    try {
      const answer = await fetch(`${this.plain}?${query}`, { headers: { accept: "application/json" } });
      const said = await answer.json();
      const all = answer.ok ? said : [{ type: "refused", ...said }];
      for (const part of all) this.#take({ ...part, serial: asked.serial });
    } catch {
      this.asked = null;
      this.onLost();
    }
  }

  #take(said) {
    if (!this.asked || said.serial !== this.asked.serial) return;
    const asked = this.asked;
    // Figures and pressures are still to come; until then the next wish waits.
    if (said.type === "turn") return this.onTurn(said, asked);
    if (said.type === "times") return this.onTimes(said, asked);
    this.asked = null;
    if (said.type === "refused") this.onRefusal(said.error, asked);
    else this.onCard(said, asked);
    this.#pump();
  }
}
