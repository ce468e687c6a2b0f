"""The title block: what the card is for and where it comes from."""

from __future__ import annotations

from lapwright.papers.lettering import clip_text
from lapwright.papers.matter import CardMatter

_PASCAL_PER_BAR = 1e5


def list_title(matter: CardMatter) -> tuple[tuple[str, str], ...]:
    """Return the rows of the title block, each a name and what stands beside it; empty is a blank to fill in."""
    engine = matter.engine
    rows = [
        ("Date", matter.date),
        ("Record", f"{clip_text(matter.record_name, 40)} ({matter.record_digest[:12]})"),
        ("Runs", {None: "direction not given", "either": "either way"}.get(engine.rotation, engine.rotation or "")),
        ("On", _say_supply(matter)),
        ("Cylinders", str(len(engine.cylinders))),
        ("Done by", ""),
    ]
    return tuple(rows)


def _say_supply(matter: CardMatter) -> str:
    engine = matter.engine
    fluid = engine.fluid or "air or steam"
    if engine.supply_pressure is None:
        return fluid
    return f"{fluid}, {engine.supply_pressure / _PASCAL_PER_BAR:.2g} bar gauge"
