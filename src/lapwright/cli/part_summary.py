"""Glands, screws, pins and paint of an examination as they are read in a terminal, and what to have ready."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lapwright.cures.part_cure import PartCure
    from lapwright.job.visit import Visit

WIDTH = 96


def list_part_cures(visit: Visit) -> Iterator[str]:
    """Yield what to do about each part: its steps stand on the card, here are the title and the figures."""
    if not visit.part_cures:
        return
    cautions = dict.fromkeys(line for cure in visit.part_cures for line in cure.before_you_start)
    yield "What to do about the parts\n\n" + "\n".join(_wrap(f"Caution: {line}", "   ", "   ") for line in cautions)
    many = len(visit.cylinders) > 1
    yield "\n".join(_tell_cure(number, cure, many=many) for number, cure in enumerate(visit.part_cures, 1))


def _tell_cure(number: int, cure: PartCure, *, many: bool) -> str:
    where = f"cylinder {cure.cylinder}: " if many else ""
    left = f" Leaves: {', '.join(cure.left).replace('-', ' ')}." if cure.left else ""
    lines = [_wrap(f"{number}. {where}{cure.title} ({cure.work}).{left} [{cure.code}]", "", "   ")]
    figures = [f"{name}: {value}" for name, value in cure.figures]
    if figures:
        lines.append(_wrap("; ".join(figures) + ".", "   ", "   "))
    lines.extend(_wrap(f"Taken, not measured: {each.words} {each.value}.", "   ", "   ") for each in cure.taken)
    return "\n".join(lines)


def list_painting(visit: Visit) -> Iterator[str]:
    """Yield how the engine is painted, in short."""
    plan = visit.finish
    if plan is None:
        return
    coats = ", then ".join(coat.name for coat in plan.coats)
    yield "Painting\n" + _wrap(f"{plan.why} {coats[:1].upper() + coats[1:]}{'.' if coats else ''}", "   ", "   ")


def list_ready(visit: Visit) -> Iterator[str]:
    """Yield what to have ready for the whole job, a line for each shelf."""
    if not visit.have_ready:
        return
    shelves: dict[str, list[str]] = {}
    for item in visit.have_ready:
        counted = f"{item.count} x {item.name}" if item.count > 1 else item.name
        shelves.setdefault(item.shelf, []).append(f"{counted} ({item.amount})" if item.amount else counted)
    lines = [_wrap(f"{shelf}: {'; '.join(names)}", "   ", "      ") for shelf, names in shelves.items()]
    yield "To have ready\n" + "\n".join(lines)


def _wrap(text: str, first: str, rest: str) -> str:
    return fill(text, WIDTH, initial_indent=first, subsequent_indent=rest)
