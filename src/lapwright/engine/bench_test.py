"""What was measured of an engine on the bench: steady running, running down, a fall of pressure behind a shut tap."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.engine.sizes import Doubt

#: What each kind of test cannot do without.
STEADY = ("supply_pressure", "speed")
RUN_DOWN = ("run_down_from", "run_down_time")
DECAY = ("decay_from", "decay_to", "decay_time", "decay_volume")
#: What can be worked out from such tests: the fields of the running engine that no rule measures.
FITTED = ("friction_pressure", "ring_gap", "valve_face_gap", "gland_gap")


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchTest:
    """One test, of one kind or of several in turn; what is None was not measured. `number` is its place in the record.

    `supply_pressure` and `exhaust_pressure` [Pa, gauge], `speed` [rad/s]: it ran steadily so, against `load_torque`
    [N m] or `load_power` [W], light where both are None; it took `air_flow` [m3/s] of free air. `fluid` is "air" or
    "steam", the engine's own where None; `dead` names a cylinder that was only dragged.

    `run_down_from` [rad/s], `run_down_time` [s]: from that speed to rest, supply shut and drains open. `decay_from`,
    `decay_to` [Pa, gauge], `decay_time` [s], `decay_volume` [m3]: how air shut in before a valve over shut ports fell.
    `doubts` are by field, for those with a tolerance.
    """

    number: int
    fluid: str | None = None
    supply_pressure: float | None = None
    exhaust_pressure: float | None = None
    speed: float | None = None
    load_torque: float | None = None
    load_power: float | None = None
    air_flow: float | None = None
    dead: str | None = None
    run_down_from: float | None = None
    run_down_time: float | None = None
    decay_from: float | None = None
    decay_to: float | None = None
    decay_time: float | None = None
    decay_volume: float | None = None
    note: str = ""
    doubts: Mapping[str, Doubt] = field(default_factory=dict)

    def has(self, kind: tuple[str, ...]) -> bool:
        """Whether all is known that a kind of test needs: `STEADY`, `RUN_DOWN` or `DECAY`.

        Parameters
        ----------
        kind: the names of the fields it needs

        Example:
        >>> BenchTest(number=1, run_down_from=60.0, run_down_time=8.0).has(RUN_DOWN)
        True
        """
        return all(getattr(self, name) is not None for name in kind)
