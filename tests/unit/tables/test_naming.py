"""Threads by the names that people write, and what is said to a name that none has."""

from __future__ import annotations

import pytest

from lapwright.errors import (
    BadInput,
    DecimalComma,
    NotText,
    NoUnit,
    OverZero,
    StrayCharacter,
    UnknownThread,
    Unreadable,
)
from lapwright.tables.naming import find_thread, find_threads
from lapwright.tables.threads import ThreadRow, list_threads

SPELLINGS = {
    "7 BA": [
        "7BA", "7 BA", "no 7 BA", "#7 ba", "BA7", "BA 7", "7-BA", "7 B.A.", "No. 7 BA", "  7  ba", "Nº 7 BA", "No.7BA",
        "7 B A", "7 B. A.", "７ＢＡ", "7 BA tap", "7BA grub screw", "7 BA studs", "nut 7 BA", "7 BA RH", "7BA, 0.48",
    ],
    "0 BA": ["O BA", "OBA", "o ba", "No O BA", "0BA"],
    "10 BA": ["1O BA", "10BA"],
    "M3": ["M3", "m3", "M3x0.5", "M 3 x 0.5 mm", "M3×0.5", "metric 3", "M3-6H",
        "M3 bolt", "M3 screw", "M3-bolt", "M3-6H tap", "M3 taper tap", "M3 cap head screw", "M3 x .5", "M3 x O.5",
        "Ｍ３　ｘ　０．５", "M3 (0.5)", "M3, 0.5", "M3 pitch 0.5", "M3 RH", "M3 right-hand", "3 mm screw",
    ],
    "M3 x 0.35": ["m3-0.35", "M3 x .35", "M3 fine", "MF3", "MF 3", "M F 3"],
    "M6": ["M6x1-6g", "M6 - 6H", "M6 4g6g", "M 6 * 1", "M6 coarse"],
    "1/4 BSW": [
        "1/4 BSW", "1/4 Whit", '1/4" Whit.', "1/4 Whitworth", "1/4-20 BSW", '1/4" x 20 BSW', "BSW 1/4", "1/4 BSW x 20",
        "0.250 BSW", "¼ BSW", "1⁄4 bsw.", "British Standard Whitworth 1/4", "1/4 x 20", "1/4 20",
        "1/4 B S W", "1/4 BSW bolts", "1/4 BSW (20 tpi)", "1/4 BSW, 20 tpi", "1/4 BSW right hand", "1/4 inches BSW",
    ],
    "1/4 BSF": [
        "1/4 BSF", "1/4-26 BSF", "1/4 x 26 BSF", "BSF 1/4", "1/4 Whitworth fine", "1/4 Whit. Fine", "B.S.F. 1/4",
        "British Standard Fine 1/4",
    ],
    "1/4 x 26 brass": ["1/4 brass", "1/4 x 26", "1/4 x 26 brass", "1/4 BSB", "brass 1/4"],
    "1/4 x 40 ME": [
        "1/4 x 40 ME", "1/4 x 40", "1/4x40", "1/4 in x 40 tpi", "1/4-40", "0.25 x 40", "¼ x 40", "1/4 in. x 40 t.p.i.",
        '1/4" × 40', "1/4'' x 40 threads per inch", "1/4 model 40",
        "1/4 x 40T", "1/4 x 40 T.P.I.", "1/4 x 40 T P I", "1/4 by 40", "1/4 x 40 model engineer's", "1/4 x 40 M E",
    ],
    "3/16 x 40 ME": ["3/16 x 40", ".1875 x 40", ".187 x 40", "0.188-40"],
    "5/32 x 40 ME": ["5/32 x 40 ME", "5/32-40"],
    "1/8 x 40 ME": ["1/8 x 40"],
    "9/32 BSF": ["9/32 x 26"],
    "G1/8": ["G1/8", "G 1/8", "1/8 BSP", "1/8 BSPP", "1/8 pipe", '1/8" BSP', "1/8 x 28 BSP", "1/8 gas", "G 1/8 A",
        "G1/8A", "G 1/8 B", "1/8 BSP male",
    ],
    "G1 1/4": ["G1 1/4", "G1¼", "1-1/4 BSP", "G11/4", "1 1/4 x 11 BSP"],
    "No 5-40 UNC": ["No 5-40", "5-40 UNC", "#5-40", "5-40", "no.5-40", "No 5 x 40", ".125-40", "No 5 UNC",
        "5/40", "5/40 UNC",
    ],
    "No 0-80 UNF": ["O-80", "#0-80", "0/80"],
    "No 1-64 UNC": ["1/64 UNC", "No 1/64"],
    "No 4-40 UNC": ["4/40", "#4/40", "4/40 tpi"],
    "No 6-32 UNC": ["6/32"],
    "No 10-32 UNF": [
        "10-32", ".190-32", "#10-32 UNF", "0.190 x 32", "10/32", "10/32 UNF", "No 10/32", "10-32 machine screw",
    ],
    "5/16 BSW": ["10/32 BSW"],
    "5/16 x 40 ME": ["10/32 x 40"],
    "1/4-20 UNC": ["1/4-20", "1/4-20 UNC", "1/4 UNC", "1/4-20 UNC-2B", "UNC 1/4", '1/4"-20', "1/4 unified coarse"],
    "1/4-28 UNF": ["1/4-28 UNF", "1/4-28", "1/4 x 28", "1/4 UNF"],
    "5/16-18 UNC": ["0.312-18", "5/16-18"],
    "1 BSW": ["1 BSW", "1-8 BSW", "1 x 8"],
    "1 x 26 brass": ["1 x 26", "1 - 26 brass"],
}  # fmt: skip


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in SPELLINGS.items() for text in texts])
def test_a_thread_is_found_by_what_people_write(name: str, text: str) -> None:
    assert find_thread(text).name == name


