"""The tables of a run: the cylinders' ends, where the power goes, where the air or steam goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import pi
from typing import TYPE_CHECKING

from lapwright.job.showing import show_percent, show_power, show_supply, show_three
from lapwright.quantities import show_number, show_pressure_like
from lapwright.quantities.temperature import FREEZING

if TYPE_CHECKING:
    from lapwright.cycle.engine_run import EngineRun
    from lapwright.job.trial import Trial

#: Less than this share of the whole is not worth a line.
_LEAST_SHARE = 5e-4
#: Widths of the tables that stand side by side, in characters: words, then two columns of figures.
_WORDS, _FIGURES = 20, 9
USES = {
    "worked": "in the cylinders",
    "blow-through": "straight through",
    "rings": "past the rings",
    "valve face": "past the valve",
    "piston-rod gland": "piston-rod gland",
    "spindle gland": "spindle gland",
}


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
    scale, unit, places = _choose_power_unit(runs)
    least = _LEAST_SHARE * max(abs(power) for run in runs for power in (run.full_power, *run.losses.values()))
    # Shares of next to nothing would say nothing.
    whole = runs[0].full_power if runs[0].full_power > 0.1 * abs(runs[0].brake_power) else 0.0

    def show(powers: Sequence[float]) -> list[str]:
        cells = [show_number(scale * power, places) for power in powers]
        return cells if len(runs) > 1 else [*cells, show_percent(powers[0], whole)]

    rows = [_head("Where the power goes", "Power", unit, count=len(runs))]
    rows.append(["  full cards", *show([run.full_power for run in runs])])
    for name in (name for name in runs[0].losses if name != "friction"):
        lost = [run.losses.get(name, 0.0) for run in runs]
        if any(abs(power) > least for power in lost):
            rows.append([f"  {name}", *show([-power for power in lost])])
    rows.append(["  on the pistons", *show([run.indicated_power for run in runs])])
    if any(run.friction_power for run in runs):
        rows.append(["  friction", *show([-run.friction_power for run in runs])])
    rows.append(["  at the shaft", *show([run.brake_power for run in runs])])
    return lay_table(rows, first=_WORDS, others=_FIGURES)


def _choose_power_unit(runs: Sequence[EngineRun]) -> tuple[float, str, int]:
    """What to multiply W with, the unit it then is, and the places after the point."""
    greatest = max(max(abs(run.full_power), abs(run.brake_power)) for run in runs)
    if greatest < 1.0:
        return 1e3, "mW", 1
    return 1.0, "W", 2 if greatest < 100 else 1


def list_uses(*runs: EngineRun) -> list[str]:
    """Where the air or steam goes: flow and % of one run, or the flows of two."""
    fluid, unit = runs[0].conditions.fluid, "L/min" if runs[0].conditions.fluid == "air" else "g/min"
    scales = [6e4 * (find_free_air(run) or 1.0) for run in runs]
    places = 2 if max(scale * run.supplied for scale, run in zip(scales, runs, strict=True)) < 100 else 1

    def show(flows: Sequence[float]) -> list[str]:
        cells = [show_number(scale * flow, places) for scale, flow in zip(scales, flows, strict=True)]
        return cells if len(runs) > 1 else [*cells, show_percent(flows[0], runs[0].supplied)]

    rows = [_head(f"Where the {fluid} goes", fluid.capitalize(), unit, count=len(runs))]
    for name, words in USES.items():
        taken = [run.uses.get(name, 0.0) for run in runs]
        if any(abs(mass) > _LEAST_SHARE * run.supplied for mass, run in zip(taken, runs, strict=True)):
            rows.append([f"  {words}", *show(taken)])
    rows.append(["  in all", *show([run.supplied for run in runs])])
    return lay_table(rows, first=_WORDS, others=_FIGURES)


def _head(alone: str, beside: str, unit: str, *, count: int) -> list[str]:
    return [alone, unit, "%"] if count == 1 else [f"{beside}, {unit}", "as found", "after"]


def find_free_air(run: EngineRun) -> float | None:
    """How much free air a kilogram of what a run takes is [m3/kg]; None for steam."""
    if run.conditions.fluid == "steam":
        return None
    return run.free_air / run.supplied if run.supplied else 0.0


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
