"""The figures of a part's cure: what each is called at the bench, and how it is shown."""

from __future__ import annotations

from lapwright.quantities.showing import show_length_both, show_number

#: Limits closer than this want the micrometer [mm].
_FINE = 0.04
MM_PER_INCH = 25.4
#: How the figures of a part's cure are called at the bench; the unit is the end of the name.
FIGURES = {
    "section_mm": "Packing, square section",
    "rings": "Rings",
    "cut_length_mm": "Each ring cut to",
    "winding": "A single length is wound, seen from the nut",
    "back_off_turn": "Then slacken the nut by",
    "thread": "Thread",
    "tapping_drill_mm": "Tapping drill",
    "opening_drill_mm": "Drill the old hole out to",
    "tapped_depth_mm": "Thread at least this deep",
    "usual_depth_mm": "Usual in that metal, where there is room (from memory)",
    "worst_engagement_percent": "Thread left at the worst",
    "mean_engagement_percent": "Thread left on the whole",
    "engagement_percent": "Depth of thread",
    "torque_nm": "Tighten each to",
    "seating_torque_nm": "Seat the screw with",
    "held_torque_nm": "It then holds",
    "shank_mm": "Plain shank",
    "shank_length_mm": "Length of plain shank",
    "shank_past_cheek_mm": "Length of plain shank, beyond the cheek under the head",
    "reamed_mm": "Hole of the moving part",
    "most_torque_nm": "Never over",
    "gasket": "Joint",
    "gasket_outside_mm": "Joint, over its outside",
    "gasket_bore_mm": "Joint, its bore",
    "load_per_stud_n": "Pull in each",
}


#: What stands behind a figure, by the end of its name; a length is told in both units.
_UNITS = {"_percent": " %", "_nm": " N m", "_n": " N", "_turn": " turn"}
#: What stands in a figure's name where there is one for each of two glands.
_RODS = ("piston_rod_", "valve_spindle_")


def name_figure(name: str) -> str:
    """Return what a figure of a cure is called at the bench.

    Parameters
    ----------
    name: its stable name, with the unit behind the last stroke

    Example:
    >>> name_figure("rings"), name_figure("piston_rod_rings")
    ('Rings', 'Piston rod: rings')
    """
    for rod in _RODS:
        before, found, rest = name.partition(rod)
        if found:
            owner, plain = f"{before}{rod}".replace("_", " ").strip(), name_figure(rest)
            return f"{owner.capitalize()}: {plain[:1].lower()}{plain[1:]}"
    return FIGURES.get(name, name.replace("_", " "))


def show_figure(name: str, value: float | str | tuple[float, ...]) -> str:
    """Return a figure of a cure as it is read at the bench.

    Parameters
    ----------
    name: its stable name, with the unit behind the last stroke
    value: in that unit [mm, N m, N, %, or none]; two are limits

    Example:
    >>> show_figure("cut_length_mm", 15.08), show_figure("rings", 4), show_figure("shank_mm", (2.988, 2.996))
    ('15.08 mm (0.594 in)', '4', '2.988 to 2.996 mm (0.1176 to 0.1180 in)')
    >>> show_figure("engagement_percent", 76.2), show_figure("torque_nm", 1.02)
    ('76 %', '1.02 N m')
    """
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        places = 3 if value[1] - value[0] < _FINE else 2
        mm = " to ".join(show_number(each, places) for each in value)
        inch = " to ".join(show_number(each / MM_PER_INCH, places + 1) for each in value)
        return f"{mm} mm ({inch} in)"
    if name.endswith("_mm"):
        return show_length_both(value / 1e3)
    unit = next((unit for ending, unit in _UNITS.items() if name.endswith(ending)), "")
    places = 0 if isinstance(value, int) or value >= 20 else 2 if value >= 0.1 else 3
    return f"{show_number(value, places)}{unit}"
