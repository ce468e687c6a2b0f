// Small pieces of drawing that dial and charts share.
const NAMESPACE = "http://www.w3.org/2000/svg";

// The letters by which events stand at the crank circle.
export const LETTERS = { admission: "A", cut_off: "C", release: "R", compression: "K" };

export function make(name, attributes = {}, parent = null) {
  const element = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (parent) parent.append(element);
  return element;
}

// A piece of a ring between two radii, from an angle over a sweep; `dial` says where an angle lies.
export function ring(dial, start, sweep, outer, inner) {
  const steps = Math.max(2, Math.ceil(sweep / 4));
  const points = [];
  for (let step = 0; step <= steps; step += 1) points.push(dial.place(start + (sweep * step) / steps, outer));
  for (let step = steps; step >= 0; step -= 1) points.push(dial.place(start + (sweep * step) / steps, inner));
  return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}Z`;
}

export function show(value, places) {
  const text = value.toFixed(places);
  return (Number(text) === 0 ? text.replace("-", "") : text).replace("-", "−");
}

// A round step that makes about so many lines of a span.
export function step(span, lines) {
  const rough = span / lines;
  const power = 10 ** Math.floor(Math.log10(rough));
  return [1, 2, 5, 10].find((factor) => factor * power >= rough) * power;
}
