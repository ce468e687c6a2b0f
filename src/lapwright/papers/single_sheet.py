"""Drawings on a sheet of their own: ruled, with a title strip at the foot, as SVG and as PDF of one page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Final

from lapwright.papers.blocks import Pictures
from lapwright.papers.card import WIDTHS, quote_drawing, quote_text, typeset
from lapwright.papers.drawing import Dimension, Drawing, Hatch, Line, Point, Shape, Text
from lapwright.papers.lettering import clip_text
from lapwright.papers.matter import CardMatter
from lapwright.papers.run_block import draw_cards
from lapwright.papers.sheets import lay_valve
from lapwright.papers.svg import svg_text
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.torque_picture import draw_starting, draw_torque

#: How high the sheets are [mm].
HEIGHTS: Final = {"a4": 297.0, "letter": 279.4}
#: From the edge of the paper to the rule round the sheet, from there to the drawings, between them, and the height of
#: the title strip [mm].
_EDGE, _INSIDE, _GAP, _STRIP = 8.0, 5.0, 4.0, 15.0
#: Letters of the title strip, large and small [mm].
_LARGE, _SMALL = 6.0, 3.4

Rows = list[tuple[Drawing, ...]]


def draw_sheet(matter: CardMatter, kind: str, name: str, *, paper: str) -> Drawing | None:
    """Draw a sheet of one cylinder; None where too little is known for any drawing on it.

    Parameters
    ----------
    matter: what is told
    kind: one of `SHEETS`
    name: the cylinder
    paper: "a4" or "letter"
    """
    title, draw = SHEETS[kind]
    width = WIDTHS[paper] - 2 * (_EDGE + _INSIDE)
    rows = draw(matter, name, width)
    if not rows:
        return None
    where = f", cylinder {name}" if len(matter.before) > 1 else ""
    return _lay_out(rows, list(_letter(matter, f"{title}{where}", width)), paper=paper)


def sheet_bytes(sheet: Drawing) -> bytes:
    """Return a sheet as PDF of one page; the same sheet gives the same bytes.

    Parameters
    ----------
    sheet: from `draw_sheet`
    """
    page = (
        f"#set document(title: {quote_text(sheet.about)}, author: ())\n"
        f"#set page(width: {sheet.width}mm, height: {sheet.height}mm, margin: 0mm)\n"
        '#set text(font: "Source Sans Pro")\n'
        f'#image(bytes({quote_drawing(svg_text(sheet))}), format: "svg", width: {sheet.width}mm)\n'
    )
    return typeset(page, root=Path(__file__).parent)


def _draw_valve(matter: CardMatter, name: str, width: float) -> Rows:
    found = matter.sizes[name]
    cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
    blocks = lay_valve(found, None if cure is None else found.replacing(cure.changes), width=width)
    return [block.drawings for block in blocks if isinstance(block, Pictures)]


def _draw_timing(matter: CardMatter, name: str, width: float) -> Rows:
    found = matter.sizes[name]
    cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
    drawing = draw_timing(found, None if cure is None else found.replacing(cure.changes), width=width)
    return [] if drawing is None else [(drawing,)]


def _draw_run(matter: CardMatter, name: str, width: float) -> Rows:
    sheet = matter.runs
    if sheet is None or all(cylinder.name != name for cylinder in sheet.before.run.cylinders):
        return []
    rows: Rows = [draw_cards(matter, sheet, name, width=width)]
    rows.append((draw_torque(sheet.before.run, sheet.after.run if sheet.after else None, width=width),))
    if sheet.starting is not None:
        rows.append((draw_starting(sheet.starting, sheet.starting_after, width=width),))
    return rows


#: The sheets by their names: the title, and what draws their rows, given the matter, the cylinder and the room [mm].
SHEETS: Final[Mapping[str, tuple[str, Callable[[CardMatter, str, float], Rows]]]] = {
    "valve": ("The valve on its face", _draw_valve),
    "timing": ("Timing", _draw_timing),
    "run": ("Pressure cards, torque and starting", _draw_run),
}


def _letter(matter: CardMatter, title: str, width: float) -> Iterator[Text]:
    """What stands in the title strip, from the strip's lower left corner."""
    foot = f"{clip_text(matter.record_name, 40)}  ·  {matter.record_digest[:12]}  ·  {matter.date}"
    yield Text((0.0, 7.0), clip_text(matter.engine.name, 36), _LARGE, "start", bold=True)
    yield Text((0.0, 2.0), foot, _SMALL, "start")
    yield Text((width, 7.0), title, 4.4, "end", bold=True)
    yield Text((width, 2.0), "Sizes in mm", _SMALL, "end")


def _lay_out(rows: Rows, letters: Sequence[Text], *, paper: str) -> Drawing:
    """Rows from the top of the sheet, the strip at its foot, a rule round all; the sheet grows if they are too many."""
    width, gutter = WIDTHS[paper], 6.0
    heights = [max(drawing.height for drawing in row) for row in rows]
    needed = 2 * (_EDGE + _INSIDE) + _STRIP + sum(heights) + _GAP * (len(rows) - 1)
    height = max(HEIGHTS[paper], needed)
    left, top = _EDGE + _INSIDE, height - _EDGE - _INSIDE
    shapes: list[Shape] = [_rule(width, top=height - _EDGE), _rule(width, top=_EDGE + _STRIP)]
    shapes += [_move(text, (left, _EDGE + 2.0)) for text in letters]
    for row, tall in zip(rows, heights, strict=True):
        x = left
        for drawing in row:
            shapes += [_move(shape, (x, top - drawing.height)) for shape in drawing.shapes]
            x += drawing.width + gutter
        top -= tall + _GAP
    return Drawing(width, height, f"{letters[0].words}: {letters[2].words}", tuple(shapes))


def _rule(width: float, *, top: float) -> Line:
    """A rule round what lies between the foot of the sheet and a height."""
    left, right = _EDGE, width - _EDGE
    return Line(((left, _EDGE), (right, _EDGE), (right, top), (left, top)), "outline", closed=True)


def _move(shape: Shape, by: Point) -> Shape:
    def shift(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    match shape:
        case Line():
            return replace(shape, points=tuple(map(shift, shape.points)))
        case Text():
            return replace(shape, at=shift(shape.at))
        case Hatch():
            return replace(shape, rings=tuple(tuple(map(shift, ring)) for ring in shape.rings))
        case Dimension():
            return replace(shape, left=shift(shape.left), right=shift(shape.right), y=shape.y + by[1])
