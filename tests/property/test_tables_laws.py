"""Laws of the tables: every row says what it rests on, and every thread is found by any spelling of its name."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.errors import BadInput, UnknownThread
from lapwright.tables.bearings import list_bearings, list_clearance_rules
from lapwright.tables.drills import list_drills
from lapwright.tables.elastomers import list_elastomers
from lapwright.tables.fits import list_fits
from lapwright.tables.gaskets import list_gaskets
from lapwright.tables.inserts import list_inserts
from lapwright.tables.material_rows import list_materials
from lapwright.tables.naming import find_thread, find_threads
from lapwright.tables.orings import list_grooves, list_orings
from lapwright.tables.packings import list_packing_limits, list_packings, list_widths
from lapwright.tables.paints import list_paint_rows
from lapwright.tables.reading import read_rows
from lapwright.tables.set_screws import list_keys, list_set_screws, list_sockets
from lapwright.tables.solders import list_solders
from lapwright.tables.threads import ThreadRow, list_threads

NAMES = sorted(path.name.removesuffix(".csv") for path in files("lapwright.tables").joinpath("data").iterdir())


@pytest.mark.parametrize("name", NAMES)
def test_every_row_says_where_it_comes_from_and_that_it_is_recalled_where_it_is(name: str) -> None:
    rows = read_rows(name)
    assert rows
    for row in rows:
        assert None not in row.values()
        assert row["source"]
        for column in (column for column in row if column.endswith("source")):
            assert row[column].lower() != "same"
            assert row[column] == row[column].strip()
            assert "memory" not in row[column].replace("from memory", ""), row[column]


def test_every_typed_row_says_whether_it_is_recalled() -> None:
    lists = (
        list_threads, list_drills, list_materials, list_set_screws, list_keys, list_sockets, list_fits, list_orings,
        list_grooves, list_elastomers, list_solders, list_paint_rows, list_widths, list_packing_limits, list_packings,
        list_bearings, list_clearance_rules, list_inserts, list_gaskets,
    )  # fmt: skip
    for rows in (list_rows() for list_rows in lists):
        assert all(row.source for row in rows)
        assert all(row.from_memory for row in rows if "from memory" in row.source)
    assert not any(row.from_memory for row in list_threads() if "from memory" not in row.source)


def _respell(name: str, *, gap: str, cross: str, upper: bool, sign: str) -> str:
    text = name.replace(" x ", f"{gap}{cross}{gap}").replace("No ", sign)
    return text.upper() if upper else text.lower()


@given(
    st.sampled_from(list_threads()),
    st.sampled_from(("", " ", "  ")),
    st.sampled_from(("x", "×", "X", "*")),
    st.booleans(),
    st.sampled_from(("No ", "no. ", "#", "No.", "№ ")),
)
def test_a_name_is_read_however_it_is_spelt(row: ThreadRow, gap: str, cross: str, upper: bool, sign: str) -> None:
    assert find_thread(_respell(row.name, gap=gap, cross=cross, upper=upper, sign=sign)) is row


@given(st.sampled_from(list_threads()))
def test_size_and_pitch_alone_find_the_thread_or_one_that_is_its_like(row: ThreadRow) -> None:
    size = row.name.split("-")[0].split(" BS")[0].split(" x ")[0]
    if row.series in ("BA", "BSP") or row.series.startswith("metric"):
        return
    found = find_threads(f"{size} x {round(0.0254 / row.pitch)}")
    assert row in found
    assert {(each.major, each.pitch) for each in found} == {(row.major, row.pitch)}


PIECES = st.sampled_from(
    ["1/4", "M", "3", ".5", "7", "BA", "x", "-", " ", "BSW", "No", "#", '"', "G", "1 1/2", "UNC", "½", "×", "tpi", "0",
     "26", "me", "/", ",", "in", "é", "9999999", "brass", "fine", "bspt", "+", "1/0", "LH", "A", "O", "Rp", "tap",
     "t", "mm", "６", "10/32", "(", "40"]
)  # fmt: skip


@given(st.one_of(st.text(max_size=70), st.lists(PIECES, max_size=7).map("".join)))
def test_whatever_is_written_is_a_thread_or_is_refused_with_threads_that_there_are(text: str) -> None:
    try:
        found = find_threads(text)
    except UnknownThread as refused:
        near = re.findall(r'"([^"]+)"', refused.instead)
        most = 7 if refused.instead.startswith("say which") else 3
        assert len(near) <= most
        assert all(find_thread(name).name == name for name in near)
    except BadInput:
        pass
    else:
        assert found
        assert len({(row.major, row.pitch) for row in found}) == 1
