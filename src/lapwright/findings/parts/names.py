"""What parts are called in findings and cures, and what is wrong with a gland on the way to both."""

from __future__ import annotations

from lapwright.engine.parts import Fastener, Gland


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
    several = fastener.count > 1 or fastener.name.endswith("s")
    plain = fastener.name if not several or fastener.name.endswith("s") else f"{fastener.name}s"
    return plain, "are" if several else "is"
