"""Work on the port face and the steam chest."""

from __future__ import annotations

from lapwright.cures.action import OPENING_UP, Action
from lapwright.engine.cylinder import ENDS
from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Suspicion
from lapwright.findings.words import ENDS_IN_WORDS
from lapwright.quantities.showing import show_length_both


def widen_exhaust_port(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose to open the middle port out towards the bridges."""
    after = reading.changed(dict(suspicion.changes))
    if reading.cylinder.face is None or after.cylinder.face is None:
        return []
    off = after.cylinder.face["head"].middle - reading.cylinder.face["head"].middle
    width = sum(side.middle for side in after.cylinder.face.values())
    if off <= 0 or not any(key.startswith("port_face.") for key in suspicion.changes):
        return []
    bridge = min(after.cylinder.face[end].inner - after.cylinder.face[end].middle for end in ENDS)
    return [
        Action(
            code="widen-exhaust-port",
            title=f"Open the middle port out to {show_length_both(width)}",
            work="an evening",
            changes=dict(suspicion.changes),
            set={"exhaust_port_mm": width * 1e3, "bridge_mm": bridge * 1e3},
            steps=(
                f"File or mill {show_length_both(off)} off each side of the middle port, to "
                f"{show_length_both(width)}; each bridge is "
                f"left {bridge * 1e3:.2f} mm wide.",
                "Go no deeper than the old port; take the burr off and rub the face flat on a plate with marking blue.",
                "Wash every chip out of the passages before closing up.",
            ),
            cautions=(OPENING_UP,),
        )
    ]


def relieve_chest(reading: Reading, aim: Aim, suspicion: Suspicion) -> list[Action]:
    """Propose to make room in the chest where the valve strikes."""
    end = suspicion.end
    if end is None:
        return []
    key = f"port_face.chest_{end}"
    to = suspicion.changes[key]
    off = to - reading.sizes.numbers[key]
    return [
        Action(
            code="relieve-chest",
            title=f"Relieve the chest's wall by {show_length_both(off)} at the {ENDS_IN_WORDS[end]}",
            work="an evening",
            changes={key: to},
            set={f"chest_{end}_mm": to * 1e3},
            steps=(
                f"Take {show_length_both(off)} off the inside of the chest's wall at the {ENDS_IN_WORDS[end]}, "
                "until it stands "
                f"{show_length_both(to)} from the middle of the port face, where the valve's end comes.",
                "Measure first what wall is left for the pressure and the studs. A steam chest is a pressure "
                "part: if the wall "
                "gets thin, leave it and ask an inspector; a valve with a shorter end is the other way out.",
                "Turn the engine over by hand with paper between valve and wall: it must draw out freely.",
            ),
            cautions=(OPENING_UP,),
        )
    ]
