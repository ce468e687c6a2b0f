"""The tables: look-ups that answer while one types, and as plain addresses that can be kept."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import show, workshop_of
from lapwright.errors import BadInput, FlawedRecord, Unreadable
from lapwright.job.lookup.lookups import LONGEST, LOOKUPS, TICKED, Lookup, find_lookup
from lapwright.job.lookup.sheet import GAP, Row, Sheet
from lapwright.job.lookup.shortcuts import list_shortcuts
from lapwright.job.measure.own_ways import find_own_ways

_FIRST = next(iter(LOOKUPS))
_WAYS = re.compile(r'"([^"]+)"')


@dataclass(frozen=True, slots=True)
class Told:
    """What came of a question: a sheet, a refusal, or neither as long as something is wanting.

    Of a refusal, `field` is where the slip is, and `ways` are better ways to write it.
    """

    of: str
    said: Mapping[str, str]
    sheet: Sheet | None = None
    error: BadInput | None = None
    field: str = ""
    ways: tuple[str, ...] = ()

    @property
    def state(self) -> str:
        """How it stands: good, bad or wanting."""
        return "good" if self.sheet else "bad" if self.error else "wanting"


def tables(request: Request) -> Response:
    """Show a look-up with its answer, if it was asked anything."""
    of = request.query_params.get("of", _FIRST)
    told = tell(of, request.query_params)
    engine_id = request.query_params.get("engine", "")
    return show(
        request,
        "tables.html",
        status=400 if told.error else 200,
        engine_id=engine_id,
        **_give_shortcuts(request, engine_id),
        **_lay_out(told, engine_id),
        lookups=tuple(LOOKUPS),
        lookup=LOOKUPS[of],
        examples=[(_name_question(said), _address(of, said, engine_id)) for said in LOOKUPS[of].examples],
        ticked=TICKED,
        longest=LONGEST,
    )


def answer(request: Request) -> Response:
    """Answer a script while somebody types: what cannot be read yet is no refusal, but the state of the question."""
    told = tell(request.query_params.get("of", _FIRST), request.query_params)
    return show(request, "tables_answer.html", **_lay_out(told, request.query_params.get("engine", "")))


def tell(of: str, said: Mapping[str, str]) -> Told:
    """Put a question to a look-up.

    Parameters
    ----------
    of: name of the look-up
    said: texts by field

    Raises
    ------
    NotOneOf: there is no such look-up
    """
    lookup = find_lookup(of)
    try:
        settled = lookup.settle(said)
    except BadInput as error:
        return Told(of, {}, error=error)
    try:
        return Told(of, settled, lookup.ask(settled))
    except BadInput as error:
        field = _find_culprit(lookup, settled, error)
        ways = _list_ways(lookup, settled, field=field, error=error) if field else ()
        return Told(of, settled, error=error, field=field, ways=ways)


def _list_ways(lookup: Lookup, said: Mapping[str, str], *, field: str, error: BadInput) -> tuple[str, ...]:
    """Better ways to write a text: its own, mended, and those that the tables have near it; never an example."""

    def ask(way: str) -> object:
        return lookup.ask(lookup.settle({**said, field: way}))

    near = () if isinstance(error, Unreadable) else tuple(_WAYS.findall(error.instead))
    return tuple(dict.fromkeys((*find_own_ways(said[field], ask, error.instead), *near)))


def _find_culprit(lookup: Lookup, said: Mapping[str, str], error: BadInput) -> str:
    """The field that a refusal speaks of: the longest text that its sentence names, or the only one there is."""
    texts = {each.name: said[each.name] for each in lookup.fields if each.name in said and not each.is_tick}
    named = [name for name, text in texts.items() if text in error.message]
    if named:
        return max(named, key=lambda name: len(texts[name]))
    return next(iter(texts)) if len(texts) == 1 else ""


def _lay_out(told: Told, engine_id: str) -> dict[str, Any]:
    sheet = told.sheet
    return {
        "told": told,
        "sheet": sheet,
        "groups": _group(sheet.rows) if sheet else [],
        "more": _group(sheet.more) if sheet else [],
        "address": _address(told.of, told.said, engine_id),
        "ways": [(way, _address(told.of, {**told.said, told.field: way}, engine_id)) for way in told.ways],
        "question": _name_question(told.said),
    }


@dataclass(slots=True)
class _Group:
    """Rows under one label, each with its cells."""

    label: str
    rows: list[tuple[str, ...]]

    @property
    def heads(self) -> bool:
        """Whether its cells head the columns below."""
        return not self.label and len(self.rows[0]) > 1


def _group(rows: tuple[Row, ...]) -> list[list[_Group]]:
    """Rows as parts, each of groups: a row of nothing begins a part, the first row of a part and a label a group."""
    parts: list[list[_Group]] = [[]]
    for label, figure in rows:
        cells = (figure,) if isinstance(figure, str) else figure
        if (label, figure) == GAP:
            parts.append([])
        elif label or not parts[-1]:
            parts[-1].append(_Group(label, [cells]))
        else:
            parts[-1][-1].rows.append(cells)
    return parts


def _address(of: str, said: Mapping[str, str], engine_id: str) -> str:
    whose = {"engine": engine_id} if engine_id else {}
    return f"/tables?{urlencode({'of': of, **said, **whose})}"


def _name_question(said: Mapping[str, str]) -> str:
    """A question in a few words, as it stands on a link."""
    return ", ".join(name.replace("_", " ") if text == TICKED else text for name, text in said.items())


def _give_shortcuts(request: Request, engine_id: str) -> dict[str, Any]:
    """What the engine that one came from gives to ask about."""
    if not engine_id:
        return {"engine_name": "", "shortcuts": []}
    workshop = workshop_of(request)
    try:
        engine = workshop.visit(engine_id).engine
    except FlawedRecord:
        return {"engine_name": engine_id, "shortcuts": []}
    shortcuts = [
        {"of": each.of, "about": each.about, "address": _address(each.of, each.said, engine_id)}
        for each in list_shortcuts(engine)
    ]
    return {"engine_name": engine.name, "shortcuts": shortcuts}


ROUTES: list[BaseRoute] = [Route("/tables", tables), Route("/tables/answer", answer)]
