"""Painting plans as a person would read them, with every figure worked out by hand once."""

from __future__ import annotations

from typing import Any

import pytest

from lapwright.errors import BadInput
from lapwright.medium.water import find_saturation
from lapwright.workshop import cautions
from lapwright.workshop.finish import plan_finish
from lapwright.workshop.finish_plan import FinishPlan
from lapwright.workshop.item import SHELVES, merge_items

FREEZING, ATMOSPHERE = 273.15, 101_325.0


def plan(celsius: float = 20, *, metal: str = "cast iron", **others: Any) -> FinishPlan:
    return plan_finish(metal=metal, temperature=FREEZING + celsius, **others)


def test_an_iron_bed_on_air() -> None:
    bed = plan(surface=0.06)
    assert [coat.name for coat in bed.coats] == [
        "zinc phosphate metal primer (from memory)",
        "first coat of long-oil alkyd gloss enamel",
        "second coat of long-oil alkyd gloss enamel",
    ]
    # 40 µm of 45 % and twice 50 µm of 48 %: 88.9 and 104.2 µm wet; the whole is 140 µm dry.
    assert [coat.wet_film for coat in bed.coats] == pytest.approx([88.89e-6, 104.17e-6, 104.17e-6], rel=1e-4)
    assert bed.dry_film == pytest.approx(140e-6)
    # 600 cm2 x 88.9 µm x 1.3 = 6.93 ml; 600 cm2 x 104.2 µm x 1.3 = 8.125 ml a coat: 16.25 ml, in steps of 5 ml 20.
    assert [coat.amount for coat in bed.coats] == pytest.approx([6.933e-6, 8.125e-6, 8.125e-6], rel=1e-3)
    amounts = {item.name: item.amount for item in bed.have_ready if item.shelf == "paint"}
    assert amounts["zinc phosphate metal primer"] == "10 ml"
    assert amounts["long-oil alkyd gloss enamel"] == "20 ml"
    assert bed.instead_of == ""
    assert bed.why == "The part runs at 20 degC: long-oil alkyd gloss enamel stands 93 degC."


def test_recoat_times_of_the_enamel_are_those_of_its_sheet() -> None:
    # A paint maker's sheet: after 16 h, then without end once cleaned.
    assert plan().coats[-1].recoat == "after 16 h, or at any later time"


def test_aluminium_gets_etch_primer_and_the_whole_stays_within_its_system() -> None:
    # 15 µm of etch primer leave 85 µm of the 100 µm: two coats of 42.5 µm, each above the enamel's 35.
    stand = plan(metal="aluminium")
    assert [coat.dry_film for coat in stand.coats] == pytest.approx([15e-6, 42.5e-6, 42.5e-6])
    assert stand.dry_film == pytest.approx(100e-6)
    assert (
        "Over etch primer the whole is to be 50 µm to 100 µm: thinner it does not keep, thicker it lifts."
        in stand.notes
    )
    assert any("laid on thick it keeps free acid, and the next coat lifts" in step for step in stand.steps)
    assert "Give the surface, and the amounts can be worked out." in stand.notes


def test_copper_alloys_are_degreased_rinsed_abraded_and_primed_the_same_day() -> None:
    for metal in ("brass", "gunmetal", "phosphor bronze", "copper"):
        steps = " ".join(plan(metal=metal).steps)
        places = [
            steps.index(word) for word in ("alkaline cleaner", "rinse", "Abrade", "gloves on still", "the same day")
        ]
        assert places == sorted(places)


def test_brass_lagging_on_steam_wished_in_enamel() -> None:
    lagging = plan(150, metal="brass", surface=0.018, paint="alkyd", masked=("lagging bands",), old_paint=True)
    assert (lagging.paint, lagging.instead_of) == ("oil/styrene aluminium heat paint", "long-oil alkyd gloss enamel")
    # 15 + 25 + 25 µm; 25 µm of 45 % is 55.6 µm wet, the sheet has 55.
    assert lagging.dry_film == pytest.approx(65e-6)
    assert lagging.coats[-1].wet_film == pytest.approx(55e-6, rel=0.02)
    assert cautions.OLD_PAINT in lagging.cautions
    assert cautions.OLD_PACKING in lagging.cautions
    assert any("down to the metal: single-pack etch primer" in step for step in lagging.steps)


def test_a_heat_paint_is_hardened_before_service() -> None:
    # A paint maker's page: hold 150 degC for an hour before service.
    warm = plan(140, paint="100-200")
    assert any("hold it at 150 degC for 1 h before service" in step and "on the engine" in step for step in warm.steps)
    assert {cautions.CURING, cautions.STEAM} <= set(warm.cautions)
    # A paint maker's sheet: final hardness at 230 degC, which steam of 6 bar does not reach, and solder does not stand.
    black = plan(177, paint="silicone black", surface=0.02)
    assert any("230 degC" in step and "soft-soldered" in step for step in black.steps)
    # 15 µm of 19 % is 78.9 µm wet.
    assert [coat.wet_film for coat in black.coats] == pytest.approx([78.95e-6] * 2, rel=1e-3)
    assert cautions.CURING in black.cautions
    assert cautions.STEAM not in black.cautions
    hottest = plan(500)
    assert any("Bring it slowly to what the tin asks" in step for step in hottest.steps)
    assert not {cautions.CURING, cautions.STEAM} & set(plan().cautions)
    cold = plan(20, paint="silicone black")
    assert any("never hardens heat paint by itself" in note for note in cold.notes)


