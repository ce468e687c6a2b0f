"""Stuffing boxes with nothing in them, or with packing of the wrong section."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Gland
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import name_gland, name_glands
from lapwright.workshop.gland import ENTRY, FEWEST, SectionVerdict, judge_section

CODE = "gland-leaks"


def list_unpacked(engine: Engine, cylinder: str) -> tuple[Gland, ...]:
    """Return the glands of a cylinder that have nothing in them."""
    return tuple(g for g in engine.glands if g.cylinder == cylinder and g.packed_with == "nothing")


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every gland that is empty, all of a cylinder's together, and every one whose packing does not fit."""
    for sizes in engine.cylinders:
        empty = list_unpacked(engine, sizes.name)
        if empty:
            yield _tell_empty(empty)
    for gland in engine.glands:
        # How many rings there are counts only where they fit at all.
        yield from tuple(_suspect_section(gland)) or _suspect_rings(gland)


def _tell_empty(glands: tuple[Gland, ...]) -> Finding:
    name = name_glands(glands)
    verb = "is" if len(glands) == 1 else "are"
    return Finding(
        code=CODE,
        cylinder=glands[0].cylinder,
        end=None,
        severity="spoils-it",
        size=None,
        unit="",
        title=f"The {name} {verb} not packed",
        because="; ".join(_say_room(gland) for gland in glands),
        effect=_tell_effect(glands),
        check_next=(
            "feel in the box with a bent wire: packing gives, an empty box rings. On a little air, oil or soap at the "
            "gland bubbles"
        ),
        part=name,
    )


def _tell_effect(glands: tuple[Gland, ...]) -> str:
    """A spindle's box empties the chest, a rod's the crank end of the cylinder."""
    rods = [gland.on for gland in glands]
    along = " and ".join(dict.fromkeys(rods))
    less = ", and its crank end works less" if "piston rod" in rods else ""
    return (
        f"air or steam blows out along the {along}, and oil with it. What a run tells of this engine is told with the "
        f"glands packed: as found it takes more{less}"
    )


def _say_room(gland: Gland) -> str:
    if gland.rod is None or gland.box_bore is None:
        return f"nothing is in the box round the {gland.on}"
    space = (gland.box_bore - gland.rod) / 2
    return f"round the {gland.on} a space of {space * 1e3:.2f} mm stands open all round"


def _judge_section(gland: Gland) -> SectionVerdict | None:
    """None where a size is not known, or where the space is none that packing goes into."""
    # A ring of rubber lies in a groove of its own.
    if gland.packed_with is not None and (gland.packed_with == "nothing" or gland.packed_with.endswith("O-ring")):
        return None
    if gland.rod is None or gland.box_bore is None or gland.packing_section is None:
        return None
    try:
        return judge_section(gland.rod, gland.box_bore, gland.packing_section)
    except BadInput:
        return None


def _suspect_section(gland: Gland) -> Iterator[Finding]:
    judged = _judge_section(gland)
    if judged is None or judged.fits:
        return
    thin = judged.off < 0
    yield Finding(
        code=CODE,
        cylinder=gland.cylinder,
        end=None,
        severity="spoils-it" if thin else "worth-doing",
        size=abs(judged.section - judged.space) * 1e3,
        unit="mm",
        title=f"The packing of the {name_gland(gland)} is {judged.verdict}",
        because=judged.reason.rstrip("."),
        effect="it leaks past however far the nut is drawn up" if thin else "it grips the rod, and the rod scores",
        check_next="take one ring out, whole, and measure it where it was not pressed",
        part=name_gland(gland),
    )


def _suspect_rings(gland: Gland) -> Iterator[Finding]:
    """More rings than go into the box, or too few where there is room for more."""
    depth, section, rings = gland.box_depth, gland.packing_section, gland.rings
    if None in (depth, section, rings) or (gland.packed_with or "").endswith(("nothing", "O-ring")):
        return
    assert depth is not None
    assert section is not None
    assert rings is not None
    many, few = rings * section > depth, rings < FEWEST and depth >= (FEWEST + ENTRY) * section
    if not many and not few:
        return
    stack = f"{rings} ring{'s' if rings > 1 else ''} of {section * 1e3:.2f} mm in a box {depth * 1e3:.2f} mm deep"
    yield Finding(
        code=CODE,
        cylinder=gland.cylinder,
        end=None,
        severity="worth-doing",
        size=None,
        unit="",
        title=f"The {name_gland(gland)} has {'more rings than go in' if many else 'too few rings'}",
        because=f"{stack}: {'the nut draws up on packing alone' if many else f'{FEWEST} at least seal, from memory'}",
        effect="the gland stands out and comes down askew" if many else "it leaks past, or is drawn up until it grips",
        check_next="count them as they come out, whole, and measure the box to its bottom",
        part=name_gland(gland),
    )
