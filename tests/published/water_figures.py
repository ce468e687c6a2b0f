"""What the rows on water and steam share: figures printed to nine digits, and what is worked out from the kernels."""

from __future__ import annotations

from collections.abc import Callable
from math import floor, log10, sqrt

Kernel = Callable[[float, float], tuple[float, float, float, float, float]]

#: Step of a difference as a share: small enough for where steam bends most, large enough for the last digits.
STEP = 1e-4


def count_places(value: float, digits: int) -> int:
    """The decimal places of a figure with so many digits."""
    return digits - 1 - floor(log10(abs(value)))


def half_unit(value: float, digits: int) -> float:
    """Half a unit of the last of so many digits."""
    return 0.5 * 10.0 ** -count_places(value, digits)


def work_out_sound(kernel: Kernel, pressure: float, temperature: float) -> float:
    """Speed of sound [m/s] from the volume, how it changes, and the heat capacity."""
    volume, cp = kernel(pressure, temperature)[0], kernel(pressure, temperature)[4]
    by_pressure, by_temperature = find_slopes(kernel, pressure, temperature)
    return volume / sqrt(-by_pressure - temperature * by_temperature**2 / cp)


def work_out_cv(kernel: Kernel, pressure: float, temperature: float) -> float:
    """Heat capacity at constant volume [J/(kg K)] from that at constant pressure."""
    by_pressure, by_temperature = find_slopes(kernel, pressure, temperature)
    return kernel(pressure, temperature)[4] + temperature * by_temperature**2 / by_pressure


def find_slopes(kernel: Kernel, pressure: float, temperature: float) -> tuple[float, float]:
    """How the volume changes with the pressure and with the temperature."""
    by_pressure = _find_slope(lambda value: kernel(value, temperature)[0], pressure)
    return by_pressure, _find_slope(lambda value: kernel(pressure, value)[0], temperature)


def _find_slope(function: Callable[[float], float], at: float) -> float:
    step = STEP * at
    near = function(at + step) - function(at - step)
    far = function(at + 2 * step) - function(at - 2 * step)
    return (8 * near - far) / (12 * step)
