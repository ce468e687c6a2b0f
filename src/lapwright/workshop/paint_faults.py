"""Why paint runs, wrinkles, lifts or browns, and what to do about it."""

from __future__ import annotations

from typing import Final

from lapwright.quantities import show_number
from lapwright.workshop.paint_choice import Paint, show_limit
from lapwright.workshop.paint_film import VISCOSITY, find_sag_speed, find_wet_film, show_micrometres

#: What may be seen of a coat that went wrong.
PAINT_FAULTS: Final = ("runs", "wrinkles", "lifts", "browns")
#: Wet films at which it is told how fast paint slides [m].
_FILMS: Final = (50e-6, 100e-6, 150e-6)


def explain_faults(paint: Paint, *, wet_film: float | None, seen: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Say why each fault comes about and what to do, those that were seen first.

    Parameters
    ----------
    paint: the one that is laid on
    wet_film: of one coat of it [m]; None where not known
    seen: some of `PAINT_FAULTS`

    Source: gels-2018 (wrinkles); exact geometry (runs); common practice, no source (the rest)
    """
    reasons = {
        "runs": _explain_runs(wet_film),
        "wrinkles": _explain_wrinkles(paint),
        "lifts": (
            "Paint lifts where it has no hold: on grease, on polished metal, on etch primer laid so thick that acid is "
            "left in it. Take it off to the metal and begin again."
        ),
        "browns": (
            f"Paint browns, softens or blisters beyond its heat: {paint.name} stands {show_limit(paint)}. Another "
            "coat of the same will do the same; take it off and choose one that stands more."
        ),
    }
    order = sorted(PAINT_FAULTS, key=lambda fault: fault not in seen)
    return tuple(reasons[fault] for fault in order)


def _explain_runs(wet_film: float | None) -> str:
    speeds = ", ".join(_show_speed(film) for film in _FILMS)
    thick = ", ".join(show_number(film * 1e6, 0) for film in _FILMS)
    own = ""
    if wet_film is not None:
        own = f" One coat of {show_micrometres(wet_film)} slides at {_show_speed(wet_film)} mm/min."
    return (
        f"Paint runs where it lies thick: on an upright face the skin of a wet coat slides down at {speeds} mm/min if "
        f"it is {thick} µm thick (for a paint of {VISCOSITY:g} Pa s).{own} What comes down grows with the cube of the "
        "thickness: twice as thick sends eight times as much. Let a run harden, rub it flat on a block, and coat "
        "again, thinner."
    )


def _explain_wrinkles(paint: Paint) -> str:
    most = "what its tin allows"
    if paint.most is not None:
        wet = "" if paint.solids is None else f", {show_micrometres(find_wet_film(paint.most, paint.solids))} wet"
        most = f"what its sheet allows, {show_micrometres(paint.most)} dry{wet}"
    return (
        "Paint wrinkles for two reasons: the next coat comes on while the one below still swells in its solvent, or a "
        f"coat lies so thick that a skin forms on it while it is liquid, and buckles. Keep to the time between coats, "
        f"and stay under {most}; at what thickness it begins is not known. Let wrinkles harden through, rub them flat "
        "or take them off, and coat again."
    )


def _show_speed(film: float) -> str:
    return show_number(find_sag_speed(film) * 60e3, 1)
