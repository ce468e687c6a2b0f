// One turn's arrays as they were sent, and every figure at any angle between their entries.
const FINE = 1e-4;
// Less than this is the rounding of what was sent [mm].
const OPEN = 5e-5;

function scale(values) {
  if (!values) return null;
  const scaled = new Float64Array(values.length);
  for (let at = 0; at < values.length; at += 1) scaled[at] = values[at] * FINE;
  return scaled;
}

export class Turn {
  // What moves and opens comes first; figures and pressures may come after.
  constructor(sent) {
    this.sent = sent;
    this.ends = sent.ends;
    this.angles = scale(sent.angles);
    this.valve = scale(sent.valve);
    this.steam = {};
    this.exhaust = {};
    this.pressures = {};
    // The widest that anything opens [mm].
    this.most = 0;
    for (const end of sent.ends) {
      this.steam[end] = scale(sent.steam[end]);
      this.exhaust[end] = scale(sent.exhaust[end]);
      for (const values of [this.steam[end], this.exhaust[end]]) {
        for (const value of values ?? []) if (value > this.most) this.most = value;
      }
    }
    // The first entry at or after every whole degree: from there it is never far.
    this.hints = new Uint16Array(361);
    for (let degree = 0, entry = 0; degree <= 360; degree += 1) {
      while (entry < this.angles.length - 1 && this.angles[entry + 1] <= degree) entry += 1;
      this.hints[degree] = entry;
    }
    if (sent.arcs) this.addTimes(sent);
    this.addCard(sent);
  }

  addTimes(times) {
    Object.assign(this.sent, times);
    this.place = scale(times.place);
    this.gone = scale(times.gone);
  }

  addCard({ card = null, no_card: why = "" }) {
    this.card = card;
    this.noCard = why;
    for (const end of Object.keys(card?.pressures ?? {})) this.pressures[end] = scale(card.pressures[end]);
  }

  // Entry before an angle, and how far it lies towards the next one.
  find(angle) {
    const wrapped = ((angle % 360) + 360) % 360;
    let entry = this.hints[Math.floor(wrapped)];
    const last = this.angles.length - 1;
    while (entry < last && this.angles[entry + 1] <= wrapped) entry += 1;
    const next = entry < last ? this.angles[entry + 1] : 360;
    return { entry, share: (wrapped - this.angles[entry]) / (next - this.angles[entry]) };
  }

  read(values, { entry, share }) {
    if (!values) return null;
    const next = entry < values.length - 1 ? entry + 1 : 0;
    return values[entry] + (values[next] - values[entry]) * share;
  }

  state(end, at) {
    const steam = this.read(this.steam[end], at);
    const away = this.read(this.exhaust[end], at);
    if (steam > OPEN && away > OPEN) return "both";
    if (steam > OPEN) return "steam";
    if (away > OPEN) return "exhaust";
    return steam === null || away === null ? "unknown" : "shut";
  }

  isStraight(angle) {
    return this.sent.straight_arcs.some(([start, sweep]) => (((angle - start) % 360) + 360) % 360 < sweep);
  }
}
