import { recall, remember } from "./focus.js";

// Light or dark by hand: kept in a cookie, so that the next page comes in the right look at once.
const button = document.querySelector(".head-look");
const root = document.documentElement;

function isDark() {
  return (root.dataset.look || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";
}

function name() {
  button.textContent = isDark() ? button.dataset.light : button.dataset.dark;
}

if (button) {
  button.hidden = false;
  name();
  button.addEventListener("click", () => {
    root.dataset.look = isDark() ? "light" : "dark";
    document.cookie = `look=${root.dataset.look}; path=/; max-age=31536000; samesite=strict`;
    name();
  });
}

// The page one is on may lie to the right of a narrow strip of pages.
document.querySelector(".head nav [aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });

// A form, or another view of the same page, loads it again: the keys go on where they were.
document.addEventListener("submit", (event) => {
  if (!event.defaultPrevented) remember();
});
document.addEventListener("click", (event) => {
  const link = event.target.closest?.("main a[href]");
  if (link && !event.defaultPrevented && !link.hash && link.pathname === location.pathname) remember();
});
addEventListener("load", recall);
