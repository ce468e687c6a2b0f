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

SPELLINGS = {
    "7 BA": [
        "7BA", "7 BA", "no 7 BA", "#7 ba", "BA7", "BA 7", "7-BA", "7 B.A.", "No. 7 BA", "  7  ba", "Nº 7 BA", "No.7BA",
    ],
    "M3": ["M3", "m3", "M3x0.5", "M 3 x 0.5 mm", "M3×0.5", "metric 3", "M3-6H"],
    "M3 x 0.35": ["m3-0.35", "M3 x .35", "M3 fine"],
    "M6": ["M6x1-6g", "M6 - 6H", "M6 4g6g", "M 6 * 1", "M6 coarse"],
    "1/4 BSW": [
        "1/4 BSW", "1/4 Whit", '1/4" Whit.', "1/4 Whitworth", "1/4-20 BSW", '1/4" x 20 BSW', "BSW 1/4", "1/4 BSW x 20",
        "0.250 BSW", "¼ BSW", "1⁄4 bsw.", "British Standard Whitworth 1/4", "1/4 x 20", "1/4 20",
    ],
    "1/4 BSF": ["1/4 BSF", "1/4-26 BSF", "1/4 x 26 BSF", "BSF 1/4"],
    "1/4 x 26 brass": ["1/4 brass", "1/4 x 26", "1/4 x 26 brass", "1/4 BSB", "brass 1/4"],
    "1/4 x 40 ME": [
        "1/4 x 40 ME", "1/4 x 40", "1/4x40", "1/4 in x 40 tpi", "1/4-40", "0.25 x 40", "¼ x 40", "1/4 in. x 40 t.p.i.",
        '1/4" × 40', "1/4'' x 40 threads per inch", "1/4 model 40",
    ],
    "3/16 x 40 ME": ["3/16 x 40", ".1875 x 40", ".187 x 40", "0.188-40"],
    "5/32 x 40 ME": ["5/32 x 40 ME", "5/32-40"],
    "1/8 x 40 ME": ["1/8 x 40"],
    "9/32 BSF": ["9/32 x 26"],
    "G1/8": ["G1/8", "G 1/8", "1/8 BSP", "1/8 BSPP", "1/8 pipe", '1/8" BSP', "1/8 x 28 BSP", "1/8 gas"],
    "G1 1/4": ["G1 1/4", "G1¼", "1-1/4 BSP", "G11/4", "1 1/4 x 11 BSP"],
    "No 5-40 UNC": ["No 5-40", "5-40 UNC", "#5-40", "5-40", "no.5-40", "No 5 x 40", ".125-40", "No 5 UNC"],
    "No 10-32 UNF": ["10-32", ".190-32", "#10-32 UNF", "0.190 x 32"],
    "1/4-20 UNC": ["1/4-20", "1/4-20 UNC", "1/4 UNC", "1/4-20 UNC-2B", "UNC 1/4", '1/4"-20', "1/4 unified coarse"],
    "1/4-28 UNF": ["1/4-28 UNF", "1/4-28", "1/4 x 28", "1/4 UNF"],
    "5/16-18 UNC": ["0.312-18", "5/16-18"],
    "1 BSW": ["1 BSW", "1-8 BSW", "1 x 8"],
    "1 x 26 brass": ["1 x 26", "1 - 26 brass"],
}  # fmt: skip


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in SPELLINGS.items() for text in texts])
def test_a_thread_is_found_by_what_people_write(name: str, text: str) -> None:
    assert find_thread(text).name == name


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
    ("M20", ["M12"]),
    ("M0", ["M1"]),
    ("17 BA", ["16 BA"]),
    ("7 BA x 0.5", ["7 BA", "6 BA", "8 BA"]),
    ("3/8 x 25 BSF", ["3/8 BSF"]),
    ("G3", ["G2"]),
    ("1/8 BSP x 26", ["G1/8"]),
    ("0.3 BSW", ["5/16 BSW"]),
    ("No 13-24", ["No 12-24 UNC", "No 12-28 UNF", "1/4-28 UNF"]),
    ("7", ["7 BA", "M7"]),
    ("6.35 mm x 40", ["M6", "M6 x 0.75", "M7"]),
]


@pytest.mark.parametrize(("text", "near"), NEAREST)
def test_a_name_that_no_thread_has_is_refused_with_the_nearest(text: str, near: list[str]) -> None:
    with pytest.raises(UnknownThread) as refused:
        find_thread(text)
    assert refused.value.message == f'"{text}" is no thread of the tables'
    assert refused.value.instead == "the nearest: " + " or ".join(f'"{name}"' for name in near)


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("1/4", ["1/4 BSW", "1/4 BSF", "1/4 x 26 brass"]),
        ("1/4 ME", ["1/4 x 32 ME", "1/4 x 40 ME"]),
        ("M9", ["M9 x 1", "M9 x 0.75"]),
        ("M8 fine", ["M8 x 1", "M8 x 0.75"]),
        ("No 5", ["No 5-40 UNC", "No 5-44 UNF"]),
    ],
)
def test_a_name_that_leaves_the_pitch_open_is_not_guessed_at(text: str, near: list[str]) -> None:
    with pytest.raises(UnknownThread, match="fits more than one thread") as refused:
        find_thread(text)
    assert refused.value.instead == "the nearest: " + " or ".join(f'"{name}"' for name in near)


@pytest.mark.parametrize("text", ["1/8 NPT", "R1/8", "BSPT 1/8", "Rc 1/8"])
def test_a_taper_pipe_thread_is_not_taken_for_a_parallel_one(text: str) -> None:
    with pytest.raises(UnknownThread, match="taper pipe thread"):
        find_thread(text)


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
