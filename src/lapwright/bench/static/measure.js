// Measure: fields are read back as they are written and saved as they are left; pictures light up with them.
import { Board } from "./measure-board.js";
import { Drafts } from "./measure-drafts.js";
import { Saver } from "./measure-saver.js";

const page = document.getElementById("measure");
const words = JSON.parse(document.getElementById("words").textContent);
document.documentElement.classList.add("scripted");
const readOnly = "readOnly" in page.dataset;

const board = new Board(document.getElementById("board"));
const drafts = new Drafts(page.dataset.engine);
const saver = new Saver(page, words, drafts, board);

for (const form of page.querySelectorAll("form.fields")) form.addEventListener("submit", (event) => event.preventDefault());
page.addEventListener("focusin", (event) => {
  const entry = event.target.closest("[data-key]");
  if (entry?.closest(".field")) board.choose(entry.dataset.key);
});
for (const way of ["pointerover", "pointerout"]) {
  page.addEventListener(way, (event) => {
    const field = event.target.closest?.(".field");
    if (field) board.point(way === "pointerover" ? field.dataset.field : "");
  });
}
page.addEventListener("click", (event) => {
  const link = event.target.closest("[data-to], [data-line]");
  if (!link) return;
  event.preventDefault();
  if (link.dataset.to) goTo(link.dataset.to);
  else goToLine(Number(link.dataset.line));
});

function goToLine(line) {
  const text = document.getElementById("whole-text");
  document.getElementById("text").open = true;
  const lines = text.value.split("\n");
  const start = lines.slice(0, Math.max(line - 1, 0)).reduce((sum, each) => sum + each.length + 1, 0);
  text.focus();
  text.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  text.scrollTop = (Math.max(line - 3, 0) * text.scrollHeight) / lines.length;
  text.scrollIntoView({ block: "nearest" });
}

// A field may lie in a part that is folded up.
function goTo(key) {
  const entry = document.getElementById(`entry-${key}`);
  if (!entry) return;
  for (let part = entry.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
  entry.focus();
  entry.closest(".field").scrollIntoView({ block: "center" });
}
board.onPick = goTo;

function openNamedPart() {
  const part = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const first = part?.querySelector(".field [data-key]");
  if (first) goTo(first.dataset.key);
  else if (part?.tagName === "DETAILS") part.open = true;
}
window.addEventListener("hashchange", openNamedPart);
// Where the page is loaded, the browser itself goes to what the address names, and would take the focus away again.
window.addEventListener("load", () => requestAnimationFrame(openNamedPart));

if (!readOnly) {
  page.addEventListener("input", (event) => saver.typed(event.target));
  page.addEventListener("change", (event) => saver.left(event.target));
  page.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches("input[data-key]")) {
      event.preventDefault();
      saver.left(event.target);
    }
  });
  page.addEventListener("submit", (event) => {
    const form = event.target.closest("[data-step]");
    if (!form) return;
    event.preventDefault();
    saver.step(form.dataset.step);
  });
  document.addEventListener("keydown", (event) => {
    const isField = event.target.matches("input, textarea, select");
    const isUndo = event.key.toLowerCase() === "z" && (event.ctrlKey || event.metaKey);
    const isRedo = event.key.toLowerCase() === "y" && event.ctrlKey;
    if (isField || !(isUndo || isRedo)) return;
    event.preventDefault();
    saver.step(isRedo || event.shiftKey ? "redo" : "undo");
  });
  saver.offerDrafts();
}
saver.watch();
