import { refill } from "./focus.js";

// Parts of a page that the bench works out apart: asked for one at a time, the newest question last.
async function fetchPart(address) {
  const answer = await fetch(address, { headers: { accept: "application/json, */*;q=0.5" } });
  if (answer.ok) return answer.text();
  const { error } = await answer.json();
  throw Object.assign(new Error(error.message), { instead: error.instead, fields: error.fields });
}

// As a sentence stands by itself.
export function sentence({ message, instead }) {
  const begun = message[0].toUpperCase() + message.slice(1);
  return instead ? `${begun}: ${instead}.` : `${begun}.`;
}

function tell(place, error) {
  const known = error.instead !== undefined;
  const words = known ? sentence(error) : place.dataset.failed;
  const said = Object.assign(document.createElement("p"), { className: "sheet said bad refused", textContent: words });
  said.setAttribute("role", "alert");
  setAside(place);
  place.prepend(said);
}

// What is shown is that of an earlier question.
function setAside(place) {
  for (const gone of place.querySelectorAll(":scope > :is(.refused, .working)")) gone.remove();
  place.classList.add("stale");
}

// Who does not see the page hears what was worked out, not all of it.
function sayTitle(place) {
  const said = document.getElementById(place.dataset.said ?? "");
  if (said) said.textContent = place.querySelector("h2").textContent;
}

// Returns what asks for an address and shows the answer in a place; a question still open when the next ones come is
// answered first, and of those the last alone is asked: nothing piles up.
// Whoever tells a refusal beside its field says so, and what was shown stays, out of date.
export function keepFresh(place, shown = () => {}, refused = () => false) {
  let wanted = null;
  let isAsking = false;
  async function work() {
    isAsking = true;
    while (wanted !== null) {
      const address = wanted;
      wanted = null;
      place.setAttribute("aria-busy", "true");
      try {
        refill(place, await fetchPart(address));
        place.classList.remove("stale");
        sayTitle(place);
        shown(place);
      } catch (error) {
        if (refused(error)) setAside(place);
        else tell(place, error);
      }
    }
    place.setAttribute("aria-busy", "false");
    isAsking = false;
  }
  return (address) => {
    wanted = address;
    if (!isAsking) work();
  };
}

let resting = 0;

// Keeps what is asked for in the page's address once the hand rests: a browser does more on each change than meets the eye.
export function keepAddress(said) {
  clearTimeout(resting);
  resting = setTimeout(() => history.replaceState(null, "", `?${said}${location.hash}`), 300);
}

// What stands on a page as an address only is fetched as the page opens.
export function fetchSheets() {
  for (const place of document.querySelectorAll("[data-sheet]")) {
    keepFresh(place, goToMark)(place.dataset.sheet);
  }
}

function goToMark() {
  const mark = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!mark) return;
  mark.scrollIntoView();
  mark.focus({ preventScroll: true });
}

// Sends a form without leaving the page: what was written stays where it is until it is kept.
export async function sendForm(form, kept) {
  const said = form.querySelector("[role=status]") ?? form.appendChild(Object.assign(document.createElement("p"), { className: "said" }));
  said.setAttribute("role", "status");
  try {
    const answer = await fetch(form.action, {
      method: "POST",
      headers: { accept: "application/json" },
      body: new URLSearchParams(new FormData(form)),
    });
    const told = await answer.json();
    if (!answer.ok) throw Object.assign(new Error(told.error.message), { instead: told.error.instead });
    said.className = "said";
    said.textContent = form.dataset.kept ?? "";
    form.reset();
    kept();
  } catch (error) {
    const words = [error.message, error.instead].filter(Boolean).join(": ");
    said.className = "said bad";
    said.textContent = error.instead === undefined ? form.dataset.failed ?? error.message : words;
  }
}
