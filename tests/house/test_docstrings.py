"""Every public thing is explained, and the explanation agrees with the code."""

from __future__ import annotations

import ast

import pytest

from lapwright.sources import SOURCES
from tests.house.docstrings import (
    find_cited_keys,
    find_flaws,
    find_public,
    find_source_flaws,
    find_undocumented,
    states_unit,
)
from tests.house.reading import MODULES, NAMES, Function, Module

SPOILT = '''
def cut(length: float, *, depth: float = 0.0) -> float:
    """Cut it.

    Parameters
    ----------
    length: of the cut [m]

    Source: low-1788, p. 3
    """
'''


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_every_public_thing_has_a_docstring(module: Module) -> None:
    assert list(find_undocumented(module)) == []


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_docstrings_agree_with_signatures_units_and_sources(module: Module) -> None:
    functions = ((name, node) for name, node in find_public(module) if not isinstance(node, ast.ClassDef))
    assert [flaw for name, node in functions for flaw in find_flaws(name, node)] == []


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_every_cited_key_stands_in_the_bibliography(module: Module) -> None:
    assert set(find_cited_keys(module)) <= SOURCES.keys()


def _function(text: str) -> Function:
    node = ast.parse(text).body[0]
    assert isinstance(node, ast.FunctionDef)
    return node


def test_a_forgotten_parameter_and_an_unknown_source_are_noticed() -> None:
    flaws = "\n".join(find_flaws("cut", _function(SPOILT)))
    assert "['depth'] too little" in flaws
    assert "low-1788" in flaws


def test_a_missing_unit_is_noticed() -> None:
    assert list(find_flaws("cut", _function('def cut(length: float):\n    """Cut it [soon]."""')))
    assert not list(find_flaws("cut", _function('def cut(length: float):\n    """Cut it to a length [m]."""')))


@pytest.mark.parametrize("docstring", ["[m]", "[rad, 0 to 2 pi]", "[deg, 0 to 360)", "a share [-]", "[% of stroke]"])
def test_a_unit_may_be_followed_by_its_range(docstring: str) -> None:
    assert states_unit(docstring)


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("exact geometry (law of cosines)", True),
        ("common practice, no source", True),
        ("low-1887, fig. 58; exact geometry", True),
        ("gum (section 5.1)", True),
        ("low-1887, fig. 58; low-1788, p. 2", False),
        ("an old book", False),
        ("", False),
    ],
)
def test_a_source_is_a_key_or_one_of_four_phrases(text: str, *, right: bool) -> None:
    assert (list(find_source_flaws(text)) == []) is right


def test_a_missing_docstring_is_noticed() -> None:
    module = Module(
        "lapwright.engine.probe", '"""A probe."""\nclass Valve:\n    def cut(self): ...\ndef _turn(): ...\n'
    )
    assert list(find_undocumented(module)) == ["lapwright.engine.probe.Valve", "lapwright.engine.probe.Valve.cut"]
