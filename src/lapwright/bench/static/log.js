// The log: what is typed is kept until it is written, readings are read back, photographs shown before they go,
// and the list follows the search. Without this file every form works by itself.
import { remember } from "./focus.js";

const words = JSON.parse(document.querySelector("#log-words").textContent);
const form = document.querySelector("#log-form");

function later(act, wait) {
  let timer;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(act, wait, ...given);
  };
}

function make(tag, content = "", given = {}) {
  const made = document.createElement(tag);
  made.textContent = content;
  return Object.assign(made, given);
}

/* What is typed outlives a reload. */
const KEPT = "input:not([type=file]):not([type=hidden]), textarea, select";

function fieldsOf() {
  return [...form.querySelectorAll(KEPT)].filter((field) => field.name);
}

function stateOf() {
  return fieldsOf().map((field) => [field.name, field.type === "radio" || field.type === "checkbox"
    ? (field.checked ? field.value : null) : isUntouchedTime(field) ? "" : field.value]);
}

// The time that the page came with goes on; only one that was written is kept.
function isUntouchedTime(field) {
  return field.name === "when" && field.value === field.defaultValue;
}

class Draft {
  constructor() {
    this.name = form.dataset.draft;
    this.blank = JSON.stringify(stateOf());
    this.note = form.querySelector("[data-draft-note]");
    form.addEventListener("input", () => this.keep());
    document.querySelectorAll("[data-drop-draft]").forEach((link) => link.addEventListener("click", () => this.drop()));
    if (!("fresh" in form.dataset)) this.restore();
    this.keep();
  }

  keep() {
    const state = stateOf();
    if (JSON.stringify(state) === this.blank && !photographs.files.length) this.drop();
    else sessionStorage.setItem(this.name, JSON.stringify({ state, photographs: photographs.files.length }));
  }

  drop() {
    sessionStorage.removeItem(this.name);
  }

  restore() {
    const kept = JSON.parse(sessionStorage.getItem(this.name) ?? "null");
    if (!kept || JSON.stringify(kept.state) === this.blank) return;
    const rows = kept.state.filter(([name]) => name === "reading_name").length;
    while (form.querySelectorAll(".reading").length < rows) addReading();
    fieldsOf().forEach((field, place) => {
      const [name, value] = kept.state[place] ?? [];
      if (name !== field.name) return;
      if (field.type === "radio" || field.type === "checkbox") field.checked = value !== null;
      else if (name !== "when" || value) field.value = value;
    });
    const more = form.querySelector(".more-fields");
    if (kept.state.some(([name, value]) => value && /^(reading|parts|spent|when)/.test(name))) more.open = true;
    this.tell(kept.photographs);
  }

  tell(count) {
    const afresh = make("button", words.draftDrop, { type: "button" });
    afresh.addEventListener("click", () => {
      this.drop();
      remember();
      location.assign(location.pathname);
    });
    this.note.replaceChildren(`${words.draftKept} ${count ? words.draftPhotographs : ""} `, afresh);
    this.note.hidden = false;
  }
}

/* Readings: a line more whenever the last one is begun, and each figure read back. */
function addReading() {
  const rows = form.querySelectorAll(".reading");
  const row = rows[rows.length - 1].cloneNode(true);
  row.querySelectorAll("[data-amiss]").forEach((flaw) => flaw.remove());
  row.querySelectorAll("input").forEach((input) => {
    input.value = "";
    input.removeAttribute("aria-invalid");
    input.removeAttribute("aria-describedby");
    input.id = input.id.replace(/\d+$/, rows.length + 1);
  });
  row.querySelectorAll("label").forEach((label) => {
    label.htmlFor = label.htmlFor.replace(/\d+$/, rows.length + 1);
    label.textContent = label.textContent.replace(/\d+$/, rows.length + 1);
  });
  row.querySelector(".said").textContent = "";
  rows[rows.length - 1].after(row);
}

