"""Drawings on a page: as SVG, with what they show in words, so that a wide one can be moved along by keyboard too."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing
from lapwright.papers.svg import svg_text

#: From this width on a drawing keeps a legible size on a narrow screen and is moved along instead [mm].
_WIDE = 120.0


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing ready for a page."""

    svg: str
    about: str
    is_wide: bool


def show_picture(drawing: Drawing) -> Picture:
    """Make a drawing ready for a page.

    Parameters
    ----------
    drawing: of the papers
    """
    return Picture(svg_text(drawing), drawing.about, drawing.width > _WIDE)
