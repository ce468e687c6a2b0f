// Turn it over: one angle of the crank, and everything on the page that follows it.
import { Turn } from "./turn-arrays.js";
import { Card, Openings } from "./turn-charts.js";
import { Dial } from "./turn-dial.js";
import { Knobs } from "./turn-knobs.js";
import { Live } from "./turn-live.js";
import { show } from "./turn-marks.js";
import { Reading } from "./turn-reading.js";
import { Stage } from "./turn-stage.js";

const page = document.querySelector("#turn");
const data = JSON.parse(document.querySelector("#turn-data").textContent);
const { words } = data;
const one = (selector) => page.querySelector(selector);
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const STEPS = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 };
// Where the shaft stood is kept for the next cylinder, or the next visit of the page.
const KEPT = `turn-shaft:${page.dataset.live}`;

let found = new Turn(data.found);
let now = found;
let coming = found;
let asFound = false;
let backwards = false;
let playing = false;
let last = 0;
let wanted = 0;
let telling = 0;
const isBack = () => now.sent.backwards;
const phase = () => (isBack() ? -1 : 1) * data.phases[data.cylinder];
const up = () => (data.clockwise === isBack() ? -1 : 1);
let angle = wrap(Number(sessionStorage.getItem(KEPT) || 40) + phase());

// How far the cranks of the other cylinders lead the one that is shown.
function otherCranks() {
  const own = data.phases[data.cylinder];
  return Object.entries(data.phases).filter(([name]) => name !== data.cylinder).map(([name, lead]) => ({ name, lead: lead - own }));
}

function wrap(value) {
  return ((value % 360) + 360) % 360;
}

const stages = [new Stage(one(".turn-section"), data.places.whole)];
if (one(".turn-close")) stages.push(new Stage(one(".turn-close"), data.places.near));
const reading = new Reading(page, data);
const dial = new Dial(one(".turn-dial"), { words, others: otherCranks(), up: up(), onTurn: (value) => turnTo(value) });
const openings = found.sent.steam.head || found.sent.exhaust.head ? new Openings(one(".turn-plot"), words) : null;
if (!openings) one(".turn-openings").hidden = true;
const card = new Card(one(".turn-pressure"), words);
const knobs = new Knobs(one(".turn-try"), ask);
const live = new Live({
  live: page.dataset.live,
  plain: page.dataset.try,
  onTurn: take,
  onTimes: takeTimes,
  onCard: takeCard,
  onRefusal: (error) => knobs.refuse(error),
  onLost: () => knobs.refuse({ message: words.lost }),
});

// The engine as found comes first, whichever way it is turned; then what is tried on it.
function ask() {
  const isFoundKnown = asFound && (found.card || found.noCard) && found.sent.backwards === backwards;
  live.ask({ cylinder: data.cylinder, backwards, changes: isFoundKnown ? { ...knobs.changes } : {} });
}

function take(answer, asked) {
  coming = new Turn(answer.turn);
  const isFound = Object.keys(asked.changes).length === 0;
  openings?.draw(coming, isFound ? null : found);
}

// Figures, the dial and what moves follow in the same picture on the screen; of answers that come faster than it, the
// last counts.
function takeTimes(answer, asked) {
  coming.addTimes(answer.turn);
  // Turned the other way, the crank stands where it stood, and its angle is counted from the other side.
  if (coming.sent.backwards !== isBack()) angle = wrap(-angle);
  now = coming;
  if (Object.keys(asked.changes).length === 0) {
    found = now;
    asFound = true;
  }
  knobs.accept(asked.changes);
  const markup = answer.valve || {};
  stages[0].showValve(markup.whole);
  stages[1]?.showValve(markup.near);
  cancelAnimationFrame(telling);
  telling = requestAnimationFrame(() => {
    page.classList.toggle("is-tried", now !== found);
    place();
    knobs.show(answer);
    tellMotion();
  });
}

function takeCard(answer) {
  now.addCard(answer);
  drawCard();
  // Until a run's code is made ready there are no pressures: they are asked for again by and by.
  if (answer.preparing) setTimeout(ask, 2500);
  // What was tried before the engine as found was known is tried now.
  else if (now === found && knobs.isChanged) ask();
}

const ghost = () => (now === found ? null : found);

