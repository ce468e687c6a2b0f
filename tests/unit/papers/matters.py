"""Cards to test with: the demo engines, and engines put together from a few lines."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import radians
from pathlib import Path

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import NUMBER_KEYS, Sizes
from lapwright.job.papers import gather_matter
from lapwright.job.visit import Visit, examine
from lapwright.papers import CardMatter
from lapwright.papers.drawing import Dimension, Drawing, Shape, Text, lay_dimension, measure_text

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.toml"))


@cache
def examine_demo(name: str) -> Visit:
    """A demo engine's visit, worked out once for all tests."""
    return examine(EXAMPLES / f"{name}.toml")


def card_of(visit: Visit) -> CardMatter:
    """Its card on a fixed day."""
    return gather_matter(visit, date="2026-11-25")


def with_engine(visit: Visit, engine: Engine) -> Visit:
    """The same visit with another engine."""
    return Visit(replace(visit.record, engine=engine), engine)


def without(visit: Visit, key: str) -> Visit:
    """The same engine with one size nobody gave, in every cylinder."""

    def less(sizes: Sizes) -> Sizes:
        numbers = {k: v for k, v in sizes.numbers.items() if k != key}
        return replace(sizes, numbers=numbers, assumed={k: v for k, v in sizes.assumed.items() if k != key})

    return with_engine(visit, replace(visit.engine, cylinders=tuple(less(s) for s in visit.engine.cylinders)))


def visit_of(*cylinders: Sizes, **given: str) -> Visit:
    """A visit of an engine put together from cylinders, with whatever else is given of it."""
    return with_engine(examine_demo("knot"), Engine(name="Wren", cylinders=cylinders, **given))


def cylinder(**changed: float | None) -> Sizes:
    """A plain cylinder with a 12 mm valve on 2 mm ports, some sizes changed [mm, deg] or, None, not given."""
    plain: dict[str, float | None] = {
        "bore": 20.0,
        "stroke": 20.0,
        "connecting_rod": 50.0,
        "piston_rod": 3.0,
        "port_face.steam_port": 2.0,
        "port_face.bridge": 2.0,
        "port_face.exhaust_port": 3.4,
        "valve.length": 12.0,
        "valve.cavity": 7.0,
        "valve_drive.throw": 2.4,
        "valve_drive.eccentric_rod": 60.0,
        "valve_drive.eccentric_angle": 105.0,
    }
    words = {key.split(".")[-1]: key for key in NUMBER_KEYS}
    sizes = plain | {words[key]: value for key, value in changed.items()}
    numbers = {
        key: radians(value) if key.endswith("_angle") else value * 1e-3
        for key, value in sizes.items()
        if value is not None
    }
    return Sizes("A", numbers)


def list_texts(drawing: Drawing) -> list[Text]:
    """Every word of a drawing, those of its dimensions too."""
    shapes = [part for shape in drawing.shapes for part in _take_apart(shape)]
    return [shape for shape in shapes if isinstance(shape, Text)]


def span_of(text: Text) -> tuple[float, float]:
    """From where to where words reach across the paper [mm], a little generously."""
    width = measure_text(text.words, text.size)
    left = text.at[0] - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    return left, left + width


def _take_apart(shape: Shape) -> tuple[Shape, ...]:
    return lay_dimension(shape) if isinstance(shape, Dimension) else (shape,)
