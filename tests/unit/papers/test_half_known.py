"""Whatever of a record is left out or put in, there are results, a card and a page, and none speaks nonsense."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from random import Random

import pytest

from lapwright.engine.engine import PURPOSES
from lapwright.job.results import list_results
from lapwright.job.visit import Visit, examine_opened
from lapwright.papers import card_bytes, page_text
from lapwright.record import change_record, read_record
from tests.property.engines import ARRANGEMENTS, random_engine
from tests.unit.papers.matters import EXAMPLES, NAMES, card_of, cylinder, visit_of

NONSENSE = re.compile(r"\b(nan|inf|None|NaN|Infinity|dict|tuple)\b|\{\}|[a-z]+\(\)")
TARGETS = (
    '[target]\ncut_off = "75 %"\n',
    '[target]\ncut_off = "60 %"\nequal = "cut-off"\n',
    '[target]\nlead = "0.1 mm"\nlap = "0.3 mm"\n',
    '[target]\nlap = "0.8 mm"\ncut_off = "70 %"\n',
    '[target]\nequal = "leads"\n',
)


def read_example(name: str) -> str:
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def without_each_key(text: str) -> Iterator[str]:
    """A record as many times as it has keys, each time without one of them; a second cylinder has no other keys."""
    lines = text.splitlines(keepends=True)
    tables = [number for number, line in enumerate(lines) if line.startswith("[[cylinder]]")]
    second = range(tables[1], len(lines)) if len(tables) > 1 else range(0)
    for number, line in enumerate(lines):
        if number not in second and re.match(r"\w+ = ", line) and not line.startswith("name = "):
            yield "".join(lines[:number] + lines[number + 1 :])


def visit_text(text: str) -> Visit:
    return examine_opened(read_record(text.encode()))


def tell(visit: Visit) -> str:
    """Everything that is told of a visit but for the pictures' shapes."""
    page = page_text(card_of(visit))
    words = re.sub(r"<style>.*?</style>|<[^>]*>", " ", page, flags=re.DOTALL)
    assert not NONSENSE.search(words), NONSENSE.search(words)
    results = json.dumps(list_results(visit), allow_nan=False)
    return words + results


@pytest.mark.parametrize("name", NAMES)
def test_each_key_of_an_example_may_be_left_out(name: str) -> None:
    for text in without_each_key(read_example(name)):
        tell(visit_text(text))


@pytest.mark.parametrize("name", NAMES)
def test_a_record_with_half_its_keys_left_out_still_tells_something(name: str) -> None:
    rng = Random(7)
    for _ in range(6):
        lines = read_example(name).splitlines(keepends=True)
        kept = [line for line in lines if not re.match(r"(?!name)\w+ = ", line) or rng.random() < 0.5]
        visit = visit_text("".join(kept))
        words = tell(visit)
        assert visit.engine.name in words
        assert card_bytes(card_of(visit)).startswith(b"%PDF")


@pytest.mark.parametrize("target", TARGETS)
def test_every_kind_of_target_is_told(target: str) -> None:
    for name in NAMES:
        visit = visit_text(read_example(name) + "\n" + target)
        words = tell(visit)
        assert all(line in words for line in visit.aim if "<" not in line and "'" not in line)


def test_every_purpose_is_told() -> None:
    told = [tell(visit_text(change_record(read_example("tern"), {"engine.purpose": each}))) for each in PURPOSES]
    assert len(set(told)) == len(PURPOSES)


@pytest.mark.parametrize("arrangement", ARRANGEMENTS, ids=" ".join)
def test_every_arrangement_is_told_and_drawn(arrangement: tuple[str, str, str]) -> None:
    rng = Random(11)
    for _ in range(4):
        visit = visit_of(random_engine(rng, arrangement=arrangement))
        tell(visit)
        assert card_bytes(card_of(visit), paper="letter").startswith(b"%PDF")


def test_a_single_acting_engine_is_told_of_one_end() -> None:
    words = tell(visit_of(cylinder(piston_rod=None)))
    page, _, _ = words.partition('{"format"')
    assert "Head end: cut-off" in page
    assert "Crank end: cut-off" not in page
    assert "Crank end dead centre" not in page
