"""Small sweeps of the demo engines, to be worked out in a moment."""

from __future__ import annotations

from lapwright.job.records import OpenedRecord, open_record
from lapwright.job.sweep.plan import SweepAsked, SweepPlan, plan_sweep
from tests.house.reading import TOP


def open_demo(name: str) -> OpenedRecord:
    """A demo engine's record."""
    return open_record(TOP / "examples" / f"{name}.toml")


def plan_demo(name: str, *vary: str, asked: SweepAsked | None = None) -> SweepPlan:
    """The plan of a demo engine's sweep."""
    return plan_sweep(open_demo(name), vary, asked or SweepAsked())
