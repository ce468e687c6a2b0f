"""Where the power and the air or steam of a run go, as rows of words and figures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lapwright.job.showing import show_percent
from lapwright.quantities import show_number

if TYPE_CHECKING:
    from lapwright.cycle.engine_run import EngineRun

#: Less than this share of the whole is not worth a line.
_LEAST_SHARE = 5e-4
USES = {
    "worked": "in the cylinders",
    "blow-through": "straight through",
    "rings": "past the rings",
    "valve face": "past the valve",
    "piston-rod gland": "piston-rod gland",
    "spindle gland": "spindle gland",
}


@dataclass(frozen=True, slots=True)
class RunTable:
    """Rows of words and figures in one unit; of a single run the last column is a percentage of the whole."""

    unit: str
    header: tuple[str, str]
    rows: tuple[tuple[str, ...], ...]


def tell_losses(*runs: EngineRun) -> RunTable:
    """Tell how the power of full cards comes down to the shaft, of one run or of the same before and after.

    Parameters
    ----------
    runs: one or two
    """
    scale, unit, places = _choose_power_unit(runs)
    least = _LEAST_SHARE * max(abs(power) for run in runs for power in (run.full_power, *run.losses.values()))
    # Shares of next to nothing would say nothing.
    whole = runs[0].full_power if runs[0].full_power > 0.1 * abs(runs[0].brake_power) else 0.0

    def show(powers: Sequence[float]) -> list[str]:
        cells = [show_number(scale * power, places) for power in powers]
        return cells if len(runs) > 1 else [*cells, show_percent(powers[0], whole)]

    rows = [("full cards", *show([run.full_power for run in runs]))]
    for name in (name for name in runs[0].losses if name != "friction"):
        lost = [run.losses.get(name, 0.0) for run in runs]
        if any(abs(power) > least for power in lost):
            rows.append((name, *show([-power for power in lost])))
    rows.append(("on the pistons", *show([run.indicated_power for run in runs])))
    if any(run.friction_power for run in runs):
        rows.append(("friction", *show([-run.friction_power for run in runs])))
    rows.append(("at the shaft", *show([run.brake_power for run in runs])))
    return RunTable(unit, _name_columns(unit, len(runs)), tuple(rows))


def _choose_power_unit(runs: Sequence[EngineRun]) -> tuple[float, str, int]:
    """What to multiply W with, the unit it then is, and the places after the point."""
    greatest = max(max(abs(run.full_power), abs(run.brake_power)) for run in runs)
    if greatest < 1.0:
        return 1e3, "mW", 1
    return 1.0, "W", 2 if greatest < 100 else 1


def tell_uses(*runs: EngineRun) -> RunTable:
    """Tell where the air or steam goes, of one run or of the same before and after.

    Parameters
    ----------
    runs: one or two
    """
    unit = "L/min" if runs[0].conditions.fluid == "air" else "g/min"
    scales = [6e4 * (find_free_air(run) or 1.0) for run in runs]
    places = 2 if max(scale * run.supplied for scale, run in zip(scales, runs, strict=True)) < 100 else 1

    def show(flows: Sequence[float]) -> list[str]:
        cells = [show_number(scale * flow, places) for scale, flow in zip(scales, flows, strict=True)]
        return cells if len(runs) > 1 else [*cells, show_percent(flows[0], runs[0].supplied)]

    rows = []
    for name, words in USES.items():
        taken = [run.uses.get(name, 0.0) for run in runs]
        if any(abs(mass) > _LEAST_SHARE * run.supplied for mass, run in zip(taken, runs, strict=True)):
            rows.append((words, *show(taken)))
    rows.append(("in all", *show([run.supplied for run in runs])))
    return RunTable(unit, _name_columns(unit, len(runs)), tuple(rows))


def _name_columns(unit: str, count: int) -> tuple[str, str]:
    return (unit, "%") if count == 1 else ("as found", "after")


def find_free_air(run: EngineRun) -> float | None:
    """Return how much free air a kilogram of what a run takes is [m3/kg]; None for steam."""
    if run.conditions.fluid == "steam":
        return None
    return run.free_air / run.supplied if run.supplied else 0.0
