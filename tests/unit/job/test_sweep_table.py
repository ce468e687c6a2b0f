"""The table on the disk: whatever breaks it off, the rows that are whole count and the end is the same."""

from __future__ import annotations

import csv
import json
import multiprocessing
import os
import tempfile
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyarrow import parquet

from lapwright.errors import CannotSave, CannotSweep
from lapwright.job.sweep.plan import SweepAsked, SweepPlan
from lapwright.job.sweep.rows import list_columns, work_out, write_head
from lapwright.job.sweep.table import check_place, finish_table, name_part, open_part
from tests.unit.job.sweeps import plan_demo

ROWS = 8


@cache
def make_plan(speed: str = "300 rpm") -> SweepPlan:
    return plan_demo("sandpiper", f"connecting_rod=1 mm:60 mm:{ROWS}", asked=SweepAsked(speed=speed))


@cache
def make_lines() -> bytes:
    return work_out(make_plan(), 0, ROWS)


def write_table(table: Path) -> None:
    with open_part(table, make_plan()) as part:
        part.add(b"".join(make_lines().splitlines(keepends=True)[part.rows :]))
        assert (part.rows, part.flawed) == (ROWS, 2)
        finish_table(part, table, make_plan())


def test_the_finished_csv_is_the_rows_under_their_names(tmp_path: Path) -> None:
    table = tmp_path / "t.csv"
    table.write_text("an older one", encoding="utf-8")
    table.chmod(0o640)
    write_table(table)
    assert table.read_bytes() == write_head(make_plan()) + make_lines()
    assert table.stat().st_mode & 0o777 == 0o640
    assert sorted(path.name for path in tmp_path.iterdir()) == ["t.csv", "t.csv.part"]


def test_the_parquet_holds_what_the_csv_holds_with_its_types_and_its_plan(tmp_path: Path) -> None:
    write_table(tmp_path / "t.csv")
    write_table(tmp_path / "t.parquet")
    read = parquet.read_table(tmp_path / "t.parquet")
    with (tmp_path / "t.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert read.column_names == list(rows[0])
    words = {"": None, "true": True, "false": False}
    for column in list_columns(make_plan()):
        values = read.column(column.name).to_pylist()
        texts = [row[column.name] for row in rows]
        if column.name == "problem":
            assert values == [text or None for text in texts]
        else:
            assert values == [words[text] if text in words else float(text) for text in texts]
    kinds = {name: str(kind) for name, kind in zip(read.schema.names, read.schema.types, strict=True)}
    assert (kinds["row"], kinds["turns"], kinds["settled"], kinds["problem"]) == ("int64", "int64", "bool", "string")
    assert kinds["brake_power_w"] == kinds["connecting_rod_mm"] == "double"
    told = json.loads(read.schema.metadata[b"lapwright.sweep"])
    assert told["vary"] == ["connecting_rod=1 mm:60 mm:8"]
    assert told["speed"] == "300 rpm"


@settings(max_examples=60)
@given(st.floats(0, 1), st.binary(max_size=40), st.sampled_from([".csv", ".parquet"]))
def test_cut_anywhere_with_anything_behind_it_goes_on_to_the_same_table(at: float, behind: bytes, kind: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        whole, cut = Path(folder, f"whole{kind}"), Path(folder, f"cut{kind}")
        write_table(whole)
        kept = name_part(whole).read_bytes()
        start = kept.index(b"\nrow,") + len(write_head(make_plan())) + 1
        size = round(at * len(kept))
        name_part(cut).write_bytes(kept[:size] + (behind.replace(b"\n", b"") if size > start else b""))
        with open_part(cut, make_plan()) as part:
            assert part.rows == max(kept[:size].count(b"\n") - 2, 0)
        write_table(cut)
        assert cut.read_bytes() == whole.read_bytes()


def test_another_sweeps_part_is_left_alone(tmp_path: Path) -> None:
    table = tmp_path / "t.csv"
    write_table(table)
    for content, told in (
        (name_part(table).read_bytes(), "t.csv.part holds rows of another sweep"),
        (b"row,mine\n1,2\n", "t.csv.part is not a part of a sweep"),
    ):
        name_part(table).write_bytes(content)
        with pytest.raises(CannotSweep, match=told), open_part(table, make_plan("400 rpm")):
            pass
        assert name_part(table).read_bytes() == content


def test_two_runs_never_write_the_same_part(tmp_path: Path) -> None:
    table = tmp_path / "t.csv"
    with open_part(table, make_plan()) as part:
        part.add(make_lines())
        with pytest.raises(CannotSweep, match="is being written by another run"), open_part(table, make_plan()):
            pass
    with open_part(table, make_plan()) as part:
        assert part.rows == ROWS


def _hold(table: str, held: object) -> None:
    with open_part(Path(table), make_plan()) as part:
        part.add(make_lines()[:200])
        held.set()  # type: ignore[attr-defined]
        multiprocessing.Event().wait()


def test_a_part_is_free_again_when_its_process_is_killed(tmp_path: Path) -> None:
    table, context = tmp_path / "t.csv", multiprocessing.get_context("spawn")
    held = context.Event()
    process = context.Process(target=_hold, args=(str(table), held))
    process.start()
    assert held.wait(30)
    process.kill()
    process.join()
    with open_part(table, make_plan()) as part:
        assert part.rows == make_lines()[:200].count(b"\n")


def test_a_part_without_rows_is_taken_away_when_nothing_comes_of_it(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), open_part(tmp_path / "t.csv", make_plan()):
        raise ZeroDivisionError
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("folder", "it is a folder"),
        ("folder.csv", "it is a folder"),
        ("mine.csv", "it is the record itself"),
        ("link.csv", "it is the record itself"),
        ("t.txt", "a table's name ends in .csv or .parquet"),
        ("t", "a table's name ends in .csv or .parquet"),
        ("none/t.csv", "there is no folder"),
        ("mine.csv/t.csv", "there is no folder"),
    ],
)
def test_a_place_that_will_not_do_is_refused_at_once(place: str, told: str, tmp_path: Path) -> None:
    for folder in ("folder", "folder.csv"):
        (tmp_path / folder).mkdir()
    record = tmp_path / "mine.csv"
    record.touch()
    (tmp_path / "link.csv").symlink_to(record)
    before = set(tmp_path.rglob("*"))
    with pytest.raises(CannotSave, match=told):
        check_place(tmp_path / place, str(record))
    assert set(tmp_path.rglob("*")) == before


def test_a_table_is_written_through_a_link(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "far" / "t.csv").touch()
    (tmp_path / "near.csv").symlink_to(tmp_path / "far" / "t.csv")
    write_table(tmp_path / "near.csv")
    assert (tmp_path / "near.csv").is_symlink()
    assert (tmp_path / "far" / "t.csv").read_bytes() == write_head(make_plan()) + make_lines()


def test_what_the_file_system_refuses_is_a_sentence(tmp_path: Path) -> None:
    long = tmp_path / ("x" * 300 + ".csv")
    with pytest.raises(CannotSave, match="cannot be written"), open_part(long, make_plan()):
        pass
    with open_part(tmp_path / "t.csv", make_plan()) as part, pytest.raises(CannotSave, match="cannot be written"):
        finish_table(part, tmp_path / ("y" * 250 + ".csv"), make_plan())
    assert os.listdir(tmp_path) == ["t.csv.part"]
