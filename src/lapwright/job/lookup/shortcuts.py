"""What an engine gives to ask about: its threads, screws, glands, pins and paint as questions to the look-ups."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener, Gland, Pin
from lapwright.job.finishing import find_heat
from lapwright.job.lookup.lookups import TICKED
from lapwright.quantities.temperature import FREEZING

_GRUB = "grub screw"


@dataclass(frozen=True, slots=True)
class Shortcut:
    """A question to a look-up, and the part of the engine that it is about; of a thread, nothing but its name."""

    of: str
    said: Mapping[str, str]
    about: str


def list_shortcuts(engine: Engine) -> tuple[Shortcut, ...]:
    """List the questions that an engine's record gives, each once.

    Parameters
    ----------
    engine: as recorded
    """
    many = len(engine.cylinders) > 1
    found = [
        *(_ask_gland(gland, engine, many=many) for gland in engine.glands),
        *(shortcut for fastener in engine.fasteners for shortcut in _ask_fastener(fastener)),
        *(shortcut for pin in engine.pins for shortcut in _ask_pin(pin)),
        *_ask_finish(engine),
        *_ask_threads(engine),
    ]
    kept: list[Shortcut] = []
    for shortcut in found:
        if shortcut is not None and all((shortcut.of, shortcut.said) != (one.of, one.said) for one in kept):
            kept.append(shortcut)
    return tuple(kept)


def _ask_gland(gland: Gland, engine: Engine, *, many: bool) -> Shortcut | None:
    if gland.rod is None or gland.box_bore is None:
        return None
    pressure = engine.supply_pressure
    said = {
        "rod": _mm(gland.rod),
        "bore": _mm(gland.box_bore),
        "depth": _mm(gland.box_depth),
        "fluid": engine.fluid,
        "pressure": None if pressure is None else f"{pressure / 1e5:.4g} bar",
        "nut": gland.nut_thread,
        "nut_hand": gland.nut_hand,
        "oil": gland.oil,
    }
    return Shortcut("gland", _keep_known(said), f"{gland.cylinder}, {gland.on}" if many else gland.on)


def _ask_fastener(fastener: Fastener) -> Iterator[Shortcut]:
    if fastener.thread is None:
        return
    worn = TICKED if fastener.state in ("worn", "stripped") else None
    said = {
        "q": fastener.thread,
        "hole": fastener.hole_material,
        "engagement": _mm(fastener.engagement),
        "worn": worn,
    }
    if fastener.kind == _GRUB:
        grub = {"shaft": _mm(fastener.shaft), "point": fastener.point}
        yield Shortcut("grub", _keep_known(said | grub), fastener.name)
    else:
        screw = {"screw": fastener.screw_material, "thread_is": fastener.thread_is}
        yield Shortcut("screw", _keep_known(said | screw), fastener.name)
    if worn:
        hole = {
            "q": fastener.thread,
            "metal": fastener.hole_material,
            "depth": _mm(fastener.engagement),
            "wall": _mm(fastener.wall),
            "stripped": TICKED if fastener.state == "stripped" else None,
            "grub": TICKED if fastener.kind == _GRUB else None,
        }
        yield Shortcut("rethread", _keep_known(hole), fastener.name)


def _ask_pin(pin: Pin) -> Iterator[Shortcut]:
    if pin.hole is not None and pin.diameter is not None:
        yield Shortcut("fit", _keep_known({"q": _mm(pin.hole), "pin": _mm(pin.diameter)}), pin.name)
    elif pin.diameter is not None or pin.hole is not None:
        yield Shortcut("fit", _keep_known({"q": _mm(pin.diameter or pin.hole)}), pin.name)


def _ask_finish(engine: Engine) -> Iterator[Shortcut]:
    finish = engine.finish
    if finish is None:
        return
    heat, surface = finish.temperature or find_heat(engine)[0], finish.surface
    said = {
        "metal": finish.metal,
        "temperature": f"{heat - FREEZING:.4g} degC",
        "surface": None if surface is None else f"{surface * 1e4:.4g} cm2",
        "old_paint": TICKED if finish.old_paint else None,
        "lettering": finish.lettering,
        "bright": ", ".join(finish.bright) or None,
        "paint": finish.paint,
    }
    yield Shortcut("finish", _keep_known(said), finish.part)


def _ask_threads(engine: Engine) -> Iterator[Shortcut]:
    threads = (
        *(gland.nut_thread for gland in engine.glands),
        *(thread for fastener in engine.fasteners for thread in (fastener.thread, fastener.screw)),
        *(pin.thread for pin in engine.pins),
    )
    for thread in dict.fromkeys(thread for thread in threads if thread):
        yield Shortcut("thread", {"q": thread}, thread)
        yield Shortcut("drill", {"q": thread}, thread)


def _keep_known(said: Mapping[str, str | None]) -> dict[str, str]:
    return {name: text for name, text in said.items() if text}


def _mm(metres: float | None) -> str | None:
    return None if metres is None else f"{1e3 * metres:.5g} mm"
