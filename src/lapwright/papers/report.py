"""The report: what was found and on which evidence, what puts it right, and how the engine runs before and after.

It is for who was not there: the steps of the work are left to the card.
"""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.papers.blocks import Block, Heading, Points
from lapwright.papers.contents import lay_found, lay_grounds
from lapwright.papers.matter import CardMatter
from lapwright.papers.run_block import lay_runs
from lapwright.papers.sheets import lay_cylinder


def list_report(matter: CardMatter, *, width: float) -> list[Block]:
    """Return the whole report as blocks.

    Parameters
    ----------
    matter: what is told
    width: room for pictures from edge to edge of the text [mm]
    """
    blocks = [*lay_found(matter), *_tell_ways(matter)]
    for name in matter.before:
        blocks += lay_cylinder(matter, name, width=width)
    blocks += lay_runs(matter, width=width)
    return [*blocks, *lay_grounds(matter)]


def _tell_ways(matter: CardMatter) -> Iterator[Block]:
    """The cure of each cylinder and part, in a line each."""
    many = len(matter.before) > 1
    best = {cure.cylinder: cure for cure in reversed(matter.cures)}
    told = [(cure.cylinder, cure.title, cure.work, cure.gain) for cure in reversed(best.values())]
    told += [(cure.cylinder, cure.title, cure.work, "") for cure in matter.part_cures]
    lines = (
        (f"Cylinder {cylinder}: " if many and cylinder else "") + f"{title} ({work}).{_end(gain)}"
        for cylinder, title, work, gain in told
    )
    if told:
        yield Heading("What puts it right")
        yield Points(tuple(dict.fromkeys(lines)))


def _end(gain: str) -> str:
    return f" {gain[:1].upper()}{gain[1:].rstrip('.')}." if gain else ""
