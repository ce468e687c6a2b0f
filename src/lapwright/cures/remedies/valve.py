"""Take metal off the valve there is, or make another."""

from __future__ import annotations

from math import degrees

from lapwright.cures.action import OPENING_UP, Action
from lapwright.cures.limits import only_removes_metal
from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import VALVE_EDGES
from lapwright.findings.aim import Aim
from lapwright.findings.edges import read_valve
from lapwright.findings.reading import Reading
from lapwright.findings.search import explain_cylinder
from lapwright.findings.suspicion import Suspicion
from lapwright.findings.words import ENDS_IN_WORDS
from lapwright.quantities.showing import show_length_both

#: A cut smaller than this is not worth a step of its own [m].
LEAST_CUT = 0.005e-3
#: Left on for fitting to the face by hand [m]. Common practice, no source.
FITTING = 0.05e-3


def take_metal_off(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose to cut the valve there is, where cutting alone gives the edges that are wanted."""
    changes = _valve_changes(suspicion)
    after = reading.changed(changes)
    cuts = _list_cuts(reading, after)
    if not changes or not cuts or not only_removes_metal(reading, after):
        return []
    outer = any(place == "outer" for place, _, _ in cuts)
    inner = any(place == "cavity" for place, _, _ in cuts)
    code = "cut-valve" if outer and inner else "shorten-valve" if outer else "lengthen-cavity"
    return [
        Action(
            code=code,
            title=_title(after, outer=outer, inner=inner),
            work="an evening",
            changes=changes,
            set=_sizes_to_set(after),
            steps=(*_steps_to_cut(reading, after, cuts), *_FIT),
            cautions=(OPENING_UP,),
        )
    ]


def make_valve(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose a new valve with the edges that are wanted, and the eccentric moved where it has to go with them."""
    changes = _valve_changes(suspicion)
    if not changes:
        return []
    if "valve_drive.eccentric_angle" in suspicion.changes:
        return make_valve_for_expansion(reading, aim, suspicion)
    return [_new_valve(reading, _put_all_edges_right(reading, aim, changes))]


def _put_all_edges_right(reading: Reading, aim: Aim, changes: dict[str, float]) -> dict[str, float]:
    """A valve that is made anew can have its other edges right as well, for no more work."""
    for explanation in explain_cylinder(reading.changed(changes).sizes, aim):
        more = explanation.first.suspicion.changes
        if more and all(key.startswith("valve.") for key in more) and not more.keys() & changes.keys():
            return {**changes, **more}
    return changes


def make_valve_for_expansion(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose a valve with lap and the eccentric moved on to suit, as one job."""
    after = reading.changed(dict(suspicion.changes))
    valve = _new_valve(reading, dict(suspicion.changes))
    angle = suspicion.changes.get("valve_drive.eccentric_angle")
    if angle is None or after.lap is None:
        return [valve]
    steps = list(valve.steps)
    sizes = {**valve.set, "eccentric_angle_deg": degrees(angle)}
    title = f"Make a valve with {show_length_both(after.lap)} of lap and set the eccentric to {degrees(angle):.1f} deg"
    throw = suspicion.changes.get("valve_drive.throw")
    if throw is not None:
        title += f", with {show_length_both(throw)} throw"
        sizes["throw_mm"] = throw * 1e3
        steps.append(
            f"Make an eccentric with {show_length_both(throw)} throw: with the old one this much lap would starve "
            "the ports."
        )
    steps.append(
        f"Set the eccentric {degrees(angle):.1f} deg ahead of the crank, and both leads alike by the valve's place on "
        "its spindle."
    )
    return [
        Action(
            code="new-valve-with-lap",
            title=title,
            work="a new part",
            changes=dict(suspicion.changes),
            set=sizes,
            steps=tuple(steps),
            cautions=valve.cautions,
        )
    ]


def _new_valve(reading: Reading, changes: dict[str, float]) -> Action:
    after = reading.changed(changes)
    length, cavity = read_valve(after.sizes)
    title = "Make a new valve"
    if length is not None:
        title += f", {show_length_both(length)} long"
    if cavity is not None:
        title += f" with a cavity of {show_length_both(cavity)}"
    if _has_same_widths(reading, after):
        title += f", its lands {_land(after, 'head')} and {_land(after, 'crank')}"
    return Action(
        code="new-valve",
        title=title,
        work="a new part",
        changes=changes,
        set=_sizes_to_set(after),
        steps=(*_steps_to_make(after), *_FIT),
        cautions=(OPENING_UP,),
    )


def _has_same_widths(before: Reading, after: Reading) -> bool:
    """Whether length and cavity stay as they are, so that only the cavity's place is new."""
    pairs = zip(read_valve(before.sizes), read_valve(after.sizes), strict=True)
    return all(was is not None and now is not None and abs(was - now) < LEAST_CUT for was, now in pairs)


def _valve_changes(suspicion: Suspicion) -> dict[str, float]:
    return {key: value for key, value in suspicion.changes.items() if key.startswith("valve.")}


def _list_cuts(before: Reading, after: Reading) -> list[tuple[str, str, float]]:
    """Where metal comes off: outer edge or cavity, the end, and how much [m]."""
    cuts = []
    for end in ENDS:
        was, now = before.cylinder.valve[end], after.cylinder.valve[end]
        if was.outer is not None and now.outer is not None and was.outer - now.outer > LEAST_CUT:
            cuts.append(("outer", end, was.outer - now.outer))
        if was.cavity is not None and now.cavity is not None and now.cavity - was.cavity > LEAST_CUT:
            cuts.append(("cavity", end, now.cavity - was.cavity))
    return cuts


def _title(after: Reading, *, outer: bool, inner: bool) -> str:
    length, cavity = read_valve(after.sizes)
    parts = []
    if outer and length is not None:
        parts.append(f"shorten the valve to {show_length_both(length)}")
    if inner and cavity is not None:
        parts.append(
            f"open its cavity out to {show_length_both(cavity)}"
            if parts
            else f"open the valve's cavity out to {show_length_both(cavity)}"
        )
    text = " and ".join(parts)
    return text[:1].upper() + text[1:]


def _steps_to_cut(before: Reading, after: Reading, cuts: list[tuple[str, str, float]]) -> tuple[str, ...]:
    length, _ = read_valve(before.sizes)
    steps, left = [], length
    for place, end, off in cuts:
        where = ENDS_IN_WORDS[end]
        if place == "outer" and left is not None:
            left -= off
            steps.append(
                f"Take {show_length_both(off)} off the valve's {where}, down to {show_length_both(left)} over "
                "all. Stop "
                f"{FITTING * 1e3:.2f} mm short, measure, then come to size."
            )
        else:
            steps.append(
                f"Take {show_length_both(off)} off inside the cavity at the {where}, measuring from the valve's "
                "outer edge at that "
                f"end: the land there is left {_land(after, end)}."
            )
    return tuple(steps)


def _land(reading: Reading, end: str) -> str:
    side = reading.cylinder.valve[end]
    if side.outer is None or side.cavity is None:
        return "as wide as its port at least"
    return show_length_both(side.outer - side.cavity)


def _steps_to_make(after: Reading) -> tuple[str, ...]:
    length, cavity = read_valve(after.sizes)
    steps = []
    if length is not None:
        steps.append(f"Make the valve {show_length_both(length)} long over its outer edges, square at both ends.")
    if cavity is not None:
        lands = f"lands {_land(after, 'head')} at the head end and {_land(after, 'crank')} at the crank end"
        steps.append(f"Cut the cavity {show_length_both(cavity)} long, leaving {lands}.")
    steps.append(
        "Keep the old valve's width, its height to the spindle and its slot for the nut; bronze or iron, not the "
        "face's own metal."
    )
    return tuple(steps)


_FIT = (
    "Rub the valve on plate and face with marking blue until it bears all over; wash off every grain of abrasive.",
    "Put it back with its nut free to let the valve seat, no tighter.",
)


def _sizes_to_set(after: Reading) -> dict[str, float | tuple[float, ...]]:
    length, cavity = read_valve(after.sizes)
    sizes: dict[str, float | tuple[float, ...]] = {}
    if length is not None:
        sizes["valve_length_mm"] = length * 1e3
    if cavity is not None:
        sizes["cavity_mm"] = cavity * 1e3
    if all(key in after.sizes.numbers for key in VALVE_EDGES):
        sizes["valve_edges_mm"] = tuple(after.sizes.numbers[key] * 1e3 for key in VALVE_EDGES)
    return sizes
