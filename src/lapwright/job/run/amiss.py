"""Which figure of those that were asked for is the one that cannot be."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from lapwright.errors import BadInput, LapwrightError
from lapwright.job.log.draft import FieldProblem
from lapwright.job.run.stand import Asked
from lapwright.quantities import read_dryness, read_load, read_pressure, read_speed, read_temperature

_READERS: Mapping[str, Callable[[str], object]] = {
    "pressure": read_pressure,
    "exhaust": read_pressure,
    "temperature": read_temperature,
    "dryness": read_dryness,
    "speed": read_speed,
    "load": read_load,
}
#: Of figures that can be read and do not go together: what is said of them, and whose they are, the likeliest first.
_SAID = {
    "stalls it": ("load", "pressure"),
    "exhaust": ("exhaust", "pressure"),
    "dryness": ("dryness",),
    "as superheated": ("dryness", "temperature"),
    "degC at its pressure": ("temperature", "pressure"),
    "cannot be worked out": ("pressure",),
    "run away": ("load",),
}


def find_amiss(asked: Asked, error: LapwrightError) -> tuple[FieldProblem, ...]:
    """Return what is amiss, figure by figure; nothing where a refusal is about none of them.

    Parameters
    ----------
    asked: as it was written
    error: with which it was refused

    Example:
    >>> [problem.field for problem in find_amiss(Asked(pressure="7", speed="300 rpm"), BadInput("7 has no unit", ""))]
    ['pressure']
    """
    written = {name: text for name in _READERS if (text := getattr(asked, name)) is not None}
    if isinstance(error, BadInput):
        return tuple(_read(written))
    for words, names in _SAID.items():
        blamed = next((name for name in names if name in written), "")
        if words in error.message and blamed:
            return (FieldProblem(blamed, error.message, error.instead),)
    return ()


def _read(written: Mapping[str, str]) -> Iterator[FieldProblem]:
    for name, text in written.items():
        try:
            _READERS[name](text)
        except BadInput as error:
            yield FieldProblem(name, error.message, error.instead)