const readBack = later(async (input) => {
  const said = input.closest(".reading").querySelector(".said");
  const asked = input.value.trim();
  if (!asked) {
    said.textContent = "";
    return;
  }
  const answer = await fetch(`/log/reading?value=${encodeURIComponent(asked)}`).catch(() => null);
  if (!answer?.ok || input.value.trim() !== asked) return;
  const told = await answer.json();
  said.textContent = told.lacksUnit ? words.noUnit : told.said ? `${asked} ${words.is} ${told.said}` : "";
}, 150);

function watchReadings() {
  form.querySelector(".readings-in").addEventListener("input", (event) => {
    const rows = [...form.querySelectorAll(".reading")];
    if (event.target.closest(".reading") === rows[rows.length - 1] && event.target.value) addReading();
    if (event.target.name === "reading_value") readBack(event.target);
  });
}

/* Photographs: chosen in several goes, shown, left out again. */
const photographs = {
  files: [],
  add(input) {
    this.files.push(...input.files);
    this.show();
  },
  // The fields say what is chosen by now, in however many goes.
  tell() {
    const chosen = new DataTransfer();
    this.files.forEach((file) => chosen.items.add(file));
    for (const input of form.querySelectorAll("input[type=file]")) input.files = chosen.files;
  },
  show() {
    const list = form.querySelector("[data-chosen]");
    list.querySelectorAll("img").forEach((picture) => URL.revokeObjectURL(picture.src));
    list.replaceChildren(...this.files.map((file) => {
      const item = make("li");
      const out = make("button", words.leaveOut, { type: "button" });
      out.append(make("span", ` ${file.name}`, { className: "unseen" }));
      out.addEventListener("click", () => {
        this.files = this.files.filter((other) => other !== file);
        this.show();
        form.querySelector("#log-choose").focus();
      });
      item.append(make("img", "", { src: URL.createObjectURL(file), alt: `${words.photograph} ${file.name}` }), out);
      return item;
    }));
    list.hidden = !this.files.length;
    this.tell();
    draft?.keep();
  },
};

/* Writing: the entry first, then its photographs one by one, so that none is too much for one go. */
function trouble(message) {
  const place = form.querySelector("[data-trouble]");
  place.textContent = message;
  place.hidden = !message;
  if (message) place.scrollIntoView({ block: "nearest" });
}

function progress(message) {
  const place = form.querySelector("[data-progress]");
  place.textContent = message;
  place.hidden = !message;
}

async function send(address, body) {
  const answer = await fetch(address, { method: "POST", body, headers: { accept: "application/json" } });
  return [answer.status, await answer.json()];
}

function sentence({ message, instead }) {
  const begun = message[0].toUpperCase() + message.slice(1);
  return instead ? `${begun}: ${instead}.` : `${begun}.`;
}

// Readings are counted without the rows that were left empty.
function findField(name) {
  const [, part, number] = name.match(/^(reading-(?:name|value))-(\d+)$/) ?? [];
  if (!part) return name && form.querySelector(`#log-${name}`);
  const isFilled = (row) => [...row.querySelectorAll("input")].some((input) => input.value.trim());
  return [...form.querySelectorAll(".reading")].filter(isFilled)[number - 1]?.querySelector(`[id^="log-${part}-"]`);
}

function describe(field, change) {
  const ids = change((field.getAttribute("aria-describedby") ?? "").split(" ").filter(Boolean));
  if (ids.length) field.setAttribute("aria-describedby", ids.join(" "));
  else field.removeAttribute("aria-describedby");
}

function clearFlaws() {
  form.querySelectorAll("[data-amiss]").forEach((flaw) => flaw.remove());
  form.querySelectorAll("[aria-invalid]").forEach((field) => {
    field.removeAttribute("aria-invalid");
    describe(field, (ids) => ids.filter((id) => !id.endsWith("-amiss")));
  });
}

function showFlaw(field, flaw) {
  const said = make("p", sentence(flaw), { className: "said bad", id: `${field.id}-amiss` });
  said.dataset.amiss = "";
  (field.closest(".reading")?.lastElementChild ?? field).after(said);
  field.setAttribute("aria-invalid", "true");
  describe(field, (ids) => [...ids, said.id]);
}

