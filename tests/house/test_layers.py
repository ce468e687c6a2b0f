"""The rooms import one way only, and each keeps to its own tools."""

from __future__ import annotations

import tomllib

import pytest

from tests.house.layers import OUTSIDE, ROOMS, find_breaches
from tests.house.reading import MODULES, NAMES, TOP, Module


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_a_module_keeps_to_what_its_room_may_do(module: Module) -> None:
    assert list(find_breaches(module)) == []


def test_an_arrow_always_points_to_a_lower_rank() -> None:
    for room, (rank, allowed) in ROOMS.items():
        assert all(ROOMS[other][0] < rank for other in allowed), room


#: What a library is called in an import, where that is not its own name; and those that another library calls upon:
#: forms are read by the one, sockets kept open by the other.
IMPORTED_AS = {"pillow": "PIL"}
USED_BY_OTHERS = {"python_multipart", "websockets"}


def test_every_declared_dependency_has_a_room_and_every_room_is_in_the_table() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    names = {line.partition("==")[0].replace("-", "_") for line in project["dependencies"]}
    declared = {IMPORTED_AS.get(name, name) for name in names - USED_BY_OTHERS}
    assert declared <= OUTSIDE.keys()
    used = {name.partition(".")[0] for module in MODULES for name, _ in module.imports()}
    assert declared <= used, "a dependency that no module imports"
    assert {module.room for module in MODULES} <= ROOMS.keys()


@pytest.mark.parametrize(
    ("name", "text", "complaint"),
    [
        ("lapwright.engine.probe", "from lapwright.record import read_record", "engine may not import record"),
        ("lapwright.engine.probe", "from lapwright import job", "engine may not import job"),
        ("lapwright.engine.probe", "from ..motion import answers", "engine may not import motion"),
        ("lapwright.cures.probe", "def cut():\n    import lapwright.papers.svg", "cures may not import papers"),
        ("lapwright.cures.probe", "import_module('lapwright.job')", "cures may not import job"),
        (
            "lapwright.motion.probe",
            "def turn():\n    import numpy",
            "belongs in cycle, medium, motion.many, motion.ways",
        ),
        ("lapwright.motion.probe", "from scipy.optimize import brentq", "no place in the house"),
        ("lapwright.findings.probe", "import typer", "belongs in cli"),
        ("lapwright.papers.probe", "import subprocess", "belongs in no room"),
        ("lapwright.papers.probe", "from datetime import date", "time and seed are arguments"),
        ("lapwright.logbook.probe", "from datetime import datetime", "time and seed are arguments"),
        ("lapwright.logbook.times", "datetime.now()", "time and seed are arguments"),
        ("lapwright.papers.probe", "print('done')", "calls print()"),
        ("lapwright.papers.probe", "sys.stdout.write('done')", "uses sys.stdout"),
        ("lapwright.findings.probe", "open('record.toml')", "calls open()"),
        ("lapwright.cli.probe", "Path('card.pdf').write_bytes(page)", "calls write_bytes()"),
    ],
)
def test_a_wrong_arrow_or_tool_is_noticed(name: str, text: str, complaint: str) -> None:
    assert complaint in "\n".join(find_breaches(Module(name, text)))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("lapwright.motion.many", "import numpy as np"),
        ("lapwright.engine.probe", "if TYPE_CHECKING:\n    from lapwright.record import Record"),
        ("lapwright.cures.probe", "from lapwright.findings.finding import Finding"),
        ("lapwright.findings.probe", "from lapwright.errors import BadInput"),
        ("lapwright.record.probe", "path.read_bytes()"),
        ("lapwright.job.probe", "from datetime import date"),
        ("lapwright.logbook.times", "from datetime import datetime\ndatetime.fromisoformat(written)"),
        ("lapwright.cli.probe", "print('done')"),
    ],
)
def test_what_a_room_may_do_is_let_through(name: str, text: str) -> None:
    assert list(find_breaches(Module(name, text))) == []
