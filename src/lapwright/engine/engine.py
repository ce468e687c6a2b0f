"""The engine as a whole: what it is called, which way it turns, what it is for, and its cylinders."""

from __future__ import annotations

from dataclasses import dataclass, field

from lapwright.engine.bench_test import BenchTest
from lapwright.engine.parts import Fastener, Finish, Gland, Pin
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes

#: What an engine may be for. The first is taken where the record does not say.
PURPOSES = ("steady stationary running", "low-pressure air demonstration", "economical on steam")
ROTATIONS = ("clockwise", "anticlockwise", "either")
FLUIDS = ("air", "steam")


@dataclass(frozen=True, slots=True)
class Target:
    """What the owner wants of the valve setting; what is None is left to the purpose.

    `cut_off` is a share of the stroke (0 to 1), `lead` and `lap` are in m, `equal` is "leads" or "cut-off".
    """

    cut_off: float | None = None
    lead: float | None = None
    lap: float | None = None
    equal: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Engine:
    """One engine as its record tells of it. Pressures are gauge, in Pa; None where they are not given.

    `from_tests` names the fields of `running` that were worked out from the bench tests.
    """

    name: str
    cylinders: tuple[Sizes, ...]
    notes: str = ""
    rotation: str | None = None
    fluid: str | None = None
    supply_pressure: float | None = None
    exhaust_pressure: float | None = None
    purpose: str | None = None
    target: Target = Target()
    running: Running = field(default_factory=Running)
    bench_tests: tuple[BenchTest, ...] = ()
    from_tests: tuple[str, ...] = ()
    glands: tuple[Gland, ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    pins: tuple[Pin, ...] = ()
    finish: Finish | None = None
