"""What is taken for a size of a part that nobody gave: as an assumption, with the key that would say it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener, Gland, Pin
from lapwright.engine.sizes import Assumed
from lapwright.quantities import show_number

if TYPE_CHECKING:
    from lapwright.cycle.part_loads import PartLoads

NO_SOURCE = "common practice, no source"


def find_pressure(engine: Engine, load: PartLoads | None) -> float | None:
    """Return what a gland or a joint has to hold [Pa, above the atmosphere]; None where neither run nor record tells.

    Parameters
    ----------
    engine: whose it is
    load: what its cylinder's parts have to bear, None where no run can be worked out
    """
    pressure = engine.supply_pressure if load is None else load.pressure
    # What stays under the atmosphere blows nothing out.
    return None if pressure is None else max(pressure, 0.0)


def list_missing(part: Gland | Fastener | Pin, usual: Mapping[str, tuple[str, str]]) -> tuple[Assumed, ...]:
    """Return an assumption for every key of a part that is not given and for which something is usual.

    Parameters
    ----------
    part: the part
    usual: by key, what is taken for it, and why

    Example:
    >>> pin = Pin(name="fork pin", cylinder="A", number=1)
    >>> list_missing(pin, {"material": ("steel", "the usual metal")})[0].key
    'pin.1.material'
    """
    return tuple(
        Assumed(f"{_name_table(part)}.{key}", value, f"not given: taken as {why}", ("findings", "cures"))
        for key, (value, why) in usual.items()
        if getattr(part, key) is None
    )


def list_run_taken(engine: Engine, load: PartLoads | None, *, friction: bool = False) -> tuple[Assumed, ...]:
    """Return what a run took for what nobody gave and a part's load rests on.

    Parameters
    ----------
    engine: whose part it is
    load: what its cylinder's parts have to bear, None where no run can be worked out
    friction: whether the load comes from the friction of the valve
    """
    if load is None:
        return ()
    shown = f"{show_number(load.pressure / 1e5, 1)} bar"
    supply = Assumed("engine.supply_pressure", shown, "not given: taken as the run has it", ("findings", "cures"))
    return (*((supply,) if engine.supply_pressure is None else ()), *(load.taken if friction else ()))


def _name_table(part: Gland | Fastener | Pin) -> str:
    if isinstance(part, Gland):
        return f"cylinder.{part.cylinder}.gland.{part.number}"
    return f"{'pin' if isinstance(part, Pin) else 'fastener'}.{part.number}"


def say_taken(taken: tuple[Assumed, ...]) -> str:
    """Say within a sentence what was taken and not measured; nothing where nothing was."""
    if not taken:
        return ""
    return f" (taken, not measured: {', '.join(f'{assumed.words} {assumed.value}' for assumed in taken)})"
