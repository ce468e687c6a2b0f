"""How glands, screws, pins and what is painted are measured (common practice, no source)."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.job.measure.guide import OPEN_CAUTION, PACKING_CAUTION, Guide

_CALLIPER = "± 0.02 mm with a good calliper"
_LOOK = "nothing to measure: look and choose"
_NAME = Guide("no tool", "Call it so that the next person finds it.", "any name")
_OWNER = Guide("no tool", "The name of the cylinder it belongs to; left out, the first one.", "exact")
_THREAD_WAY = "Measure over the crests and try a thread gauge; the page Tables names the thread from the two."
_METAL_WAY = "A magnet holds to steel and cast iron, hardly to stainless; brass is yellow, gunmetal and bronze redder."

_GLAND: Mapping[str, Guide] = {
    "on": Guide("eyes", "Follow the rod that goes through it: to the piston, or to the valve.", _LOOK),
    "rod": Guide(
        "micrometer", "Where the rod runs in the packing. A worn waist there will leak whatever you pack.", _CALLIPER
    ),
    "box_bore": Guide(
        "calliper's inside jaws",
        "Draw the old packing, clean the box, and measure its bore near the bottom.",
        "± 0.05 mm",
        f"{OPEN_CAUTION} {PACKING_CAUTION}",
    ),
    "box_depth": Guide(
        "calliper's tail",
        "From the mouth of the box to its bottom, beside the rod.",
        "± 0.2 mm",
        f"{OPEN_CAUTION} {PACKING_CAUTION}",
    ),
    "nut_thread": Guide("thread gauge and calliper", _THREAD_WAY, "the thread's name is exact"),
    "nut_hand": Guide("eyes", "A right-hand nut goes on clockwise.", _LOOK),
    "packed_with": Guide(
        "a packing pick",
        "Draw a little out and look. If nothing is in there, say nothing; if you do not know what it is, leave it out.",
        _LOOK,
        f"{OPEN_CAUTION} {PACKING_CAUTION}",
    ),
    "packing_section": Guide(
        "calliper, lightly closed", "The thickness of the new packing, not of the old one.", "± 0.1 mm"
    ),
    "rings": Guide("eyes", "Count the rings as they come out.", "exact", PACKING_CAUTION),
    "oil": Guide("no tool", "What the lubricator puts into the steam or air: it reaches the packing.", _LOOK),
}
_FASTENER: Mapping[str, Guide] = {
    "name": _NAME,
    "cylinder": _OWNER,
    "holds": Guide("eyes", "What would come loose without it.", _LOOK),
    "kind": Guide("eyes", "Without a head it is a grub screw or a stud; with a nut at its end a bolt.", _LOOK),
    "thread": Guide(
        "thread gauge, or a screw that is known", f"The thread in the hole. {_THREAD_WAY}", "exact by name"
    ),
    "screw": Guide(
        "thread gauge and calliper",
        f"Only if the screw found in it is of another thread. {_THREAD_WAY}",
        "exact by name",
    ),
    "screw_material": Guide("magnet and file", _METAL_WAY, _LOOK),
    "hole_material": Guide("magnet and file", _METAL_WAY, _LOOK),
    "engagement": Guide(
        "depth gauge",
        "How deep the thread of the hole is that holds: not counting a chamfer or a plain part.",
        "± 0.2 mm",
    ),
    "state": Guide(
        "a new screw of the size",
        "Turn a new screw in by hand. It rocks: worn. It pulls out: stripped.",
        _LOOK,
    ),
    "point": Guide("magnifier", "Take the screw out and look at its end.", _LOOK),
    "shaft": Guide("micrometer", "The shaft right where the screw bears on it.", _CALLIPER),
    "seat": Guide("eyes", "Look at the shaft under it: plain and round, a filed flat, or a drilled dimple.", _LOOK),
    "wall": Guide(
        "calliper", "The thinnest metal left beside the hole: it limits how far you may open it out.", "± 0.1 mm"
    ),
    "count": Guide("eyes", "How many of the same, for the same thing.", "exact"),
    "torque": Guide(
        "torque screwdriver or spanner", "What each was tightened to, if it was measured.", "± 10 % with a good tool"
    ),
    "thread_is": Guide("eyes", "Whether there was oil on the thread when it was tightened.", _LOOK),
    "gasket": Guide("eyes", "What lies between cover and cylinder.", _LOOK, PACKING_CAUTION),
    "joint_outside": Guide(
        "calliper", "Over the outside of the joint, not of the cover if that is larger.", "± 0.2 mm"
    ),
}
_PIN: Mapping[str, Guide] = {
    "name": _NAME,
    "cylinder": _OWNER,
    "joint": Guide("eyes", "What turns on it.", _LOOK),
    "kind": Guide("eyes", "Whether there is a shoulder, a thread where the part turns, or a plain pin.", _LOOK),
    "diameter": Guide(
        "micrometer", "Where the part turns on it, in two directions: the smaller one counts.", "± 0.01 mm"
    ),
    "hole": Guide(
        "plug gauges or small-hole gauge", "The bore of the part that turns on it, in two directions.", "± 0.02 mm"
    ),
    "thread": Guide("thread gauge and calliper", f"Leave it out for a plain pin. {_THREAD_WAY}", "exact by name"),
    "plain_length": Guide("calliper", "From the head to where the thread begins.", "± 0.1 mm"),
    "moving_part": Guide("calliper", "How long the eye is that turns on the pin.", "± 0.1 mm"),
    "shear": Guide(
        "eyes", "A fork holds the pin at both sides: double. A pin that sticks out of a disc: single.", _LOOK
    ),
    "material": Guide("magnet and file", _METAL_WAY, _LOOK),
    "runs_in": Guide("magnet and file", _METAL_WAY, _LOOK),
}
_FINISH: Mapping[str, Guide] = {
    "part": Guide("no tool", "What is to be painted.", "any name"),
    "metal": Guide("magnet and file", _METAL_WAY, _LOOK),
    "temperature": Guide(
        "no tool",
        "How hot the metal gets in service; a cylinder on steam is as hot as the steam.",
        "± 10 degC is enough",
    ),
    "surface": Guide(
        "rule", "Length times width of the large faces, added up; a tenth more for the rest.", "± 20 % is enough"
    ),
    "old_paint": Guide(
        "eyes",
        "Say yes even if only traces are left.",
        _LOOK,
        "Old paint may hold lead: no dry sanding, no flame; mask, wet work, and your local rules for the waste.",
    ),
    "lettering": Guide("eyes", "Whether cast letters stand out or lie in the casting.", _LOOK),
    "bright": Guide("no tool", "Write what stays bare metal, with commas between.", "any names"),
    "paint": Guide("no tool", "Only if you wish for one; else it is chosen for metal and heat.", _LOOK),
}
#: Guidance by table and key.
PART_GUIDES: Mapping[str, Mapping[str, Guide]] = {
    "cylinder.gland": _GLAND,
    "fastener": _FASTENER,
    "pin": _PIN,
    "finish": _FINISH,
}
