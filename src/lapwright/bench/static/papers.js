// Shows the paper when it has come, prints it alone, and says how far a PDF is that was asked for.
const frame = document.getElementById("paper");
const said = document.getElementById("said");
const print = document.getElementById("print");
const acts = document.getElementById("acts");

function fit() {
  const sheet = frame.contentDocument?.documentElement;
  if (!sheet?.querySelector("body")?.childElementCount) return false;
  // As high as the paper is, so that nothing scrolls within what scrolls.
  frame.style.height = "0";
  frame.style.height = `${sheet.scrollHeight + 4}px`;
  return true;
}

function show() {
  if (!fit()) return;
  said.textContent = "";
  const missing = frame.contentDocument.body.hasAttribute("data-missing");
  acts.hidden = missing;
  print.hidden = missing;
  // No style knows that a frame has the focus; who comes to it by key is to see where they are.
  for (const event of ["focus", "blur"]) {
    frame.contentWindow.addEventListener(event, () => frame.classList.toggle("has-focus", event === "focus"));
  }
}

function printPaper() {
  const held = document.activeElement;
  frame.contentWindow.focus();
  frame.contentWindow.print();
  held.focus();
}

async function save(link) {
  said.textContent = said.dataset.making;
  try {
    const answer = await fetch(link.href);
    if (!answer.ok) throw new Error((await answer.json()).error.message);
    const name = decodeURIComponent(/filename\*=utf-8''(.+)$/.exec(answer.headers.get("content-disposition"))[1]);
    const address = URL.createObjectURL(await answer.blob());
    Object.assign(document.createElement("a"), { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
    said.textContent = `${said.dataset.made} ${name}`;
  } catch (error) {
    said.textContent = error instanceof TypeError ? said.dataset.lost : error.message;
  }
}

frame.addEventListener("load", show);
addEventListener("resize", fit);
print.addEventListener("click", printPaper);
acts.addEventListener("click", (event) => {
  const link = event.target.closest("a[data-fetch]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  save(link);
});
// The keys for printing mean the paper, not the page round it.
addEventListener("keydown", (event) => {
  if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === "p" && !print.hidden) {
    event.preventDefault();
    printPaper();
  }
});

document.querySelector(".rack-list [aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });
if (frame.contentDocument?.readyState === "complete" && frame.contentDocument.body?.childElementCount) show();
else said.textContent = said.dataset.coming;
