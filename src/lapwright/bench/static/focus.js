// Whoever works by keys stays where they were, also where a piece of the page, or the whole page, comes anew.
const STOPS = "a[href], button:enabled, input:enabled:not([type=hidden]), select:enabled, textarea:enabled, summary, [tabindex]";
const KEPT = "lapwright.place";

function stops(place) {
  return [...place.querySelectorAll(STOPS)].filter((one) => one.checkVisibility());
}

function sign(one) {
  return one.id || [one.tagName, one.getAttribute("href"), one.name, one.textContent.trim()].join(" ");
}

// Where the focus stands within a place, told so that it is found again in what replaces it; `null` where it is elsewhere.
function mark(place) {
  const all = stops(place), order = all.indexOf(document.activeElement);
  if (order < 0) return null;
  const own = sign(all[order]);
  return { own, order, before: all.slice(0, order).filter((one) => sign(one) === own).length };
}

// What had the focus may be gone: then it goes to its neighbour, or to the place itself.
function goBack(place, { own, order, before }, options) {
  const all = stops(place), alike = all.filter((one) => sign(one) === own);
  const found = alike[before] ?? alike.at(-1) ?? all[Math.min(order, all.length - 1)];
  if (!found) place.tabIndex = -1;
  (found ?? place).focus(options);
}

// Puts other markup into a place.
export function refill(place, markup) {
  if (place.innerHTML === markup) return;
  const marked = mark(place);
  place.innerHTML = markup;
  if (marked) goBack(place, marked, { preventScroll: true });
}

// Before the page is loaded again.
export function remember() {
  const kept = { path: location.pathname, marked: mark(document.body) };
  try {
    sessionStorage.setItem(KEPT, JSON.stringify(kept));
  } catch {
    /* A browser that keeps nothing begins at the top of the page. */
  }
}

// After it: what the address points at, or what took the focus by itself, comes first.
export function recall() {
  let kept = null;
  try {
    kept = JSON.parse(sessionStorage.getItem(KEPT));
    sessionStorage.removeItem(KEPT);
  } catch {
    /* nothing was kept then */
  }
  const named = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const isFree = !named && document.activeElement === document.body;
  if (isFree && kept?.marked && kept.path === location.pathname) goBack(document.body, kept.marked);
}
