"""Where everything stands in a record's text: the line and the span of every key, table and value."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n\ufeff]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_STRING = re.compile(
    r'''"""(?:[^"\\]|\\.|"{1,2}(?!"))*"{3,5}|\'\'\'(?:[^']|'{1,2}(?!'))*'{3,5}|"(?:[^"\\\n]|\\.)*"|'[^'\n]*\'''',
    re.DOTALL,
)
_WORD = re.compile(r"[A-Za-z0-9_-]+")
_PLAIN = re.compile(r"[^,\]}#\r\n]*[^,\]}#\r\n \t]")
_REST = re.compile(r"[^\n]*(?:\n|\Z)")


@dataclass(frozen=True, slots=True)
class Span:
    """A value in the text, from `start` to before `end`; `kind` is "value", "array" or "inline"."""

    start: int
    end: int
    kind: str


@dataclass(frozen=True, slots=True)
class Statement:
    """A header or a `key = value`: the table it belongs to, its full path, where it starts and its last line ends."""

    table: Path
    path: Path
    start: int
    end: int
    is_header: bool


@dataclass(slots=True)
class Layout:
    """The places of a whole record; `starts` tells where each `key = value` begins, also one inside `{ }`."""

    lines: dict[Path, int] = field(default_factory=dict)
    spans: dict[Path, Span] = field(default_factory=dict)
    starts: dict[Path, int] = field(default_factory=dict)
    statements: list[Statement] = field(default_factory=list)

    def find_line(self, path: Path) -> int:
        """Return the line of a key, or of the nearest table around it; 0 where there is none."""
        for length in range(len(path), 0, -1):
            line = self.lines.get(path[:length])
            if line is not None:
                return line
        return 0


def find_layout(text: str) -> Layout:
    r"""Find every key and value in a text that is known to be good TOML.

    Example:
    >>> layout = find_layout('format = 1\n[[cylinder]]\nname = "A"\n')
    >>> layout.find_line(("cylinder", 0, "name"))
    3
    """
    return _Walk(text).walk()


class _Walk:
    """One pass through the text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.counted = 0
        self.found = Layout()
        self.counts: dict[Path, int] = {}

    def walk(self) -> Layout:
        table: Path = ()
        self.skip(_BLANK)
        while self.at < len(self.text):
            line, start = self.line_here(), self.at
            is_header = self.text[self.at] == "["
            path = table = self.header() if is_header else table
            if not is_header:
                path = self.pair(table)
            self.found.lines.setdefault(path, line)
            end = _REST.match(self.text, self.at)
            self.found.statements.append(Statement(table, path, start, end.end() if end else self.at, is_header))
            self.skip(_BLANK)
        return self.found

    def skip(self, pattern: re.Pattern[str]) -> str:
        found = pattern.match(self.text, self.at)
        if found is None:
            raise ValueError(f"lost the place in the record at {self.at}")
        self.at = found.end()
        return found[0]

    def line_here(self) -> int:
        self.line += self.text.count("\n", self.counted, self.at)
        self.counted = self.at
        return self.line

    def header(self) -> Path:
        double = self.text.startswith("[[", self.at)
        self.at += 2 if double else 1
        keys = self.key()
        self.at += 2 if double else 1
        path: Path = ()
        for number, key in enumerate(keys, 1):
            path += (key,)
            if double and number == len(keys):
                self.counts[path] = self.counts.get(path, 0) + 1
            self.found.lines.setdefault(path, self.line_here())
            if path in self.counts:
                path += (self.counts[path] - 1,)
        return path

    def key(self) -> list[str]:
        keys = []
        while True:
            self.skip(_SPACE)
            if self.text[self.at] in "\"'":
                token = self.skip(_STRING)
                keys.append(tomllib.loads(f"k = {token}")["k"] if "\\" in token else token[1:-1])
            else:
                keys.append(self.skip(_WORD))
            self.skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return keys
            self.at += 1

    def pair(self, table: Path) -> Path:
        path, start = table, self.at
        for key in self.key():
            path += (key,)
            self.found.lines.setdefault(path, self.line_here())
        self.at += 1
        self.skip(_SPACE)
        self.found.starts[path] = start
        self.value(path)
        return path

    def value(self, path: Path) -> None:
        start, first = self.at, self.text[self.at]
        kind = {"[": "array", "{": "inline"}.get(first, "value")
        if first in "[{":
            self.group(path, first)
        else:
            self.skip(_STRING if first in "\"'" else _PLAIN)
        self.found.spans[path] = Span(start, self.at, kind)

    def group(self, path: Path, first: str) -> None:
        self.at += 1
        self.skip(_BLANK)
        number = 0
        while self.text[self.at] not in "]}":
            if first == "[":
                self.found.lines.setdefault((*path, number), self.line_here())
                self.value((*path, number))
            else:
                self.pair(path)
            number += 1
            self.skip(_BLANK)
            if self.text[self.at] == ",":
                self.at += 1
                self.skip(_BLANK)
        self.at += 1