@pytest.mark.parametrize("row", list_threads(), ids=lambda row: row.name)
def test_what_has_a_thread_and_its_hand_change_nothing_of_its_name(row: ThreadRow) -> None:
    assert find_thread(f"{row.name} bolt") is find_thread(f"{row.name} RH tap") is find_thread(f"nut {row.name}") is row
    with pytest.raises(UnknownThread, match="left-handed") as refused:
        find_thread(f"{row.name} LH")
    assert refused.value.instead.endswith(f': "{row.name}"')


def test_the_way_of_writing_decides_between_forms_and_the_others_are_told() -> None:
    assert [row.name for row in find_threads("1/4-20")] == ["1/4-20 UNC", "1/4 BSW"]
    assert [row.name for row in find_threads("1/4 x 20")] == ["1/4 BSW", "1/4-20 UNC"]
    assert [row.name for row in find_threads("1/4 x 26")] == ["1/4 x 26 brass", "1/4 BSF"]
    assert [row.name for row in find_threads("1/8-40")] == ["1/8 BSW", "1/8 x 40 ME"]


NEAREST = [
    ("7AB", ["7 BA"]),
    ("1/4 BSQ", ["1/4 BSW"]),
    ("1/4 x 41", ["1/4 x 40 ME", "1/4 x 32 ME", "1/4 BSF"]),
    ("1/4-19", ["1/4-20 UNC", "1/4-28 UNF", "No 12-24 UNC"]),
    ("M3.1", ["M3", "M3.5"]),
    ("M3 x 0.6", ["M3", "M3 x 0.35"]),
    ("M11", ["M10", "M12"]),
    ("M12 x 2", ["M12", "M12 x 1.5", "M12 x 1.25"]),
    ("M4 x 20 screw", ["M4", "M4 x 0.5", "M4.5"]),
    ("M3.1 LH", ["M3", "M3.5"]),
    ("7 BA x 0.5", ["7 BA", "6 BA", "8 BA"]),
    ("3/8 x 25 BSF", ["3/8 BSF"]),
    ("1/8 BSP x 26", ["G1/8"]),
    ("0.3 BSW", ["5/16 BSW"]),
    ("No 13-24", ["No 12-24 UNC", "No 12-28 UNF", "1/4-28 UNF"]),
    ("7", ["7 BA", "M7"]),
    ("7 screw", ["7 BA", "M7"]),
    ("6.35 mm x 40", ["1/4 x 40 ME", "1/4 x 32 ME", "1/4-28 UNF"]),
    ("6.35 x 40", ["1/4 x 40 ME", "1/4 x 32 ME", "1/4-28 UNF"]),
    ("6.35", ["1/4 BSW", "1/4 BSF", "1/4 x 26 brass"]),
    ("6.1 mm", ["M6", "1/4 BSW", "1/4 BSF"]),
    ("4 x 0.7", ["M4", "M4 x 0.5", "M4.5"]),
    ("40 x 1/4", ["1/4 x 40 ME"]),
    ("40 tpi x 1/4", ["1/4 x 40 ME"]),
    ("40-1/4", ["1/4 x 40 ME"]),
    ("20 x 1/4 BSW", ["1/4 BSW"]),
    ("26 x 1/4", ["1/4 x 26 brass", "1/4 BSF"]),
]


