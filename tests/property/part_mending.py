"""A cure of a part done to the record: the engine as it would be written down after the work."""

from __future__ import annotations

from dataclasses import replace

from lapwright.cures.part_cure import PartCure
from lapwright.engine.engine import Engine
from lapwright.engine.parts import PACKINGS, Fastener, Gland, Pin
from lapwright.findings.parts.names import name_gland, tell_apart

MM = 1e-3


def do_cure(engine: Engine, cure: PartCure) -> Engine:
    """Return the engine after a cure, its parts told apart by their names."""
    engine = tell_apart(engine)
    work = {
        "pack-gland": _pack,
        "rethread": _rethread,
        "draw-up-cover": _draw_up,
        "secure-screw": _secure,
        "renew-screw": _renew,
        "make-pin": _make_pin,
    }
    return work[cure.code](engine, cure)


def _number(cure: PartCure, name: str) -> float:
    value = cure.set[name]
    assert isinstance(value, float)
    return value


def _change(engine: Engine, cure: PartCure, **changes: object) -> Engine:
    """Change the fastener that a cure is for."""

    def is_meant(fastener: Fastener) -> bool:
        return (fastener.cylinder, fastener.name) == (cure.cylinder, cure.part)

    assert any(map(is_meant, engine.fasteners))
    fasteners = tuple(replace(one, **changes) if is_meant(one) else one for one in engine.fasteners)  # type: ignore[arg-type]
    return replace(engine, fasteners=fasteners)


def _rethread(engine: Engine, cure: PartCure) -> Engine:
    thread = cure.set["thread"]
    (fastener,) = (one for one in engine.fasteners if (one.cylinder, one.name) == (cure.cylinder, cure.part))
    # A grub screw is seated dry, whatever was between the threads before.
    dry = {"thread_is": "dry"} if fastener.kind == "grub screw" else {}
    changes = {"thread": thread, "screw": thread, "state": "sound", "torque": _number(cure, "torque_nm"), **dry}
    return _change(engine, cure, **changes)


def _draw_up(engine: Engine, cure: PartCure) -> Engine:
    return _change(engine, cure, torque=_number(cure, "torque_nm"), gasket=cure.set["gasket"], screw=None)


def _renew(engine: Engine, cure: PartCure) -> Engine:
    return _change(engine, cure, screw=cure.set["thread"], torque=_number(cure, "torque_nm"))


def _secure(engine: Engine, cure: PartCure) -> Engine:
    flat, two = {"seat": "flat"}, {"count": 2}
    done: dict[str, dict[str, object]] = {
        "drawn to its seat on the plain shaft": {},
        "on a filed flat": flat,
        "two screws at a right angle": two,
        "two screws on flats": {**flat, **two},
        "dog or cone point let into a dimple": {"seat": "dimple", "point": "dog"},
    }
    torque = _number(cure, "seating_torque_nm")
    return _change(engine, cure, torque=torque, **done[cure.title.partition("hold: ")[2]])


def _make_pin(engine: Engine, cure: PartCure) -> Engine:
    length, shank = cure.set.get("shank_length_mm") or cure.set["shank_past_cheek_mm"], cure.set["shank_mm"]
    assert isinstance(length, tuple)
    assert isinstance(shank, tuple)
    thread = cure.set.get("thread")
    assert thread is None or isinstance(thread, str)

    def make(pin: Pin) -> Pin:
        if (pin.cylinder, pin.name) != (cure.cylinder, cure.part):
            return pin
        made = {"plain_length": length[0] * MM, "diameter": shank[1] * MM}
        return replace(pin, kind="shouldered pin", thread=thread, hole=None, **made)

    return replace(engine, pins=tuple(map(make, engine.pins)))


def _pack(engine: Engine, cure: PartCure) -> Engine:
    (material,) = {
        packing
        for item in cure.have_ready
        if item.shelf == "packing"
        for packing in PACKINGS
        if item.name.endswith(f" {packing}") and (packing != "PTFE yarn" or "graphite and" not in item.name)
    }
    several = any(name.endswith("_rod_rings") or name.endswith("_spindle_rings") for name in cure.set)

    def pack(gland: Gland) -> Gland:
        prefix = f"{gland.on.replace(' ', '_')}_" if several else ""
        named = name_gland(gland) == cure.part or f"the {gland.on}" in cure.part
        if gland.cylinder != cure.cylinder or not named or f"{prefix}section_mm" not in cure.set:
            return gland
        section, rings = _number(cure, f"{prefix}section_mm") * MM, cure.set[f"{prefix}rings"]
        return replace(gland, packed_with=material, packing_section=section, rings=rings)

    return replace(engine, glands=tuple(map(pack, engine.glands)))
