"""Everything the page Measure tells of a record: each size with what was understood of it, and how it is measured.

It works on a record with errors as well: what cannot be used is shown as it stands, with what is wrong with it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from lapwright.engine.assume import list_assumed
from lapwright.engine.engine import PURPOSES, Engine
from lapwright.engine.parts import GLANDS, HANDS
from lapwright.engine.sizes import Sizes
from lapwright.job.figures import flatten_figures
from lapwright.job.gaps import Gap, find_gaps
from lapwright.job.measure.doubt import NO_SHARE, DoubtShare, list_taken, share_doubt
from lapwright.job.measure.edges import WIDTHS
from lapwright.job.measure.guide import Guide
from lapwright.job.measure.guides import GUIDES
from lapwright.job.measure.reading_back import read_back
from lapwright.job.visit import Visit
from lapwright.papers.measure_picture import MeasureView, draw_part
from lapwright.papers.measure_terms import name_key
from lapwright.record import OpenedRecord, Problem
from lapwright.record.comparing import read_written
from lapwright.record.key import Key
from lapwright.record.keys import TABLES
from lapwright.record.syntax import load_tables
from lapwright.tables.paints import list_paint_rows

#: Tables that stand once, before and after the cylinders; bench tests belong to the page Run.
_FIRST, _LAST = ("engine",), ("target", "running", "finish")
_CYLINDER_TABLES = ("", "port_face", "valve", "valve_drive")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureField:
    """One key of the record as the page shows it.

    `words` are all that may stand there (empty: any text).
    `seen` is the text as it stands in the file, None where the key does not stand there. `taken` is what is assumed
    for it, `unknown` what cannot be told without it, `rests` which answers rest on what was taken. `share` is how
    much of the doubt comes from it.
    """

    key: str
    name: str
    about: str
    example: str
    words: tuple[str, ...]
    seen: str | None
    understood: str
    problems: tuple[Problem, ...]
    taken: str
    because: str
    unknown: tuple[str, ...]
    rests: str
    share: DoubtShare
    guide: Guide

    @property
    def is_long(self) -> bool:
        """Whether it holds lines of text."""
        return self.key.endswith(".notes") or self.key.endswith(".note")


@dataclass(frozen=True, slots=True)
class MeasureGroup:
    """The keys of one table; `table` is its name without numbers, `path` with them."""

    table: str
    path: str
    fields: tuple[MeasureField, ...]

    @property
    def edges(self) -> str:
        """How it is told: "edges" or "widths"; empty for what has no edges."""
        if self.table.rpartition(".")[2] not in WIDTHS:
            return ""
        return "edges" if any(".edges." in field.key for field in self.fields) else "widths"

    @property
    def count(self) -> int:
        """How many of its keys are given."""
        return sum(field.seen is not None for field in self.fields)


@dataclass(frozen=True, slots=True)
class MeasureGap:
    """An answer that is not known, in words, and the sizes it wants: the key and the name of each."""

    words: str
    wants: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A size that is worth measuring next, by key and name, and how many answers it is wanted for.

    Of one that is only taken for now, `taken` is its value and `rests` says which answers rest on it; of one that was
    measured, `seen` is how, and `share` how much of the doubt comes from it.
    """

    key: str
    name: str
    count: int
    taken: str = ""
    rests: str = ""
    is_open: bool = False
    seen: str = ""
    share: DoubtShare = NO_SHARE


@dataclass(frozen=True, slots=True)
class MeasurePart:
    """One part of the engine: its record path, what it is called, its keys, and the pictures of it.

    `place` counts parts of its kind from 1, 0 for a table that stands once.
    """

    path: str
    table: str
    name: str
    place: int
    groups: tuple[MeasureGroup, ...]
    views: tuple[MeasureView, ...]
    gaps: tuple[MeasureGap, ...] = ()

    @property
    def count(self) -> int:
        """How many of its keys are given."""
        return sum(group.count for group in self.groups)

    @property
    def has_problems(self) -> bool:
        """Whether anything is wrong with any of its keys."""
        return any(field.problems for group in self.groups for field in group.fields)


