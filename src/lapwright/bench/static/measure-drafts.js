// What was written and is not in the record yet, kept by the browser tab: it outlives an error and a reload.
export class Drafts {
  constructor(engine) {
    this.start = `measure ${engine} `;
  }

  keep(key, text, seen) {
    this.tryTo(() => sessionStorage.setItem(this.start + key, JSON.stringify({ text, seen })));
  }

  drop(key) {
    this.tryTo(() => sessionStorage.removeItem(this.start + key));
  }

  list() {
    const found = [];
    this.tryTo(() => {
      for (const name of Object.keys(sessionStorage)) {
        if (name.startsWith(this.start)) found.push({ key: name.slice(this.start.length), ...JSON.parse(sessionStorage.getItem(name)) });
      }
    });
    return found;
  }

  // A browser may be set to keep nothing at all; the page works without.
  tryTo(act) {
    try {
      act();
    } catch {
      /* nothing is kept then */
    }
  }
}
