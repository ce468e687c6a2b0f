"""One thing done to one part: the record keys it changes, the figures to set, and how it is done at the bench."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Suspicion

#: Said wherever the steam chest is opened or the engine turned with it open.
OPENING_UP = (
    "Shut off steam or air, let the pressure down to nothing and the metal cool, and block the flywheel before "
    "opening the "
    "steam chest; keep fingers out of ports and rods when turning it over."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """What is done to one part.

    `changes` are record keys in SI; `set` the figures to work to, by name with their unit; `work` one of `WORKS`.
    """

    code: str
    title: str
    work: str
    changes: Mapping[str, float]
    set: Mapping[str, float | tuple[float, ...]]
    steps: tuple[str, ...]
    cautions: tuple[str, ...] = field(default=(OPENING_UP,))


Remedy = Callable[[Reading, Aim, Suspicion], list[Action]]
