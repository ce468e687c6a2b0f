// Saves fields one after the other, notices what others change in the file, and lets nobody overwrite anybody unseen.
import { refill, remember } from "./focus.js";
import { Reader } from "./measure-reader.js";

const EVERY = 2000;
const LINGER = 8000;

export class Saver {
  constructor(page, words, drafts, board) {
    Object.assign(this, { page, words, drafts, board });
    this.at = page.dataset.at;
    this.digest = page.dataset.digest;
    this.word = document.getElementById("word");
    this.reader = new Reader(this.at, words, {
      write: (entry, text) => this.write(entry, text),
      putBack: (entry) => this.putBack(entry),
      save: (entry) => this.left(entry),
    });
    this.line = Promise.resolve();
    this.underWay = 0;
    this.isAway = false;
  }

  entries() {
    return [...this.page.querySelectorAll(".field [data-key]")];
  }

  typed(entry) {
    if (!entry.dataset?.key) return;
    if (isDirty(entry)) this.drafts.keep(entry.dataset.key, entry.value, seenOf(entry));
    else this.drafts.drop(entry.dataset.key);
    setState(entry, isDirty(entry) ? "waiting" : "");
    this.reader.readSoon(entry);
  }

  write(entry, text) {
    entry.value = text;
    this.typed(entry);
    entry.focus();
    this.left(entry);
  }

  putBack(entry) {
    entry.value = seenOf(entry) ?? "";
    this.drafts.drop(entry.dataset.key);
    setState(entry, "");
    this.reader.readNow(entry);
    entry.focus();
  }

  // Saves stand in a line, so that each is made on what the one before it left.
  left(entry) {
    if (!entry.dataset?.key || !isDirty(entry)) return;
    this.queue(() => this.save(entry));
  }

  queue(act) {
    this.underWay += 1;
    this.line = this.line.then(act).catch((error) => this.fail(error)).finally(() => (this.underWay -= 1));
    return this.line;
  }

  async save(entry) {
    if (!isDirty(entry) || entry.closest(".field").querySelector(".clash")) return;
    const found = await this.reader.readNow(entry);
    if (found === null) return this.lose(entry);
    if (found.problem) return;
    const text = entry.value;
    setState(entry, "saving", this.words.saving);
    const answer = await this.post("change", { key: entry.dataset.key, value: text.trim() ? text : null, seen: seenOf(entry) });
    if (answer === null) return this.lose(entry);
    if (answer.error) return this.refuse(entry, answer.error);
    this.digest = answer.digest;
    setSeen(entry, text.trim() ? text : null);
    if (!isDirty(entry)) this.drafts.drop(entry.dataset.key);
    else this.drafts.keep(entry.dataset.key, entry.value, seenOf(entry));
    await this.renew(answer.others.length ? "elsewhere" : "");
    // Who writes on reads what is understood of that, and who does not, of what was saved.
    if (isDirty(entry)) return setState(entry, "waiting");
    const told = [text.trim() ? this.words.saved : this.words.cleared, this.reader.tell(found)];
    return setState(entry, "saved", told.filter(Boolean).join(" · "));
  }

  lose(entry) {
    setState(entry, "away", this.words.away);
    this.isAway = true;
  }

  refuse(entry, error) {
    if (error.code === "record-clash") {
      this.showClash(entry, error);
      return this.renew("");
    }
    setState(entry, "refused", error.instead ? `${error.message}: ${error.instead}` : error.message);
    return undefined;
  }

  // `null` says that the bench did not answer.
  async post(name, data) {
    try {
      const response = await fetch(`${this.at}/${name}`, {
        method: "POST",
        headers: { "content-type": "application/json", accept: "application/json" },
        body: JSON.stringify({ digest: this.digest, ...data }),
      });
      return await response.json();
    } catch {
      return null;
    }
  }

  step(way) {
    return this.queue(async () => {
      // Afterwards the button stands for another change.
      const { said, turned } = { ...this.page.querySelector(`[data-step="${way}"]`).dataset };
      const answer = await this.post(way, {});
      if (answer === null) return this.tell(this.words.away);
      if (answer.error) {
        await this.renew("");
        return this.tell(answer.error.instead ? `${answer.error.message}: ${answer.error.instead}` : answer.error.message);
      }
      this.digest = answer.digest;
      await this.renew("");
      if (document.getElementById(`field-${turned}`)) this.board.choose(turned, { scroll: false });
      return this.tell(said);
    });
  }

  tell(words) {
    this.say(words);
    clearTimeout(this.hush);
    this.hush = setTimeout(() => this.say(""), LINGER);
  }

  // The board makes room for the word.
  say(words) {
    this.word.textContent = words;
    this.board.fit();
  }

  fail(error) {
    this.tell(String(error?.message ?? error));
  }

