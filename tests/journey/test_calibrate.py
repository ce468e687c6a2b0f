"""`lapwright calibrate` as a stranger meets it: with tests, without, and with such as cannot be."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.journey.program import bring_example, list_files, run

pytestmark = pytest.mark.journey

STEADY = '\n[[bench_test]]\nsupply_pressure = "0.6 bar"\nspeed = "150 rpm"\nload = "112 mN m"\n'


def bring_with(name: str, tests: str, folder: Path) -> str:
    """A demo engine with bench tests added."""
    path = folder / bring_example(name, folder)
    path.write_text(path.read_text(encoding="utf-8") + tests, encoding="utf-8")
    return path.name


def test_the_demo_engine_tells_what_its_tests_say_and_what_they_leave_open(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    answer = run("calibrate", name, folder=tmp_path)
    assert answer.status == 0, answer.err
    assert answer.out.startswith("Sandpiper: friction and leaks from 5 bench tests\n====")
    for words in (
        "before the tests",
        "friction pressure  0.12 ± 0.04 bar",
        "Test 2: 0.6 ± 0.02 bar of air, 150 ± 5 rpm, against 112 mN m",
        "left over, with a doubt of",
        "by the fit, 15 ± 1 s measured",
        "The valve face gap and the gland gap cannot be told apart",
        "What to try next",
        "To put into the record, under [running]:",
        'friction_pressure = "0.1',
        'from_tests = "friction_pressure, ring_gap',
        "low pressure only",
        "clear of flywheel",
        "the\ninspector",
    ):
        assert words in answer.out or words in " ".join(answer.out.split()), words
    assert all(len(line) <= 80 for line in answer.out.splitlines() if " = " not in line)
    assert list_files(tmp_path) == {name}


def test_one_test_alone_says_that_friction_and_leaks_cannot_be_told_apart(tmp_path: Path) -> None:
    name = bring_example("plover", tmp_path)
    answer = run("calibrate", bring_with("plover", STEADY, tmp_path), folder=tmp_path)
    assert answer.status == 0, answer.err
    told = " ".join(answer.out.split())
    assert "Friction and leaks cannot be told apart by pressure and speed alone" in told
    assert "Run it down: shut the supply, open the drains" in told
    assert name == "plover.toml"


def test_write_puts_it_into_the_record_once_and_for_all(tmp_path: Path) -> None:
    name = bring_example("sandpiper", tmp_path)
    shutil.copy(tmp_path / name, tmp_path / "before.toml")
    answer = run("calibrate", name, "--write", folder=tmp_path)
    assert answer.status == 0, answer.err
    assert f"Written into {name}" in answer.out
    before = (tmp_path / "before.toml").read_text(encoding="utf-8").splitlines()
    after = (tmp_path / name).read_text(encoding="utf-8").splitlines()
    gone = [line for line in before if line not in after]
    assert len(gone) == 2
    assert all(line.startswith(("friction_pressure", "ring_gap")) for line in gone)
    assert run("check", name, folder=tmp_path).status == 0
    run("calibrate", name, "--write", folder=tmp_path)
    second = (tmp_path / name).read_bytes()
    answer = run("calibrate", name, "--write", folder=tmp_path)
    assert (tmp_path / name).read_bytes() == second
    assert run("run", name, folder=tmp_path).status == 0


def test_json_is_one_object_with_every_figure(tmp_path: Path) -> None:
    answer = run("calibrate", bring_example("sandpiper", tmp_path), "--json", folder=tmp_path)
    results = json.loads(answer.out)
    assert (results["format"], results["engine"], results["settled"], results["written"]) == (
        1,
        "Sandpiper",
        True,
        False,
    )
    assert len(results["figures"]) == 4
    assert [reading["kind"] for reading in results["readings"]] == [
        "torque", "torque", "air flow", "torque", "air flow", "run-down", "decay",
    ]  # fmt: skip
    assert all(verdict["code"] and verdict["sentence"] for verdict in results["verdicts"])


def test_a_record_without_tests_is_told_how_to_write_one(tmp_path: Path) -> None:
    name = bring_example("plover", tmp_path)
    answer = run("calibrate", name, folder=tmp_path)
    assert answer.status == 2
    assert answer.out == ""
    assert "[[bench_test]]" in answer.err
    answer = run("calibrate", name, "--json", folder=tmp_path)
    assert answer.status == 2
    assert "[[bench_test]]" in json.loads(answer.out)["no_calibration"]


def test_what_cannot_be_is_one_sentence_and_status_2(tmp_path: Path) -> None:
    missing = run("calibrate", bring_with("knot", STEADY, tmp_path), folder=tmp_path)
    assert (missing.status, missing.out) == (2, "")
    assert "valve.cavity" in missing.err
    flawed = run("calibrate", bring_with("plover", STEADY.replace('"150 rpm"', '"150"'), tmp_path), folder=tmp_path)
    assert flawed.status == 2
    assert "has no unit" in flawed.err
    absent = run("calibrate", "wren.toml", folder=tmp_path)
    assert absent.status == 2
    assert "does not exist" in absent.err


def test_a_test_that_lacks_something_is_left_out_with_a_word(tmp_path: Path) -> None:
    half = '\n[[bench_test]]\nspeed = "150 rpm"\n\n[[bench_test]]\nrun_down_from = "300 rpm"\nrun_down_time = "0.7 s"\n'
    answer = run("calibrate", bring_with("plover", half, tmp_path), folder=tmp_path)
    assert answer.status == 0
    assert "supply_pressure is missing beside it" in answer.err
    assert "from 1 bench test\n" in answer.out
    assert "Test 2: run down from 300 rpm" in answer.out


def test_an_engine_on_steam_can_be_calibrated_too(tmp_path: Path) -> None:
    tests = STEADY.replace("0.6 bar", "3 bar").replace("112 mN m", "6 N m")
    answer = run("calibrate", bring_with("merganser", tests, tmp_path), folder=tmp_path)
    assert answer.status == 0, answer.err
    assert "3 bar of steam, 150 rpm, against 6 N m" in answer.out
    assert "Steam scalds" in answer.out
