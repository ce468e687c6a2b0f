"""What is true of every painting plan, and of every film of paint."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.engine.parts import LETTERINGS, METALS
from lapwright.quantities import read_area
from lapwright.tables.solders import list_solders
from lapwright.workshop.finish import plan_finish
from lapwright.workshop.finish_plan import FinishPlan
from lapwright.workshop.paint_choice import choose_paint, find_etch_primer, find_paint, list_paints
from lapwright.workshop.paint_faults import PAINT_FAULTS
from lapwright.workshop.paint_film import build_film, find_sag_speed, find_volume, find_wet_film
from lapwright.workshop.solder_order import order_joints
from lapwright.workshop.soldering import find_solder, fit_soldered_bush, judge_solder

films = st.floats(1e-6, 5e-4)
temperatures = st.floats(230.0, 1270.0)
surfaces = st.floats(1e-4, 10.0)
NAMES = [paint.name for paint in list_paints()]
wishes = st.none() | st.sampled_from(NAMES)
solderable = st.sampled_from([metal for metal in METALS if metal != "aluminium"])
ALLOYS = [row.alloy for row in list_solders()]


def draw_plan(metal: str, temperature: float, **others: object) -> FinishPlan:
    return plan_finish(metal=metal, temperature=temperature, **others)  # type: ignore[arg-type]


@given(films, st.floats(0.05, 0.99))
def test_wet_is_thicker_than_dry(dry: float, solids: float) -> None:
    assert find_wet_film(dry, solids) > dry


@given(films, st.floats(0.05, 0.99), st.floats(1.01, 1.5))
def test_more_solids_want_less_paint(dry: float, solids: float, more: float) -> None:
    assert find_wet_film(dry, min(1.0, solids * more)) <= find_wet_film(dry, solids)


@given(films, st.floats(1.01, 10.0))
def test_thicker_films_slide_faster_as_the_square(film: float, times: float) -> None:
    assert find_sag_speed(times * film) == pytest.approx(times**2 * find_sag_speed(film))


@given(films, films, films)
def test_a_build_reaches_what_is_wanted_within_the_sheet_and_not_with_a_coat_more(wanted, first, second) -> None:
    least, most = sorted((first, second))
    build = build_film(wanted, least=least, most=most)
    assert build.film >= wanted * (1 - 1e-9)
    assert build.each <= most * (1 + 1e-8)
    assert (build.coats - 1) * most < wanted * (1 + 1e-8)


@given(surfaces, films, st.floats(1.0, 50.0))
def test_paint_is_as_much_as_the_surface(surface: float, film: float, times: float) -> None:
    assert find_volume(times * surface, film) == pytest.approx(times * find_volume(surface, film))


@given(temperatures, wishes)
def test_the_paint_taken_stands_the_heat_or_the_plan_says_that_none_does(temperature: float, wished) -> None:
    choice = choose_paint(temperature, wished=wished)
    if choice.paint is None:
        assert "No paint of the tables stands" in choice.why
        assert all(not paint.stands(temperature) for paint in list_paints())
    else:
        assert choice.paint.stands(temperature)
    kept = wished is not None and find_paint(wished).stands(temperature)
    assert choice.instead_of == ("" if kept or wished is None else wished)


@given(
    st.sampled_from(METALS),
    temperatures,
    st.none() | surfaces,
    st.booleans(),
    st.sampled_from(LETTERINGS),
    st.lists(st.sampled_from(["feet", "bands", "rim"]), max_size=3, unique=True),
    wishes,
    st.sets(st.sampled_from(PAINT_FAULTS)),
)
def test_every_plan_holds_together(metal, temperature, surface, old_paint, lettering, masked, wished, seen) -> None:
    plan = plan_finish(
        metal=metal,
        temperature=temperature,
        surface=surface,
        old_paint=old_paint,
        lettering=lettering,
        masked=tuple(masked),
        paint=wished,
        seen=tuple(sorted(seen)),
    )
    assert bool(plan.paint) == bool(plan.coats)
    assert plan.steps
    assert plan.cautions
    assert plan.sources
    sentences = (plan.why, *plan.steps, *plan.faults, *plan.notes, *plan.cautions, *plan.sources)
    assert all(sentence[0].isupper() or sentence[0].isalpha() for sentence in sentences)
    assert not any(odd in sentence for sentence in sentences for odd in ("None", "nan", "{", "  ", ".."))
    for coat in plan.coats:
        assert (coat.amount is None) == (surface is None or coat.wet_film is None)
        if coat.dry_film is not None and coat.wet_film is not None:
            assert coat.wet_film > coat.dry_film


@given(st.sampled_from(METALS), st.floats(230.0, 423.0), wishes)
def test_no_coat_is_thicker_than_its_sheet_allows_nor_the_whole_over_etch_primer(metal, temperature, wished) -> None:
    plan = draw_plan(metal, temperature, paint=wished)
    sheets = {paint.name: paint for paint in list_paints()}
    for coat in plan.coats:
        sheet = sheets.get(coat.paint)
        if sheet is not None and sheet.most is not None and coat.dry_film is not None:
            assert coat.dry_film <= sheet.most * (1 + 1e-9)
    if plan.coats[0].paint == find_etch_primer().name and plan.dry_film is not None:
        assert 50e-6 <= plan.dry_film <= 100e-6 * (1 + 1e-9)


@given(st.sampled_from(METALS), surfaces, st.floats(1.5, 8.0))
def test_a_larger_part_takes_more_of_the_same_coats(metal: str, surface: float, times: float) -> None:
    small, large = (draw_plan(metal, 293.15, surface=area) for area in (surface, surface * times))
    assert [coat.name for coat in small.coats] == [coat.name for coat in large.coats]
    for one, other in zip(small.coats, large.coats, strict=True):
        if one.amount is not None and other.amount is not None:
            assert other.amount == pytest.approx(times * one.amount)


@given(st.decimals("0.01", "9999", places=2), st.sampled_from(["mm2", "cm²", "sq in"]))
def test_an_area_shows_and_reads_as_the_same(number, unit: str) -> None:
    area = read_area(f"{number} {unit}")
    assert read_area(str(area)) == area
    assert str(read_area(str(area))) == str(area)


@given(st.sampled_from(ALLOYS), st.floats(230.0, 1200.0), st.floats(0.0, 70.0))
def test_a_solder_never_stands_more_than_it_stood_cooler(alloy: str, temperature: float, warmer: float) -> None:
    order = ("stands", "creeps", "melts")
    cool, warm = judge_solder(alloy, temperature), judge_solder(alloy, temperature + warmer)
    assert order.index(cool.verdict) <= order.index(warm.verdict)
    assert all(judge_solder(other, temperature).verdict == "stands" for other in cool.instead)


@given(st.lists(st.sampled_from(ALLOYS), min_size=1, max_size=4))
def test_joints_that_step_down_leave_those_before_alone(alloys: list[str]) -> None:
    order = order_joints(alloys)
    assert sorted(order.alloys) == sorted(alloys)
    rows = [find_solder(name) for name in order.alloys]
    holds = all(then.liquidus < first.solidus for first, then in pairwise(rows))
    assert order.works == holds


@given(st.floats(1e-3, 0.1), st.sampled_from(ALLOYS), solderable, solderable)
def test_a_soldered_bush_goes_in_cold_and_has_its_gap_hot(hole: float, alloy: str, bush: str, body: str) -> None:
    fit = fit_soldered_bush(hole, alloy=alloy, bush=bush, body=body)
    assert 0 < fit.least <= fit.most < hole
    mirrored = fit_soldered_bush(hole, alloy=alloy, bush=body, body=bush)
    assert mirrored.closing == pytest.approx(-fit.closing, abs=1e-12)
