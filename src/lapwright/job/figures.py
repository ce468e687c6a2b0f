"""The figures of one cylinder laid flat, each under one name."""

from __future__ import annotations

from lapwright.motion.answers import CylinderMotion, EndMotion

END_FIGURES = ("lead_mm", "greatest_steam_opening_mm", "greatest_exhaust_opening_mm")
CYLINDER_FIGURES = ("chest_to_exhaust_deg", "least_exhaust_way_mm", "valve_travel_mm")


def flatten_figures(motion: CylinderMotion) -> dict[str, float]:
    """Return every figure that is one number, by name: `head.cut_off.crank_deg`, `crank.lead_mm`, `valve_travel_mm`.

    An event that happens never or more than once a turn is left out.
    """
    figures: dict[str, float] = {}
    for name in CYLINDER_FIGURES:
        value = getattr(motion, name)
        if value is not None:
            figures[name] = value
    for end, answers in motion.ends.items():
        figures |= {f"{end}.{name}": value for name, value in _flatten_end(answers).items()}
    return figures


def _flatten_end(answers: EndMotion) -> dict[str, float]:
    figures = {name: value for name in END_FIGURES if (value := getattr(answers, name)) is not None}
    for event, times in answers.events.items():
        for unit, values in (("crank_deg", times.crank_deg), ("stroke_percent", times.stroke_percent)):
            if values is not None and len(values) == 1:
                figures[f"{event}.{unit}"] = values[0]
    return figures
