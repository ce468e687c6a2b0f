"""Undocumented is broken: commands, record keys, codes, errors and results all stand in the reference pages."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import pytest
import typer

from docs.look_ups import LOOK_UPS
from docs.make_reference import PAGES, REFERENCE, find_problem_codes, list_errors, list_problems
from docs.meanings import CALIBRATION, CURES, FINDINGS, PROBLEMS, RESULTS, RUN, START
from lapwright.cli import app
from lapwright.engine.parts import METALS
from lapwright.engine.sizes import NUMBER_KEYS
from lapwright.findings.finding import CODES, PART_CODES, SEVERITIES
from lapwright.motion.answers import EVENTS
from lapwright.record.keys import TABLES
from lapwright.tables.threads import SERIES
from lapwright.workshop.drawers import DRAWERS
from lapwright.workshop.packing_choice import MATERIALS
from lapwright.workshop.screws import COEFFICIENTS, SCREWS
from lapwright.workshop.tapping import TARGETS
from tests.house.reading import MODULES, TOP

EXAMPLES = sorted((TOP / "examples").glob("*.toml"))


@cache
def read_page(name: str) -> str:
    """The text of a reference page as it stands on the disk."""
    return (REFERENCE / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_what_would_be_written_now(name: str) -> None:
    assert read_page(name) == PAGES[name](), "run `make docs`"


def test_every_command_argument_and_option_is_named() -> None:
    page = read_page("commands.md")
    commands = typer.main.get_command(app).commands  # type: ignore[attr-defined]
    assert {"examine", "check", "new"} <= commands.keys()
    for name, command in commands.items():
        assert f"## lapwright {name}\n" in page
        assert command.help, name
        for parameter in command.params:
            assert parameter.help, f"{name} {parameter.name}"
            for option in parameter.opts if parameter.param_type_name == "option" else ():
                assert f"`{option}`" in page, option


def test_every_key_of_the_record_is_named() -> None:
    page = read_page("record.md")
    for key in NUMBER_KEYS:
        last = [part for part in key.removesuffix("_share").split(".") if not part.isdigit()][-1]
        assert f"| `{last}` |" in page, key
    for key in (
        "name",
        "notes",
        "rotation",
        "fluid",
        "supply_pressure",
        "exhaust_pressure",
        "purpose",
        "cut_off",
        "lead",
        *TABLES["running"],
    ):
        assert f"| `{key}` |" in page, key


def test_every_code_and_error_is_named_with_its_meaning() -> None:
    page = read_page("problems.md")
    assert FINDINGS.keys() == {*CODES, *PART_CODES}
    assert find_problem_codes()
    assert PROBLEMS.keys() <= find_problem_codes(), "a meaning for a code that nothing notes"
    for code, meaning in {**list_problems(), **FINDINGS}.items():
        assert f"| `{code}` | {meaning} |" in page, code
    for kind in list_errors():
        assert f"| `{kind.__name__}` |" in page, kind


def find_cure_codes() -> set[str]:
    """The codes that stand as plain text where the cures are made."""
    nodes = [node for module in MODULES if module.room == "cures" for node in ast.walk(module.tree)]
    values = [node.value for node in nodes if isinstance(node, ast.keyword) and node.arg == "code"]
    values += [node.value for node in nodes if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "code"]
    whole = (part for value in values for part in _chosen(value))
    return {part.value for part in whole if isinstance(part, ast.Constant)}


def _chosen(value: ast.expr) -> Iterator[ast.expr]:
    """What a value may come out as, where it is chosen by a condition."""
    if isinstance(value, ast.IfExp):
        yield from (*_chosen(value.body), *_chosen(value.orelse))
    else:
        yield value


def test_every_cure_is_named_with_what_is_done() -> None:
    page = read_page("problems.md")
    assert find_cure_codes() == CURES.keys()
    assert all(f"| `{code}` | {meaning} |" in page for code, meaning in CURES.items())


@pytest.mark.journey
def test_the_cures_of_the_examples_are_among_them() -> None:
    codes = {part for path in EXAMPLES for cure in examine(path.name)["cures"] for part in cure["code"].split("+")}
    assert codes
    assert codes <= CURES.keys()


def test_the_severities_are_those_of_the_results_page() -> None:
    assert all(f"`{severity}`" in RESULTS["findings[].severity"][1] for severity in SEVERITIES)


#: Keys that stand for one of a few, and what they are written as in the table of fields.
ENDS = {"head": "END", "crank": "END"}
#: Fields under which every key is a name of its own.
OPEN = {"spread", "spread_from", "set", "running", "clearance_mm", "torque_if_nm"}


#: What a field holds that has the fields of something else.
REPEATED = {"cures[].after", "after"}


def find_fields(value: Any, path: str = "", *, known: Mapping[str, Any]) -> Iterator[str]:
    """The paths of all the leaves of a JSON value, as the table of fields writes them."""
    if path in REPEATED:
        yield path
    elif isinstance(value, dict):
        last = path.rpartition(".")[2]
        names = (
            dict.fromkeys(value, "NAME")
            if last in OPEN
            else dict.fromkeys(EVENTS, "EVENT")
            if last == "events"
            else ENDS
        )
        for key, inner in value.items():
            name = names.get(key, key)
            yield from find_fields(inner, f"{path}.{name}" if path else name, known=known)
    elif value == []:
        yield from (f"{path}{brackets}" for brackets in ("[]", "[][]") if f"{path}{brackets}" in known)
    elif value is None and path not in known:
        # A part that is not there at all: its fields are explained, or else it is told as a field that nobody explains.
        yield from () if any(name.startswith(f"{path}.") for name in known) else (path,)
    elif isinstance(value, list):
        for inner in value:
            yield from find_fields(inner, f"{path}[]", known=known)
    else:
        yield path


@cache
def ask(command: str, name: str, *options: str) -> Any:
    """What a command of the program answers about an example, as JSON."""
    return call(command, f"examples/{name}", *options)


def call(*asked: str) -> Any:
    """What the program answers, as JSON."""
    words = [sys.executable, "-m", "lapwright", *asked, "--json"]
    done = subprocess.run(words, cwd=TOP, capture_output=True, encoding="utf-8", timeout=60, check=False)
    return json.loads(done.stdout)


def examine(name: str) -> Any:
    """What the program finds in an example."""
    return ask("examine", name)


@pytest.mark.journey
def test_every_field_of_the_answer_is_explained_and_every_explained_field_occurs() -> None:
    assert len(EXAMPLES) >= 6
    check_fields([examine(path.name) for path in EXAMPLES], RESULTS)


@pytest.mark.journey
def test_every_field_of_a_run_and_of_starting_is_explained_and_every_explained_field_occurs() -> None:
    runs = [ask("run", "tern.toml", "--compare", "best"), ask("run", "merganser.toml", "--speed", "600 rpm")]
    assert runs[0]["after"].keys() | {"after", "gain", "problems"} == runs[0].keys()
    check_fields([*runs, runs[0]["after"]], RUN)
    check_fields([ask("start", "merganser.toml"), ask("start", "curlew.toml")], START)


@pytest.mark.journey
def test_every_field_of_a_calibration_is_explained_and_every_explained_field_occurs() -> None:
    check_fields([ask("calibrate", "sandpiper.toml")], CALIBRATION)


#: How the look-ups are asked, so that each of their fields occurs, with and without what may be left out.
ASKED = {
    "thread THREAD": (["7BA"], ["M4"], ["1/4 x 40"], ["G2"]),
    "thread THREAD --against THREAD": (["7BA", "--against", "6BA"], ["2BA", "--against", "2BA"]),
    "thread --measured SIZE": (
        ["--measured", "3.0 mm"],
        ["--measured", "3.55 mm", "--pitch", "38 tpi"],
        ["--measured", "5.1 ± 0.05 mm", "--pitch", "0.9 mm", "--hole"],
    ),
    "drill THREAD": (
        ["4BA", "--in", "brass", "--drawers", "metric"],
        ["M4", "--engagement", "70 %"],
        ["1 BSW", "--drawers", "number-letter"],
    ),
    "drill DRILL": (["3.1 mm"], ["No 30"], ["40 mm"]),
    "gland": (
        ["--rod", "5 ± 0.02 mm", "--bore", "9 mm", "--depth", "10 mm", "--nut", "1/2 x 32", "--pressure", "3 bar"],
        ["--rod", "17 mm", "--bore", "23 mm", "--material", "EPDM", "--fluid", "air"],
    ),
    "rethread FROM": (["7BA", "--stripped"], ["4BA", "--keep-screw"]),
    "rethread FROM TO": (["7BA", "5BA", "--depth", "4 mm", "--wall", "2 mm"], ["7BA", "6BA"]),
    "torque THREAD": (["M3", "--thread-is", "oiled"], ["4BA", "--engagement", "1 mm"]),
    "torque THREAD --grub": (["6BA", "--hold", "0.5 N m"], ["M4", "--grub"]),
    "fit SIZE": (["6 mm"], ["1/4 in", "H7/g6", "--clearance", "1 thou"], ["4.01 mm", "--pin", "3.98 mm"]),
}


@pytest.mark.journey
@pytest.mark.parametrize("look_up", LOOK_UPS)
def test_every_field_of_a_look_up_is_explained_and_every_explained_field_occurs(look_up: str) -> None:
    check_fields([call(look_up.split(maxsplit=1)[0], *asked) for asked in ASKED[look_up]], LOOK_UPS[look_up])


def test_what_can_be_asked_of_a_look_up_is_listed_in_its_page() -> None:
    page = read_page("look-ups.md")
    for names in (DRAWERS, MATERIALS, METALS, TARGETS, SCREWS, COEFFICIENTS, SERIES):
        assert [name for name in names if name not in page] == []


def check_fields(answers: list[Any], known: Mapping[str, Any]) -> None:
    """Every field of the answers is among the known ones, and every known one among the answers."""
    told = {field.rstrip("[]") for answer in answers for field in find_fields(answer, known=known)}
    explained = {path.rstrip("[]") for path in known}
    assert told - explained == set(), "not explained"
    # The examples are sound records, so no problem of a record occurs in them.
    assert {path for path in explained - told if not path.startswith("problems[]")} == set(), (
        "explained, but never there"
    )
