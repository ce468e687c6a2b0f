"""Bad input: a clear sentence with line and key, exit status 2, no traceback, nothing written."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from tests.journey.program import TOP, bring_example, list_files, run

pytestmark = pytest.mark.journey

SOUND = (TOP / "examples" / "sandpiper.toml").read_text(encoding="utf-8")

#: A name, what is replaced in a sound record, by what, and what the answer has to say.
FLAWS = [
    ("zero", 'stroke = "24 mm"', 'stroke = "0 mm"', "stroke"),
    ("negative", 'stroke = "24 mm"', 'stroke = "-24 mm"', "stroke"),
    ("nan", 'stroke = "24 mm"', 'stroke = "nan mm"', "stroke"),
    ("huge", 'stroke = "24 mm"', 'stroke = "1e300 mm"', "stroke"),
    ("bare", 'stroke = "24 mm"', 'stroke = "24"', "unit"),
    ("number", 'stroke = "24 mm"', "stroke = 24", "unit"),
    ("short rod", 'connecting_rod = "54 mm"', 'connecting_rod = "11 mm"', "connecting_rod"),
    ("unknown key", 'stroke = "24 mm"', 'strok = "24 mm"', "stroke"),
    ("cavity over length", 'cavity = "8.40 ± 0.02 mm"', 'cavity = "13 mm"', "cavity"),
    ("not TOML", "[engine]", "[engine", ":"),
]


@pytest.mark.parametrize(("name", "old", "new", "told"), FLAWS, ids=[flaw[0] for flaw in FLAWS])
def test_a_flawed_record_is_told_by_line_and_key(name: str, old: str, new: str, told: str, tmp_path: Path) -> None:
    assert old in SOUND
    (tmp_path / "flawed.toml").write_text(SOUND.replace(old, new), encoding="utf-8")
    line = SOUND[: SOUND.index(old)].count("\n") + 1
    before = list_files(tmp_path)
    answer = run("examine", "flawed.toml", "--card", "card.pdf", "--html", "card.html", folder=tmp_path)
    assert answer.status == 2
    assert f"flawed.toml:{line}: error:" in answer.err
    assert told in answer.err
    assert answer.out == ""
    assert list_files(tmp_path) == before
    assert run("check", "flawed.toml", folder=tmp_path).status == 2


def test_what_is_no_record_at_all(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "empty.toml").touch()
    (tmp_path / "wrong.toml").write_bytes(b"\xff\xfe\x00name")
    (tmp_path / "large.toml").write_text("# x\n" * 2_500_000, encoding="utf-8")
    before = list_files(tmp_path)
    for name in ("missing.toml", "folder", "empty.toml", "wrong.toml", "large.toml", ""):
        for command in (("examine", name, "--card", "c.pdf"), ("check", name)):
            answer = run(*command, folder=tmp_path)
            assert answer.status == 2, (command, answer)
            assert (answer.err + answer.out).strip()
    assert list_files(tmp_path) == before


def test_a_hundred_cylinders_are_one_problem_and_quick(tmp_path: Path) -> None:
    head, cylinder = SOUND.split("[[cylinder]]")
    (tmp_path / "many.toml").write_text(head + ("[[cylinder]]" + cylinder) * 100, encoding="utf-8")
    start = time.monotonic()
    answer = run("examine", "many.toml", folder=tmp_path)
    assert answer.status == 2
    assert len(answer.err.splitlines()) <= 4
    assert time.monotonic() - start < 20


def test_papers_never_go_over_the_record_or_where_they_cannot(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    text = (tmp_path / name).read_text(encoding="utf-8")
    for place in (name, ".", "no/such/folder/card.pdf"):
        answer = run("examine", name, "--card", place, folder=tmp_path)
        assert answer.status == 2, place
        assert answer.err.startswith("lapwright: ")
    assert (tmp_path / name).read_text(encoding="utf-8") == text
    assert list_files(tmp_path) == {name}
