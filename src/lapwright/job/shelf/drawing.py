"""The small true drawing of an engine that stands on the shelf."""

from __future__ import annotations

from dataclasses import replace

from lapwright.engine.cylinder import assemble_cylinder
from lapwright.engine.engine import Engine
from lapwright.papers.drawing import Drawing, Line
from lapwright.papers.engine_picture import draw_engine
from lapwright.papers.engine_plan import fill_for_picture

#: Paper [mm]: small, so that lines and hatching are still told apart where it is shown small.
_WIDTH = 80.0


def draw_for_shelf(engine: Engine) -> Drawing | None:
    """Draw an engine's first cylinder with its gear in section, to scale; None where neither bore nor stroke is known.

    One whose rods do not reach round the turn, which its problems say, is not drawn either.

    Parameters
    ----------
    engine: as its record tells
    """
    first = engine.cylinders[0]
    # Checked as it will be drawn: with what is usually taken for the sizes that nobody gave.
    if not assemble_cylinder(fill_for_picture(first)[0]).can_turn:
        return None
    drawing = draw_engine(first, width=_WIDTH, clockwise=engine.rotation != "anticlockwise")
    if drawing is None:
        return None
    # Centre lines only darken a drawing of this size.
    kept = (shape for shape in drawing.shapes if not (isinstance(shape, Line) and shape.layer == "centre"))
    return replace(drawing, shapes=tuple(kept))
