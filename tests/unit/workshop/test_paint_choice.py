"""Which paint stands what, against the figures of the shelf's sources."""

from __future__ import annotations

import re

import pytest

from lapwright.engine.parts import METALS
from lapwright.errors import NotOneOf
from lapwright.tables.materials import list_metals
from lapwright.tables.reading import read_rows
from lapwright.workshop.paint_choice import (
    FAMILIES,
    METAL_PRIMER,
    choose_paint,
    choose_primer,
    find_etch_primer,
    find_paint,
    list_others,
    list_paints,
)

FREEZING = 273.15


@pytest.mark.parametrize(
    ("name", "limit"),
    [
        # Paint makers' sheets and pages, as the rows say; the aerosol from memory.
        ("long-oil alkyd gloss enamel", 93),
        ("acrylic engine aerosol", 150),
        ("aluminium heat paint 100-200 C", 200),
        ("oil/styrene aluminium heat paint", 250),
        ("silicone black 400 C", 400),
        ("silicone (general)", 600),
    ],
)
def test_how_hot_each_paint_may_become(name: str, limit: float) -> None:
    assert find_paint(name).limit == pytest.approx(FREEZING + limit)


def test_paints_are_listed_from_the_coolest_to_the_hottest() -> None:
    limits = [paint.limit for paint in list_paints()]
    assert limits == sorted(limits)
    assert len(limits) == 6


@pytest.mark.parametrize(
    ("celsius", "taken"),
    [
        # On air, and up to the enamel's own limit; then what air-dries, then by heat.
        (20, "long-oil alkyd gloss enamel"),
        (93, "long-oil alkyd gloss enamel"),
        (94, "oil/styrene aluminium heat paint"),
        # A cylinder on 3 and 6 bar of steam: past plain alkyd.
        (144, "oil/styrene aluminium heat paint"),
        (165, "oil/styrene aluminium heat paint"),
        (251, "silicone black 400 C"),
        (401, "silicone (general)"),
    ],
)
def test_the_paint_that_is_taken_without_a_wish(celsius: float, taken: str) -> None:
    choice = choose_paint(FREEZING + celsius)
    assert choice.paint is not None
    assert (choice.paint.name, choice.instead_of) == (taken, "")


def test_a_wish_is_kept_where_it_stands_the_heat() -> None:
    choice = choose_paint(FREEZING + 120, wished="aerosol")
    assert (
        choice.why == "As wished: acrylic engine aerosol stands 150 degC (from memory), and the part runs at 120 degC."
    )
    assert choice.instead_of == ""


def test_a_wish_that_does_not_stand_the_heat_is_told_and_replaced() -> None:
    choice = choose_paint(FREEZING + 152, wished="Alkyd")
    assert choice.instead_of == "long-oil alkyd gloss enamel"
    assert choice.why == (
        "Long-oil alkyd gloss enamel stands only 93 degC. The part runs at 152 degC: take oil/styrene aluminium heat "
        "paint instead, which stands 250 degC."
    )


def test_no_paint_stands_a_red_heat() -> None:
    choice = choose_paint(FREEZING + 650, wished="silicone black")
    assert choice.paint is None
    assert choice.why == (
        "Silicone black 400 C stands only 400 degC. No paint of the tables stands 650 degC; the hottest goes to 600 "
        "degC."
    )


def test_a_word_that_two_paints_have_is_refused_with_both() -> None:
    with pytest.raises(NotOneOf) as refusal:
        find_paint("silicone")
    assert (
        str(refusal.value) == '"silicone" is not a word for this: write "silicone black 400 C" or "silicone (general)"'
    )


@pytest.mark.parametrize("written", ["chalk", "", "   ", "primer", "x" * 500])
def test_an_unknown_paint_is_refused_with_some_that_there_are(written: str) -> None:
    with pytest.raises(NotOneOf) as refusal:
        find_paint(written)
    assert any(f'"{paint.name}"' in refusal.value.instead for paint in list_paints())
    assert len(str(refusal.value)) < 300


def test_every_metal_of_record_and_tables_belongs_to_a_family() -> None:
    assert set(FAMILIES) == set(METALS) == set(list_metals())


@pytest.mark.parametrize(
    ("paint", "family", "celsius", "primer"),
    [
        ("alkyd", "iron", 20, METAL_PRIMER.name),
        ("alkyd", "copper alloy", 20, "single-pack etch primer"),
        ("alkyd", "aluminium", 20, "single-pack etch primer"),
        ("aerosol", "iron", 120, "single-pack etch primer"),
        ("oil/styrene", "iron", 150, None),
        ("oil/styrene", "copper alloy", 150, "single-pack etch primer"),
        # Etch primer gives up at 150 degC (two training texts): not above it, nor under what is hardened at 230.
        ("oil/styrene", "copper alloy", 152, None),
        ("silicone black", "aluminium", 20, None),
        ("100-200", "aluminium", 20, "single-pack etch primer"),
    ],
)
def test_the_primer_for_a_metal(paint: str, family: str, celsius: float, primer: str | None) -> None:
    chosen = choose_primer(find_paint(paint), family=family, temperature=FREEZING + celsius)
    assert (chosen and chosen.name) == primer


def test_etch_primer_is_thin() -> None:
    # Two training texts on painting: 10 to 20 µm dry.
    etch = find_etch_primer()
    assert (etch.least, etch.most) == pytest.approx((10e-6, 20e-6))
    assert etch.limit == pytest.approx(FREEZING + 150)


def test_the_others_that_stand_it() -> None:
    names = [paint.name for paint in list_others(find_paint("oil/styrene"), FREEZING + 260)]
    assert names == ["silicone black 400 C", "silicone (general)"]


def test_what_was_recalled_says_so() -> None:
    assert find_paint("aerosol").from_memory
    assert METAL_PRIMER.from_memory
    assert not find_paint("alkyd").cure_heat
    assert not find_paint("silicone black").from_memory


def test_recoat_and_cure_say_what_the_rows_say() -> None:
    rows = {row["paint"]: row for row in read_rows("paints")}
    for paint in list_paints():
        row = rows[paint.name]
        told = f"{row['recoat_min_h']} {row['recoat_max']} {row['cure']}".replace("2-7", "2 to 7")
        assert set(re.findall(r"\d+", told)) <= set(re.findall(r"\d+", f"{paint.recoat} {paint.cure}")), paint.name
