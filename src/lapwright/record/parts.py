"""Glands, fasteners, pins and paint of a record: what cannot be true is noted and left out, the rest is in SI."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lapwright.engine.parts import Fastener, Finish, Gland, Pin
from lapwright.engine.sizes import Sizes
from lapwright.quantities import Length, Quantity
from lapwright.record.contents import Values
from lapwright.record.fitting import LONGEST
from lapwright.record.form import Form
from lapwright.record.problem import Ledger

#: Beyond these a figure is a slip of the pen: torque [N m], temperature [K], surface [m2], and how that is shown.
_MOST: Mapping[str, tuple[float, float, str]] = {
    "torque": (1e-4, 1e3, "0.1 mN m and 1000 N m"),
    "temperature": (223.15, 923.15, "-50 and 650 degC"),
    "surface": (1e-6, 100.0, "1 mm2 and 100 m2"),
}
_TAKEN_METAL = "cast iron"
#: A hole wider than this was never made for its pin, however worn [pin diameters].
_MOST_SLACK = 1.5


def build_glands(cylinders: list[Values], sizes: tuple[Sizes, ...], *, ledger: Ledger) -> tuple[Gland, ...]:
    """Build the glands of all cylinders; one round the piston rod has the rod's diameter from the cylinder."""
    built = []
    for number, (values, own) in enumerate(zip(cylinders, sizes, strict=True)):
        for place, found in values.get("gland", {}).items():
            form = Form(("cylinder", number, "gland", place), found, ledger)
            if form.is_blank:
                continue
            _check_figures(form)
            rod = form.si("rod")
            if rod is None and found.get("on", "piston rod") == "piston rod" and not form.is_refused("rod"):
                rod = own.numbers.get("piston_rod")
            _check_box(form, rod)
            built.append(Gland(cylinder=own.name, number=place + 1, **{**_plain(form), "rod": rod}))
    return tuple(built)


def _check_box(form: Form, rod: float | None) -> None:
    bore, section, nut = (form.values.get(key) for key in ("box_bore", "packing_section", "nut_thread"))
    if bore is not None and rod is not None and bore.si <= rod:
        message = f"{bore} does not go over the rod, {rod * 1e3:.4g} mm"
        form.strike("does-not-fit", "box_bore", message, instead="measure both again")
    elif bore is not None and nut is not None and nut.major <= bore.si:
        message = f"{nut.name} does not go round a box of {bore}"
        instead = "measure the thread by which the nut draws the gland up, over its crests; where studs do, take it out"
        form.strike("does-not-fit", "nut_thread", message, instead=instead)
    elif bore is not None and section is not None and 2 * section.si >= bore.si:
        message = f"{section} does not go into a box of {bore}"
        form.strike("does-not-fit", "packing_section", message, instead="write the thickness of one ring of packing")


def build_fasteners(found: Mapping[int, Values], sizes: tuple[Sizes, ...], *, ledger: Ledger) -> tuple[Fastener, ...]:
    """Build what can be used of the fasteners; `sizes` are those of the engine's cylinders."""
    names, built = [own.name for own in sizes], []
    for number, values in found.items():
        form = Form(("fastener", number), values, ledger)
        if form.is_blank:
            continue
        _check_figures(form)
        _check_owner(form, names)
        _check_screw(form)
        _check_joint(form, sizes)
        _check_shaft(form)
        plain = {"name": f"{values.get('holds', '')} {values.get('kind', 'screw')}".strip(), **_plain(form)}
        built.append(Fastener(**{"cylinder": names[0], **plain}, number=number + 1))
    return tuple(built)


def _check_screw(form: Form) -> None:
    for key in ("thread", "screw"):
        row = form.values.get(key)
        if row is not None and row.series == "BSP":
            instead = "measure over the crests: its name is a pipe's bore, and no screw has it"
            form.strike("does-not-fit", key, f"{row.name} is a pipe thread", instead=instead)


