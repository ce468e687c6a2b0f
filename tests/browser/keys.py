"""A person at the bench who has nothing but a keyboard: every stop is looked at as the focus comes to it."""

from __future__ import annotations

from dataclasses import dataclass

from playwright.sync_api import Page

_LOOK = """() => {
  const one = document.activeElement, style = getComputedStyle(one), box = one.getBoundingClientRect();
  const x = Math.min(Math.max(box.left + box.width / 2, 0), innerWidth - 1);
  const y = Math.min(Math.max(box.top + Math.min(box.height / 2, 24), 0), innerHeight - 1);
  const top = document.elementFromPoint(x, y);
  const words = one.getAttribute("aria-label") || one.labels?.[0]?.textContent || one.title || one.textContent;
  return {
    tag: one.tagName.toLowerCase(),
    name: words.trim().replace(/\\s+/g, " "),
    outline: style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth),
    shown: box.width > 1 && box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    covered: Boolean(top) && !one.contains(top) && !top.contains(one),
  };
}"""


@dataclass(frozen=True)
class Stop:
    """What has the focus: its tag, what it is called, how thick its outline is [px], whether it can be seen."""

    tag: str
    name: str
    outline: float
    shown: bool
    covered: bool


class Keys:
    """The keyboard of a page."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def read(self) -> Stop:
        """Tell what has the focus: the body, where nothing has."""
        return Stop(**self.page.evaluate(_LOOK))

    def look(self) -> Stop:
        """Look at what has the focus: there is something, in view, with nothing over it, and an outline shows it."""
        stop = self.read()
        assert stop.tag != "body", "the focus is lost"
        assert stop.outline >= 2, stop
        assert stop.shown, stop
        assert not stop.covered, stop
        return stop

    def press(self, *keys: str) -> Stop:
        """Press keys one after the other, and look where the focus is then."""
        for key in keys:
            self.page.keyboard.press(key)
        return self.look()

    def go_to(self, name: str, *, back: bool = False, most: int = 250) -> Stop:
        """Go on by Tab, or back, until what has the focus is called that; its name may go on."""
        stop = self.read()
        for _ in range(most):
            if stop.tag != "body" and stop.name.startswith(name):
                return stop
            stop = self.press("Shift+Tab" if back else "Tab")
        raise AssertionError(f"no key leads to {name}")

    def write(self, text: str) -> None:
        """Write over what stands in a field."""
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(text)

    def leave(self, key: str, address: str) -> None:
        """Press a key that opens another page."""
        self.page.keyboard.press(key)
        self.page.wait_for_url(address)
