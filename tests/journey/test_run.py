"""`lapwright run` and `lapwright start` as a stranger meets them: on air, on steam, and asked for the impossible."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.journey.program import PROGRAM, TOP, bring_example, list_files, run

pytestmark = pytest.mark.journey

RUNNERS = ("curlew", "dunlin", "merganser", "plover", "sandpiper", "tern")


def ask(command: str, name: str, *options: str, folder: Path) -> Any:
    """What a command answers about a demo engine, as JSON."""
    answer = run(command, bring_example(name, folder), *options, "--json", folder=folder)
    assert answer.status == 0, answer.err
    return json.loads(answer.out)


def test_every_demo_engine_runs_on_air_or_on_steam(tmp_path: Path) -> None:
    for n, name in enumerate(RUNNERS):
        fluid = ("air", "steam")[n % 2]
        told = ask("run", name, "--fluid", fluid, "--speed", "300 rpm", folder=tmp_path)
        assert (told["format"], told["fluid"], told["settled"]) == (1, fluid, True)
        assert told["speed_rpm"] == pytest.approx(300)
        # The Curlew is set for the other direction.
        forward = name != "curlew"
        for cylinder in told["cylinders"]:
            assert (cylinder["mass_per_turn_mg"] > 0) == forward
            for end in ("head", "crank"):
                mean = cylinder["ends"][end]["mean_effective_pressure_kpa"]
                assert (mean > 0) == forward, (name, end)
                assert mean <= told["supply_pressure_kpa"] - told["exhaust_pressure_kpa"]


def test_the_page_says_what_it_does_at_what(tmp_path: Path) -> None:
    answer = run("run", bring_example("tern", tmp_path), "--speed", "300 rpm", folder=tmp_path)
    assert answer.status == 0
    assert answer.out.startswith("Tern on air at 2.00 bar, 300 rpm\n================================\n\nIt gives ")
    for words in (
        "Where the power goes",
        "Where the air goes",
        "head end",
        "K compression",
        "Compressed air stores energy",
    ):
        assert words in answer.out
    assert list_files(tmp_path) == {"tern.toml"}


def test_a_cure_is_proved_beside_the_engine_as_found(tmp_path: Path) -> None:
    told = ask("run", "tern", "--compare", "shorten-valve", folder=tmp_path)
    assert told["gain"]["brake_power_percent"] > 2
    assert told["gain"]["least_pressure_kpa"]["after"] < told["gain"]["least_pressure_kpa"]["before"]


def test_a_load_is_carried_at_the_speed_that_is_told(tmp_path: Path) -> None:
    told = ask("run", "sandpiper", "--load", "50 mN m", folder=tmp_path)
    assert told["mean_torque_mnm"] == pytest.approx(50, rel=2e-3)
    again = ask("run", "sandpiper", "--speed", f"{told['speed_rpm']} rpm", folder=tmp_path)
    assert again["mean_torque_mnm"] == pytest.approx(told["mean_torque_mnm"])


def test_half_a_twin_starts_where_its_other_half_does_not(tmp_path: Path) -> None:
    whole = ask("start", "tern", folder=tmp_path)
    assert whole["forward"]["starts_percent"] == 100
    assert whole["forward"]["least_pressure_kpa"] > 0
    halves = [ask("start", "tern", "--dead", name, folder=tmp_path)["forward"] for name in "AB"]
    assert all(half["starts_percent"] < 90 and half["least_pressure_kpa"] is None for half in halves)
    page = run("start", "tern.toml", folder=tmp_path)
    assert page.status == 0
    assert "starts by itself from every angle" in page.out


KNOT = "cylinder A cannot be run: not known: valve.cavity: measure and write them into the record"
#: What is asked of a demo engine, and the sentence that answers it.
REFUSED = [
    (
        ("run", "tern", "--exhaust", "3 bar"),
        "the engine cannot be run: its supply, 2.00 bar, is below its exhaust, 3.00 bar: check both pressures",
    ),
    (
        ("run", "tern", "--speed", "0 rpm"),
        '"0 rpm" is not more than nothing: write the speed alone, like "600 rpm"',
    ),
    (("run", "tern", "--speed", "600"), '600 has no unit: write "600 rpm"'),
    (
        ("run", "tern", "--dead", "C", "--json"),
        "cylinder C cannot be run: the engine has none of that name: its cylinders: A, B",
    ),
    (("run", "knot", "--json"), KNOT),
    (("start", "knot"), KNOT),
    (("start", "tern", "--pressure", "2", "--json"), '2 has no unit: write "2 bar" or "2 psi"'),
    (
        ("run", "sandpiper", "--compare", "polish"),
        'the engine after "polish" cannot be run: it has no cure of that name: none is known for it',
    ),
    (
        ("run", "tern", "--pressure", "500 bar"),
        "the engine cannot be run: 501 bar abs is beyond what can be worked out",
    ),
]


@pytest.mark.parametrize(("asked", "sentence"), REFUSED, ids=[" ".join(asked) for asked, _ in REFUSED])
def test_the_impossible_is_refused_in_one_sentence(asked: tuple[str, ...], sentence: str, tmp_path: Path) -> None:
    command, name, *options = asked
    answer = run(command, bring_example(name, tmp_path), *options, folder=tmp_path)
    assert answer.status == 2
    assert answer.out == ""
    assert answer.err == f"lapwright: {sentence}\n"


def test_an_unknown_fluid_or_option_gets_help_and_status_2(tmp_path: Path) -> None:
    name = bring_example("tern", tmp_path)
    for options, word in (
        (("--fluid", "water"), "steam"),
        (("--presure", "2 bar"), "--pressure"),
        (("--speed",), "--speed"),
    ):
        answer = run("run", name, *options, folder=tmp_path)
        assert (answer.status, answer.out) == (2, "")
        assert word in answer.err


def test_a_flawed_record_is_told_by_its_problems_alone(tmp_path: Path) -> None:
    sound = (TOP / "examples" / "sandpiper.toml").read_text(encoding="utf-8")
    (tmp_path / "flawed.toml").write_text(sound.replace('stroke = "24 mm"', 'stroke = "24"'), encoding="utf-8")
    for command in ("run", "start"):
        page = run(command, "flawed.toml", folder=tmp_path)
        assert (page.status, page.out) == (2, "")
        assert re.match(r"flawed\.toml:\d+: error: ", page.err)
        told = run(command, "flawed.toml", "--json", folder=tmp_path)
        assert told.status == 2
        results = json.loads(told.out)
        assert results["problems"][0]["code"] == "no-unit"
        assert results["cylinders"] == []


def test_a_piston_that_touches_its_cover_is_warned_of_and_still_runs(tmp_path: Path) -> None:
    text = (TOP / "examples" / "tern.toml").read_text(encoding="utf-8")
    (tmp_path / "tight.toml").write_text(
        text.replace('clearance_head = "0.8 mm"', 'clearance_head = "0 mm"'), encoding="utf-8"
    )
    answer = run("run", "tight.toml", "--json", folder=tmp_path)
    assert answer.status == 0
    assert "lets the piston touch the cover" in answer.err
    assert json.loads(answer.out)["settled"]


def test_a_terminal_without_dots_gets_a_page_of_plain_figures(tmp_path: Path) -> None:
    name = bring_example("tern", tmp_path)
    for command in ("run", "start"):
        done = subprocess.run(
            [str(PROGRAM), command, name],
            cwd=tmp_path,
            env={"PATH": "/usr/bin:/bin", "HOME": str(tmp_path), "PYTHONIOENCODING": "latin-1"},
            capture_output=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        assert done.stdout.decode("latin-1").startswith("Tern on air at 2.00 bar")