@pytest.mark.parametrize(("text", "near"), NEAREST)
def test_a_name_that_no_thread_has_is_refused_with_the_nearest(text: str, near: list[str]) -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread(text)
    assert refused.value.message == f'"{text}" is no thread of the tables'
    assert refused.value.instead == "the nearest: " + " or ".join(f'"{name}"' for name in near)


ENDS = [
    ("M20", "metric coarse threads end at M12", ["M12"]),
    ("M14 bolt", "metric coarse threads end at M12", ["M12"]),
    ("M16 x 1.5", "metric threads end at M12", ["M12 x 1.5"]),
    ("M0", "metric coarse threads begin at M1", ["M1"]),
    ("17 BA", "BA threads end at 16 BA", ["16 BA"]),
    ("G3", "BSP threads end at G2", ["G2"]),
    ("1/32 BSW", "BSW threads begin at 1/16 in", ["1/16 BSW"]),
    ("9/16 UNC", "UNC threads end at 1/2 in", ["1/2-13 UNC"]),
    ("9/16-18", "unified threads end at 1/2 in", ["9/16 BSF", "9/16 BSW", "1/2-20 UNF"]),
    ('1 1/8"-12', "inch threads end at 1 in", ["1 BSF", "1 BSW", "1 x 26 brass"]),
    ("1 1/8 x 12", "inch threads end at 1 in", ["1 BSF", "1 BSW", "1 x 26 brass"]),
    ("1/64", "inch threads begin at No 0", ["No 0-80 UNF"]),
]


@pytest.mark.parametrize(("text", "end", "near"), ENDS)
def test_a_size_beyond_a_table_is_refused_with_where_it_ends(text: str, end: str, near: list[str]) -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread(text)
    assert refused.value.message == f'"{text}" is no thread of the tables, where {end}'
    assert refused.value.instead == "the nearest: " + " or ".join(f'"{name}"' for name in near)


QUARTERS = '"1/4 BSW", "1/4 BSF", "1/4 x 26 brass", "1/4 x 32 ME", "1/4 x 40 ME", "1/4-20 UNC" or "1/4-28 UNF"'


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("1/4", QUARTERS),
        ("thread 1/4", QUARTERS),
        ("1/4 LH", QUARTERS),
        ("1/4 ME", '"1/4 x 32 ME" or "1/4 x 40 ME"'),
        ("M8 fine", '"M8 x 1" or "M8 x 0.75"'),
        ("MF8", '"M8 x 1" or "M8 x 0.75"'),
        ("No 5", '"No 5-40 UNC" or "No 5-44 UNF"'),
    ],
)
def test_a_name_that_leaves_the_pitch_open_is_not_guessed_at(text: str, ways: str) -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread(text)
    assert str(refused.value) == f'"{text}" fits more than one thread: say which: {ways}'


