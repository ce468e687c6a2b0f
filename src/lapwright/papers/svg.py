"""A drawing as SVG text, sized in true millimetres; nothing but plain shapes, so that every reader shows it alike."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from lapwright.papers.drawing import Dimension, Drawing, Hatch, Line, Point, Shape, Text, lay_dimension, lay_hatch
from lapwright.papers.lettering import clean_text

FONTS = "Source Sans Pro, Arial, Helvetica, sans-serif"

#: How a layer's lines look: width [mm], dashes, and whether areas are filled. Told apart without any colour.
LAYERS = {
    "outline": 'stroke="#000" stroke-width="0.5"',
    "thin": 'stroke="#000" stroke-width="0.3"',
    "hidden": 'stroke="#000" stroke-width="0.35" stroke-dasharray="2 1.2"',
    "centre": 'stroke="#000" stroke-width="0.25" stroke-dasharray="6 1.2 1.2 1.2"',
    "hatch": 'stroke="#000" stroke-width="0.18"',
    "dimension": 'stroke="#000" stroke-width="0.22"',
    "grid": 'stroke="#888" stroke-width="0.18"',
    "found": 'stroke="#000" stroke-width="0.45" stroke-dasharray="1.8 1.2"',
    "curve": 'stroke="#000" stroke-width="0.6"',
    "flow": 'stroke="#000" stroke-width="0.7"',
    "wanted": 'stroke="#000" stroke-width="0.3" stroke-dasharray="1.4 1.1"',
}
#: Areas; the last is not seen, and lets a finger find the words that lie on it.
FILLED = {"fill": 'fill="#000"', "paper": 'fill="#fff"', "touch": 'pointer-events="all"'}


def svg_text(drawing: Drawing) -> str:
    """Write a drawing as one SVG element whose user unit is a millimetre of paper.

    Every layer is a group of its own with a class of the same name, so that a page may colour it afresh.
    """
    height = drawing.height
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_number(drawing.width)}mm" height="{_number(height)}mm" '
        f'viewBox="0 0 {_number(drawing.width)} {_number(height)}" role="img" '
        f'aria-label={quoteattr(clean_text(drawing.about))} font-family={quoteattr(FONTS)} fill="none" '
        'stroke-linejoin="round">'
    ]
    return "\n".join([*parts, *group_layers(drawing.shapes, height=height), "</svg>\n"])


def group_layers(shapes: Iterable[Shape], *, height: float = 0.0) -> list[str]:
    """Write shapes as groups, one for each run of shapes on the same layer; its class is the layer's name.

    Parameters
    ----------
    shapes: in their order
    height: of the paper [mm]: y upwards becomes y downwards from there
    """
    parts: list[str] = []
    for layer, run in groupby(_lay(shapes), key=lambda shape: shape.layer if isinstance(shape, Line) else "text"):
        parts.append(f'<g class="{layer}" {_style(layer)}>')
        parts += [_write_shape(shape, height) for shape in run]
        parts.append("</g>")
    return parts


def _style(layer: str) -> str:
    if layer == "text":
        return 'fill="#000"'
    return FILLED.get(layer) or LAYERS[layer]


def _lay(shapes: Iterable[Shape]) -> list[Line | Text]:
    plain: list[Line | Text] = []
    for shape in shapes:
        if isinstance(shape, Hatch):
            plain += lay_hatch(shape)
        elif isinstance(shape, Dimension):
            plain += lay_dimension(shape)
        else:
            plain.append(shape)
    return plain


def _write_shape(shape: Line | Text, height: float) -> str:
    if isinstance(shape, Text):
        x, y = _place(shape.at, height).split(",")
        weight = ' font-weight="bold"' if shape.bold else ""
        words = escape(clean_text(shape.words))
        size = _number(shape.size)
        named = f"{weight}{_name_key(shape.key)}"
        return f'<text x="{x}" y="{y}" font-size="{size}" text-anchor="{shape.anchor}"{named}>{words}</text>'
    points = " ".join(_place(point, height) for point in shape.points)
    return f'<{"polygon" if shape.closed else "polyline"} points="{points}"{_name_key(shape.key)}/>'


def _name_key(key: str) -> str:
    """The record key of the size that a shape shows, for a page to find it by."""
    return f" data-key={quoteattr(key)}" if key else ""


def _place(point: Point, height: float) -> str:
    return f"{_number(point[0])},{_number(height - point[1])}"


def _number(value: float) -> str:
    """Thousandths of a millimetre, without idle zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
