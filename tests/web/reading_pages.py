"""A page read as a tree of plain parts, and what is wrong with it for somebody who cannot see it, or who means harm."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

EMPTY = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
#: What a person fills in or chooses.
FILLED = {"input", "select", "textarea"}
UNSEEN = {"hidden", "submit", "button", "reset", "image"}
ADDRESSES = ("src", "href", "action", "formaction", "data", "poster", "srcset", "xlink:href", "ping", "manifest")


@dataclass
class Part:
    """One element: its tag, attributes, what is in it, and what it is in."""

    tag: str
    attributes: dict[str, str]
    within: Part | None = None
    inside: list[Part | str] = field(default_factory=list)

    def walk(self) -> Iterator[Part]:
        """This part and every one inside it."""
        yield self
        for each in self.inside:
            if isinstance(each, Part):
                yield from each.walk()

    @property
    def text(self) -> str:
        """The words in it, without those of scripts."""
        if self.tag in {"script", "style", "template"}:
            return ""
        return "".join(each if isinstance(each, str) else each.text for each in self.inside)

    @property
    def around(self) -> Iterator[Part]:
        """What it is in, from the nearest."""
        part = self.within
        while part is not None:
            yield part
            part = part.within


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.top = self.now = Part("", {})
        self.complaints: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        if len(names) != len(set(names)):
            self.complaints.append(f"<{tag}> has an attribute twice: {names}")
        part = Part(tag, {name: value or "" for name, value in attrs}, self.now)
        self.now.inside.append(part)
        if tag not in EMPTY:
            self.now = part

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in EMPTY:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        if self.now.tag != tag:
            self.complaints.append(f"</{tag}> ends a <{self.now.tag}>")
        elif self.now.within is not None:
            self.now = self.now.within

    def handle_data(self, data: str) -> None:
        self.now.inside.append(data)


def read_page(text: str) -> tuple[Part, list[str]]:
    """Read a page; besides the tree, the tags that do not fit together."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    if reader.now is not reader.top:
        reader.complaints.append(f"<{reader.now.tag}> has no end")
    return reader.top, reader.complaints


def find_faults(text: str, *, whole: bool = True) -> list[str]:
    """Everything wrong with a page; `whole` is false for a part of one, which a script fetches."""
    page, faults = read_page(text)
    parts = [part for part in page.walk() if part.tag]
    faults += [fault for part in parts for fault in _judge_part(part)]
    faults += _judge_names(parts, whole=whole)
    return faults + (list(_judge_frame(parts)) if whole else [])


def _judge_frame(parts: list[Part]) -> Iterator[str]:
    for tag in ("html", "head", "body", "title", "main", "h1"):
        found = [part for part in parts if part.tag == tag]
        if len(found) != 1 or (tag in {"title", "h1"} and not found[0].text.strip()):
            yield f"{len(found)} <{tag}>, or an empty one"
    if next(part for part in parts if part.tag == "html").attributes.get("lang") != "en":
        yield "the language is not told"
    if not any(part.attributes.get("name") == "viewport" for part in parts):
        yield "no viewport"


def _judge_part(part: Part) -> Iterator[str]:
    shown = f"<{part.tag} {part.attributes}>"
    if part.tag == "style" or "style" in part.attributes:
        yield f"a style of its own: {shown}"
    if part.tag == "script" and "src" not in part.attributes:
        if part.attributes.get("type") != "application/json":
            yield f"a script in the page: {shown}"
        else:
            json.loads("".join(each for each in part.inside if isinstance(each, str)))
    for name, value in part.attributes.items():
        if name.startswith("on"):
            yield f"a script in an attribute: {shown}"
        if (name in ADDRESSES and not value.startswith(("/", "#", "?", "data:"))) or value.startswith("//"):
            yield f"an address outside: {shown}"
    if part.tag == "img" and "alt" not in part.attributes:
        yield f"a picture that is not told: {shown}"
    if part.tag in {"button", "a", "summary"} and not _is_named(part):
        yield f"nothing says what it does: {shown}"
    if part.tag == "a" and any(outer.tag in {"a", "button"} for outer in part.around):
        yield f"a link in a link: {shown}"


def _is_named(part: Part) -> bool:
    inner = "".join(each.attributes.get("aria-label", "") + each.attributes.get("alt", "") for each in part.walk())
    return bool((part.text + inner + part.attributes.get("aria-labelledby", "")).strip())


def _judge_names(parts: list[Part], *, whole: bool) -> Iterator[str]:
    ids = [part.attributes["id"] for part in parts if "id" in part.attributes]
    for name in {each for each in ids if ids.count(each) > 1 or not each or " " in each}:
        yield f'id "{name}" is there {ids.count(name)} times, or is none'
    labelled = {part.attributes["for"] for part in parts if part.tag == "label" and "for" in part.attributes}
    for part in parts:
        if part.tag in FILLED and part.attributes.get("type") not in UNSEEN:
            named = part.attributes.get("aria-label") or part.attributes.get("aria-labelledby")
            if not (named or part.attributes.get("id") in labelled or any(e.tag == "label" for e in part.around)):
                yield f"nothing says what is to be written: <{part.tag} {part.attributes}>"
        for kind in ("for", "aria-labelledby", "aria-describedby", "aria-controls", "list", "form"):
            lost = [name for name in part.attributes.get(kind, "").split() if name not in ids]
            if lost and whole:
                yield f"{kind} of <{part.tag}> leads to nothing: {lost}"
