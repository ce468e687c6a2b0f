"""How hot something is, as tins and tables say it."""

from __future__ import annotations

from lapwright.quantities import show_number
from lapwright.quantities.temperature import FREEZING


def show_heat(temperature: float) -> str:
    """Show a temperature as the tins do.

    Parameters
    ----------
    temperature: [K]

    Example:
    >>> show_heat(366.15)
    '93 degC'
    """
    return f"{show_number(temperature - FREEZING, 0)} degC"