function showRefusal({ error, html, seen }) {
  if (html) {
    const place = document.querySelector("[data-clash]");
    place.innerHTML = html;
    place.querySelector("[data-drop-draft]").addEventListener("click", () => draft.drop());
    form.elements.seen.value = seen;
    place.firstElementChild.focus();
    return;
  }
  trouble((error.fields ?? [error]).map(sentence).join(" "));
  const flaws = (error.fields ?? []).map((flaw) => [findField(flaw.field), flaw]).filter(([field]) => field);
  flaws.forEach(([field, flaw]) => showFlaw(field, flaw));
  const fields = flaws.map(([field]) => field);
  if (fields.length) {
    form.querySelector(".more-fields").open ||= fields.some((field) => field.closest(".more-fields"));
    fields[0].focus();
  }
}

/* The entry that stands already while some of its photographs do not: the next try sends only those. */
let standing = null;

async function write() {
  trouble("");
  clearFlaws();
  document.querySelector("[data-written]")?.remove();
  if (!standing) {
    progress(words.saving);
    const body = new FormData(form);
    body.delete("photographs");
    if (photographs.files.length) body.set("photographs_follow", "1");
    const [status, told] = await send(form.dataset.entryAction || form.action, body);
    if (status !== 200) return showRefusal(told);
    standing = told;
    draft.drop();
  }
  const refused = [];
  const all = photographs.files.length;
  for (let count = 1; photographs.files.length; count += 1) {
    progress(`${words.photographs}: ${count} / ${all}`);
    const body = new FormData();
    body.set("entry", standing.entry);
    for (const name of ["engine", "whole"]) if (form.elements[name]) body.set(name, form.elements[name].value);
    body.set("photographs", photographs.files[0]);
    const [status, told] = await send(photographsAddress(), body);
    if (status !== 200) refused.push(...(told.refused ?? [sentence(told.error)]));
    photographs.files.shift();
  }
  photographs.show();
  draft.drop();
  if (refused.length) return trouble(`${words.notTaken} ${refused.join("; ")}`);
  const [path, mark] = standing.address.split("#");
  location.assign(`${path}#${mark}`);
}

function photographsAddress() {
  const [, engine] = form.action.match(/(.*\/engine\/[^/]+)\//) ?? [];
  return engine ? `${engine}/photographs` : form.action;
}

function watchForm() {
  for (const input of form.querySelectorAll("input[type=file]")) {
    input.addEventListener("change", () => photographs.add(input));
  }
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const button = form.querySelector("#log-save");
    button.disabled = true;
    try {
      await write();
    } catch {
      trouble(words.unreached);
    } finally {
      button.disabled = false;
      progress("");
    }
  });
}

/* Search while typing: the newest answer counts. */
function watchSearch(search) {
  const list = document.querySelector("#log-list");
  let asking = new AbortController();
  const look = later(async () => {
    asking.abort();
    asking = new AbortController();
    const query = new URLSearchParams([...new FormData(search)].filter(([, value]) => value));
    try {
      const answer = await fetch(`${location.pathname}?${query}&part=list`, { signal: asking.signal });
      if (!answer.ok) return;
      list.innerHTML = await answer.text();
      history.replaceState(null, "", `${location.pathname}${query.size ? `?${query}` : ""}`);
    } catch {
      // Another look has begun, or the bench is closed: the list stands as it was.
    }
  }, 120);
  search.addEventListener("input", look);
  search.addEventListener("submit", (event) => {
    event.preventDefault();
    look();
  });
  search.querySelector("[data-look]").hidden = true;
  // What was typed before this file came counts as well.
  if ([...search.querySelectorAll("input")].some((field) => field.value !== field.defaultValue)) look();
}

/* A tap shows a photograph whole. */
function watchThumbs(dialog) {
  document.addEventListener("click", (event) => {
    const link = event.target.closest("[data-full]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const picture = dialog.querySelector("img");
    picture.src = link.href;
    picture.alt = link.querySelector("img").alt;
    dialog.showModal();
  });
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog) dialog.close();
  });
}

let draft = null;
if (form) {
  draft = new Draft();
  watchReadings();
  watchForm();
}
const search = document.querySelector("#log-search");
if (search) watchSearch(search);
watchThumbs(document.querySelector("#log-full"));