function tellMotion() {
  dial.draw(now, ghost(), up());
  reading.fill(now, ghost(), (deg) => jumpTo(deg));
}

function drawCard() {
  card.draw(now, ghost());
  reading.tellCard(now, ghost());
  if (now.card) card.show(now.find(angle));
}

function drawAll() {
  page.classList.toggle("is-tried", now !== found);
  openings?.draw(now, ghost());
  place();
  tellMotion();
  drawCard();
}

function place() {
  const at = now.find(angle);
  const was = found === now ? at : found.find(angle);
  const states = {};
  for (const end of now.ends) states[end] = now.state(end, at);
  const straight = now.isStraight(angle);
  const inside = data.outside ? ["steam", "exhaust"] : ["exhaust", "steam"];
  for (const stage of stages) {
    stage.move({
      angle,
      place: now.read(now.place, at),
      valve: now.read(now.valve, at),
      foundValve: now === found ? null : found.read(found.valve, was),
      eccentric: now.sent.eccentric,
      foundEccentric: found.sent.eccentric,
      offset: now.sent.valve_offset,
      up: up(),
    });
    for (const end of now.ends) stage.mark(end, states[end]);
    stage.mark("outer", inside[0]);
    stage.mark("middle", straight ? "both" : inside[1]);
  }
  dial.show(angle);
  openings?.show(angle);
  if (now.card) card.show(at);
  reading.show({ angle, at, turn: now, states });
}

function turnTo(value) {
  angle = wrap(value);
  if (!playing) {
    cancelAnimationFrame(wanted);
    wanted = requestAnimationFrame(place);
  }
}

function jumpTo(value) {
  stop();
  turnTo(value);
}

function run(time) {
  if (!playing) return;
  const passed = Math.min(time - last, 100);
  last = time;
  if (!held) angle = wrap(angle + (passed / 1000) * Number(rate.value) * 6);
  place();
  wanted = requestAnimationFrame(run);
}

function start() {
  playing = true;
  last = performance.now();
  play.textContent = play.dataset.pause;
  play.setAttribute("aria-pressed", "true");
  wanted = requestAnimationFrame(run);
}

function stop() {
  playing = false;
  play.textContent = play.dataset.play;
  play.setAttribute("aria-pressed", "false");
  cancelAnimationFrame(wanted);
}

const play = one(".turn-play");
const rate = one(".turn-rate");
play.addEventListener("click", () => (playing ? stop() : start()));
const showRate = () => {
  one(".turn-rate-shown").textContent = `${rate.value} ${words.pace_unit}`;
};
rate.addEventListener("input", showRate);
showRate();

function tellWay() {
  const way = data.clockwise !== backwards ? words.clockwise : words.anticlockwise;
  one(".turn-way-said").textContent = backwards ? `${way}, ${words.not_its_way}` : way;
}

one(".turn-way").addEventListener("click", () => {
  backwards = !backwards;
  tellWay();
  ask();
});

// The crank in the section: whoever takes hold of it there turns it.
let held = false;
const section = one(".turn-section");
section.addEventListener("pointerdown", (event) => {
  const grip = stages[0].angleAt(event, up());
  if (grip.away > data.places.whole.throw * 2.2) return;
  held = true;
  section.setPointerCapture(event.pointerId);
  turnTo(grip.angle);
  event.preventDefault();
});
section.addEventListener("pointermove", (event) => {
  if (held) turnTo(stages[0].angleAt(event, up()).angle);
});
for (const end of ["pointerup", "pointercancel"]) section.addEventListener(end, () => { held = false; });

one(".turn-dial").addEventListener("keydown", (event) => {
  if (event.key === "Home" || event.key === "End") jumpTo(event.key === "Home" ? 0 : 180);
  else if (event.key === " ") play.click();
  else if (event.key in STEPS) jumpTo(Math.round((angle + STEPS[event.key] * (event.shiftKey ? 10 : 1)) * 100) / 100);
  else return;
  event.preventDefault();
});

new ResizeObserver(() => {
  openings?.resize();
  card.resize();
  drawAll();
}).observe(one(".turn-pressure"));
addEventListener("pagehide", () => sessionStorage.setItem(KEPT, show(wrap(angle - phase()), 3)));
tellWay();
drawAll();
ask();
if (!calm.matches) start();
