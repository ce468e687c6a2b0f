"""Pictures to measure by: exactly this engine's parts, each size on them by its trade name and its record key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass

from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener, Gland, Pin
from lapwright.engine.sizes import Sizes
from lapwright.papers.drawing import Drawing
from lapwright.papers.measure_cylinder import draw_cylinder
from lapwright.papers.measure_drive import draw_drive
from lapwright.papers.measure_face import draw_face
from lapwright.papers.measure_fastener import draw_fastener
from lapwright.papers.measure_gland import draw_gland
from lapwright.papers.measure_marks import Subject, Telling
from lapwright.papers.measure_pin import draw_pin
from lapwright.tables.naming import find_thread

_CONDITION = "it tells how the engine runs, which cannot be seen on a part"
_NAME = "it is a name, not a size"
_WISH = "it is what you want of the engine, not what it is"
_TEST = "it is read while the engine runs, and belongs to the page Run"
_PAINT = "paint is no size of a part"

#: Why a key, or all keys of a table, have no place on a picture; keys by table, without numbers.
NOT_PICTURED: Mapping[str, str] = {
    "format": "it says how the file is written",
    "engine.name": _NAME,
    "engine.notes": "it is text of your own",
    "engine.fluid": _CONDITION,
    "engine.supply_pressure": _CONDITION,
    "engine.exhaust_pressure": _CONDITION,
    "engine.purpose": _WISH,
    "cylinder.name": _NAME,
    "fastener.name": _NAME,
    "fastener.cylinder": _NAME,
    "pin.name": _NAME,
    "pin.cylinder": _NAME,
    "target": _WISH,
    "running": _CONDITION,
    "bench_test": _TEST,
    "finish": _PAINT,
}


@dataclass(frozen=True, slots=True)
class MeasureView:
    """One picture: what it shows (`cylinder`, `face`, `drive`, `gland`, `fastener`, `pin`), of which part, by path."""

    name: str
    part: str
    drawing: Drawing

    @property
    def keys(self) -> tuple[str, ...]:
        """The record keys that stand on it, in their order."""
        return tuple(dict.fromkeys(key for shape in self.drawing.shapes if (key := getattr(shape, "key", ""))))


def draw_part(
    part: str,
    engine: Engine | None,
    *,
    written: Mapping[str, str],
    taken: Mapping[str, str],
    telling: Telling | None = None,
) -> tuple[MeasureView, ...]:
    """Draw what is measured of a part; a part of which nothing is known is drawn at usual proportions.

    Parameters
    ----------
    part: its record path: `cylinder.0`, `cylinder.0.gland.1`, `fastener.0` or `pin.0`
    engine: as far as it is known
    written: the texts of the record, by record path
    taken: what was assumed, as it is shown, by record path
    telling: what to tell of a gland, a screw or a pin, where the picture is that of its fault

    Example:
    >>> [view.name for view in draw_part("cylinder.0", None, written={}, taken={})]
    ['cylinder', 'face', 'drive']
    """
    kind = next(name for name in ("gland", "fastener", "pin", "cylinder") if name in part.split("."))
    turn = -1 if engine is not None and engine.rotation == "anticlockwise" else 1
    if kind == "cylinder":
        sizes = _find_sizes(engine, part)
        subject = Subject(part, sizes.numbers, written, turn=turn, taken=taken)
        views = {
            "cylinder": draw_cylinder(subject),
            "face": draw_face(subject, sizes),
            "drive": draw_drive(subject, rocker=sizes.rocker == "reversing"),
        }
        return tuple(MeasureView(name, part, drawing) for name, drawing in views.items())
    drawers: Mapping[str, Callable[[Subject], Drawing]] = {
        "gland": draw_gland,
        "fastener": draw_fastener,
        "pin": draw_pin,
    }
    subject = Subject(part, _find_numbers(engine, part, kind), written, turn=turn, taken=taken, telling=telling)
    return (MeasureView(kind, part, drawers[kind](subject)),)


def _find_sizes(engine: Engine | None, part: str) -> Sizes:
    number = int(part.split(".")[1])
    cylinders = () if engine is None else engine.cylinders
    return cylinders[number] if number < len(cylinders) else Sizes("", {})


def _find_numbers(engine: Engine | None, part: str, kind: str) -> dict[str, float]:
    """The figures of a gland, a screw or a pin; of a thread its diameter over the crests [m]."""
    if engine is None:
        return {}
    number = int(part.rpartition(".")[2]) + 1
    found: Gland | Fastener | Pin | None
    if kind == "gland":
        owner = _find_sizes(engine, part).name
        found = next((gland for gland in engine.glands if (gland.cylinder, gland.number) == (owner, number)), None)
    else:
        listed: tuple[Fastener | Pin, ...] = engine.fasteners if kind == "fastener" else engine.pins
        found = next((one for one in listed if one.number == number), None)
    if found is None:
        return {}
    values = asdict(found)
    numbers = {key: float(value) for key, value in values.items() if isinstance(value, int | float)}
    if kind == "fastener" and values["thread"]:
        numbers["thread"] = find_thread(values["thread"]).major
    return numbers
