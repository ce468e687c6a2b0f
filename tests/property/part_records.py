"""Records of parts at random: every word that a record may hold, sizes from 0.1 mm to 100 mm, and keys left out."""

from __future__ import annotations

from hypothesis import strategies as st

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine import parts
from lapwright.tables.paints import list_paint_rows
from lapwright.tables.threads import list_threads

#: A key with what may stand in it.
Values = dict[str, st.SearchStrategy[str]]
#: One key in so many is left out; of those that say that something is wrong, every other.
LEFT_OUT, ODD = 6, frozenset({"screw", "state"})


def words(*several: str) -> st.SearchStrategy[str]:
    """A word of several, in quotation marks."""
    return st.sampled_from(several).map(lambda word: f'"{word}"')


#: Lengths spread evenly over their logarithm.
LENGTHS = st.floats(-1, 2).map(lambda power: f'"{10**power:.3g} mm"')
#: Half of them small, as on a bench.
THREADS = words(*(row.name for row in list_threads())) | words(*(f"{number} BA" for number in range(11)))
METALS = words(*parts.METALS)
COUNTS = st.integers(1, 12).map(str)
OWNERS = words("A", "B")
GLAND: Values = {
    "on": words(*parts.GLANDS),
    "rod": LENGTHS,
    "box_bore": LENGTHS,
    "box_depth": LENGTHS,
    "nut_thread": THREADS,
    "nut_hand": words(*parts.HANDS),
    "packed_with": words(*parts.PACKINGS),
    "packing_section": LENGTHS,
    "rings": COUNTS,
    "oil": words(*parts.OILS),
}
FASTENER: Values = {
    "name": words("screw", "cover studs"),
    "cylinder": OWNERS,
    "holds": words(*parts.DUTIES),
    "kind": words(*parts.FASTENERS),
    "thread": THREADS,
    "screw": THREADS,
    "screw_material": words(*parts.SCREW_METALS),
    "hole_material": METALS,
    "engagement": LENGTHS,
    "state": words(*parts.STATES),
    "point": words(*parts.POINTS),
    "shaft": LENGTHS,
    "seat": words(*parts.SEATS),
    "wall": LENGTHS,
    "count": COUNTS,
    "torque": st.floats(-3, 2.9).map(lambda power: f'"{10**power:.3g} N m"'),
    "thread_is": words(*parts.LUBRICATIONS),
    "gasket": words(*parts.GASKETS),
    "joint_outside": LENGTHS,
}
PIN: Values = {
    "name": words("pin"),
    "cylinder": OWNERS,
    "joint": words(*parts.JOINTS),
    "kind": words(*parts.PINS),
    "diameter": LENGTHS,
    "hole": LENGTHS,
    "thread": THREADS,
    "plain_length": LENGTHS | st.just('"0 mm"'),
    "moving_part": LENGTHS,
    "shear": words(*parts.SHEARS),
    "material": METALS,
    "runs_in": METALS,
}
FINISH: Values = {
    "part": words("bed"),
    "metal": METALS,
    "temperature": st.integers(-50, 650).map(lambda heat: f'"{heat} degC"'),
    "surface": st.floats(-2, 6).map(lambda power: f'"{10**power:.3g} cm2"'),
    "old_paint": words("yes", "no"),
    "lettering": words(*parts.LETTERINGS),
    "bright": words("flanges", "flanges, glands"),
    "paint": words(*(row.name for row in list_paint_rows())),
}
ENGINE: Values = {
    "fluid": words("air", "steam"),
    "supply_pressure": words("0.2 bar abs", "0 bar", "3 bar", "20 bar", "400 bar"),
}


@st.composite
def draw_table(draw: st.DrawFn, head: str, values: Values) -> str:
    """Draw one table of a record."""
    kept = [key for key in values if draw(st.integers(1, 2 if key in ODD else LEFT_OUT)) > 1]
    lines = [f"{key} = {draw(values[key])}" for key in kept]
    return "\n".join((head, *lines, ""))


@st.composite
def draw_record(draw: st.DrawFn) -> bytes:
    """Draw a record of two half-known cylinders with parts: too little to run, so that it is quickly examined."""

    def several(head: str, values: Values) -> str:
        return "\n".join(draw(st.lists(draw_table(head, values), max_size=2)))

    own: Values = {"bore": LENGTHS, "stroke": LENGTHS, "piston_rod": LENGTHS}
    texts = ["format = 1\n", draw(draw_table('[engine]\nname = "Knot"', ENGINE))]
    for name in "AB":
        texts.append(draw(draw_table(f'[[cylinder]]\nname = "{name}"', own)))
        texts.append(several("[[cylinder.gland]]", GLAND))
    texts += [several("[[fastener]]", FASTENER), several("[[pin]]", PIN), draw(draw_table("[finish]", FINISH))]
    return "\n".join(texts).encode()


@st.composite
def draw_loads(draw: st.DrawFn) -> dict[str, PartLoads]:
    """Draw what the parts of both cylinders have to bear, from next to nothing to far too much."""

    def some(low: float, high: float) -> float:
        return float(10 ** draw(st.floats(low, high)))

    flat = draw(st.booleans())
    load = PartLoads(
        fluid=draw(st.sampled_from(("air", "steam"))),
        pressure=draw(st.floats(-9e4, 2e6)),
        temperature=draw(st.floats(250, 870)),
        rod_force=some(-3, 5),
        valve_friction=some(-3, 4) if flat else None,
        eccentric_torque=draw(st.just(0.0) | st.floats(1e-6, 30)) if flat else None,
    )
    return dict.fromkeys("AB", load)
