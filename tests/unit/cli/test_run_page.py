"""The page of a run: no wider than a terminal, its tables sum, its corners are named, its figures those of the run."""

from __future__ import annotations

import re

import pytest

from lapwright.cli.run_summary import WIDTH, summarise_run, wrap
from lapwright.job.run.notes import list_cautions
from lapwright.job.run.stand import Asked
from lapwright.job.run.trial import Trial
from tests.unit.job.trials import RUNNERS, run

ROW = re.compile(r"^  ([a-z][a-z -]*?) +(-?\d+\.\d+)(?: +(-?\d+\.\d))?(?=   |$)")


def page(trial: Trial, *, with_cards: bool = True) -> str:
    return summarise_run(
        trial, gain=trial.tell_gain(), cautions=list_cautions(trial.run.conditions.fluid), with_cards=with_cards
    )


def read_left_table(text: str) -> dict[str, tuple[float, float]]:
    """The figures of the table on the left: W and %."""
    lines = text.splitlines()
    start = next(n for n, line in enumerate(lines) if line.startswith("Where the power goes"))
    rows = {}
    for line in lines[start + 1 :]:
        found = ROW.match(line)
        if found is None:
            break
        rows[found[1]] = (float(found[2]), float(found[3] or "nan"))
    return rows


@pytest.mark.parametrize("fluid", ["air", "steam"])
@pytest.mark.parametrize("name", RUNNERS)
def test_a_page_is_no_wider_than_a_terminal_and_holds_no_loose_end(name: str, fluid: str) -> None:
    compares = (None,) if name == "sandpiper" else (None, "best")
    for compare in compares:
        text = page(run(name, Asked(fluid=fluid, compare=compare)))
        assert max(map(len, text.splitlines())) <= WIDTH
        assert not re.search(r"\bnan\b|None|\binf\b|-0\.0+\b|e[+-]\d\d", text)
        assert all(line == line.rstrip() for line in text.splitlines())
        assert "local rules, the inspector" in " ".join(text.split())


@pytest.mark.parametrize("name", RUNNERS)
def test_the_table_of_power_sums_to_what_it_says(name: str) -> None:
    rows = read_left_table(page(run(name, Asked())))
    whole, pistons, shaft = rows.pop("full cards"), rows.pop("on the pistons"), rows.pop("at the shaft")
    friction = rows.pop("friction")
    # Every figure is rounded to its last place, and what is next to nothing has no line.
    for n, place in ((0, 0.01), (1, 0.1)):
        lost = sum(row[n] for row in rows.values())
        assert whole[n] + lost == pytest.approx(pistons[n], abs=place * (len(rows) + 2) + 8 * 5e-4 * whole[n])
        assert pistons[n] + friction[n] == pytest.approx(shaft[n], abs=2 * place)


def test_a_sound_engines_corners_lie_where_the_trade_has_them() -> None:
    lines = page(run("sandpiper", Asked())).splitlines()
    top = next(n for n, line in enumerate(lines) if line.startswith(" 0.60 bar"))
    bottom = next(n for n, line in enumerate(lines) if line.startswith(" 0.00 bar"))
    assert re.search(r"R?CR? {3}C?RC?", lines[top][10:])
    assert re.match(r"[AK]{2}", lines[bottom][10:])
    assert re.search(r"[AK]{2}$", lines[bottom])


def test_every_end_names_its_four_corners() -> None:
    for name in ("sandpiper", "merganser", "tern", "plover"):
        lines = page(run(name, Asked())).splitlines()
        card = "".join(line[10:] for line in lines if re.search("[⠁-⣿]", line))
        for letter in "ACRK":
            assert card.count(letter) == 2, (name, letter)


def test_cylinders_alike_share_one_card_and_others_have_their_own() -> None:
    assert "A and B, head end" in page(run("tern", Asked()))
    half = page(run("tern", Asked(dead=("B",))))
    assert "A, head end" in half
    assert "B, head end" not in half.replace("Cylinder B, head end", "")