def test_a_size_that_has_fine_pitches_only_is_asked_back_with_them() -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread("M9")
    assert str(refused.value) == '"M9" has no coarse pitch in the tables: say which: "M9 x 1" or "M9 x 0.75"'


@pytest.mark.parametrize("text", ["1/8 NPT", "NPTF 1/8", "R1/8", "BSPT 1/8", "Rc 1/8", "1/8 BSP taper"])
def test_a_taper_pipe_thread_is_not_taken_for_a_parallel_one(text: str) -> None:
    with pytest.raises(UnknownThread, match="taper pipe thread, of which there is no table here") as refused:
        find_thread(text)
    assert ("G1/8" in str(refused.value)) == ("NPT" not in text)


def test_the_parallel_thread_that_a_taper_one_seals_in_is_refused_with_its_like() -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread("Rp1/8")
    assert "taper one seals in" in refused.value.message
    assert refused.value.instead == 'form and basic sizes are those of the plain parallel one: "G1/8"'


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("M4 LH", "M4"),
        ("M4-LH", "M4"),
        ("M4 L.H.", "M4"),
        ("left-hand M4", "M4"),
        ("M4 (left hand)", "M4"),
        ("1/4 BSW LH", "1/4 BSW"),
        ("1/4 BSW left handed nut", "1/4 BSW"),
        ("3/8 x 32 left", "3/8 x 32 ME"),
        ("1/4-20 UNC-2A-LH", "1/4-20 UNC"),
    ],
)
def test_a_left_hand_thread_is_refused_with_the_right_hand_one(text: str, name: str) -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread(text)
    assert refused.value.message == f'"{text}" is left-handed, and its sizes are those of the right-hand one'
    assert refused.value.instead == f'write it without the hand: "{name}"'


@pytest.mark.parametrize(
    ("text", "better"),
    [
        ("M3,5", "M3.5"),
        ("M4x0,7", "M4x0.7"),
        ("M4,0.7", "M4 x 0.7"),
        ("1/4,40", "1/4 x 40"),
        ("0,250 x 40", "0.250 x 40"),
        ("1/4 x 26,5", "1/4 x 26.5"),
    ],
)
def test_a_comma_in_a_number_is_refused_with_the_name_that_is_meant(text: str, better: str) -> None:
    with pytest.raises(DecimalComma) as refused:
        find_thread(text)
    assert refused.value.instead == f'write the decimals after a point: "{better}"'


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("", Unreadable),
        ("   ", Unreadable),
        ("x" * 100_000, Unreadable),
        ("7 BA " * 50, Unreadable),
        ("hello", Unreadable),
        ("-7 BA", Unreadable),
        ("M-3", Unreadable),
        ("BA -7", Unreadable),
        ("1/4 x -20", Unreadable),
        ("x 40", Unreadable),
        ("M3x", Unreadable),
        ("1/4--20", Unreadable),
        ("1/4 x 40 x 20", Unreadable),
        ("1/4 BSW UNC", Unreadable),
        ("M", Unreadable),
        ("M1e3", Unreadable),
        ("M3,5", DecimalComma),
        ("20", Unreadable),
        ("bolt", Unreadable),
        ("LH", Unreadable),
        ("M4²", Unreadable),
        ("1/8 A", Unreadable),
        ("1/4 x bolt", Unreadable),
        ("1/0 BSW", OverZero),
        ("1/4 BSW\x00", StrayCharacter),
        (7, NoUnit),
        (3.5, NoUnit),
        (float("nan"), BadInput),
        (None, NotText),
        (True, NotText),
        (["7 BA"], NotText),
    ],
)
def test_what_is_no_name_of_a_thread_is_refused_in_a_sentence(written: object, kind: type[BadInput]) -> None:
    with pytest.raises(kind) as refused:
        find_thread(written)
    assert 0 < len(str(refused.value)) < 250


def test_no_threads_to_the_inch_are_no_thread() -> None:
    with pytest.raises(UnknownThread):
        find_thread("1/4 x 0")
