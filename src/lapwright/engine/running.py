"""How the engine runs: what meets the steam on its way, what rubs, what leaks, what it drives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import pi
from typing import TYPE_CHECKING, Any

from lapwright.engine.sizes import Assumed, Doubt

if TYPE_CHECKING:
    from lapwright.engine.engine import Engine

#: Whether the metal takes up heat and gives it back.
WALL_HEATS = ("usual", "none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """What a run needs besides the sizes, None where it is not given; `doubts` by field, for those with a tolerance.

    `discharge_coefficient` [-] of the port openings; `friction_pressure` [Pa] is the mean effective pressure that the
    engine's own friction takes; `ring_gap`, `valve_face_gap` and `gland_gap` [m] are the gaps through which it leaks;
    `wall_heat` is one of `WALL_HEATS`; `supply_temperature` [K]; `steam_dryness` is a share, 0 to 1; the load is either
    `load_torque` [N m] or `load_power` [W]; `flywheel_inertia` [kg m2]; `supply_bore`, `exhaust_bore` and
    `passage_bore` [m] are the narrowest of the supply pipe or throttle, of the exhaust pipe, and of the passage from
    port to cylinder, each as one round hole of that area; `valve_friction` [-] is the coefficient of valve on face.
    """

    discharge_coefficient: float | None = None
    friction_pressure: float | None = None
    ring_gap: float | None = None
    valve_face_gap: float | None = None
    gland_gap: float | None = None
    wall_heat: str | None = None
    supply_temperature: float | None = None
    steam_dryness: float | None = None
    load_torque: float | None = None
    load_power: float | None = None
    flywheel_inertia: float | None = None
    supply_bore: float | None = None
    exhaust_bore: float | None = None
    passage_bore: float | None = None
    valve_friction: float | None = None
    doubts: Mapping[str, Doubt] = field(default_factory=dict)


_USUAL_PRACTICE = "common practice, no source"
#: What is taken for a field that nobody gave: its value in SI, how it is shown, and why.
_USUAL: Mapping[str, tuple[float | str, str, str]] = {
    "discharge_coefficient": (
        0.70,
        "0.70",
        "not given: taken between Weisbach's orifices and mouthpieces for air, 0.55 to 0.85",
    ),
    "friction_pressure": (
        25_000.0,
        "0.25 bar",
        f"not given: usual for a small engine in good order, 0.1 to 0.8 bar ({_USUAL_PRACTICE})",
    ),
    "ring_gap": (4e-6, "4 µm", f"not given: taken as with rings or soft packing, 2 to 5 µm ({_USUAL_PRACTICE})"),
    "valve_face_gap": (2e-6, "2 µm", f"not given: taken as for lapped faces ({_USUAL_PRACTICE})"),
    "gland_gap": (5e-6, "5 µm", f"not given: taken as for a packed gland ({_USUAL_PRACTICE})"),
    "wall_heat": ("usual", "usual", "not given: metal walls take up heat and give it back"),
    "valve_friction": (0.08, "0.08", "not given: as measured of greased metals, 0.03 to 0.15 (Bourne, Q55-57)"),
}
_STEAM_DRYNESS = (0.98, "0.98", f"not given: taken as the steam of a boiler that does not prime ({_USUAL_PRACTICE})")
_ROOM = (293.15, "20 degC", "not given: taken as air at the warmth of the room")
#: The flywheel that is taken: a solid disc, in strokes, of cast iron [kg/m3].
_DISC_DIAMETER, _DISC_THICKNESS, _CAST_IRON = 4.0, 0.5, 7200.0


def assume_running(engine: Engine, *, fluid: str, stroke: float) -> tuple[Running, tuple[Assumed, ...]]:
    """Fill in what nobody said of the running, and say of each what was taken and why.

    What the fluid does not ask for stays None: dryness on air, or where the steam's temperature is given; the
    temperature of wet steam. A supply or exhaust pipe without its bore is no hindrance, and a passage without its bore
    is as wide as the steam port: all three stay None. The temperature that a record gives for its own fluid is not
    taken for the other one.

    Parameters
    ----------
    engine: the engine as its record tells of it
    fluid: "air" or "steam"
    stroke: of the cylinder from which the flywheel is guessed [m]

    Source: unwin-1911, secs 63-64 (discharge coefficient); bourne-1865, Q55-57 (valve friction); otherwise
    common practice, no source

    Example:
    >>> from lapwright.engine.engine import Engine
    >>> running, assumed = assume_running(Engine(name="Tern", cylinders=()), fluid="air", stroke=0.020)
    >>> running.ring_gap, assumed[0].key, assumed[0].value
    (4e-06, 'running.discharge_coefficient', '0.70')
    """
    given = engine.running
    if engine.fluid not in (None, fluid):
        given = replace(given, supply_temperature=None)
    usual = {**_USUAL, "flywheel_inertia": _guess_flywheel(stroke)}
    if fluid == "air":
        usual["supply_temperature"] = _ROOM
    elif given.supply_temperature is None:
        usual["steam_dryness"] = _STEAM_DRYNESS
    if given.load_power is None:
        usual["load_torque"] = (0.0, "0 N m", "no load given: taken as running light")
    missing = {key: taken for key, taken in usual.items() if getattr(given, key) is None}
    changes: dict[str, Any] = {key: value for key, (value, _, _) in missing.items()}
    assumed = [_tell(key, shown, why) for key, (_, shown, why) in missing.items()]
    if given.passage_bore is None:
        assumed.append(_tell("passage_bore", "as the port", "not given: taken as wide as the steam port"))
    return replace(given, **changes), tuple(assumed)


def _tell(key: str, shown: str, why: str) -> Assumed:
    # The record has one key for the load, whether torque or power.
    return Assumed(f"running.{'load' if key == 'load_torque' else key}", shown, why, ("run",))


def _guess_flywheel(stroke: float) -> tuple[float, str, str]:
    diameter, thickness = _DISC_DIAMETER * stroke, _DISC_THICKNESS * stroke
    mass = _CAST_IRON * pi / 4 * diameter**2 * thickness
    inertia = mass * diameter**2 / 8
    why = f"not given: taken as an iron disc 4 strokes across and half a stroke thick ({_USUAL_PRACTICE})"
    return inertia, f"{inertia * 1e4:.3g} kg cm2", why
