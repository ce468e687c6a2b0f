"""What the picture of a part's fault tells: the fault itself, and the sizes that matter for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from lapwright.engine.engine import Engine
from lapwright.findings.finding import Finding
from lapwright.papers.drawing import Drawing
from lapwright.papers.measure_marks import Telling, crop_sheet
from lapwright.papers.measure_picture import draw_part

#: The texts of one part as they are written, by the keys of its table.
Texts = Mapping[str, str]


def draw_fault(part: str, engine: Engine, finding: Finding, *, written: Mapping[str, str]) -> Drawing:
    """Draw a part with its fault marked, and no more of its sizes than the fault has to do with.

    Parameters
    ----------
    part: its record path, such as `cylinder.0.gland.1`, `fastener.0` or `pin.0`
    engine: whose part it is
    finding: what is wrong with it
    written: the texts of the record, by record path
    """
    own = {key.removeprefix(f"{part}."): text for key, text in written.items() if key.startswith(f"{part}.") and text}
    telling = _TELLERS[finding.code](own, finding)
    rod = written.get(f"{part.partition('.gland.')[0]}.piston_rod")
    if "rod" in telling.named and "rod" not in own and own.get("on") != "valve spindle" and rod:
        # The rod of a cylinder is measured there, not at its gland.
        telling = replace(telling, words={**telling.words, "rod": f"piston rod {rod}"})
    return crop_sheet(draw_part(part, engine, written=written, taken={}, telling=telling)[0].drawing)


def _tell_worn_thread(own: Texts, finding: Finding) -> Telling:
    state = own.get("state")
    if state in ("worn", "stripped"):
        return Telling(("thread", "screw"), ("state",), {"state": f"thread {state}"})
    return Telling(("thread",), ("screw",))


def _tell_slipping(own: Texts, finding: Finding) -> Telling:
    named = ("thread", "point", "shaft", "seat", "count")
    return Telling(named, ("torque",) if "torque" in own else ("thread",), _call_alike(own))


def _tell_drawn(own: Texts, finding: Finding) -> Telling:
    return Telling(("thread", "count", "thread_is"), ("torque",), _call_alike(own))


def _call_alike(own: Texts) -> Texts:
    """Screw and hole are of one thread where the thread is not what is wrong."""
    words = {"thread": "thread {}", "count": "{} of them"}
    return {key: form.format(own[key]) for key, form in words.items() if key in own}


def _tell_leak(own: Texts, finding: Finding) -> Telling:
    if own.get("packed_with") == "nothing":
        return Telling(("rod", "box_bore"), ("packed_with",))
    if finding.unit:
        return Telling(("rod", "box_bore"), ("packing_section",))
    return Telling(("box_depth", "packing_section"), ("rings",))


def _tell_unsuitable(own: Texts, finding: Finding) -> Telling:
    return Telling(("oil", "joint_outside"), ("packed_with", "gasket"))


def _tell_thread_inside(own: Texts, finding: Finding) -> Telling:
    which = f"{own['thread']} thread" if "thread" in own else "thread"
    return Telling(("moving_part",), ("thread", "plain_length"), {"thread": f"{which} where it turns"})


def _tell_worn_pin(own: Texts, finding: Finding) -> Telling:
    return Telling(("runs_in",), ("hole", "diameter"))


_TELLERS: Mapping[str, Callable[[Texts, Finding], Telling]] = {
    "gland-leaks": _tell_leak,
    "packing-unsuitable": _tell_unsuitable,
    "thread-worn": _tell_worn_thread,
    "screw-will-not-hold": _tell_slipping,
    "thread-as-bearing": _tell_thread_inside,
    "pin-worn": _tell_worn_pin,
    "stud-overloaded": _tell_drawn,
}
