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