def _check_joint(form: Form, sizes: tuple[Sizes, ...]) -> None:
    outside = form.values.get("joint_outside")
    owner = form.values.get("cylinder", sizes[0].name)
    bore = next(own for own in sizes if own.name == owner).numbers.get("bore")
    if outside is not None and bore is not None and outside.si <= bore:
        message = f"{outside} leaves nothing of a joint round a bore of {bore * 1e3:.4g} mm"
        form.strike("does-not-fit", "joint_outside", message, instead="measure over the joint, not the bore")


def _check_shaft(form: Form) -> None:
    shaft, thread = form.values.get("shaft"), form.values.get("thread")
    if shaft is not None and thread is not None and shaft.si <= thread.major:
        message = f"{shaft} is no thicker than the {thread.name} screw on it"
        form.strike("does-not-fit", "shaft", message, instead="write the diameter of the shaft that the screw bears on")


def build_pins(found: Mapping[int, Values], names: list[str], *, ledger: Ledger) -> tuple[Pin, ...]:
    """Build what can be used of the pins; `names` are the engine's cylinders."""
    built = []
    for number, values in found.items():
        form = Form(("pin", number), values, ledger)
        if form.is_blank:
            continue
        _check_figures(form)
        _check_owner(form, names)
        _check_hole(form)
        plain = {"name": f"{values.get('joint', '')} pin".strip(), **_plain(form)}
        built.append(Pin(**{"cylinder": names[0], **plain}, number=number + 1))
    return tuple(built)


def _check_hole(form: Form) -> None:
    pin, hole = form.values.get("diameter"), form.values.get("hole")
    if pin is not None and hole is not None and hole.si < pin.si:
        form.strike("does-not-fit", "hole", f"{hole} is less than the pin, {pin}", instead="measure both again")
    elif pin is not None and hole is not None and hole.si > _MOST_SLACK * pin.si:
        form.strike("absurd", "hole", f"{hole} is no hole for a pin of {pin}", instead="measure both again")


def build_finish(values: Values, *, ledger: Ledger) -> Finish | None:
    """Build what is to be painted, None where nothing is."""
    form = Form(("finish",), values, ledger)
    if form.is_blank or not values:
        return None
    _check_figures(form)
    plain = _plain(form)
    plain["old_paint"] = plain.get("old_paint") == "yes"
    if "metal" not in plain and not form.is_refused("metal"):
        instead = f'write metal = "{_TAKEN_METAL}", or what it is'
        form.add("no-metal", "metal", f"it is not given: taken as {_TAKEN_METAL}", instead=instead, severity="warning")
    return Finish(**{"part": "the engine", "metal": _TAKEN_METAL, **plain})


def _plain(form: Form) -> dict[str, Any]:
    """The values as plain figures in SI, words, and names of threads."""
    return {key: _as_plain(value) for key, value in form.values.items()}


def _as_plain(value: Any) -> Any:
    if isinstance(value, Quantity):
        return value.si
    # A thread of the tables goes by its name.
    return value if isinstance(value, str | int | tuple) else value.name


def _check_figures(form: Form) -> None:
    for key, value in list(form.values.items()):
        if not isinstance(value, Quantity):
            continue
        if key in _MOST:
            least, most, span = _MOST[key]
            if not least <= value.si <= most:
                form.strike("absurd", key, f"{value} is not between {span}", instead="check the figure and its unit")
        elif isinstance(value, Length) and not _is_size(key, value):
            instead = "check the figure and its unit, or leave it out"
            form.strike("absurd", key, f"{value} is no size of such a part", instead=instead)


def _is_size(key: str, value: Length) -> bool:
    # A bolt may have no plain shank at all.
    return 0 < value.metres <= LONGEST or (key == "plain_length" and value.metres == 0)


def _check_owner(form: Form, names: list[str]) -> None:
    owner = form.values.get("cylinder")
    if owner is not None and owner not in names:
        message = f"the engine has no cylinder {owner}"
        form.strike("no-such-cylinder", "cylinder", message, instead=f"its cylinders: {', '.join(names)}")
