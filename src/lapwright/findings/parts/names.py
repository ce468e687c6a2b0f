"""What parts are called in findings and cures, and what is wrong with a gland on the way to both."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Final, TypeVar

from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener, Gland, Pin

_ORDINALS: Final = ("second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
Named = TypeVar("Named", Fastener, Pin)


def tell_apart(engine: Engine) -> Engine:
    """Return the engine with a name of its own for every part: a finding and its cure know a part by its name.

    Parameters
    ----------
    engine: as its record tells of it

    Example:
    >>> twice = tuple(Pin(name="pin", cylinder="A", number=number) for number in (1, 2))
    >>> [pin.name for pin in tell_apart(Engine(name="Tern", cylinders=(), pins=twice)).pins]
    ['pin', 'second pin']
    """
    taken: set[tuple[str, str]] = set()
    glands = tuple(replace(gland, on=_find_own((gland.cylinder, gland.on), taken)) for gland in engine.glands)
    return replace(engine, glands=glands, fasteners=_number(engine.fasteners), pins=_number(engine.pins))


def _number(parts: Iterable[Named]) -> tuple[Named, ...]:
    taken: set[tuple[str, str]] = set()
    return tuple(replace(part, name=_find_own((part.cylinder, part.name), taken)) for part in parts)


def _find_own(place: tuple[str, str], taken: set[tuple[str, str]]) -> str:
    """The name itself, or with the first ordinal before it that is free in its cylinder."""
    cylinder, name = place
    number, own = 2, name
    while (cylinder, own) in taken:
        ordinal = _ORDINALS[number - 2] if number - 2 < len(_ORDINALS) else f"{number}th"
        number, own = number + 1, f"{ordinal} {name}"
    taken.add((cylinder, own))
    return own


def name_gland(gland: Gland) -> str:
    """Return what a gland is called."""
    return f"gland of the {gland.on}"


def name_glands(glands: tuple[Gland, ...]) -> str:
    """Return what several glands of a cylinder are called together."""
    if len(glands) == 1:
        return name_gland(glands[0])
    return "glands of " + " and ".join(f"the {gland.on}" for gland in glands)


def name_fasteners(fastener: Fastener) -> tuple[str, str]:
    """Return what one screw or several alike are called, and the verb that goes with it.

    Example:
    >>> name_fasteners(Fastener(name="cover stud", cylinder="A", number=1, count=6))
    ('cover studs', 'are')
    """
    # "screws", "studs B": a name that speaks of several needs no other ending.
    named_so = any(word.endswith("s") for word in fastener.name.lower().split())
    several = named_so or (fastener.count or 1) > 1
    plain = f"{fastener.name}s" if several and not named_so else fastener.name
    return plain, "are" if several else "is"
