"""The pictures and the events of one cylinder, before and after."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.engine.assume import list_unbounded
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import CylinderMotion
from lapwright.motion.spread import Spread, rank_culprits
from lapwright.papers.blocks import Block, Heading, Paragraph, Pictures, Table
from lapwright.papers.lettering import (
    END_NAMES,
    EVENT_NAMES,
    NOT_KNOWN,
    join_words,
    show_angle,
    show_event,
    show_number,
)
from lapwright.papers.matter import CardMatter
from lapwright.papers.measure_terms import call_size
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.valve_picture import draw_section, fit_frame

#: Room between two pictures side by side [mm].
GUTTER = 6.0


def lay_cylinder(matter: CardMatter, name: str, *, width: float) -> Iterator[Block]:
    """Yield the sheets of one cylinder: events before and after, the valve on its face, the timing.

    Parameters
    ----------
    matter: what is told
    name: the cylinder
    width: room for pictures from edge to edge of the text [mm]
    """
    found = matter.sizes[name]
    cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
    cured = None if cure is None else found.replacing(cure.changes)
    # A card without findings has room on its first sheet.
    fresh = bool(matter.findings) or name != next(iter(matter.before))
    yield Heading(f"Cylinder {name}: the valve on its face", fresh=fresh)
    yield from lay_valve(found, cured, width=width)
    yield Heading(f"Cylinder {name}: events and openings", fresh=True)
    after = None if cure is None else cure.after
    yield list_events(found, matter.before[name], after, spread=matter.spread.get(name, {}))
    culprits = rank_culprits(matter.spread.get(name, {}))
    if culprits:
        told = join_words([call_size(key) for key, _ in culprits[:3]])
        yield Paragraph(f"± is a 95 % interval; most of the doubt comes from {told}.")
    unbounded = join_words([call_size(key) for key in list_unbounded(found)])
    if unbounded:
        yield Paragraph(f"What rests on {unbounded} is only as good as what was taken for it: measure that first.")
    chart = draw_timing(found, cured, width=width)
    if chart is not None:
        yield Pictures((chart,))


def lay_valve(found: Sizes, cured: Sizes | None, *, width: float) -> Iterator[Block]:
    """Yield the pictures of a valve on its face, at mid-travel and at the dead centres, as found and after a cure.

    Parameters
    ----------
    found: the cylinder
    cured: the same after the cure; None where there is none
    width: room for pictures from edge to edge [mm]
    """
    states = [("as found", found)] + ([] if cured is None else [("after the cure", cured)])
    whole = fit_frame([sizes for _, sizes in states], width=width, margin=30.0)
    half = fit_frame([sizes for _, sizes in states], width=(width - GUTTER) / 2, margin=3.0, size=3.7)
    if whole is None or half is None:
        yield Paragraph("Port face and valve are not known well enough to draw.")
        return
    for state, sizes in states:
        title = f"Mid-travel, {state}{_say_offset(sizes)}"
        yield Pictures((draw_section(sizes, whole, stand="middle", title=title),))
        ends = tuple(END_NAMES) if "piston_rod" in sizes.numbers else ("head",)
        titles = {end: f"{END_NAMES[end].capitalize()} dead centre, {state}" for end in ends}
        yield Pictures(tuple(draw_section(sizes, half, stand=end, title=titles[end]) for end in ends))


def _say_offset(sizes: Sizes) -> str:
    """Where the valve stands at mid-travel; the laps in the picture are those of a central valve."""
    offset = sizes.number("valve_drive.valve_offset") * 1e3
    if abs(offset) < 0.005:
        return ""
    return f": valve {show_number(abs(offset), 2)} mm towards the {END_NAMES['head' if offset > 0 else 'crank']}"


def list_events(
    sizes: Sizes, before: CylinderMotion, after: CylinderMotion | None, *, spread: Mapping[str, Spread]
) -> Table:
    """List the events and openings of a cylinder, as found and after a cure.

    Parameters
    ----------
    sizes: the cylinder as found
    before, after: what its valve does; None where there is no cure
    spread: how far each figure as found may be out
    """
    ends = tuple(END_NAMES) if "piston_rod" in sizes.numbers else ("head",)
    header = ("", "as found") if after is None else ("", "as found", "after the cure")
    states = (before,) if after is None else (before, after)

    def show(end: str, event: str, state: CylinderMotion) -> str:
        # The doubt stands with what was found: that is what was measured.
        return _show(spread if state is before else {}, state, end=end, event=event)

    rows = [
        (f"{END_NAMES[end].capitalize()}: {words}", *(show(end, event, state) for state in states))
        for end in ends
        for event, words in (*EVENT_NAMES.items(), ("lead", "lead"), ("opening", "greatest steam opening"))
    ]
    rows.append(("Chest open straight to exhaust", *(show_angle(state.chest_to_exhaust_deg) for state in states)))
    ways = [state.least_exhaust_way_mm for state in states]
    if any(way is not None for way in ways):
        rows.append(("Least way to exhaust", *(_show_mm(way) for way in ways)))
    rows.append(("Valve travel", *(_show_mm(state.valve_travel_mm) for state in states)))
    return Table(header, tuple(rows))


def _show(spread: Mapping[str, Spread], state: CylinderMotion, *, end: str, event: str) -> str:
    """One figure of one end, with its doubt where there is one."""
    figures = {"lead": "lead_mm", "opening": "greatest_steam_opening_mm"}
    if event in figures:
        doubt = spread.get(f"{end}.{figures[event]}")
        return _show_mm(getattr(state.ends[end], figures[event]), None if doubt is None else doubt.half_width)
    doubt = spread.get(f"{end}.{event}.crank_deg")
    return show_event(state.ends[end].events[event], None if doubt is None else doubt.half_width)


def _show_mm(value: float | None, doubt: float | None = None) -> str:
    if value is None:
        return NOT_KNOWN
    about = f" ± {show_number(max(doubt, 0.01), 2)}" if doubt else ""
    return f"{show_number(value, 2)}{about} mm"
