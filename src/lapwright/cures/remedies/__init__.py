"""What can be done about each kind of fault, the usual thing first."""

from lapwright.cures.action import Remedy
from lapwright.cures.remedies.drive import change_throw, turn_eccentric
from lapwright.cures.remedies.face import relieve_chest, widen_exhaust_port
from lapwright.cures.remedies.spindle import change_rod_length, move_on_spindle
from lapwright.cures.remedies.valve import make_valve, make_valve_for_expansion, take_metal_off

_EDGES: tuple[Remedy, ...] = (take_metal_off, make_valve)
_SPINDLE: tuple[Remedy, ...] = (move_on_spindle, change_rod_length)

REMEDIES: dict[str, tuple[Remedy, ...]] = {
    "eccentric-behind": (turn_eccentric,),
    "eccentric-ahead": (turn_eccentric,),
    "eccentric-reversed": (turn_eccentric,),
    "valve-too-long": (*_EDGES, turn_eccentric),
    "valve-too-short": _EDGES,
    "cavity-too-long": _EDGES,
    "cavity-too-short": (*_EDGES, turn_eccentric),
    "chest-open-to-exhaust": (make_valve,),
    "valve-off-centre": _SPINDLE,
    "late-admission": _SPINDLE,
    "early-admission": _SPINDLE,
    "ends-unequal": (*_SPINDLE, *_EDGES),
    "port-never-opens": _EDGES,
    "port-starved": (change_throw, widen_exhaust_port),
    "travel-too-short": (change_throw,),
    "overtravel": (change_throw,),
    "exhaust-choked": (widen_exhaust_port, change_throw),
    "valve-strikes-chest": (relieve_chest,),
    "no-expansion-possible": (make_valve_for_expansion,),
}
