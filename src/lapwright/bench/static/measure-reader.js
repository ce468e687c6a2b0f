// Reads a field back while it is written: what was understood, or what is wrong and what would be right.
const PAUSE = 180;
// Letters of a text that still stand on a button.
const LONGEST = 30;

export class Reader {
  constructor(at, words, acts) {
    Object.assign(this, { at, words, acts });
    this.turns = new WeakMap();
    this.read = new WeakMap();
  }

  readSoon(entry) {
    const waiting = this.turns.get(entry);
    clearTimeout(waiting);
    this.turns.set(entry, setTimeout(() => this.readNow(entry), PAUSE));
  }

  // Answers `null` where the bench does not answer.
  async readNow(entry) {
    clearTimeout(this.turns.get(entry));
    const text = entry.value, known = this.read.get(entry);
    if (known?.text === text) {
      this.show(entry, known);
      return known;
    }
    const query = new URLSearchParams({ key: entry.dataset.key, text });
    let found;
    try {
      const response = await fetch(`${this.at}/measure/read?${query}`, { headers: { accept: "application/json" } });
      found = await response.json();
    } catch {
      return null;
    }
    if (found.error) found = { understood: "", problem: found.error.message, instead: found.error.instead, offers: [] };
    found = { text, ...found };
    this.read.set(entry, found);
    if (entry.value === text) this.show(entry, found);
    return found;
  }

  show(entry, found) {
    const said = entry.closest(".field").querySelector(".said");
    const shown = `${found.text} ${found.problem}`;
    entry.toggleAttribute("aria-invalid", false);
    if (found.problem) entry.setAttribute("aria-invalid", "true");
    // A button that is being pressed stays the button it was.
    if (said.dataset.shown === shown && said.querySelector("button")) return;
    said.dataset.shown = shown;
    said.classList.toggle("bad", Boolean(found.problem));
    if (!found.problem) {
      said.textContent = this.tell(found);
      return;
    }
    // What the sentence names and a button offers need not stand there twice; examples are only to be read.
    const isOffered = found.offers.length && found.offers.every((offer) => found.instead.includes(`"${offer}"`));
    said.textContent = found.instead && !isOffered ? `${found.problem}: ${found.instead}. ` : `${found.problem}. `;
    for (const offer of found.offers) said.append(this.makeButton(`${this.words.offer} ${offer}`, () => this.acts.write(entry, offer)));
    said.append(this.makeButton(this.nameLetGo(entry), () => this.acts.putBack(entry)));
  }

  // What was understood, where that is more than what stands there.
  tell(found) {
    const isNews = found.understood && found.understood !== found.text.trim();
    return isNews ? `${this.words.understood} ${found.understood}` : "";
  }

  // A field goes back to what the file says, which may be nothing.
  nameLetGo(entry) {
    const seen = (entry.dataset.seen ?? "").trim();
    if (!seen) return this.words.let_go_empty;
    const shown = seen.length > LONGEST ? `${seen.slice(0, LONGEST - 1).trim()} …` : seen;
    return this.words.let_go.replace("{text}", () => shown);
  }

  offer(entry, words) {
    entry.closest(".field").dataset.state = "waiting";
    const said = entry.closest(".field").querySelector(".said");
    said.textContent = `${words} `;
    said.append(this.makeButton(this.words.try_again, () => this.acts.save(entry)));
    said.append(this.makeButton(this.nameLetGo(entry), () => this.acts.putBack(entry)));
  }

  makeButton(words, act) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", act);
    return button;
  }
}
