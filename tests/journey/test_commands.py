"""Every command as a stranger meets it."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import jsonschema
import pytest

from tests.journey.program import PROGRAM, bring_example, list_files, run

pytestmark = pytest.mark.journey


def test_a_blank_record_opens_and_says_what_is_not_known(tmp_path: Path) -> None:
    assert run("new", "wren.toml", "--name", "Wren", folder=tmp_path).status == 0
    assert run("check", "wren.toml", folder=tmp_path).status == 0
    answer = run("examine", "wren.toml", folder=tmp_path)
    assert answer.status == 0
    assert "Wren" in answer.out
    assert "not known" in answer.out


def test_new_never_writes_over_a_file(tmp_path: Path) -> None:
    (tmp_path / "wren.toml").write_text("mine", encoding="utf-8")
    answer = run("new", "wren.toml", folder=tmp_path)
    assert answer.status == 2
    assert "exists" in answer.err
    assert (tmp_path / "wren.toml").read_text(encoding="utf-8") == "mine"


def test_new_asks_and_asks_again_for_what_it_cannot_read(tmp_path: Path) -> None:
    typed = "3/4\n3/4 in\n20 mm\n\n\n2 mm\n"
    answer = run("new", "wren.toml", "--ask", folder=tmp_path, typed=typed)
    assert answer.status == 0
    assert "has no unit" in answer.out
    text = (tmp_path / "wren.toml").read_text(encoding="utf-8")
    assert 'bore = "3/4 in"' in text
    assert 'steam_port = "2 mm"' in text
    assert run("check", "wren.toml", folder=tmp_path).status == 0


def test_json_has_the_shape_of_the_results_format(tmp_path: Path) -> None:
    answer = run("examine", bring_example("tern", tmp_path), "--json", folder=tmp_path)
    results = json.loads(answer.out)
    assert results["format"] == 1
    assert {"engine", "problems", "assumed", "cylinders", "findings", "cures"} <= results.keys()
    cylinder = results["cylinders"][0]
    assert {"name", "piston_area_mm2", "laps_mm", "ends", "chest_to_exhaust_deg", "least_exhaust_way_mm"} <= set(
        cylinder
    )
    end = cylinder["ends"]["head"]
    assert set(end["events"]) == {"admission", "cut_off", "release", "compression"}
    assert end["spread"]["cut_off.crank_deg"] > 0
    finding = results["findings"][0]
    told = {"code", "cylinder", "end", "severity", "size", "unit", "title", "because", "effect", "doubt", "check_next"}
    assert told <= finding.keys()
    cure = results["cures"][0]
    assert {"code", "cylinder", "title", "answers", "work", "steps", "set", "after"} <= cure.keys()
    assert cure["after"].keys() == cylinder.keys()


def test_the_schema_accepts_the_demo_engines(tmp_path: Path) -> None:
    import tomllib

    schema = json.loads(run("schema", folder=tmp_path).out)
    jsonschema.Draft202012Validator.check_schema(schema)
    for name in ("tern", "dunlin", "knot", "merganser"):
        record = tomllib.loads((tmp_path / bring_example(name, tmp_path)).read_text(encoding="utf-8"))
        jsonschema.validate(record, schema)


def test_card_and_page_are_written_and_named(tmp_path: Path) -> None:
    name = bring_example("tern", tmp_path)
    for paper in ("a4", "letter"):
        answer = run("examine", name, "--card", "c.pdf", "--html", "c.html", "--paper", paper, folder=tmp_path)
        assert answer.status == 0, answer.err
        assert "Written: c.pdf" in answer.out
        assert (tmp_path / "c.pdf").read_bytes().startswith(b"%PDF")
        assert "Tern" in (tmp_path / "c.html").read_text(encoding="utf-8")
    assert list_files(tmp_path) == {name, "c.pdf", "c.html"}


def test_a_closed_pipe_is_no_accident(tmp_path: Path) -> None:
    name = bring_example("tern", tmp_path)
    line = f"'{PROGRAM}' examine {name} --json | head -n 1"
    done = subprocess.run(["/bin/bash", "-c", line], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.stdout == "{\n"
    assert done.stderr == ""


def test_a_wrong_word_gets_help_and_status_2(tmp_path: Path) -> None:
    for words in (
        ("examin",),
        ("examine",),
        ("examine", "x.toml", "--crad", "c.pdf"),
        ("examine", "x", "--paper", "a5"),
    ):
        answer = run(*words, folder=tmp_path)
        assert answer.status == 2
        assert answer.err