def test_a_terminal_without_the_characters_gets_the_figures_alone() -> None:
    text = page(run("tern", Asked()), with_cards=False)
    assert not re.search("[⠁-⣿]", text)
    assert "Where the power goes" in text
    assert "Pressure over the stroke" not in text


def test_the_headline_says_what_was_set_and_what_was_taken() -> None:
    def title(name: str, asked: Asked) -> str:
        return page(run(name, asked)).partition("\n=")[0]

    assert title("tern", Asked()) == "Tern on air at 2.00 bar, 300 rpm, an easy speed for the stroke"
    assert title("tern", Asked(speed="300 rpm")) == "Tern on air at 2.00 bar, 300 rpm"
    assert title("tern", Asked(load="300 mN m")) == "Tern on air at 2.00 bar, driving 300 mN m"
    assert title("tern", Asked(load="0 W")) == "Tern on air at 2.00 bar, driving nothing"
    assert title("dunlin", Asked(pressure="25 psi", speed="200 rpm")) == "Dunlin on air at 25.0 psi, 200 rpm"
    steam = "Merganser on steam at 5.00 bar, 0.98 dry, exhausting into 0.10 bar, 600 rpm"
    assert title("merganser", Asked(speed="600 rpm")) == steam
    ideal = "Tern on air at 2.00 bar, 300 rpm, without leaks, wall heat and friction"
    assert title("tern", Asked(speed="300 rpm", ideal=True)) == ideal


def test_the_answer_comes_first() -> None:
    def answer(name: str, asked: Asked, *, place: int = 1) -> str:
        return " ".join(page(run(name, asked)).split("\n\n")[place].split())

    flow = r"\d+\.\d+ L/min of free air"
    turns = r" It turns over from 0\.\d\d bar on\."
    assert re.fullmatch(
        rf"It gives \d+\.\d W at the shaft, \d+ mN m on the mean, and takes {flow}\.{turns}", answer("tern", Asked())
    )
    racing = Asked(load="20 mN m")
    assert answer("tern", racing).startswith("Caution: at 3.6 m/s the piston moves faster")
    assert "runs away" in answer("tern", racing)
    assert re.fullmatch(
        rf"It settles at \d+ rpm, giving \d+\.\d W, and takes \d+ L/min of free air\.{turns}",
        answer("tern", racing, place=2),
    )
    assert page(run("tern", racing)).count("Caution") == 1
    assert re.fullmatch(
        r"It gives nothing at the shaft, and pushes \d\.\d+ g/min of steam back into the supply\.",
        answer("curlew", Asked()),
    )


def test_beside_a_cure_both_runs_are_told() -> None:
    text = page(run("dunlin", Asked(compare="best")))
    assert "After: Make a new valve" in text
    assert re.search(r"^air taken +\d+\.\d L/min +\d+\.\d L/min$", text, re.MULTILINE)
    assert re.search(r"^turns over from +\d\.\d psi +\d\.\d psi$", text, re.MULTILINE)
    assert "as found, head end" in text
    assert "after, crank end" in text
    both = page(run("tern", Asked(compare="best")))
    assert "Shorten the valve to 12.00 mm (0.472 in) (A, B)." in both


def test_what_was_taken_is_listed_and_nothing_that_was_given() -> None:
    text = " ".join(page(run("tern", Asked())).split())
    taken = text.partition("Taken where the record is silent: ")[2].partition(". ")[0]
    assert "speed 300 rpm; discharge coefficient 0.70" in text
    assert "ring gap 4 µm" in text
    assert "0.00 mm" not in taken
    assert "friction pressure" not in taken


def test_a_figure_stays_with_its_unit() -> None:
    text = "word " * 14 + "of 532 mN m and 100 % of it"
    for line in wrap(text).splitlines():
        assert not re.search(r"\d$|mN$", line)
    assert wrap(text).replace("\n", " ") == text
