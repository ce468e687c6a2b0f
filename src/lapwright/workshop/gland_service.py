"""What a gland has to live with: what the engine is put on, how hot that is, and the oil that comes with it."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.errors import OutOfRange
from lapwright.medium.boiling import find_boiling_point
from lapwright.quantities import show_number
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.quantities.temperature import FREEZING
from lapwright.workshop.gland_words import FLUID_NAMES, OIL_NAMES, pick_word

FLUIDS = ("air", "steam", "water")
OILS = ("mineral", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """What a gland has to live with; `pressure` [Pa, gauge] and `temperature` [K] are None where not known.

    `notes` say what was taken because nobody told.
    """

    fluid: str
    pressure: float | None
    temperature: float | None
    oil: str
    notes: tuple[str, ...] = ()

    @property
    def celsius(self) -> float | None:
        """The temperature [degC], or None where it is not known."""
        return None if self.temperature is None else self.temperature - FREEZING


def settle_service(
    fluid: str | None = None,
    *,
    pressure: float | None = None,
    temperature: float | None = None,
    oil: str | None = None,
) -> Service:
    """Settle what a gland has to live with from what is known; what is taken instead is said in the notes.

    Parameters
    ----------
    fluid: one of `FLUIDS`, by any name that people write; left out, steam, the hardest
    pressure: to be held, above the atmosphere [Pa, not below 0]
    temperature: of what is held [K]; left out, that of saturated steam where the pressure is known
    oil: one of `OILS`, by any name that people write; left out, mineral, as steam oil is

    Raises
    ------
    NotOneOf: no such fluid or oil
    OutOfRange: a pressure below the atmosphere, or one under which water does not boil

    Source: iapws-r7-97, equation 31; common practice, no source (mineral steam oil)

    Example:
    >>> round(settle_service("steam", pressure=3e5).celsius, 1)
    143.7
    """
    settled = FLUIDS[1] if fluid is None else pick_word(fluid, FLUIDS, FLUID_NAMES)
    wet = OILS[0] if oil is None else pick_word(oil, OILS, OIL_NAMES)
    if pressure is not None and pressure < 0:
        raise OutOfRange(f"{show_number(pressure / 1e5, 2)} bar", "is below the atmosphere", "write gauge pressure")
    notes = []
    if fluid is None:
        notes.append("Not said what it runs on: judged for steam, which is the hardest on packing.")
    if settled == "steam" and temperature is None and pressure is not None:
        temperature = find_boiling_point(pressure + ATMOSPHERE)
        notes.append(
            f"The steam is taken as saturated, {show_number(temperature - FREEZING, 0)} degC; superheated it is hotter."
        )
    if settled == "steam" and temperature is None:
        notes.append("How hot the steam is is not known: what has a limit is shown with it, and not judged by it.")
    if oil is None:
        notes.append("The oil is taken as mineral, as steam oil usually is.")
    return Service(fluid=settled, pressure=pressure, temperature=temperature, oil=wet, notes=tuple(notes))
