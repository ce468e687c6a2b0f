"""At what speed an engine settles under a load, and the lowest pressure at which it turns over."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, inf, log

from lapwright.cycle.conditions import Conditions
from lapwright.cycle.engine_run import Plant, run_engine
from lapwright.errors import CannotRun
from lapwright.medium.if97 import CRITICAL_TEMPERATURE, saturation_pressure
from lapwright.motion.travel import RPM

#: An engine is looked for between these speeds [rad/s]; slower it stops on a dead centre, faster it flies apart.
SLOWEST, FASTEST = 20 * RPM, 20_000 * RPM
#: How slowly an engine turns that just turns over [rad/s].
TICKING = 60 * RPM
#: How closely the speed is found, as a share, and the pressure [Pa].
_CLOSE_SPEED, _CLOSE_PRESSURE = 1e-5, 20.0
#: Highest supply above the exhaust that is tried [Pa].
_HIGHEST = 12e5


def settle_speed(
    plant: Plant, conditions: Conditions, *, torque: float = 0.0, power: float = 0.0, quick: bool = True
) -> float | None:
    """Return the speed [rad/s] at which an engine settles under a load; None where it stops.

    Parameters
    ----------
    plant: the engine ready to be run
    conditions: what it is run on; their speed does not matter
    torque: what the load takes at any speed [N m]
    power: what it takes besides, at any speed [W]
    quick: whether fewer steps will do; where the torque hardly falls with speed, its error is many times the speed's

    Raises
    ------
    CannotRun: it would run faster than any engine holds together, or cannot be worked out at all
    """

    def spare(ln_speed: float) -> float:
        speed = exp(ln_speed)
        run = run_engine(plant, conditions.at_speed(speed), quick=quick)
        return run.mean_torque - torque - power / speed

    low, high = log(SLOWEST), log(FASTEST)
    # The torque falls with speed; where a power is wanted, the slow end may stall while a faster one holds.
    grid = [low + (high - low) * n / 8 for n in range(9)]
    values: list[float] = []
    for place in grid:
        values.append(spare(place))
        if len(values) > 1 and values[-2] > 0 >= values[-1]:
            return exp(_cross(spare, (grid[len(values) - 2], place), (values[-2], values[-1]), close=_CLOSE_SPEED))
    if values[-1] > 0:
        raise CannotRun(
            "the engine", "without more load it would run away beyond 20,000 rpm", "give it a load or some friction"
        )
    return None


def find_least_pressure(plant: Plant, conditions: Conditions, *, torque: float = 0.0) -> float | None:
    """Return the lowest absolute supply pressure [Pa] at which an engine turns over slowly; None where none will do.

    Its friction and a load [N m] are just overcome at 60 rpm; the flywheel carries it over the dead places.
    """
    ticking = conditions.at_speed(TICKING)

    def spare(above: float) -> float:
        return run_engine(plant, ticking.at_supply(conditions.exhaust + above), quick=True).mean_torque - torque

    most = min(_HIGHEST, _find_highest(conditions) - conditions.exhaust)
    low, high = min(500.0, most), min(0.5e5, most)
    below, over = spare(low), spare(high)
    while over <= 0:
        if high >= most:
            return None
        low, below = high, over
        high = min(2 * high, most)
        over = spare(high)
    if below > 0:
        return conditions.exhaust + low
    return conditions.exhaust + _cross(spare, (low, high), (below, over), close=_CLOSE_PRESSURE)


def _find_highest(conditions: Conditions) -> float:
    """Up to what absolute pressure [Pa] steam of the supply's temperature is still steam, or no limit."""
    temperature = conditions.supply_temperature
    if conditions.fluid != "steam" or temperature is None or temperature >= CRITICAL_TEMPERATURE:
        return inf
    return 0.9999 * saturation_pressure(temperature)


def _cross(
    spare: Callable[[float], float], ends: tuple[float, float], values: tuple[float, float], *, close: float
) -> float:
    """Find where a function crosses nothing between two places of unlike sign: false position, never stuck at an end.

    Source: the Illinois variant of false position (from memory)
    """
    (a, b), (fa, fb) = ends, values
    kept, last = 0, b
    for _ in range(40):
        middle = (a * fb - b * fa) / (fb - fa)
        if abs(middle - last) < close:
            return middle
        value, last = spare(middle), middle
        if (value > 0) == (fb > 0):
            b, fb = middle, value
            fa *= 0.5 if kept == 1 else 1.0
            kept = 1
        else:
            a, fa = middle, value
            fb *= 0.5 if kept == -1 else 1.0
            kept = -1
    return last