@dataclass(frozen=True, slots=True)
class MeasureSheet:
    """All parts of one record, and its problems; without a part where the file cannot be read at all."""

    record: OpenedRecord
    parts: tuple[MeasurePart, ...]
    taken: tuple[Wanted, ...] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with the record, by line."""
        return self.record.problems

    @property
    def is_exact(self) -> bool:
        """Whether sizes are given and none of them with its doubt, so that no answer can tell how far it may be out."""
        fields = [
            field for part in self.parts if part.table == "cylinder" for group in part.groups for field in group.fields
        ]
        given = [field.seen for field in fields if field.seen is not None]
        return len(given) > 1 and not any(field.share.rank for field in fields)

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """The sizes that are worth measuring next.

        First those that are only taken and may be anything, then those without which most answers are not known, then
        those that are taken as usual. Where nothing is missing nor taken, it is the one whose doubt matters most.
        """
        counts = Counter(want for part in self.parts for gap in part.gaps for want in gap.wants)
        missing = [Wanted(key, name, count) for (key, name), count in counts.most_common()]
        first, later = ([one for one in self.taken if one.is_open is way] for way in (True, False))
        named = {one.key for one in (*first, *later)}
        return (*first, *(one for one in missing if one.key not in named), *later) or tuple(self._find_doubtful())

    def _find_doubtful(self) -> Iterator[Wanted]:
        """The measured size that most of the doubt comes from, over all cylinders."""
        fields = [field for part in self.parts for group in part.groups for field in group.fields]
        led = [field for field in fields if field.share.rank == 1 and field.seen is not None]
        for field in sorted(led, key=lambda each: -each.share.percent)[:1]:
            yield Wanted(field.key, field.name, field.share.count, seen=field.seen or "", share=field.share)

    def find_field(self, key: str) -> str:
        """Return the key of the field that a problem belongs to, empty where the page has none.

        Parameters
        ----------
        key: record path of the problem
        """
        keys = [field.key for part in self.parts for group in part.groups for field in group.fields]
        # A list is told of by its first edge; a table as a whole has no field.
        first = f"{key}.0" if key.endswith(".edges") else key
        return first if first in keys else ""


def list_measures(record: OpenedRecord, visit: Visit | None = None) -> MeasureSheet:
    """Tell everything about the sizes of a record.

    Parameters
    ----------
    record: as read, flawed or not
    visit: of the same record where there is one; what it has worked out is used
    """
    loaded = load_tables(record.text) if record.text else None
    if loaded is None or isinstance(loaded, Problem):
        return MeasureSheet(record, ())
    if visit is None and record.engine is not None:
        visit = Visit(record, record.engine)
    lister = _Lister(record, loaded[0], visit)
    return MeasureSheet(record, tuple(lister.list_parts()), tuple(lister.resting.values()))


class _Lister:
    """The parts of one record in the making."""

    def __init__(self, record: OpenedRecord, raw: Mapping[str, Any], visit: Visit | None) -> None:
        self.raw, self.visit, self.problems = raw, visit, record.problems
        self.engine: Engine | None = record.engine
        self.written = read_written(record.text)
        self.taken, self.because = dict[str, str](), dict[str, str]()
        self.unknown, self.shares = dict[str, list[str]](), dict[str, DoubtShare]()
        self.gaps, self.resting = dict[int, tuple[Gap, ...]](), dict[str, Wanted]()
        for number, sizes in enumerate(() if visit is None else visit.cylinders):
            self._note_cylinder(number, sizes)

    def _note_cylinder(self, number: int, sizes: Sizes) -> None:
        """What is assumed of a cylinder, what it leaves unknown, and where its doubt comes from."""
        start = f"cylinder.{number}."
        words = {"valve.kind": sizes.kind, "valve.admission": sizes.admission, "valve_drive.rocker": sizes.rocker}
        self.taken |= {start + key: word for key, word in words.items()}
        if "crank_phase" in sizes.assumed:
            self.taken[f"{start}crank_phase"], self.because[f"{start}crank_phase"] = (
                "0 deg",
                sizes.assumed["crank_phase"],
            )
        for assumed in list_assumed(sizes):
            self.taken[start + assumed.key], self.because[start + assumed.key] = assumed.value, assumed.because
        self.gaps[number] = find_gaps(sizes)
        for gap in self.gaps[number]:
            for key in gap.keys:
                self.unknown.setdefault(start + key, []).append(gap.words)
        if self.visit is None:
            return
        taken = list_taken(sizes, flatten_figures(self.visit.motions[sizes.name]))
        self.resting |= {
            start + one.key: Wanted(
                start + one.key, name_key(start + one.key), one.count, one.value, one.words, one.is_open
            )
            for one in taken
        }
        shares = share_doubt(self.visit.spreads.get(sizes.name, {}), taken)
        self.shares |= {start + key: share for key, share in shares.items()}

    def list_parts(self) -> Iterator[MeasurePart]:
        for table in _FIRST:
            yield self._list_single(table)
        for number, names in enumerate(self._find_list("cylinder", self.raw)):
            yield self._list_cylinder(number, names)
            for place, _ in enumerate(self._find_list("gland", names)):
                yield self._list_one("cylinder.gland", f"cylinder.{number}.gland.{place}", place + 1)
        for table in ("fastener", "pin"):
            for place, _ in enumerate(self._find_list(table, self.raw)):
                yield self._list_one(table, f"{table}.{place}", place + 1)
        for table in _LAST:
            yield self._list_single(table)

    def _find_list(self, table: str, raw: Mapping[str, Any]) -> list[dict[str, Any]]:
        """The tables of a list; of a list that is none, as of a heading with one bracket, nothing."""
        found = raw.get(table)
        return [each if isinstance(each, dict) else {} for each in found] if isinstance(found, list) else []

    def _list_single(self, table: str) -> MeasurePart:
        return MeasurePart(table, table, "", 0, (self._list_group(table, table),), ())

    def _list_one(self, table: str, path: str, place: int) -> MeasurePart:
        if table == "cylinder.gland":
            self.taken |= {f"{path}.on": GLANDS[0], f"{path}.nut_hand": HANDS[0]}
        name = self.written.get(f"{path}.name") or self.written.get(f"{path}.on", "")
        return MeasurePart(path, table, name, place, (self._list_group(table, path),), self._draw(path))

    def _list_cylinder(self, number: int, raw: Mapping[str, Any]) -> MeasurePart:
        path = f"cylinder.{number}"
        groups = []
        for below in _CYLINDER_TABLES:
            inner = raw.get(below)
            edges = inner.get("edges") if isinstance(inner, dict) else None
            table, place = (f"{start}.{below}" if below else start for start in ("cylinder", path))
            groups.append(self._list_group(table, place, edges=len(edges) if isinstance(edges, list) else 0))
        name = self.written.get(f"{path}.name", "ABCD"[number] if number < len("ABCD") else "")
        return MeasurePart(
            path, "cylinder", name, number + 1, tuple(groups), self._draw(path), tuple(self._list_gaps(number))
        )

    def _list_gaps(self, number: int) -> Iterator[MeasureGap]:
        for gap in self.gaps.get(number, ()):
            keys = (f"cylinder.{number}.{key}" for key in gap.keys)
            yield MeasureGap(gap.words, tuple((key, name_key(key)) for key in keys))

    def _draw(self, path: str) -> tuple[MeasureView, ...]:
        return draw_part(path, self.engine, written=self.written, taken=self.taken)

    def _list_group(self, table: str, path: str, *, edges: int = 0) -> MeasureGroup:
        fields = []
        instead = WIDTHS.get(table.rpartition(".")[2], ()) if edges else ()
        for name, key in TABLES[table].items():
            if key.count:
                places = range(min(edges, key.count))
                fields += [self._list_field(key, table, f"{path}.{name}.{place}") for place in places]
            elif name not in instead or f"{path}.{name}" in self.written:
                fields.append(self._list_field(key, table, f"{path}.{name}"))
        return MeasureGroup(table, path, tuple(fields))

    def _list_field(self, key: Key, table: str, path: str) -> MeasureField:
        seen = self.written.get(path)
        own = path if not key.count else path.rpartition(".")[0]
        return MeasureField(
            key=path,
            name=name_key(path),
            about=key.about,
            example=key.example,
            words=key.words or self._list_choices(table, own.rpartition(".")[2]),
            seen=seen,
            understood=_understand(path, seen),
            problems=tuple(problem for problem in self.problems if problem.key in (path, own)),
            taken="" if seen is not None else self.taken.get(path, ""),
            because="" if seen is not None else self.because.get(path, ""),
            unknown=tuple(self.unknown.get(path, ())) if seen is None else (),
            rests=self.resting[path].rests if seen is None and path in self.resting else "",
            share=self.shares.get(path, NO_SHARE),
            guide=GUIDES[table][own.rpartition(".")[2]],
        )

    def _list_choices(self, table: str, name: str) -> tuple[str, ...]:
        """Words that may stand there where a key's own reader does not list them: purposes, cylinders, paints."""
        if name == "purpose":
            return PURPOSES
        if name == "cylinder":
            places = range(len(self._find_list("cylinder", self.raw)))
            return tuple(self.written.get(f"cylinder.{number}.name", "ABCD"[number % 4]) for number in places)
        if (table, name) == ("finish", "paint"):
            return tuple(row.name for row in list_paint_rows())
        return ()


def _understand(path: str, seen: str | None) -> str:
    return "" if seen is None else read_back(path, seen).understood
