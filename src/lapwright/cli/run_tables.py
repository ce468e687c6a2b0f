"""The tables of a run: the cylinders' ends, where the power goes, where the air or steam goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import pi
from typing import TYPE_CHECKING

from lapwright.job.run.figures import RunTable, find_free_air, tell_losses, tell_uses
from lapwright.job.showing import show_power, show_supply, show_three
from lapwright.quantities import show_number, show_pressure_like
from lapwright.quantities.temperature import FREEZING

if TYPE_CHECKING:
    from lapwright.cycle.engine_run import EngineRun
    from lapwright.job.run.trial import Trial

#: Widths of the tables that stand side by side, in characters: words, then two columns of figures.
_WORDS, _FIGURES = 20, 9


def lay_table(rows: Sequence[Sequence[str]], *, first: int, others: int) -> list[str]:
    """Return rows as lines: the first cell to the left, the others to the right of their columns.

    Parameters
    ----------
    rows: cells of text
    first, others: widths of the columns in characters [-]
    """
    return [f"{row[0]:<{first}}" + "".join(f"{cell:>{others}}" for cell in row[1:]) for row in rows]


def set_side_by_side(left: Sequence[str], right: Sequence[str]) -> str:
    """Return two tables beside each other."""
    count = max(len(left), len(right))
    pairs = zip([*left, *[""] * (count - len(left))], [*right, *[""] * (count - len(right))], strict=True)
    width = _WORDS + 2 * _FIGURES + 3
    return "\n".join(f"{one:<{width}}{other}".rstrip() for one, other in pairs)


def list_ends(trial: Trial) -> list[str]:
    """One line to each end of each cylinder: mean effective and highest pressure, coldest inside, work."""
    rows = [["", "mean effective", "highest", "coldest", "work a turn"]]
    for cylinder in trial.run.cylinders:
        for end, answers in cylinder.ends.items():
            rows.append(
                [
                    f"Cylinder {cylinder.name}, {end} end",
                    show_pressure_like(answers.mean_effective_pressure, trial.stand.like),
                    trial.stand.show(float(answers.pressures.max())),
                    f"{show_number(float(answers.temperatures.min()) - FREEZING, 0)} degC",
                    f"{show_three(answers.work)} J",
                ]
            )
    return lay_table(rows, first=24, others=14)


def list_losses(*runs: EngineRun) -> list[str]:
    """From the power of full cards down to the shaft: W and % of one run, or W of two."""
    return _lay(tell_losses(*runs), alone="Where the power goes", beside="Power")


def list_uses(*runs: EngineRun) -> list[str]:
    """Where the air or steam goes: flow and % of one run, or the flows of two."""
    fluid = runs[0].conditions.fluid
    return _lay(tell_uses(*runs), alone=f"Where the {fluid} goes", beside=fluid.capitalize())


def _lay(told: RunTable, *, alone: str, beside: str) -> list[str]:
    is_alone = told.header[-1] == "%"
    head = [alone, *told.header] if is_alone else [f"{beside}, {told.unit}", *told.header]
    rows = [head, *([f"  {words}", *cells] for words, *cells in told.rows)]
    return lay_table(rows, first=_WORDS, others=_FIGURES)


def list_comparison(found: Trial, after: Trial) -> Iterator[tuple[str, str, str]]:
    """Yield the main figures as found and after a cure."""
    pair = (found, after)
    runs = [trial.run for trial in pair]
    least = [trial.least_pressure for trial in pair]
    if any(pressure is not None for pressure in least):
        shown = ["never" if p is None else found.stand.show(p) for p in least]
        yield ("turns over from", *_two(shown))
    if found.stand.is_loaded:
        yield ("speed", *_two([f"{run.conditions.speed * 30 / pi:.0f} rpm" for run in runs]))
    yield ("power at the shaft", *_two([show_power(run.brake_power) for run in runs]))
    yield (
        f"{runs[0].conditions.fluid} taken",
        *_two([show_supply(run.supplied, per_kilogram=find_free_air(run)) for run in runs]),
    )
    for cylinder, other in zip(found.run.cylinders, after.run.cylinders, strict=True):
        for end, answers in cylinder.ends.items():
            means = [answers.mean_effective_pressure, other.ends[end].mean_effective_pressure]
            shown = [show_pressure_like(mean, found.stand.like) for mean in means]
            yield (f"mean effective, {cylinder.name} {end} end", *_two(shown))
    yield ("starts by itself from", *_two([f"{100 * trial.showing.starting_share:.0f} % of a turn" for trial in pair]))


def _two(cells: list[str]) -> tuple[str, str]:
    return cells[0], cells[1]
