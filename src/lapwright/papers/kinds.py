"""The papers that are read from top to bottom: what each is called and what stands on it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from lapwright.papers.blocks import Block
from lapwright.papers.contents import list_blocks
from lapwright.papers.matter import CardMatter
from lapwright.papers.report import list_report


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of paper: what it is called, and what stands on it, given the room for pictures [mm]."""

    title: str
    lay: Callable[[CardMatter, float], list[Block]]


KINDS: Final[Mapping[str, Kind]] = {
    "card": Kind("Job card", lambda matter, width: list_blocks(matter, width=width)),
    "report": Kind("Report", lambda matter, width: list_report(matter, width=width)),
}
