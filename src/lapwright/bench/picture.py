"""Drawings on a page: as SVG, with what they show in words, so that a wide one can be moved along by keyboard too."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Dimension, Drawing, Text
from lapwright.papers.svg import svg_text

#: From this width on a drawing keeps a legible size on a narrow screen and is moved along instead [mm].
_WIDE = 120.0
#: Letters smaller than this share of the width cannot be read on a telephone [-].
_LEAST = 0.033


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing ready for a page."""

    svg: str
    about: str
    is_wide: bool


def show_picture(drawing: Drawing, *, legible: bool = False) -> Picture:
    """Make a drawing ready for a page.

    Parameters
    ----------
    drawing: of the papers
    legible: whether also one with letters too small for a narrow screen is moved along there
    """
    letters = [shape.size for shape in drawing.shapes if isinstance(shape, Text | Dimension)]
    is_fine = legible and min(letters, default=drawing.width) < _LEAST * drawing.width
    return Picture(svg_text(drawing), drawing.about, is_fine or drawing.width > _WIDE)
