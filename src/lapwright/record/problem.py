"""What reading a record gives: the engine as far as known, and what is wrong with the file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from lapwright.engine.engine import Engine
from lapwright.record.layout import Layout, Path

Severity = Literal["error", "warning"]
#: More than this nobody mends from one list.
_MOST = 100


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a record: where, what, and what to write instead (may be empty).

    `line` counts from 1, 0 where the file as a whole is meant; `key` is a record path such as `cylinder.0.bore`.
    """

    code: str
    severity: Severity
    line: int
    key: str
    message: str
    instead: str = ""


@dataclass(frozen=True, slots=True)
class OpenedRecord:
    """A record as read. `engine` is None where nothing of one could be made out.

    `written` holds each value of the file as the person wrote it, by record path; `digest` is the SHA-256 of the
    bytes that were read, wanted back when the record is saved.
    """

    engine: Engine | None
    problems: tuple[Problem, ...]
    written: Mapping[str, str]
    text: str
    digest: str
    source: str = ""

    @property
    def is_sound(self) -> bool:
        """Whether the record has no error; warnings do not count."""
        return all(problem.severity != "error" for problem in self.problems)


@dataclass(slots=True)
class Ledger:
    """The problems found so far, each with its line."""

    layout: Layout = field(default_factory=Layout)
    problems: list[Problem] = field(default_factory=list)

    def add(self, code: str, path: Path, message: str, *, instead: str = "", severity: Severity = "error") -> None:
        """Note a problem at a place of the record."""
        key = ".".join(str(part) for part in path)
        self.problems.append(Problem(code, severity, self.layout.find_line(path), key, message, instead))

    def close(self) -> tuple[Problem, ...]:
        """Return the problems by line, the surplus of a hopeless file left off."""
        ordered = sorted(self.problems, key=lambda problem: problem.line)
        if len(ordered) <= _MOST:
            return tuple(ordered)
        more = f"{len(ordered) - _MOST} more problems are not listed"
        return (*ordered[:_MOST], Problem("more-problems", "error", 0, "", more, "mend these first"))