def test_the_warmth_of_steam_that_the_plans_speak_of() -> None:
    # 3, 4, 6 and 10 bar above the atmosphere: 144, 152, 165 and 184 degC.
    for bar, celsius in ((3, 144), (4, 152), (6, 165), (10, 184)):
        assert round(find_saturation(bar * 1e5 + ATMOSPHERE).temperature - FREEZING) == celsius


def test_the_order_of_work_round_bright_parts() -> None:
    steps = plan(masked=("slide bars", " ", "feet")).steps
    order = [
        "Wash off",
        "Abrade",
        "Cover what stays bright (slide bars, feet)",
        "Prime with",
        "Paint:",
        "Draw the tape off",
    ]
    order += ["Before service", "Polish what stays bright"]
    places = [next(number for number, step in enumerate(steps) if word.lower() in step.lower()) for word in order]
    assert places == sorted(places)
    assert not any("tape" in step for step in plan().steps)


def test_letters_are_wiped_while_soft_or_filled_when_hard() -> None:
    raised, recessed = plan(lettering="raised"), plan(lettering="recessed")
    assert any(step.startswith("Raised letters") and "still soft" in step for step in raised.steps)
    last = [number for number, step in enumerate(recessed.steps) if step.startswith(("Before service", "Recessed"))]
    assert recessed.steps[last[-1]].startswith("Recessed letters")
    assert "colour for the letters that stands 20 degC" in {item.name for item in recessed.have_ready}


def test_what_was_seen_is_explained_first() -> None:
    assert [fault.split()[1] for fault in plan().faults] == ["runs", "wrinkles", "lifts", "browns,"]
    faults = plan(seen=("browns", "wrinkles")).faults
    assert [fault.split()[1] for fault in faults] == ["wrinkles", "browns,", "runs", "lifts"]
    assert "1.8, 7.1, 15.9 mm/min if it is 50, 100, 150 µm thick" in faults[2]
    assert "75 µm dry, 156 µm wet" in faults[0]
    assert "at what thickness it begins is not known" in faults[0]


def test_old_paint_may_stay_under_enamel_where_a_patch_does_not_wrinkle() -> None:
    steps = plan(old_paint=True).steps
    assert any("has not wrinkled by the next day" in step for step in steps)
    assert cautions.OLD_PAINT in plan(old_paint=True).cautions
    assert cautions.OLD_PAINT not in plan().cautions


def test_a_can_is_sprayed_and_has_no_films() -> None:
    can = plan(120, metal="steel", paint="aerosol", surface=0.02)
    assert can.dry_film is None
    assert any("thin passes" in step for step in can.steps)
    assert not any("brush upwards" in step for step in can.steps)
    assert ("acrylic engine aerosol", 1, "") in {(item.name, item.count, item.amount) for item in can.have_ready}


def test_too_hot_for_any_paint() -> None:
    hot = plan(650, metal="steel", paint="silicone black", old_paint=True)
    assert (hot.paint, hot.coats, hot.dry_film) == ("", (), None)
    assert hot.instead_of == "silicone black 400 C"
    assert "bare" in hot.steps[-1]
    assert cautions.OLD_PAINT in hot.cautions


def test_metals_go_by_other_names_too() -> None:
    assert plan(metal="LG2").metal == "gunmetal"


def test_two_plans_make_one_list() -> None:
    items = merge_items((*plan(surface=0.06).have_ready, *plan(surface=0.06).have_ready))
    assert [item.shelf for item in items] == sorted((item.shelf for item in items), key=SHELVES.index)
    assert [item.count for item in items if item.name == "soft flat brush"] == [1]


def test_every_plan_says_what_it_rests_on() -> None:
    sources = " ".join(plan(150, metal="brass").sources)
    for part in ("Gels", "common practice, no source", "from memory", "a paint maker's sheet", "two training texts"):
        assert part in sources


@pytest.mark.parametrize(
    ("wrong", "start"),
    [
        ({"metal": "cheese"}, '"cheese" is not a word for this'),
        ({"paint": "whitewash"}, '"whitewash" is not a word for this'),
        ({"lettering": "carved"}, '"carved" is not a word for this: write "none" or "raised" or "recessed"'),
        ({"seen": ("peels",)}, '"peels" is not a word for this: write "runs" or "wrinkles" or "lifts" or "browns"'),
        ({"celsius": -80}, '"-80 degC" is not between -50 degC and 1000 degC'),
        ({"celsius": 1500}, '"1500 degC" is not between -50 degC and 1000 degC'),
        ({"celsius": float("nan")}, '"nan degC" is not between -50 degC and 1000 degC'),
        ({"surface": -0.01}, '"-100 cm2" is no surface that a part of a small engine has'),
        ({"surface": 0.0}, '"0 cm2" is no surface that a part of a small engine has'),
        ({"surface": 1e4}, '"1e+08 cm2" is no surface that a part of a small engine has'),
    ],
)
def test_what_cannot_be_is_refused(wrong: dict[str, Any], start: str) -> None:
    with pytest.raises(BadInput) as refusal:
        plan(**wrong)
    assert str(refusal.value).startswith(start)
    assert refusal.value.instead