  // The page as it is now, taken over piece by piece: what somebody is writing stays.
  async renew(why) {
    let text;
    try {
      const response = await fetch(`${this.at}/measure`, { headers: { accept: "text/html" } });
      if (!response.ok) return;
      text = await response.text();
    } catch {
      return;
    }
    const fresh = new DOMParser().parseFromString(text, "text/html");
    if (listKeys(fresh) !== listKeys(document)) {
      remember();
      location.reload();
      return;
    }
    this.digest = fresh.getElementById("measure").dataset.digest;
    let changed = 0;
    for (const entry of this.entries()) changed += this.takeOver(entry, fresh.getElementById(entry.id), why) ? 1 : 0;
    swap(fresh, "#problems", "#next", ".steps-bar", ".head-engine");
    for (const gaps of document.querySelectorAll("[data-gaps]")) {
      refill(gaps, fresh.querySelector(`[data-gaps="${gaps.dataset.gaps}"]`)?.innerHTML ?? "");
    }
    for (const summary of document.querySelectorAll(".part > summary")) {
      summary.innerHTML = fresh.getElementById(summary.parentElement.id)?.querySelector("summary").innerHTML ?? summary.innerHTML;
    }
    const isTaken = this.takeText(fresh);
    for (const digest of document.querySelectorAll('input[name="digest"]')) {
      // A text that was begun on an older file is not to be put over the newer one: then the bench refuses it.
      if (isTaken || !digest.form.matches(".whole-text")) digest.value = this.digest;
    }
    this.board.renew(fresh);
    if (why && changed) this.tell(changed === 1 ? this.words.elsewhere_one : this.words.elsewhere.replace("{count}", changed));
  }

  takeText(fresh) {
    const text = document.getElementById("whole-text");
    if (text.value !== text.defaultValue || "kept" in text.dataset) return false;
    text.value = text.defaultValue = fresh.getElementById("whole-text").value;
    return true;
  }

  takeOver(entry, other, why) {
    const field = entry.closest(".field"), fresh = other.closest(".field");
    const before = seenOf(entry), now = seenOf(other);
    field.querySelector(".told").innerHTML = fresh.querySelector(".told").innerHTML;
    field.querySelector(".how-body").innerHTML = fresh.querySelector(".how-body").innerHTML;
    field.className = `${fresh.className}`;
    entry.toggleAttribute("aria-invalid", false);
    if (other.hasAttribute("aria-invalid")) entry.setAttribute("aria-invalid", "true");
    if (isDirty(entry)) {
      if (before === now) return false;
      if (entry.value.trim() !== (now ?? "").trim()) {
        this.showClash(entry, { base: before, yours: entry.value, theirs: now });
        return true;
      }
      this.drafts.drop(entry.dataset.key);
    }
    setSeen(entry, now);
    if (before === now) return false;
    if (entry.tagName === "SELECT") entry.innerHTML = other.innerHTML;
    entry.value = now ?? "";
    field.querySelector(".clash")?.remove();
    setState(entry, why ? "fresh" : "", why ? this.words.fresh : "");
    if (!why) field.querySelector(".said").innerHTML = fresh.querySelector(".said").innerHTML;
    return true;
  }

  showClash(entry, { base, yours, theirs }) {
    const field = entry.closest(".field");
    field.querySelector(".clash")?.remove();
    const clash = document.getElementById("clash").content.firstElementChild.cloneNode(true);
    for (const [name, text] of Object.entries({ base, yours, theirs })) {
      clash.querySelector(`[data-${name}]`).textContent = text || this.words.nothing;
    }
    clash.querySelector("[data-keep]").addEventListener("click", () => {
      clash.remove();
      setSeen(entry, theirs);
      if (!isDirty(entry)) this.drafts.drop(entry.dataset.key);
      entry.focus();
      this.left(entry);
    });
    clash.querySelector("[data-take]").addEventListener("click", () => {
      clash.remove();
      setSeen(entry, theirs);
      this.putBack(entry);
      this.queue(() => this.renew(""));
    });
    field.append(clash);
    setState(entry, "clash", "");
  }

  // What a reload or an error left behind is put back into its field, and offered.
  offerDrafts() {
    for (const { key, text, seen } of this.drafts.list()) {
      const entry = document.getElementById(`entry-${key}`);
      if (!entry) continue;
      if (text.trim() === entry.value.trim()) {
        this.drafts.drop(key);
        continue;
      }
      const now = seenOf(entry);
      entry.value = text;
      if (entry.value !== text) continue;
      for (let part = entry.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
      if (seen !== now) this.showClash(entry, { base: seen, yours: text, theirs: now });
      else this.reader.offer(entry, this.words.kept);
    }
  }

  watch() {
    setInterval(() => {
      if (!document.hidden && !this.underWay) this.queue(() => this.look());
    }, EVERY);
  }

  async look() {
    let stamp;
    try {
      stamp = await (await fetch(`${this.at}/stamp`, { headers: { accept: "application/json" } })).json();
    } catch {
      this.isAway = true;
      return;
    }
    if (stamp.error) return void this.tell(stamp.error.message);
    if (stamp.digest !== this.digest) await this.renew("elsewhere");
    if (!this.isAway) return;
    this.isAway = false;
    for (const entry of this.entries()) {
      if (entry.closest(".field").dataset.state === "away") this.left(entry);
    }
  }
}

function seenOf(entry) {
  return entry.dataset.seen ?? null;
}

function setSeen(entry, seen) {
  if (seen === null) delete entry.dataset.seen;
  else entry.dataset.seen = seen;
}

function isDirty(entry) {
  return entry.value.trim() !== (seenOf(entry) ?? "").trim();
}

function setState(entry, state, words = null) {
  const field = entry.closest(".field");
  if (state) field.dataset.state = state;
  else delete field.dataset.state;
  if (words === null) return;
  const said = field.querySelector(".said");
  said.textContent = words;
  said.classList.toggle("bad", state === "refused");
}

function listKeys(root) {
  return [...root.querySelectorAll(".field")].map((field) => field.dataset.field).join(" ");
}

function swap(fresh, ...places) {
  for (const place of places) {
    const mine = document.querySelector(place), other = fresh.querySelector(place);
    if (mine && other) refill(mine, other.innerHTML);
  }
}
